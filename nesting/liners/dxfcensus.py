"""Counts what a DXF file holds against what the library kept, so that nothing is lost unseen."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from nesting.shapes.pieces import Stray

if TYPE_CHECKING:
    from ezdxf.document import Drawing

BINARY_MARK = b"AutoCAD Binary DXF"  # how a binary DXF file begins, by its format

_LAYER, _MARK = 8, 100  # group codes
_SECTIONS = ("BLOCKS", "ENTITIES")
_DROPPED = "lost in reading, since the file is broken"
_PASSED = frozenset(
    """SECTION ENDSEC EOF BLOCK ENDBLK VERTEX SEQEND ATTRIB ATTDEF VIEWPORT POINT DIMENSION
    ARC_DIMENSION LARGE_RADIAL_DIMENSION LEADER MULTILEADER TOLERANCE""".split()  # noqa: SIM905
)  # parts of others, and what bounds no ground
_TAGS = re.compile(
    rb"^[ \t]*(0|2|8|100)[ \t]*\r?\n[ \t]*([^\r\n]*[A-Za-z][^\r\n]*?)[ \t]*\r?$", re.MULTILINE
)
_CUT = "it breaks off among its entities, and what followed them is lost"
_MERGED = "it holds entities whose start is lost"


def list_lost(content: bytes, doc: Drawing) -> list[Stray]:
    """Return what the file holds and the document does not.

    The library drops entities it cannot mend, inserts of blocks that are missing among them, and
    of two blocks of one name the first. Any of that may have been an ornament.
    """
    names, faults = _count(_binary_tags(content) if _is_binary(content) else _text_tags(content))
    kept = Counter(entity.dxftype() for block in doc.blocks for entity in block)
    short = Counter({kind: names[kind] for kind in names.keys() - _PASSED}) - kept
    lost = [(f"{count} {kind}", _DROPPED) for kind, count in sorted(short.items())]
    told = [*(("the file", fault) for fault in faults), *lost]
    return [Stray(what, why, is_needed=True) for what, why in told]


def has_end(content: bytes) -> bool:
    """Whether a file bears the mark of its end."""
    return b"EOF" in content[-200:]


def end_properly(content: bytes) -> bytes:
    """Return a file that was cut short up to its last entity, which may not be whole, and ended.

    The library drops a section without an end. A binary file is returned as it is.
    """
    if has_end(content) or _is_binary(content):
        return content
    starts = [found.start() for found in _TAGS.finditer(content) if found[1] == b"0"]
    return content[: starts[-1]] + b"  0\nENDSEC\n  0\nEOF\n" if starts else content


def _count(tags: Iterable[tuple[int, str]]) -> tuple[Counter[str], list[str]]:
    """Return how many entities of each kind blocks and spaces hold, and what shows a loss.

    Every entity tells its layer once, and all but those of R12 bear the mark AcDbEntity once (DXF
    reference, group codes 8 and 100).
    """
    names: Counter[str] = Counter()
    section, starts_section = "", False
    seen: Counter[int] = Counter()  # marks and layers of the entity at hand
    most: Counter[int] = Counter()  # the most that any has
    for code, value in tags:
        if code == 0:
            section = "" if value == "ENDSEC" else section
            starts_section = value == "SECTION"
            names[value] += bool(section)
            seen.clear()
        elif code == 2:
            section = value if starts_section and value in _SECTIONS else section
            starts_section = False
        elif section and (code == _LAYER or value == "AcDbEntity"):
            seen[code] += 1
            most[code] = max(most[code], seen[code])
    is_short = section != "" or names["BLOCK"] > names["ENDBLK"]
    is_merged = most[_MARK] > 1 or (not most[_MARK] and most[_LAYER] > 1)
    return names, [_CUT] * is_short + [_MERGED] * is_merged


def _is_binary(content: bytes) -> bool:
    return content.startswith(BINARY_MARK)


def _text_tags(content: bytes) -> Iterator[tuple[int, str]]:
    """Yield the tags of interest wherever their two lines follow each other.

    A number is never taken for the second line, since it may be the code of the next tag.
    """
    for found in _TAGS.finditer(content):
        yield int(found[1]), found[2].decode("latin-1")


def _binary_tags(content: bytes) -> Iterator[tuple[int, str]]:
    from ezdxf.lldxf.const import DXFError
    from ezdxf.lldxf.tagger import binary_tags_loader

    try:
        for tag in binary_tags_loader(content):
            if tag.code in (0, 2, _LAYER, _MARK):
                yield tag.code, str(tag.value)
    except (DXFError, ValueError, IndexError, UnicodeError):
        return  # what the file holds beyond its fault is not known
