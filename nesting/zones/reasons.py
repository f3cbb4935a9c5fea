"""Why no strips give every size: what stands against one, or which sizes exclude each other."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from nesting.schedules.setout import order_words
from nesting.search.solver import Deadline
from nesting.values.motif import Motif
from nesting.values.panels import Panel
from nesting.zones.field import survey_motif
from nesting.zones.model import Program
from nesting.zones.needs import Need, find_need


def explain_zones(motif: Motif, needs: Sequence[Need], deadline: Deadline) -> list[str]:
    """Return one sentence per size without any place, else one for the sizes that clash.

    Raises TimeUpError where the deadline comes before.
    """
    can = partial(_can, motif, deadline=deadline)
    panels = motif.job.panels
    alone = [
        _explain_size(motif, panel, need)
        for panel, need in zip(panels, needs, strict=True)
        if not can([need])
    ]
    if alone:
        return alone
    clash = list(needs)
    for need in needs:
        rest = [each for each in clash if each is not need]
        if rest and not can(rest):
            clash = rest
    names = ", ".join(repr(need.marks[0]) for need in clash)
    return [
        f"Panels {names} exclude each other: each has a place with some widths of the strips, "
        "but no widths within their limits give one to all. Widen the limits of a strip, give "
        "another strip, or order one of these sizes from another liner."
    ]


def _can(motif: Motif, needs: Sequence[Need], deadline: Deadline | None = None) -> bool:
    """Whether any widths, on the set-out division or exact steps, meet the needs."""
    division = motif.job.rules.set_out
    for each in (division, max(1, -(-max(motif.greatest) // 1_000_000))):
        program = Program(motif, needs, each, deadline)
        if program.has_answer:
            return True
    return False


def _explain_size(motif: Motif, panel: Panel, need: Need) -> str:
    text, ordered = motif.job.tape.stated_words, order_words(motif.job, panel)
    lead = f"Panel {panel.mark!r} ({ordered}, bed {panel.bed!r}) gets a place from no strips"
    for extent, most, word in zip(need.sizes[0], motif.greatest, ("width", "height"), strict=True):
        if extent > most:
            return (
                f"{lead}: its flat {word} of {text(extent)} is more than the greatest liner's "
                f"{text(most)}. Order it smaller, or allow a larger liner."
            )
    return f"{lead}: {_reason(motif, panel)}."


def _reason(motif: Motif, panel: Panel) -> str:
    """Return what must be given up for the size to have a place, the mildest first."""
    bare = replace(motif, centrings=())
    if motif.centrings and _gets(bare, panel):
        return "with its ornament in the middle there is none; elsewhere there is"
    tight = replace(motif, lay_tolerance=0)
    if motif.lay_tolerance and _gets(tight, panel):
        return "with the lay tolerance there is none; with dams laid exactly there is"
    any_face = replace(panel, must_show=(), must_hide=())
    if panel != any_face and _gets(bare, any_face):
        return f"places exist, but none that {_wishes(panel)}"
    strips = tuple(replace(s, least=0, greatest=max(motif.greatest)) for s in motif.strips)
    free = replace(motif, strips=tuple(replace(s, as_wide_as="") for s in strips))
    if _gets(free, panel):
        return "with other limits of the strips' widths there is one; mend the limits of a strip"
    huge = replace(free, greatest=(2 * motif.greatest[0], 2 * motif.greatest[1]))
    if _gets(huge, panel):
        return "only a liner larger than the greatest one gives it; allow a larger liner"
    return "its dams would cross an ornament or detail whatever the widths; give another strip"


def _wishes(panel: Panel) -> str:
    show = " and ".join(map(repr, panel.must_show))
    hide = " and ".join(map(repr, panel.must_hide))
    parts = [f"shows {show}"] * bool(show) + [f"leaves out {hide}"] * bool(hide)
    return " and ".join(parts)


def _gets(motif: Motif, panel: Panel) -> bool:
    return _can(motif, [find_need(motif, survey_motif(motif), panel)])
