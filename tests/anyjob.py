"""Jobs as people write them, drawn key by key: every table, every key, spellings of all kinds."""

import json
from datetime import date, time

WORDS = {"text": ["hall", 'Rörstrand, "left" 5/8'], "name": ["reed", "héron 北"]}
INGREDIENTS = ("cement", "sand", "water", "dispersion", "plasticiser", "pigment", "fibre")
ORNAMENTS = ("heron", "leaf 2", "rush")


def every(options):
    """Take the last of the options, which is never that a key is left out."""
    return options[-1]


def draw_job(pick):
    """Return a job as nested tables; ``pick`` chooses one of several options."""
    units = pick(["mm", "in"])

    def length(mm, plain=()):
        """Spell a length of so many mm, or take a plain number, in one way of several."""
        own = mm if units == "mm" else mm / 25.4
        return pick([own, f"{mm / 10:.6f} cm", f" {mm:.3f} MM", f"{mm / 25.4:.5f} in", *plain])

    def row(*millimetres):
        return [length(mm) for mm in millimetres]

    def some(**choices):
        """Return the keys that are given, each with one of its values."""
        given = {key: pick([None, *values]) for key, values in choices.items()}
        return {key: value for key, value in given.items() if value is not None}

    def density():
        return pick([1900 if units == "mm" else 118.6, "2 t/m3", "120 LB/FT3", "1850.5 kg/m³"])

    def mass(*texts):
        return pick([60 if units == "mm" else 130.5, *texts])

    share = [0, 0.07, "5 %", ".25%"]
    mix = some(
        sand=[1.2, "110 %"],
        water=[0.4, "45 %"],
        polymer=[0.05, "4 %"],
        dispersion_solids=[0.47, "51 %"],
        plasticiser=share,
        pigment=share,
        fibre=share,
        wet_density=[density()],
        cured_density=[density()],
    )
    bed = pick(
        [
            [],
            [
                {"name": "table", **some(size=[row(3100, 1500)])},
                _curved(pick, length, row, some),
            ],
        ]
    )
    names = [each["name"] for each in bed]
    panels = [_panel(pick, length, row, some, mark, names) for mark in ("A1", "Ä 2")]
    top = {
        "title": pick(WORDS["text"]),
        "units": units,
        "liner": _liner(pick, length, row, some),
        "rules": _rules(pick, length, some),
        "dams": _dams(pick, length, some),
        "bed": bed,
        "panel": panels,
        "material": some(
            thickness=[length(20)], face_coat=[length(3)], least_thickness=[length(9)]
        ),
        "mix": some(face=[mix], backing=[mix]),
        "batch": some(
            overspray=share,
            loss=share,
            mixer=[mass("60.5 kg", "130 lb", "70000 g")],
            scale=["5 g", 0.02, "1 oz"],
        ),
        "rubber": some(
            density=[density()],
            model_days=[3],
            making_hours=[2.5],
            demould_hours=[20],
            second=[
                {
                    "size": row(800, 600),
                    **some(thickness=[length(11)], ornaments=[["heron"], [*ORNAMENTS[:2]]]),
                }
            ],
        ),
        "lifting": some(points=[4], hand_limit=[mass("20 kg", "51 lb", "0.02 t")]),
        "prices": some(
            currency=WORDS["name"],
            **{key: [0, 0.4, 12.35] for key in INGREDIENTS},
            **{key: [3, 7.77] for key in ("rubber", "dam")},
            pulls=[60],
        ),
        "calendar": _calendar(pick, some, names),
    }
    if "pulls" in top["prices"]:
        top["prices"] |= some(liner=[900.5])
    return {key: value for key, value in top.items() if value != []}


def _liner(pick, length, row, some):
    ornaments = [
        {
            "name": name,
            **pick(
                [
                    {"rect": row(100 + 400 * n, 50, 120.000125, 300)},
                    {"outline": [row(100 + 400 * n, 50), row(220 + 400 * n, 60), row(150, 340)]}
                    if n == 0
                    else {"rect": row(100 + 400 * n, 60, 130, 310)},
                ]
            ),
            **some(relief=[length(9)], on_panel=["boss", "hollow"], fill=[0.3, "62.5 %"]),
        }
        for n, name in enumerate(ORNAMENTS)
    ]
    hole = [row(2200, 1000), row(2250, 1000), row(2225, 1050)]
    corners = [row(0, 0), row(2400, 0), row(2400, 1200), row(1000, 1199.9), row(0, 1200)]
    return {
        "name": pick(WORDS["name"]),
        **pick([{"size": row(2400, 1200)}, {"outline": corners}]),
        "thickness": length(13),
        **some(holes=[[hole]], unmarked=["blank", "detail"]),
        "ornament": ornaments,
        "blank_zone": [
            {"name": "east", "rect": row(1490, -10, 110, 1300)},
            {"name": "west", "outline": [row(600, 0), row(660, 0), row(655, 900)]},
        ],
        "keep_clear": [
            {"name": "loop", "at": row(1200, 1150), "distance": length(50)},
            {"name": "splice", "rect": row(1800, 900, 20, 200), "distance": 0},
        ],
    }


def _rules(pick, length, some):
    warm = {
        "liner_temperature": pick([0, 31, "30.5 C", "70 F"]),
        "measured_temperature": pick([20, "68 °F"]),
        "expansion": pick([0, 0.0002, 1e-05]),
    }
    return {
        "dam_width": length(25),
        "dam_clearance": length(6),
        "edge_margin": pick([0, length(12)]),
        **some(other_widths=[False, True]),
        **some(set_out=[length(0.5)], liner_shrink=["0.1 %", 0.0015], panel_shrink=[0.0005, "1 %"]),
        **pick([{}, warm]),
    }


def _dams(pick, length, some):
    return {
        **pick([{}, {"widths": [length(40), length(25)]}]),
        **some(
            height=[length(19)],
            on_curve=["bent", "cut"],
            stock=[[length(3000), length(2440)]],
            kerf=[0, length(3)],
        ),
    }


def _curved(pick, length, row, some):
    return {
        "name": "drum",
        "form": pick(["convex", "concave"]),
        "radius": length(3000),
        **some(curved_axis=["x", "y"], neutral=[0.4, 0], size=[row(3100, 3100)]),
        **some(ends=["square", "plumb"]),
    }


def _panel(pick, length, row, some, mark, beds):
    wishes = pick([{}, {"must_show": ["heron"]}, {"must_show": ["heron"], "must_hide": ["rush"]}])
    return {
        "mark": mark,
        "size": row(520, 430.25),
        "quantity": pick([1, 12]),
        **({"bed": pick(beds)} if beds else {}),
        **some(
            measured_on=["back", "chord"],
            turn=["half"],
            tolerance=["small-unit", "architectural", [0, length(2)], ["-3 mm", length(2)]],
            due=[date(2026, 4, 1), "2026-03-31"],
        ),
        "thickness": length(18),
        **wishes,
    }


def _calendar(pick, some, beds):
    minutes = [0, 45, "1 h 30 min", "16 h", "25 min"]
    times = some(
        **dict.fromkeys(("set_out", "reset", "bed_change", "masking", "face_coat"), minutes),
        **dict.fromkeys(("backing", "cover", "demould"), minutes),
        haze=[[20, "50 min"], [0, 0]],
    )
    return some(
        start=[date(2026, 3, 2), "2026-03-03"],
        casts_per_day=[2],
        liners=[3],
        beds=[dict.fromkeys(beds, 2)],
        first=["finish"],
        opens=["06:30", time(7, 30)],
        closes=["15:45", time(17)],
        weekdays_off=[[], ["Sunday", "Friday"]],
        dates_off=[[date(2026, 4, 6), "2026-04-03"]],
        times=[times],
    )


def to_toml(top):
    """Return a job as TOML, whatever its values: each table inline, on a line of its own."""
    return "".join(f"{_text(key)} = {_text(value)}\n" for key, value in top.items())


def _text(value):
    if isinstance(value, dict):
        pairs = (f"{_text(key)} = {_text(each)}" for key, each in value.items())
        return f"{{{', '.join(pairs)}}}"
    if isinstance(value, list):
        return f"[{', '.join(map(_text, value))}]"
    is_day = isinstance(value, date | time)
    return value.isoformat() if is_day else json.dumps(value, ensure_ascii=False)
