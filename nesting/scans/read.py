"""Opens a scan, whichever of its forms it has, and finds the liner on it."""

from pathlib import Path

from nesting.errors import InputError
from nesting.files.kinds import SCANS
from nesting.files.text import path_label, read_bytes
from nesting.scans.build import ScanFound, ScanRules, UnevenError, find_liner
from nesting.scans.heightmap import HeightMap
from nesting.scans.image import read_array, read_image
from nesting.scans.mesh import look_from_above, read_mesh
from nesting.scans.ornaments import NoisyError
from nesting.scans.scale import ScanScale, scale_heights

MAX_SCAN_BYTES = 500_000_000
"""Largest scan that is read."""


def read_scan(path: Path, scale: ScanScale) -> HeightMap:
    """Return the heights of a scan.

    Raises
    ------
    InputError
        With the path as ``where``: what is wrong with the file, or with what was said of it.
    """
    where, ending = path_label(path), path.suffix.lower()
    if ending not in SCANS:
        raise InputError(where, f"a scan ends in {', '.join(SCANS)}", ending or "no ending")
    content = read_bytes(path, MAX_SCAN_BYTES)
    if ending == ".stl":
        return look_from_above(where, read_mesh(where, content), scale)
    if ending == ".npy":
        return scale_heights(where, read_array(where, content), scale)
    values, hidden = read_image(where, content)
    return scale_heights(where, values, scale, hidden)


def read_scanned_liner(
    path: Path, scale: ScanScale, rules: ScanRules, name: str, thickness: int
) -> ScanFound:
    """Return the liner a scan shows; ``thickness`` is in steps.

    Raises
    ------
    InputError
        As `read_scan`, where the threshold leaves more than any liner carries, and where the ground
        is so uneven that none can be worked out.
    """
    scan, where = read_scan(path, scale), path_label(path)
    try:
        return find_liner(scan, rules, name, thickness)
    except NoisyError as error:
        rule = "what rises or sinks must be few ornaments"
        remedy = "raise --threshold or --join, or smooth the scan"
        raise InputError(where, rule, str(error), remedy) from error
    except UnevenError as error:
        rule = "the ground must be a plane or bow gently, unless a threshold is given"
        remedy = "scan the liner lying flat, or give --threshold and look at the picture"
        raise InputError(where, rule, str(error), remedy) from error
    except ValueError as error:
        raise InputError(where, str(error)) from error
