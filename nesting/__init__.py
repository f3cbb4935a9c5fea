"""Dams, casts and masking layouts for relief panels from one flexible liner.

Everything named in ``__all__`` can be used from here; nothing is loaded before it is used.
"""

TYPE_CHECKING = False  # type checkers take it for true; not imported, so that nothing is loaded
if TYPE_CHECKING:
    from nesting.api.answers import FitAnswer, fit
    from nesting.api.jobs import Job, read_job, write_job
    from nesting.api.plans import Plan, check, layout_svg, plan
    from nesting.api.values import Bed, BlankZone, KeepClear, Liner, Ornament, Panel, Rules
    from nesting.errors import (
        InputError,
        InputErrors,
        NestingError,
        NoScheduleError,
        RefusedError,
    )

_HOMES = {
    "nesting.api.values": ("Bed", "BlankZone", "KeepClear", "Liner", "Ornament", "Panel", "Rules"),
    "nesting.api.jobs": ("Job", "read_job", "write_job"),
    "nesting.api.plans": ("Plan", "check", "layout_svg", "plan"),
    "nesting.api.answers": ("FitAnswer", "fit"),
    "nesting.errors": (
        "InputError",
        "InputErrors",
        "NestingError",
        "NoScheduleError",
        "RefusedError",
    ),
}
"""Where each name lives."""

__all__ = [
    "Bed",
    "BlankZone",
    "FitAnswer",
    "InputError",
    "InputErrors",
    "Job",
    "KeepClear",
    "Liner",
    "NestingError",
    "NoScheduleError",
    "Ornament",
    "Panel",
    "Plan",
    "RefusedError",
    "Rules",
    "check",
    "fit",
    "layout_svg",
    "plan",
    "read_job",
    "write_job",
]


def __getattr__(name: str) -> object:
    """Load what is asked for, the first time it is."""
    for home, names in _HOMES.items():
        if name in names:
            from importlib import import_module

            found: object = getattr(import_module(home), name)
            globals()[name] = found
            return found
    raise AttributeError(f"module 'nesting' has no attribute {name!r}")


def __dir__() -> list[str]:
    """Return the names of the front door beside those every module has."""
    return sorted({*globals(), *__all__})
