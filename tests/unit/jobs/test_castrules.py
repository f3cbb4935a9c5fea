"""Rules on shrinkage and warmth, as a job file gives them."""

from fractions import Fraction

import pytest
from handjob import MM, hand_job, hand_liner, rect
from jobtext import JOB, change, list_mistakes, write_job

from nesting.jobs.read import list_missing, read_job
from nesting.planning.schedule import schedule_casts
from nesting.schedules.write import schedule_to_json
from nesting.values.castsizes import AsCast, lay_liner

WARM = "liner_temperature = 30\nmeasured_temperature = 20\nexpansion = 0.0001\n"
LINER_FILE = JOB[: JOB.index("[[bed]]")]
ORDER = f'{JOB[: JOB.index("[liner]")]}[liner]\nfile = "reeds.toml"\n{JOB[JOB.index("[[bed]]") :]}'


def with_rules(rules, text=JOB):
    """Return the job text with more rules, one to a line."""
    return change(("set_out = 1\n", f"set_out = 1\n{rules}"), text=text)


@pytest.mark.parametrize(
    ("given", "missing"),
    [
        ((), []),
        (("liner_temperature",), ["measured_temperature", "expansion"]),
        (("expansion",), ["liner_temperature", "measured_temperature"]),
        (("measured_temperature", "expansion"), ["liner_temperature"]),
        (("liner_temperature", "measured_temperature", "expansion"), []),
        (("liner_shrink", "panel_shrink"), []),
    ],
)
def test_the_three_rules_on_temperature_call_for_each_other(given, missing):
    """Each one that lacks is told apart; shrinkage stands alone."""
    assert [key for key, _ in list_missing(dict.fromkeys(given, Fraction(0)))] == missing


def test_the_liner_is_read_as_it_lies_now(tmp_path):
    """Scaled when the job is read, and the drawn size kept beside; rules are not scaled."""
    rules = f'liner_shrink = "1 %"\n{WARM}panel_shrink = 0.0005\n'
    job = read_job(write_job(tmp_path, with_rules(rules)))
    as_cast = AsCast(
        Fraction(1, 100),
        Fraction(30),
        Fraction(20),
        Fraction(1, 10_000),
        Fraction(1, 2000),
        hand_liner(),
    )
    assert job.as_cast == as_cast
    assert job.liner == lay_liner(hand_liner(), as_cast)
    assert job.liner.outline == rect(0, 0, 1200 * 0.99099, 800 * 0.99099)
    assert job.rules == hand_job().rules


@pytest.mark.parametrize(
    "rules",
    [
        "liner_shrink = 0\n",
        "panel_shrink = 0\n",
        'liner_temperature = 20\nmeasured_temperature = "68 F"\nexpansion = 0.0002\n',
        WARM.replace("0.0001", "0"),
    ],
)
def test_rules_that_correct_nothing_change_nothing(tmp_path, rules):
    """The same liner, and the same schedule byte for byte."""
    job = read_job(write_job(tmp_path, with_rules(rules)))
    assert (job.liner, job.panels, job.rules) == (
        hand_job().liner,
        hand_job().panels,
        hand_job().rules,
    )
    ours, plain = (schedule_to_json(schedule_casts(each), each) for each in (job, hand_job()))
    assert ours == plain


def test_rules_of_a_liner_file_are_taken_key_by_key(tmp_path):
    """The file says how the rubber grows and when it was measured, the job what the day is like."""
    lasting = "liner_shrink = 0.002\nmeasured_temperature = 20\nexpansion = 0.0001\n"
    write_job(tmp_path, with_rules(lasting, LINER_FILE), "reeds.toml")
    own = '[rules]\nliner_temperature = "86 F"\nliner_shrink = "0.1 %"\n'
    job = read_job(write_job(tmp_path, change(("[[bed]]", f"{own}[[bed]]"), text=ORDER)))
    assert job.as_cast.factor == Fraction(999, 1000) * Fraction(1001, 1000)
    assert job.liner.outline.bounds.x1 == round(1200 * MM * 0.999999)


def test_a_liner_file_is_scaled_once(tmp_path):
    """By the job that is planned, however many files lead to it."""
    write_job(tmp_path, with_rules("liner_shrink = 0.05\n", LINER_FILE), "reeds.toml")
    job = read_job(write_job(tmp_path, ORDER))
    assert job.liner.outline == rect(0, 0, 1140, 760)
    assert job.as_cast.drawn == hand_liner()


LAID = "the liner must keep its shape as it lies now"
MISTAKES = {
    "each in its line": (
        'liner_shrink = 0.1\nliner_temperature = "20"\nmeasured_temperature = 101\n'
        'expansion = 0.01\npanel_shrink = "1"\n',
        [
            "23: rules.liner_shrink: must be from 0 to below 0.1, which is 10 %, got 0.1",
            "24: rules.liner_temperature: must be a temperature: a number of degrees C, or text "
            "such as '20 C' or '68 F', got '20'",
            "25: rules.measured_temperature: must be from -50 to 100 C, got 101",
            "26: rules.expansion: must be a number from 0 to 0.001, the growth of each unit of "
            "length per degree C, got 0.01",
            "27: rules.panel_shrink: must be a fraction, as 0.001, or text in per cent, as "
            "'0.1 %', got '1'",
        ],
    ),
    "one of three": (
        "expansion = 0.0001\n",
        [
            "18: rules.liner_temperature: this key is needed where expansion is given",
            "18: rules.measured_temperature: this key is needed where expansion is given",
        ],
    ),
    "two of three, one of them wrong": (
        'liner_temperature = 20\nexpansion = "much"\n',
        [
            "18: rules.measured_temperature: this key is needed where liner_temperature and "
            "expansion are given",
            "24: rules.expansion: must be a number from 0 to 0.001, the growth of each unit of "
            "length per degree C, got 'much'",
        ],
    ),
}


@pytest.mark.parametrize(("rules", "mistakes"), MISTAKES.values(), ids=MISTAKES)
def test_each_mistake_is_told_once(tmp_path, rules, mistakes):
    """With file, line and key; a key that is missing with the line of its table."""
    lines = list_mistakes(write_job(tmp_path, with_rules(rules)))
    assert lines == [f"job.toml:{line}." for line in mistakes]


def test_what_lacks_beside_the_rules_of_a_liner_file_is_told_of_the_job(tmp_path):
    """A job without rules of its own has no line for them."""
    text = with_rules("measured_temperature = 20\nexpansion = 0.0001\n", LINER_FILE)
    write_job(tmp_path, text.replace("edge_margin = 12\n", ""), "reeds.toml")
    assert list_mistakes(write_job(tmp_path, ORDER)) == [
        "job.toml: rules.edge_margin: this key is needed.",
        "job.toml: rules.liner_temperature: this key is needed where measured_temperature and "
        "expansion are given.",
    ]


def test_a_liner_file_alone_may_leave_the_temperature_of_the_day_open(tmp_path):
    """Mistakes in its rules are told with its own name."""
    text = with_rules("measured_temperature = 200\nexpansion = 0.0001\n", LINER_FILE)
    write_job(tmp_path, text, "reeds.toml")
    own = "[rules]\nliner_temperature = 20\n[[bed]]"
    assert list_mistakes(write_job(tmp_path, change(("[[bed]]", own), text=ORDER))) == [
        "reeds.toml:23: rules.measured_temperature: must be from -50 to 100 C, got 200."
    ]


def test_a_liner_that_cannot_be_scaled_is_told(tmp_path):
    """At its table, with the part, the reason, and what to do."""
    hot = WARM.replace("30", "100").replace("0.0001", "0.001")
    text = change(("size = [1200, 800]", "size = [32000, 800]"), text=with_rules(hot))
    assert list_mistakes(write_job(tmp_path, text)) == [
        f"job.toml:4: liner: {LAID}, got its outline: coordinates reach at most 33554 mm from the "
        "datum, at 1.08 of its drawing; check shrinkage and temperatures in the rules."
    ]


def test_a_chord_beyond_the_diameter_of_the_panel_as_cast_is_refused(tmp_path):
    """It is on the larger panel that the chord must span the face."""
    bed = '[[bed]]\nname = "table"\nform = "concave"\nradius = 613\n'
    panel = '[[panel]]\nmark = "A1"\nsize = [1199, 400]\nquantity = 1\nmeasured_on = "chord"\n'
    text = f"{JOB[: JOB.index('[[bed]]')]}panel_shrink = 0.001\n{bed}{panel}"
    assert list_mistakes(write_job(tmp_path, text)) == [
        "job.toml:31: panel[1].size: width, a chord, must be <= the face's diameter 1200 mm on bed "
        "'table' less panel_shrink of it, got 1199 mm."
    ]
    assert list_mistakes(write_job(tmp_path, text.replace("1199", "1198.8"))) == []
