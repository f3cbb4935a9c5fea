"""Opens a DXF file: what is broken is recovered where that can be done, and told."""

from __future__ import annotations

import io
import logging
from collections import Counter
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from nesting.errors import InputError, install_words
from nesting.liners.dxfcensus import BINARY_MARK, end_properly, has_end, list_lost
from nesting.liners.options import DRAWING_UNITS, DrawingOptions
from nesting.shapes.curves import Matrix
from nesting.shapes.pieces import Stray, Units
from nesting.units import MM_PER_INCH

if TYPE_CHECKING:
    from ezdxf.audit import Auditor
    from ezdxf.document import Drawing

_GUESSED = "some of its numbers are none in DXF, and what was meant is not known"
_NO_PACKAGE = install_words("cad")

_HEADER_UNITS: dict[int, tuple[str, Fraction]] = {
    1: ("in", MM_PER_INCH),
    2: ("ft", 12 * MM_PER_INCH),
    4: ("mm", Fraction(1)),
    5: ("cm", Fraction(10)),
    6: ("m", Fraction(1000)),
    8: ("microinch", MM_PER_INCH / 1_000_000),
    9: ("mil", MM_PER_INCH / 1000),
    10: ("yd", 36 * MM_PER_INCH),
    13: ("micrometre", Fraction(1, 1000)),
    14: ("dm", Fraction(100)),
}  # DXF reference, header variable INSUNITS


def need_dxf(where: str) -> None:
    """Raise InputError where the package that reads and writes DXF is missing."""
    try:
        import ezdxf  # noqa: F401
    except ImportError as error:
        raise InputError(where, "DXF needs the package ezdxf", "none", _NO_PACKAGE) from error


class Opened(NamedTuple):
    """A document, what is to be told of it, and what the file held and the document does not."""

    doc: Drawing
    notes: list[str]
    lost: list[Stray]


def open_dxf(where: str, content: bytes) -> Opened:
    """Return the document of a file, with what was lost in reading it."""
    need_dxf(where)
    from ezdxf import recover

    logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    try:
        doc = _load(content)
        auditor, notes = doc.audit(), []
    except Exception:  # whatever a broken file brings about, the library may still recover it
        try:
            doc, auditor = recover.read(io.BytesIO(end_properly(content)))
        except Exception as error:
            rule = "the file is not DXF, or is past recovery"
            remedy = "save it anew as DXF, ASCII or binary, R12 to R2018"
            raise InputError(where, rule, type(error).__name__, remedy) from error
        notes = ["Warning: the file is broken and was recovered; look for what is missing"]
    notes += _audit_notes(auditor)
    if not len(doc.modelspace()):
        rule = "the drawing holds nothing in model space"
        raise InputError(where, rule, "; ".join(notes), "save it anew as DXF, with its lines")
    if not has_end(content):
        notes.append("Warning: the file has no end mark, so it may have been cut short")
    lost = [*list_lost(content, doc), *_list_guessed(auditor)]
    return Opened(doc, list(dict.fromkeys(notes)), lost)


def _list_guessed(auditor: Auditor) -> list[Stray]:
    """Return the numbers the library could not read: it takes 50,5 for 50."""
    from ezdxf.audit import AuditError

    codes = (AuditError.INVALID_FLOATING_POINT_VALUE, AuditError.INVALID_INTEGER_VALUE)
    is_any = any(entry.code in codes for entry in (*auditor.errors, *auditor.fixes))
    return [Stray("the file", _GUESSED, is_needed=True)] if is_any else []


def _load(content: bytes) -> Drawing:
    """Return the document of an unbroken file."""
    from ezdxf.filemanagement import dxf_stream_info, read

    if content.startswith(BINARY_MARK):
        from ezdxf.document import Drawing
        from ezdxf.lldxf.tagger import binary_tags_loader

        return Drawing.load(binary_tags_loader(content))
    head = io.StringIO(content.decode("latin-1", "replace"))
    info = dxf_stream_info(head)
    text = content.decode(info.encoding, "surrogateescape")
    return read(io.StringIO(text, newline=None))


def _audit_notes(auditor: Auditor) -> list[str]:
    """Return what the audit found, each kind once with a count."""
    told = [
        "".join(each for each in str(entry.message) if each.isprintable())[:200].rstrip(".")
        for entry in (*auditor.errors, *auditor.fixes)
    ]
    return [
        f"Warning: the file has a fault: {text}" + (f" ({count} times)" if count > 1 else "")
        for text, count in Counter(told).most_common(20)
    ]


def find_unit(where: str, doc: Drawing, options: DrawingOptions) -> tuple[Matrix, Units, str]:
    """Return the map to mm, the units of what is written, and a note of both."""
    code = doc.header.get("$INSUNITS", 0)
    if options.units:
        name, scale = options.units, DRAWING_UNITS[options.units]
        note = f"One unit of the drawing is 1 {name}, as --units says"
    elif code in _HEADER_UNITS:
        name, scale = _HEADER_UNITS[code]
        note = f"One unit of the drawing is 1 {name}, as its header says"
    else:
        rule = "the drawing does not tell its unit"
        got = f"unit code {code} in its header" if code else "none in its header"
        remedy = "give the unit of its numbers, for example --units mm"
        raise InputError(where, rule, got, remedy)
    factor = float(scale)
    units: Units = "in" if name in ("in", "ft", "yd", "mil", "microinch") else "mm"
    return (factor, 0.0, 0.0, factor, 0.0, 0.0), units, note
