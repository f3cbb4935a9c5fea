"""What can hurt the people who make and lift panels: the one text of the cautions, long and short.

docs/cautions.md is `cautions_page`, word for word; a test keeps them the same.
"""

from dataclasses import dataclass

from nesting.files.columns import INDENT, wrap_text


@dataclass(frozen=True, slots=True)
class Caution:
    """One danger: its name, the whole text in paragraphs, and the short form in one sentence."""

    name: str
    paragraphs: tuple[str, ...]
    short: str


RULE = (
    "Local codes and licensed practice rule, and the makers' data sheets come before any figure "
    "here."
)
"""What stands above all the others."""

NOT_CERTIFIED = (
    "These are masses and amounts, and nothing more: no insert, lift, panel or structure is "
    "certified."
)
"""What no figure of ours is."""

COMPETENT = "A competent person designs every lift."

LIFTING_FACTORS = (
    "Lifting inserts carry at least twice (tilt-up) or four times (other precast) and lifting "
    "hardware five times the greatest load (29 CFR 1926.704)."
)

CAUTIONS = (
    Caution(
        "Silica dust",
        (
            "Sand and cement, and cutting, grinding or drilling cured panels, set free respirable "
            "crystalline silica. It scars the lungs for good and can cause cancer.",
            "In the United States the limit is 50 micrograms per cubic metre over 8 hours, with "
            "action from 25 (29 CFR 1926.1153 and 1910.1053). In the United Kingdom it is 0.1 mg "
            "per cubic metre (HSE EH40).",
            "Keep dust down with water or extraction, wear the breathing protection your "
            "assessment asks for, and do not sweep dry.",
        ),
        "Silica dust harms the lungs: keep it down with water or extraction.",
    ),
    Caution(
        "Wet cement",
        (
            "Wet mix is strongly alkaline. It burns skin and eyes, without pain at first, so that "
            "the burn is deep before it is felt (OSHA guidance on portland cement, 2008).",
            "In the European Union cement may hold at most 2 ppm of chromium VI, which causes "
            "allergies (REACH Annex XVII, entry 47).",
            "Wear gloves, boots, sleeves and eye protection that keep wet mix out. Wash it off at "
            "once, and take off what it has soaked.",
        ),
        "Wet cement burns the skin, without pain at first: cover up and wash it off at once.",
    ),
    Caution(
        "Glass fibre",
        (
            "Chopped and sprayed fibre gets into skin, eyes and airways and irritates them. Cut "
            "ends at a panel's edge are sharp.",
            "Cover skin and eyes, keep others away from the spray, and follow the maker's data "
            "sheet.",
        ),
        "Glass fibre irritates skin, eyes and airways: cover them.",
    ),
    Caution(
        "Release agents, rubber and other liquids",
        (
            "Release agents, liquid rubber, dispersions and plasticisers may give off vapour, "
            "harm skin and eyes, or burn. Some parts of liquid rubber can cause asthma.",
            "Their makers' data sheets say what to wear, how to air the room and what to do with "
            "spills. Follow them.",
        ),
        "Release agents and liquid rubber: follow the makers' data sheets, and air the room.",
    ),
    Caution(
        "Lifting",
        (
            "By hand, 23 kg (51 lb) is the load constant of the revised NIOSH lifting equation "
            "(NIOSH 94-110). It holds in ideal conditions only: close to the body, at a good "
            "height, without twisting, now and then. Real lifts allow less.",
            LIFTING_FACTORS + " Keep people from under a lifted piece.",
            "A panel is weakest when it is young. Loads on lifting points are seldom equal; the "
            "shares given here are plain shares of the mass. " + COMPETENT,
        ),
        f"Lifting: keep people from under a lifted piece. {COMPETENT}",
    ),
    Caution(
        "Structure",
        (
            "No strength, reinforcement, anchor, fixing, wind, ice or fire is reckoned here. "
            "Whether a panel may be made, hung or stood, and on what, is for a licensed engineer "
            "to say.",
        ),
        "Structure: strength and fixing are for a licensed engineer.",
    ),
)
"""All cautions, in the order they are printed."""


def cautions_page() -> str:
    """Return the whole page as Markdown, with a final newline: the text of docs/cautions.md."""
    lines = ["# Cautions", "", *_wrap(f"**{RULE}** {NOT_CERTIFIED}")]
    for caution in CAUTIONS:
        lines += ["", f"## {caution.name}"]
        for paragraph in caution.paragraphs:
            lines += ["", *_wrap(paragraph)]
    return "\n".join(lines) + "\n"


def short_cautions(not_certified: str = NOT_CERTIFIED) -> list[str]:
    """Return the short form as lines of plain text: it ends whatever a command prints."""
    lines = ["Cautions (the whole text is in docs/cautions.md):"]
    for caution in CAUTIONS:
        lines += wrap_text(caution.short, INDENT)
    return [*lines, *_wrap(RULE), *_wrap(not_certified)]


def _wrap(text: str) -> list[str]:
    return wrap_text(text, hang="")


CARVING_CAUTION = (
    "Carving and grinding rubber and concrete make dust: see the README's cautions. Local codes "
    "and licensed practice rule: this answer certifies no panel, lift or structure."
)
"""For those who carve or mend a liner."""
