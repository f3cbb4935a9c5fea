"""From a packet to one HTML page that stands alone: no other file, no network, all text escaped.

Its style is packet.css and its script packet.js, both put inline; everything can be read without
the script, which only lights what belongs together. The page is also well-formed XML.
"""

import re
from collections.abc import Iterable, Sequence
from html import escape
from importlib.resources import files

from nesting.drawings.lettering import clean
from nesting.drawings.record import Drawing
from nesting.drawings.svg import to_svg
from nesting.files.marks import MARK
from nesting.packets.parts import (
    Block,
    Figure,
    Lines,
    LitSpot,
    Packet,
    PacketTable,
    Section,
    SideBySide,
    TableRow,
    Ticks,
    TitledPart,
    Words,
)

_PAPERS = {"mm": "A4", "in": "letter"}
_HIGHEST = {"mm": 86, "in": 74}
"""How high a drawing is printed at most [mm], so that its page has room for its tables."""
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'"
_FOOT = (
    '@bottom-left {{ content: "{title}"; font: 8pt sans-serif; }} '
    '@bottom-center {{ content: "{stamp}"; font: 8pt sans-serif; }} '
    '@top-right {{ content: "{told}"; font: 8pt sans-serif; }} '
    '@bottom-right {{ content: counter(page) " of " counter(pages); font: 8pt sans-serif; }}'
)


def to_html(packet: Packet) -> str:
    """Return the page; the same packet gives the same text."""
    body = [
        _tag("h1", _text(packet.title)),
        *([_tag("p", _text(packet.stamp), **_class(["stamp"]))] if packet.stamp else []),
        _tag("nav", *(_link(each) for each in packet.sections), aria_label="Pages"),
        *(_section(each, is_first=not count) for count, each in enumerate(packet.sections)),
        _tag("script", "\n", _read("packet.js")),
    ]
    head = [
        '<meta charset="utf-8" />',
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}" />',
        '<meta name="viewport" content="width=device-width, initial-scale=1" />',
        _tag("title", _text(packet.title)),
        _tag("style", "\n", _read("packet.css"), _page_rules(packet)),
    ]
    page = _tag("html", "\n", _lines("head", head), _lines("body", body), lang="en")
    return f"<!DOCTYPE html><!-- Packet written {MARK}. -->\n{page}\n"


def _page_rules(packet: Packet) -> str:
    """Return the rules of the printed page: paper, which way it lies, what its foot says.

    Pages of a section that is alone on them have a name, so that each can tell whose it is.
    """
    plain = _page_rule("", packet, "", wide=False)
    rules = [f"@media print {{ figure svg {{ max-height: {_HIGHEST[packet.units]}mm; }} }}", plain]
    for section in packet.sections:
        if section.wide or packet.is_alone(section):
            rules.append(f"#{section.ref} {{ page: {section.ref}; }}")
            rules.append(_page_rule(section.ref, packet, section.title, wide=section.wide))
    return "".join(f"{rule}\n" for rule in rules)


def _page_rule(name: str, packet: Packet, told: str, *, wide: bool) -> str:
    size = f"{_PAPERS[packet.units]} {'landscape' if wide else 'portrait'}"
    foot = _FOOT.format(title=_quote(packet.title), told=_quote(told), stamp=_quote(packet.stamp))
    return f"@page {name} {{ size: {size}; margin: 10mm 12mm 14mm; {foot} }}".replace("  ", " ")


def _quote(words: str) -> str:
    """Return words as a string of CSS: whatever is no letter is written by its number."""
    return "".join(
        letter if letter.isalnum() or letter in " ,.-" else f"\\{ord(letter):x} "
        for letter in clean(words)
    )


def _link(section: Section) -> str:
    return _tag("a", _text(section.title), href=f"#{section.ref}")


def _section(section: Section, *, is_first: bool) -> str:
    told = {"first": is_first, "wide": section.wide, "short": section.short}
    kinds = [kind for kind, holds in told.items() if holds]
    return _lines(
        "section",
        [_tag("h2", _text(section.title)), *map(_block, section.blocks)],
        id=section.ref,
        data_ref=section.ref,
        **_class(kinds),
    )


def _block(block: Block) -> str:
    if isinstance(block, Words):
        return _tag("p", _text(block.text), **_class([block.tone] * (block.tone != "plain")))
    if isinstance(block, Lines):
        rows = "\n".join(escape(line) for line in block.lines)
        return _tag("h3", _text(block.title)) + _tag("pre", rows)
    if isinstance(block, SideBySide):
        return _lines("div", map(_block, block.blocks), **_class(["group"]))
    if isinstance(block, TitledPart):
        return _lines(
            "div", [_tag("h3", _text(block.title)), *map(_block, block.blocks)], **_class(["part"])
        )
    if isinstance(block, Figure):
        return _tag("figure", _draw(block))
    kinds = ["grid", "ticks"] if isinstance(block, Ticks) else ["grid"]
    return _tag("div", _table(block), **_class(kinds))


def _table(block: PacketTable | Ticks) -> str:
    if isinstance(block, Ticks):
        head = _tag("th", "task", **_class(["left"]))
        head += "".join(_tag("th", _text(each), **_class(["tick"])) for each in block.columns)
        rows = [_tick_row(task, block.columns) for task in block.tasks]
    else:
        flush = ["left" if title in block.left else "" for title in block.head]
        head = "".join(_cell("th", *pair) for pair in zip(block.head, flush, strict=True))
        pairs = zip(block.rows, block.depths, strict=True)
        rows = [_row(row, flush, depths) for row, depths in pairs]
    return _lines(
        "table",
        [
            _tag("caption", _text(block.title)),
            _tag("thead", _tag("tr", head)),
            _lines("tbody", rows),
        ],
    )


def _row(row: TableRow, flush: list[str], depths: Sequence[int]) -> str:
    cells = (
        _cell("td", words, side, depth)
        for words, side, depth in zip(row.cells, flush, depths, strict=True)
        if depth
    )
    return _tag("tr", *cells, **({"data_ref": row.ref} if row.ref else {}))


def _tick_row(task: str, columns: tuple[str, ...]) -> str:
    cells = (
        _tag("td", f'<input type="checkbox" aria-label="cast {_text(each)}" />', **_class(["tick"]))
        for each in columns
    )
    return _tag("tr", _cell("td", task, "left"), *cells)


def _cell(name: str, words: str, flush: str, depth: int = 1) -> str:
    """Return a cell; a figure may break before what stands in brackets, and nowhere else."""
    inner = _text(words) if flush else _text(words).replace(" (", " <wbr />(")
    tall = {"rowspan": str(depth)} if depth > 1 else {}
    return _tag(name, inner, **tall, **_class([flush] if flush else []))


def _draw(figure: Figure) -> str:
    """Return the drawing inline, without what only a file of its own needs, its spots on top."""
    svg = to_svg(figure.drawing).split("\n", 1)[1].rstrip()
    opening, rest = svg.split(">", 1)
    opening = re.sub(r' (?:xmlns(?::\w+)?|baseProfile|version|width|height)="[^"]*"', "", opening)
    spots = "\n".join(_spot(spot, figure.drawing) for spot in figure.spots)
    return f"{opening}>{rest.removesuffix('</svg>')}{spots}\n</svg>"


def _spot(spot: LitSpot, drawing: Drawing) -> str:
    rect = spot.rect
    return _tag(
        "rect",
        _tag("title", _text(spot.words)),
        x=f"{rect.x0:.3f}",
        y=f"{drawing.height - rect.y1:.3f}",
        width=f"{rect.width:.3f}",
        height=f"{rect.height:.3f}",
        data_ref=spot.ref,
        tabindex="0",
        role="button",
        **_class(["spot"]),
    )


def _read(name: str) -> str:
    return (files("nesting.packets") / name).read_text(encoding="utf-8")


def _text(words: str) -> str:
    """Return words as text or as the value of an attribute, with nothing left that is markup."""
    return escape(clean(words))


def _class(kinds: list[str]) -> dict[str, str]:
    return {"class": " ".join(kinds)} if kinds else {}


def _lines(name: str, inner: Iterable[str], **attributes: str) -> str:
    return _tag(name, "\n", "\n".join(inner), "\n", **attributes)


def _tag(name: str, *inner: str, **attributes: str) -> str:
    """Return an element; the inner parts are markup, the attributes' values plain text."""
    written = "".join(
        f' {key.replace("_", "-")}="{_text(value)}"' for key, value in attributes.items()
    )
    return f"<{name}{written}>{''.join(inner)}</{name}>"
