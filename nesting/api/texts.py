"""Tables as TOML text, and the picture of a liner."""

from collections.abc import Mapping
from datetime import date, datetime, time
from fractions import Fraction
from typing import Any

from nesting.drawings.record import Drawing
from nesting.errors import InputError, shown
from nesting.files.tomltext import quoted
from nesting.jobs.read import read_job_text
from nesting.values.job import Job as ExactJob


def picture_of(name: str, liner: Mapping[str, Any]) -> str:
    """Return the picture of a liner, given by its table, as SVG text."""
    rules = {"dam_width": 1, "dam_clearance": 0, "edge_margin": 0}
    text = to_toml({"title": name, "units": "mm", "liner": liner, "rules": rules})
    return draw(read_job_text(text, "liner", order_needed=False))


def draw(job: ExactJob) -> str:
    """Return the picture of a job's liner as SVG text."""
    from nesting.jobs.found import LinerFound
    from nesting.jobs.write import write_liner
    from nesting.liners.picture import draw_liner

    found = LinerFound(job.liner, job.units, source=job.liner.name)
    return sheet_of(draw_liner(found), write_liner(found))


def sheet_of(drawing: Drawing, shown: str) -> str:
    """Return a drawing as SVG text, with the time and the sheet code of what it shows."""
    from nesting.drawings.stamps import stamped
    from nesting.drawings.svg import to_svg
    from nesting.files.clock import read_clock
    from nesting.files.code import code_of
    from nesting.values.stamp import Stamp

    return to_svg(stamped(drawing, Stamp(read_clock(), code_of(shown))))


def to_toml(top: Mapping[str, Any]) -> str:
    """Return the TOML text of a table; InputError where a value has no place in one."""
    return "\n".join(_lines(top, "")) + "\n"


def _lines(table: Mapping[str, Any], path: str) -> list[str]:
    """Return the lines of a table: its values first, then the tables in it."""
    inner = {key: value for key, value in table.items() if _is_table(value)}
    lines = [
        f"{key} = {_value(f'{path}{key}', value)}"
        for key, value in table.items()
        if key not in inner
    ]
    for key, value in inner.items():
        name = f"{path}{key}"
        if isinstance(value, Mapping):
            lines += ["", f"[{name}]", *_lines(value, f"{name}.")]
        for each in value if isinstance(value, list) else ():
            lines += ["", f"[[{name}]]", *_lines(each, f"{name}.")]
    return lines


def _is_table(value: object) -> bool:
    is_list = isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)
    return isinstance(value, Mapping) or is_list


def _value(where: str, value: object) -> str:
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float | Fraction):
        return repr(float(value)) if isinstance(value, Fraction) else repr(value)
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, list | tuple):
        return f"[{', '.join(_value(where, each) for each in value)}]"
    raise InputError(where, "must be a number, a text, a date or a list of them", shown(value))
