"""Sizes tried on an example, byte for byte; ``pytest --redraw`` writes anew."""

from pathlib import Path

from printtime import DRAWN

from nesting.fitting.screening import Question, answer

ROOT = Path(__file__).parents[2]
LINER = ROOT / "examples" / "ferry-terminal.toml"
SIZES = ("1500x900", "60x1100", "2 ft 3 1/2 in x 1 ft 8 in", "1676x947")
OPTIONS = {"tolerance": "architectural", "drawn": DRAWN, "mends": True}


def test_sizes_tried_on_the_ferry_terminal_give_the_committed_answers(request):
    """Drawings of those that fit, and the text of all; nothing stale lies beside them."""
    found = answer(Question(str(LINER), SIZES, bed="drum", **OPTIONS))
    assert found.errors == ""
    folder = ROOT / "output_svg" / "ferry-terminal-fit"
    files = {"report.txt": "\n\n".join(found.texts) + "\n"} | {
        f"ferry-terminal-{number:02d}.svg": text
        for number, text in enumerate(found.drawings, start=1)
        if text
    }
    for name, text in files.items():
        if request.config.getoption("--redraw"):
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
        assert (folder / name).read_text(encoding="utf-8") == text
    assert sorted(files) == sorted(each.name for each in folder.iterdir())
