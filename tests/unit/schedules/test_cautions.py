"""The cautions: one text for the page, for print and for what commands print."""

from pathlib import Path

import pytest

from nesting.schedules.cautions import CAUTIONS, RULE, cautions_page, short_cautions

PAGE = Path(__file__).parents[3] / "docs" / "cautions.md"


def test_the_page_is_the_text_in_the_code():
    """docs/cautions.md is word for word what a packet can include."""
    assert PAGE.read_text(encoding="utf-8") == cautions_page()


@pytest.mark.parametrize(
    "words",
    [
        "50 micrograms per cubic metre",
        "action from 25",
        "29 CFR 1926.1153 and 1910.1053",
        "0.1 mg per cubic metre (HSE EH40)",
        "without pain at first",
        "2 ppm of chromium VI",
        "23 kg (51 lb)",
        "NIOSH 94-110",
        "29 CFR 1926.704",
        "twice (tilt-up) or four times (other precast)",
        "five times the greatest load",
        "A competent person designs every lift.",
        "makers' data sheets",
        "Local codes and licensed practice rule",
    ],
)
def test_published_limits_and_what_rules_are_told(words):
    """Each limit stands with its source."""
    assert words in " ".join(cautions_page().split())


def test_the_short_form_names_every_danger_and_what_rules():
    """Every caution has its sentence, and no line is too long to print."""
    lines = short_cautions()
    text = " ".join(" ".join(lines).split())
    assert all(caution.short in text for caution in CAUTIONS)
    assert RULE in text
    assert max(map(len, lines)) <= 100
    assert [caution.name for caution in CAUTIONS] == [
        "Silica dust",
        "Wet cement",
        "Glass fibre",
        "Release agents, rubber and other liquids",
        "Lifting",
        "Structure",
    ]
