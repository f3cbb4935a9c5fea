"""Counts what a DXF file holds against what the library kept, so that nothing is lost unseen."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from nesting.pieces import Stray

if TYPE_CHECKING:
    from ezdxf.document import Drawing

BINARY_MARK = b"AutoCAD Binary DXF"

_KINDS = frozenset(
    """LINE LWPOLYLINE POLYLINE ARC CIRCLE ELLIPSE SPLINE HELIX HATCH MPOLYGON SOLID TRACE INSERT
    TEXT MTEXT 3DFACE MLINE MESH REGION 3DSOLID BODY SURFACE""".split()  # noqa: SIM905
)  # kinds found in blocks and in model or paper space only
_STARTS = re.compile(rb"^[ \t]*0[ \t]*\r?\n[ \t]*([A-Z0-9]+)[ \t]*\r?$", re.MULTILINE)
_SECTION = re.compile(rb"^[ \t]*2[ \t]*\r?\n[ \t]*ENTITIES[ \t]*\r?$", re.MULTILINE)
_CUT = "it breaks off among its entities, and what followed them is lost"


def list_lost(content: bytes, doc: Drawing) -> list[Stray]:
    """Return what the file holds and the document does not.

    The library drops entities it cannot mend, inserts of blocks that are missing among them, and
    of two blocks of one name the first. Any of that may have been an ornament.
    """
    names, is_whole = _read_starts(content)
    kept = Counter(entity.dxftype() for block in doc.blocks for entity in block)
    short = Counter(name for name in names if name in _KINDS) - kept
    lost = [
        Stray(f"{count} {kind}", "lost in reading, since the file is broken", is_needed=True)
        for kind, count in sorted(short.items())
    ]
    return lost if is_whole else [Stray("the file", _CUT, is_needed=True), *lost]


def _read_starts(content: bytes) -> tuple[list[str], bool]:
    """Return the kind of each entity in the file, and whether its entities come to an end."""
    if content.startswith(BINARY_MARK):
        names = list(_binary_starts(content))
        return names, names[-1:] == ["EOF"]
    section = next(_SECTION.finditer(content), None)
    ends = (found[1] for found in _STARTS.finditer(content, section.end() if section else 0))
    names = [found[1].decode() for found in _STARTS.finditer(content)]
    return names, section is None or b"ENDSEC" in ends


def _binary_starts(content: bytes) -> Iterator[str]:
    from ezdxf.lldxf.const import DXFError
    from ezdxf.lldxf.tagger import binary_tags_loader

    try:
        for tag in binary_tags_loader(content):
            if tag.code == 0:
                yield str(tag.value)
    except (DXFError, ValueError, IndexError, UnicodeError):
        return  # what the file holds beyond its fault is not known
