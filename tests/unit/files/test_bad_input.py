"""Job files that are wrong: each mistake is one clear line with its place, and all come at once."""

import os

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jobtext import JOB, change, list_mistakes, write_job

from nesting.errors import InputErrors
from nesting.files import text as textfile
from nesting.jobs.read import read_job

THICKNESS = "thickness = 13"
HERON = "rect = [300, 200, 220, 400]"
BED = '[[bed]]\nname = "table"\n'
PANEL = 'quantity = 1\nmust_show = ["heron"]'
NOT_SIMPLE = "must bound one area without touching or crossing itself"
LENGTH_WANTED = "must be a length: a number of mm, or text with a unit"
NO_SIGNS = "must have no slashes, quotes or angle brackets"
PANEL_KEYS = (
    "outline, seen_from, mark, size, quantity, measured_on, thickness, turn, tolerance, must_show, "
    "must_hide, due, bed"
)
ASIDE = "move it, cut its outline at the rim, or enlarge the liner"


def bed(text):
    """Return the change that gives the bed more keys."""
    return BED, BED + text


def panel(text):
    """Return the change that gives the first panel more keys."""
    return PANEL, f"{PANEL}\n{text}"


def hole(rings):
    """Return the change that gives the liner holes."""
    return THICKNESS, f"{THICKNESS}\nholes = {rings}"


def mark(text):
    """Return the change that gives the first panel another mark, as TOML text."""
    return '"A1"', text


KEYS = {
    "misspelt": (
        [("title", "titel")],
        ["title: this key is needed", "1: titel: unknown key; the nearest known key is title"],
    ),
    "table misspelt": (
        [("[rules]", "[rulez]")],
        [
            "rules: this table is needed; begin it with [rules] and give dam_width, "
            "dam_clearance, edge_margin",
            "18: rulez: unknown key; the nearest known key is rules",
        ],
    ),
    "nothing like it": (
        [panel("zzzzqq = 1")],
        [f"32: panel[1].zzzzqq: unknown key; known keys here: {PANEL_KEYS}"],
    ),
    "with control characters": (
        [panel('"a\\u001b[31m" = 1')],
        [f"32: panel[1].'a\\x1b[31m': unknown key; known keys here: {PANEL_KEYS}"],
    ),
    "no units": ([('units = "mm"\n', "")], ["units: this key is needed"]),
    "no rule": ([("dam_width = 25\n", "")], ["18: rules.dam_width: this key is needed"]),
    "no radius": ([bed('form = "convex"\n')], ["24: bed[1].radius: this key is needed"]),
    "no shape": ([(HERON, "")], ["8: liner.ornament[1]: give either rect or outline, got neither"]),
    "two shapes": (
        [(HERON, f"{HERON}\noutline = [[0, 0], [1, 0], [1, 1]]")],
        ["11: liner.ornament[1].outline: give either rect or outline, got both"],
    ),
    "single brackets": (
        [(BED, '[bed]\nname = "table"\n')],
        ["24: bed: must be a list of tables, got a table; begin each one with [[bed]]"],
    ),
    "no tables": (
        [(BED, ""), ("title", "bed = [1]\ntitle")],
        ["1: bed: must be a list of tables, got a list of 1; begin each one with [[bed]]"],
    ),
}

TYPES = {
    "number for list": (
        [("size = [1200, 800]", "size = 1200")],
        ["6: liner.size: must be [width, height], got 1200"],
    ),
    "true for length": (
        [(THICKNESS, "thickness = true")],
        [f"7: liner.thickness: {LENGTH_WANTED}, got true"],
    ),
    "date for length": (
        [(THICKNESS, "thickness = 2020-01-01")],
        [f"7: liner.thickness: {LENGTH_WANTED}, got 2020-01-01"],
    ),
    "table for length": (
        [(THICKNESS, "thickness = {mm = 3}")],
        [f"7: liner.thickness: {LENGTH_WANTED}, got a table"],
    ),
    "word for length": (
        [(THICKNESS, 'thickness = "thick"')],
        [
            "7: liner.thickness: must be a length, got 'thick'; write it like "
            '"1612.9 mm", "63 7/16 in" or "5 ft 3 7/16 in"'
        ],
    ),
    "comma": (
        [(THICKNESS, 'thickness = "13,5 mm"')],
        [
            "7: liner.thickness: a length has no comma, got '13,5 mm'; "
            "write decimals with a point and thousands without a sign"
        ],
    ),
    "number for title": (
        [('"Bath house, foyer"', "5")],
        ["1: title: must be text, got 5; put it in quotes"],
    ),
    "number for mark": (
        [mark("1")],
        ["28: panel[1].mark: must be text, got 1; put it in quotes"],
    ),
    "text for quantity": (
        [("quantity = 1\nmust", 'quantity = "1"\nmust')],
        [
            "30: panel[1].quantity: must be a whole number from 1 to 100000, got '1'; write it "
            "without quotes"
        ],
    ),
    "double brackets": (
        [("[rules]", "[[rules]]")],
        ["18: rules: must be a table, got a list of 1; write it once, as [rules]"],
    ),
    "text for list": (
        [('must_show = ["heron"]', 'must_show = "heron"')],
        ["31: panel[1].must_show: must be a list, got 'heron'"],
    ),
    "float quantity": (
        [("quantity = 1", "quantity = 2.0")],
        ["30: panel[1].quantity: must be a whole number from 1 to 100000, got 2.0"],
    ),
    "text for neutral": (
        [bed('form = "concave"\nradius = 100\nneutral = "0.5"\n')],
        ["28: bed[1].neutral: must be a number from 0 to 0.5, got '0.5'"],
    ),
    "choices": (
        [('"mm"', '"cm"'), panel('measured_on = "top"\nturn = "full"')],
        [
            "2: units: must be one of mm, in, got 'cm'",
            "32: panel[1].measured_on: must be one of face, back, chord, got 'top'",
            "33: panel[1].turn: must be one of none, half, got 'full'",
        ],
    ),
}

NUMBERS = {
    "not a number": (
        [(THICKNESS, "thickness = nan")],
        ["7: liner.thickness: a length must be finite, got nan"],
    ),
    "infinity": (
        [(THICKNESS, "thickness = -inf")],
        ["7: liner.thickness: a length must be finite, got -inf"],
    ),
    "zero": ([(THICKNESS, "thickness = 0")], ["7: liner.thickness: must be > 0 mm, got 0 mm"]),
    "negative size": (
        [("size = [800, 650]", "size = [-800, 0]")],
        [
            "29: panel[1].size: width must be > 0 mm, got -800 mm",
            "29: panel[1].size: height must be > 0 mm, got 0 mm",
        ],
    ),
    "1e300": (
        [("size = [800, 650]", "size = [1e300, 650]")],
        ["29: panel[1].size: width must be at most 33000 mm, got 1e+300 mm"],
    ),
    "more than 33 m": (
        [("size = [800, 650]", 'size = [33001, "1300 in"]')],
        [
            "29: panel[1].size: width must be at most 33000 mm, got 33001 mm",
            "29: panel[1].size: height must be at most 33000 mm, got '1300 in'",
        ],
    ),
    "thousands of digits": (
        [("size = [800, 650]", f"size = [0x{'f' * 5000}, 650]")],
        ["29: panel[1].size: width must be at most 33000 mm, got a number of more than 30 digits"],
    ),
    "rules": (
        [
            ("dam_width = 25", "dam_width = 0"),
            ("clearance = 6", 'clearance = "-1 mm"'),
            ("margin = 12", "margin = -1"),
            ("set_out = 1", "set_out = 1e-9"),
        ],
        [
            "19: rules.dam_width: must be > 0 mm, got 0 mm",
            "20: rules.dam_clearance: must be >= 0 mm, got '-1 mm'",
            "21: rules.edge_margin: must be >= 0 mm, got -1 mm",
            "22: rules.set_out: must be > 0 mm, got 1e-09 mm",
        ],
    ),
    "quantity 0": (
        [("quantity = 1", "quantity = 0")],
        ["30: panel[1].quantity: must be a whole number from 1 to 100000, got 0"],
    ),
    "quantity 10^9": (
        [("quantity = 1", "quantity = 1000000000")],
        ["30: panel[1].quantity: must be a whole number from 1 to 100000, got 1000000000"],
    ),
    "tolerance upside down": (
        [panel("tolerance = [1, 3]")],
        ["32: panel[1].tolerance: must be [low, high] with low <= 0 <= high, got [1 mm, 3 mm]"],
    ),
    "tolerance wider than the panel": (
        [panel("tolerance = [-650, 3]")],
        ["32: panel[1].tolerance: must leave a size > 0 mm, got -650 mm"],
    ),
}

SHAPES = {
    "crossing": (
        [(HERON, "outline = [[300, 200], [520, 600], [520, 200], [300, 600]]")],
        [f"10: liner.ornament[1].outline: {NOT_SIMPLE}, got self-intersection at (410, 400) mm"],
    ),
    "two points": (
        [(HERON, "outline = [[300, 200], [520, 600], [300, 200]]")],
        [
            "10: liner.ornament[1].outline: an outline needs at least 3 different points, "
            "this one has 2"
        ],
    ),
    "no points": (
        [(HERON, "outline = []")],
        [
            "10: liner.ornament[1].outline: an outline needs at least 3 different points, "
            "this one has 0"
        ],
    ),
    "points in a line": (
        [(HERON, "outline = [[300, 200], [400, 200], [520, 200]]")],
        [f"10: liner.ornament[1].outline: {NOT_SIMPLE}, got self-intersection at (400, 200) mm"],
    ),
    "50,000 points": (
        [(HERON, f"outline = {[[300, 200]] * 50_000}")],
        ["10: liner.ornament[1].outline: an outline has at most 5000 points, got 50000 points"],
    ),
    "points that are none": (
        [(HERON, "outline = [[300, 200], [400], [520, true], 5, [nan, 3]]")],
        [
            "10: liner.ornament[1].outline[2]: must be a point [x, y], got a list of 1",
            f"10: liner.ornament[1].outline[3]: {LENGTH_WANTED}, got true",
            "10: liner.ornament[1].outline[4]: must be a point [x, y], got 5",
            "10: liner.ornament[1].outline[5]: a length must be finite, got nan",
        ],
    ),
    "far away": (
        [(HERON, "rect = [33000, 0, 33000, 10]")],
        ["10: liner.ornament[1].rect: coordinates reach at most 33554 mm from the datum"],
    ),
    "short rect": (
        [(HERON, "rect = [1, 2, 3]")],
        ["10: liner.ornament[1].rect: must be [x, y, width, height], got a list of 3"],
    ),
    "ornament past the rim": (
        [(HERON, "rect = [1100, 200, 220, 400]")],
        [
            "8: liner.ornament[1]: ornament 'heron' must lie on the liner, "
            f"got a part outside from (1200 mm, 200 mm) to (1320 mm, 600 mm); {ASIDE}"
        ],
    ),
    "ornament in a hole": (
        [hole("[[[310, 210], [400, 210], [400, 300]]]")],
        [
            "9: liner.ornament[1]: ornament 'heron' must lie on the liner, "
            f"got a part outside from (310 mm, 210 mm) to (400 mm, 300 mm); {ASIDE}"
        ],
    ),
    "hole off the liner": (
        [hole("[[[1310, 210], [1400, 210], [1400, 300]]]")],
        [f"8: liner.holes: {NOT_SIMPLE}, got hole lies outside shell at (1310, 210) mm"],
    ),
    "hole that crosses itself": (
        [hole("[[[10, 10], [20, 20], [20, 10], [10, 20]]]")],
        [f"8: liner.holes[1]: {NOT_SIMPLE}, got self-intersection at (15, 15) mm"],
    ),
    "panel with an outline": (
        [("size = [800, 650]", "outline = [[0, 0], [800, 0], [800, 650]]")],
        [
            "29: panel[1].outline: panels with an outline are not supported; "
            "give size = [width, height] of a rectangle"
        ],
    ),
    "panel seen from the front": (
        [("size = [800, 650]", 'size = [800, 650]\nseen_from = "front"')],
        [
            "30: panel[1].seen_from: only a panel with an outline has one, and outlines are not "
            "supported; drop seen_from, a rectangle has the same outline from the front"
        ],
    ),
}

NAMES = {
    "slash": ([mark('"A/1"')], [f"28: panel[1].mark: {NO_SIGNS}, got 'A/1'; leave out the /"]),
    "backslash": (
        [mark("'A\\1'")],
        [f"28: panel[1].mark: {NO_SIGNS}, got 'A\\\\1'; leave out the \\"],
    ),
    "quote": (
        [mark("'A\"1'")],
        [f"28: panel[1].mark: {NO_SIGNS}, got 'A\"1'; leave out the \""],
    ),
    "angle bracket": (
        [mark('"<A1>"')],
        [f"28: panel[1].mark: {NO_SIGNS}, got '<A1>'; leave out the <"],
    ),
    "control character": (
        [mark('"A\\u0007"')],
        ["28: panel[1].mark: must have no control characters, got 'A\\x07'"],
    ),
    "writing turned round": (
        [mark('"A\\u202e1"')],
        ["28: panel[1].mark: must have no control characters, got 'A\\u202e1'"],
    ),
    "no character": (
        [mark('"A\\uffff"')],
        ["28: panel[1].mark: must have no control characters, got 'A\\uffff'"],
    ),
    "10,000 letters": (
        [mark(f'"{"A" * 10_000}"')],
        ["28: panel[1].mark: must have 1 to 60 characters, got 10000 characters"],
    ),
    "nothing": (
        [mark('""')],
        ["28: panel[1].mark: must have 1 to 60 characters, got 0 characters"],
    ),
    "blank": (
        [mark('" A1"')],
        ["28: panel[1].mark: must not begin or end with a blank, got ' A1'"],
    ),
    "title": (
        [("Bath house, foyer", "x" * 201), ('"reeds"', '"re/eds"')],
        [
            "1: title: must have 1 to 200 characters, got 201 characters",
            f"5: liner.name: {NO_SIGNS}, got 're/eds'; leave out the /",
        ],
    ),
    "ornament twice": (
        [
            (
                "[[liner.blank_zone]]",
                '[[liner.ornament]]\nname = "heron"\nrect = [1, 1, 1, 1]\n[[liner.blank_zone]]',
            )
        ],
        [
            "12: liner.ornament[2].name: each one needs a name of its own, got 'heron'; "
            "number 1 has it too, rename one"
        ],
    ),
    "zone twice": (
        [('"north"', '"east"')],
        [
            "15: liner.blank_zone[2].name: each one needs a name of its own, got 'east'; "
            "number 1 has it too, rename one"
        ],
    ),
    "bed twice": (
        [(BED, BED + BED)],
        [
            "27: bed[2].name: each one needs a name of its own, got 'table'; "
            "number 1 has it too, rename one"
        ],
    ),
    "mark twice": (
        [('"B1"', '"A1"')],
        [
            "33: panel[2].mark: each one needs a mark of its own, got 'A1'; "
            "number 1 has it too, rename one"
        ],
    ),
}

REFERENCES = {
    "no such bed": (
        [panel('bed = "tabel"')],
        ["32: panel[1].bed: there is no such bed, got 'tabel'; the nearest known is 'table'"],
    ),
    "which bed": (
        [(BED, f'{BED}[[bed]]\nname = "drum"\n'), panel('bed = "drum"')],
        [
            "35: panel[2].bed: this key is needed where there are several beds; "
            "known: 'table', 'drum'",
            "40: panel[3].bed: this key is needed where there are several beds; "
            "known: 'table', 'drum'",
        ],
    ),
    "no such ornament": (
        [('must_show = ["heron"]', 'must_show = ["reron", "xyz"]')],
        [
            "31: panel[1].must_show: there is no such ornament, got 'reron'; "
            "the nearest known is 'heron'",
            "31: panel[1].must_show: there is no such ornament, got 'xyz'; known: 'heron'",
        ],
    ),
    "ornament named twice": (
        [('must_show = ["heron"]', 'must_show = ["heron", "heron"]')],
        ["31: panel[1].must_show: must name each one once, got 'heron' more than once"],
    ),
    "shown and hidden": (
        [panel('must_hide = ["heron"]')],
        ["32: panel[1].must_hide: must not repeat a name of must_show, got 'heron'"],
    ),
    "none of the ornaments": (
        [('[[liner.ornament]]\nname = "heron"\nrect = [300, 200, 220, 400]\n', "")],
        [
            "28: panel[1].must_show: there is no such ornament, got 'heron'; there are none",
            "33: panel[2].must_hide: there is no such ornament, got 'heron'; there are none",
        ],
    ),
}

DAMS = "[rules]", "[dams]\nheight = 400\n[rules]"

BEDS = {
    "shorter than the liner along the curve": (
        [bed('form = "convex"\nradius = 3000\nsize = [1190, 800]\n')],
        [
            "28: bed[1].size: must hold the liner, which takes 1197.4056 mm of it along the curve, "
            "got 1190 mm; the liner hangs over by 7.4056 mm"
        ],
    ),
    "narrower than the liner": (
        [bed('form = "concave"\nradius = 3000\ncurved_axis = "y"\nsize = [900, 1199.5]\n')],
        [
            "29: bed[1].size: must hold the liner, which takes 1200 mm of it along its straight "
            "axis, got 1199.5 mm; the liner hangs over by 0.5 mm"
        ],
    ),
    "flat and too small": (
        [bed("size = [1200, 700]\n")],
        [
            "26: bed[1].size: must hold the liner, which takes 800 mm of it along y, got 700 mm; "
            "the liner hangs over by 100 mm"
        ],
    ),
    "dams higher than the curve allows": (
        [DAMS, bed('form = "concave"\nradius = 413\n')],
        [
            "29: bed[1].radius: must leave a face of radius > 400 mm, [dams] height, under dams so "
            "high, got 400 mm; give lower dams or a larger radius"
        ],
    ),
    "panels thicker than the curve allows dams to be": (
        [bed('form = "concave"\nradius = 413\n'), panel("thickness = 400")],
        [
            "27: bed[1].radius: must leave a face of radius > 400 mm, the thickness of panel 'A1', "
            "under dams so high, got 400 mm; give lower dams or a larger radius"
        ],
    ),
    "too narrow for plumb ends": (
        [bed('form = "concave"\nradius = 413\nends = "plumb"\n')],
        [
            "28: bed[1].ends: must be square where the width of panel 'C1' is more than 1009 mm, "
            "as face and back are one chord apart between plumb ends, got 1200 mm"
        ],
    ),
    "chord wider than the back": (
        [
            bed('form = "concave"\nradius = 613\nends = "plumb"\n'),
            ('mark = "C1"', 'measured_on = "chord"\nmark = "C1"'),
        ],
        [
            "28: bed[1].ends: must be square where the width of panel 'C1' is more than 1162 mm, "
            "as face and back are one chord apart between plumb ends, got 1200 mm"
        ],
    ),
}

BENDS = {
    "flat with a radius": (
        [bed("radius = 3000\nneutral = 0.5\n")],
        [
            "26: bed[1].radius: a flat bed has none; drop radius or give form convex or concave",
            "27: bed[1].neutral: a flat bed has none; drop neutral or give form convex or concave",
        ],
    ),
    "no such form": (
        [bed('form = "round"\nradius = 0\n')],
        [
            "26: bed[1].form: must be one of flat, convex, concave, got 'round'",
            "27: bed[1].radius: must be > 0 mm, got 0 mm",
        ],
    ),
    "radius not above the thickness": (
        [bed('form = "concave"\nradius = 13\n')],
        ["27: bed[1].radius: must be > the liner's thickness 13 mm on a concave bed, got 13 mm"],
    ),
    "radius of 100 km": (
        [bed('form = "convex"\nradius = 1e8\n')],
        ["27: bed[1].radius: must be at most 10000000 mm, got 100000000.0 mm"],
    ),
    "neutral and axis": (
        [bed('form = "concave"\nradius = 100\nneutral = 0.6\ncurved_axis = "z"\n')],
        [
            "28: bed[1].neutral: must be a number from 0 to 0.5, got 0.6",
            "29: bed[1].curved_axis: must be one of x, y, got 'z'",
        ],
    ),
    "back without thickness": (
        [bed('form = "convex"\nradius = 900\n'), panel('measured_on = "back"')],
        [
            "29: panel[1].thickness: this key is needed where measured_on is back and the bed "
            "is curved"
        ],
    ),
    "thicker than the face's radius": (
        [bed('form = "concave"\nradius = 900\n'), panel('measured_on = "back"\nthickness = 887')],
        ["35: panel[1].thickness: must be < the face's radius 887 mm on bed 'table', got 887 mm"],
    ),
    "arc beyond the circle": (
        [bed('form = "convex"\nradius = 150\n')],
        [
            "41: panel[3].size: width must be <= the circle of the face, 1024 mm around, "
            "on bed 'table', got 1200 mm"
        ],
    ),
    "chord along x": (
        [bed('form = "concave"\nradius = 412\n'), panel('measured_on = "chord"')],
        [
            "31: panel[1].size: width, a chord, must be <= the face's diameter 798 mm "
            "on bed 'table', got 800 mm"
        ],
    ),
    "chord along y": (
        [
            bed('form = "convex"\nradius = 300\ncurved_axis = "y"\n'),
            panel('measured_on = "chord"'),
        ],
        [
            "32: panel[1].size: height, a chord, must be <= the face's diameter 626 mm "
            "on bed 'table', got 650 mm"
        ],
    ),
    "chord with its tolerance": (
        [
            bed('form = "concave"\nradius = 413\n'),
            panel('measured_on = "chord"\ntolerance = [0, 1]'),
        ],
        [
            "31: panel[1].size: width, a chord, must be <= the face's diameter 800 mm "
            "on bed 'table', got 801 mm"
        ],
    ),
}

CASES = {
    f"{group}: {name}": case
    for group, cases in {
        "keys": KEYS,
        "types": TYPES,
        "numbers": NUMBERS,
        "shapes": SHAPES,
        "names": NAMES,
        "references": REFERENCES,
        "bends": BENDS,
        "beds": BEDS,
    }.items()
    for name, case in cases.items()
}


def in_file(mistakes):
    """Return ``5: key: rule`` as ``job.toml:5: key: rule.`` and ``key: rule`` without a line."""
    return [f"job.toml{':' if text[0].isdigit() else ': '}{text}." for text in mistakes]


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_mistake_is_told_by_place_rule_value_and_remedy(tmp_path, case):
    """Each wrong file gives exactly its lines, in the order of the file."""
    changes, mistakes = case
    assert list_mistakes(write_job(tmp_path, change(*changes))) == in_file(mistakes)


def test_all_mistakes_of_a_file_come_at_once(tmp_path):
    """One change of each group at once gives all their mistakes, none hidden by another."""
    changes = [
        ("title", "titel"),
        (THICKNESS, "thickness = -1"),
        ("[790, 0, 70, 800]", '[790, 0, 70, "800,0"]'),
        ("set_out = 1", "set_out = 0"),
        bed('form = "flat"\nradius = 3\n'),
        mark('"A/1"'),
        ('mark = "C1"\nsize = [1200, 650]', 'mark = "C1"\nsize = [0, 650]\nbed = "none"'),
    ]
    lines = list_mistakes(write_job(tmp_path, change(*changes)))
    keys = [line.split(": ")[1] for line in lines]
    assert keys == [
        "title",
        "titel",
        "liner.thickness",
        "liner.blank_zone[1].rect",
        "rules.set_out",
        "bed[1].radius",
        "panel[1].mark",
        "panel[3].size",
        "panel[3].bed",
    ]


def test_an_error_keeps_its_parts(tmp_path):
    """Place, rule, value and remedy can be asked for one by one; the exit code is 2."""
    path = write_job(tmp_path, change((THICKNESS, "thickness = -1")))
    with pytest.raises(InputErrors, match=r"liner\.thickness") as caught:
        read_job(path)
    error = caught.value.errors[0]
    parts = (error.where, error.rule, error.got, error.remedy)
    assert parts == ("job.toml:7: liner.thickness", "must be > 0 mm", "-1 mm", "")
    assert caught.value.exit_code == 2


def test_the_hundred_first_mistake_is_only_counted(tmp_path):
    """A file full of mistakes tells the first hundred and how many more there are."""
    many = "".join(f"key{number} = 1\n" for number in range(130))
    lines = list_mistakes(write_job(tmp_path, many + JOB))
    assert len(lines) == 101
    assert lines[-1] == "job.toml: 30 more mistakes."


SYNTAX = {
    "bare length": (
        [("thickness = 13", "thickness = 13 1/2 in")],
        "7: the line is not TOML: expected newline or end of document after a statement "
        "(column 16), got 'thickness = 13 1/2 in'; put a length with a unit or a fraction in "
        'quotes, for example "5 ft 3 7/16 in".',
    ),
    "bare feet": (
        [("size = [800, 650]", "size = [5'-3\", 650]")],
        "29: the line is not TOML: unclosed array (column 10), got 'size = [5\\'-3\", 650]'; "
        'put a length with a unit or a fraction in quotes, for example "5 ft 3 7/16 in".',
    ),
    "inch mark in quotes": (
        [("size = [800, 650]", 'size = ["63 7/16"", 650]')],
        '29: the line is not TOML: unclosed array (column 18), got \'size = ["63 7/16"", 650]\'; '
        'put a length with a unit or a fraction in quotes, for example "5 ft 3 7/16 in".',
    ),
    "comma": (
        [("thickness = 13", "thickness = 13,5")],
        "7: the line is not TOML: expected newline or end of document after a statement "
        "(column 15), got 'thickness = 13,5'; write decimals with a point.",
    ),
    "bare word": (
        [('name = "table"', "name = table")],
        "25: the line is not TOML: unreadable value (column 8), got 'name = table'; "
        "put text in quotes.",
    ),
    "key twice": (
        [("thickness = 13", "thickness = 13\nthickness = 14")],
        "8: the line is not TOML: cannot overwrite a value (column 15), got 'thickness = 14'; "
        "its table has it already: drop one, or begin another table, as with [[panel]].",
    ),
    "open at the end": (
        [('mark = "C1"\nsize = [1200, 650]\nquantity = 1\n', 'mark = "C1"\nsize = [1200, 650')],
        " the file is not TOML: unclosed array at the end of the file.",
    ),
}


HINTS = {
    "typographic quotes": ("dam_width = 25", "dam_width = \u201c25 mm\u201d", "straight quotes"),
    "colon": ("dam_width = 25", "dam_width: 25", "write a key, an equals sign and its value"),
    "blank in a key": ("dam_width = 25", "dam width = 25", "a key has no blanks"),
    "open quotes": ("dam_width = 25", 'dam_width = "25 mm', "close the quotes on the same line"),
    "table again": ("[rules]", "[liner]", "any other stands once"),
    "backslashes": ('name = "table"', 'name = "C:\\jobs"', "write / for each backslash"),
    "number with words": ("quantity = 1\nmust", "quantity = 1 piece\nmust", "the number alone"),
    "a schedule": ('title = "Bath house, foyer"', "{", "JSON, as in schedule.json, is none"),
}


@pytest.mark.parametrize(("was", "now", "hint"), HINTS.values(), ids=HINTS)
def test_what_people_write_instead_of_toml_is_told_with_what_to_do(tmp_path, was, now, hint):
    """One line, whose remedy fits the slip."""
    (line,) = list_mistakes(write_job(tmp_path, change((was, now))))
    assert "is not TOML" in line
    assert hint in line.rpartition("; ")[2]


def test_mistaken_units_call_up_no_other_mistake(tmp_path):
    """A fraction is read in the units that were meant, so it is no second mistake."""
    text = change(('units = "mm"', 'units = "inches"'), ("dam_width = 25", 'dam_width = "1/2"'))
    assert list_mistakes(write_job(tmp_path, text)) == [
        "job.toml:2: units: must be one of mm, in, got 'inches'."
    ]


def test_a_side_is_parted_from_a_rule_that_is_a_sentence(tmp_path):
    """The name of the value goes before the rule, with a colon where the rule has a subject."""
    text = change(("size = [800, 650]", 'size = ["22 1/2", 650]'))
    (line,) = list_mistakes(write_job(tmp_path, text))
    assert "panel[1].size: width: only inches have fractions, got '22 1/2'" in line


@pytest.mark.parametrize("case", SYNTAX.values(), ids=SYNTAX)
def test_text_that_is_not_toml_is_told_with_its_line_and_a_hint(tmp_path, case):
    """A line the reader cannot take is quoted; bare lengths, commas and words get a hint."""
    changes, mistake = case
    assert list_mistakes(write_job(tmp_path, change(*changes))) == [f"job.toml:{mistake}"]


@pytest.mark.parametrize(
    ("text", "mistake"),
    [
        ("a = " + "[" * 5000, "job.toml: the file is not TOML: nested too deep."),
        ("a = " + "9" * 5000, "job.toml: the file is not TOML: a number is too long."),
    ],
)
def test_text_that_breaks_the_reader_is_not_toml(tmp_path, text, mistake):
    """Nesting and numbers beyond every use are a mistake of the file, not of the program."""
    assert list_mistakes(write_job(tmp_path, text)) == [mistake]


def test_a_missing_file_is_told_with_its_path(tmp_path):
    """There is no such file."""
    path = tmp_path / "none.toml"
    assert list_mistakes(path) == [f"{path}: there is no such file."]


def test_a_folder_is_no_file(tmp_path):
    """A folder is told as one."""
    assert list_mistakes(tmp_path) == [f"{tmp_path}: this is a folder; name the file itself."]


def test_a_pipe_is_no_file(tmp_path):
    """What would never end is not opened."""
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    assert list_mistakes(pipe) == [f"{pipe}: this is not a file."]


def test_a_path_no_system_takes_is_refused_in_short(tmp_path):
    """A name of 10,000 letters or with a null character ends in one short line."""
    for name in ("x" * 10_000, "a\0b"):
        (line,) = list_mistakes(tmp_path / name)
        assert "the file cannot be read" in line or "there is no such file" in line
        assert len(line) < 300
        assert line.isprintable()


def test_other_encodings_are_told_with_the_first_byte(tmp_path):
    """Text in another encoding than UTF-8 is refused where it differs."""
    path = tmp_path / "job.toml"
    path.write_bytes(change(("foyer", "caf\N{LATIN SMALL LETTER E WITH ACUTE}")).encode("latin-1"))
    assert list_mistakes(path) == [
        f"{path}:1: the file must be UTF-8 text, got byte 0xe9 at position 24; "
        "save it with the encoding UTF-8."
    ]
    path.write_bytes(JOB.encode("utf-16"))
    assert "must be UTF-8 text" in list_mistakes(path)[0]


@pytest.mark.parametrize("text", ["", "\n", " \r\n\t"])
def test_an_empty_file_is_told_as_one(tmp_path, text):
    """Nothing but blanks is an empty file."""
    path = write_job(tmp_path, text)
    assert list_mistakes(path) == [f"{path}: the file is empty."]


def test_a_file_of_more_than_20_mb_is_not_read(tmp_path):
    """The limit is 20 MB, and a file of that size is still looked at."""
    path = tmp_path / "job.toml"
    path.write_bytes(b"#" * textfile.MAX_BYTES + b"\n")
    assert list_mistakes(path) == [f"{path}: a file has at most 20 MB."]
    path.write_bytes(b" " * textfile.MAX_BYTES)
    assert list_mistakes(path) == [f"{path}: the file is empty."]


ORDER = f'{JOB[: JOB.index("[liner]")]}[liner]\nfile = "reeds.toml"\n{JOB[JOB.index("[rules]") :]}'
LINER_FILE = JOB[: JOB.index("[rules]")]


@pytest.mark.parametrize(
    ("liner_file", "order", "mistakes"),
    [
        (None, ORDER, ["job.toml:5: liner.file: there is no such file, got 'reeds.toml'."]),
        (
            LINER_FILE.replace("thickness = 13", "thickness = 0"),
            ORDER.replace("set_out = 1", "set_out = 0"),
            [
                "job.toml:10: rules.set_out: must be > 0 mm, got 0 mm.",
                "reeds.toml:7: liner.thickness: must be > 0 mm, got 0 mm.",
            ],
        ),
        (
            "thickness = 13 1/2",
            ORDER,
            [
                "reeds.toml:1: the line is not TOML: expected newline or end of document after a "
                "statement (column 16), got 'thickness = 13 1/2'; put a length with a unit or a "
                'fraction in quotes, for example "5 ft 3 7/16 in".'
            ],
        ),
        (
            JOB,
            ORDER,
            [
                "reeds.toml:27: panel: a liner file holds no panels; "
                "move them to a job file of their own."
            ],
        ),
        (
            ORDER[: ORDER.index("[rules]")],
            ORDER,
            [
                "reeds.toml:5: liner.file: a liner file must not lead back to itself, "
                "got 'reeds.toml'."
            ],
        ),
        (
            LINER_FILE,
            ORDER.replace('"reeds.toml"', '"job.toml"'),
            ["job.toml:5: liner.file: a liner file must not lead back to itself, got 'job.toml'."],
        ),
        (
            LINER_FILE,
            ORDER.replace('"reeds.toml"', '"reeds.toml"\nthickness = 13'),
            [
                "job.toml:6: liner.thickness: a liner that is read from a file has no other keys; "
                "move it to that file, or drop file."
            ],
        ),
        (
            LINER_FILE,
            ORDER.replace('"reeds.toml"', "5"),
            ["job.toml:5: liner.file: must be text, got 5; put it in quotes."],
        ),
        (
            LINER_FILE,
            ORDER.replace('"reeds.toml"', '"."'),
            ["job.toml:5: liner.file: this is a folder, got '.'; name the file itself."],
        ),
    ],
    ids=["missing", "both", "syntax", "panels", "loop", "self", "keys", "type", "folder"],
)
def test_mistakes_of_a_liner_file_are_told_with_its_name(tmp_path, liner_file, order, mistakes):
    """The job's own mistakes come first, then those of its liner file, none repeated."""
    if liner_file is not None:
        write_job(tmp_path, liner_file, "reeds.toml")
    assert list_mistakes(write_job(tmp_path, order)) == mistakes


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    start=st.integers(0, len(JOB)),
    length=st.integers(0, 30),
    text=st.sampled_from(
        ["", "0", "-", "\n", '"', "[", "]", "nan", "1e999", "x = 1\n", "\N{SNOWMAN}"]
    ),
)
def test_a_damaged_file_is_read_or_refused_with_reasons(tmp_path, start, length, text):
    """Whatever is cut out of a file or put into it ends in a job or in printable reasons."""
    damaged = JOB[:start] + text + JOB[start + length :]
    lines = list_mistakes(write_job(tmp_path, damaged))
    assert all(line.isprintable() and line.endswith(".") for line in lines)
    assert "refused without a reason" not in lines
