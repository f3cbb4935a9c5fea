"""Stand-ins for what commands call, so that each ending can be brought about."""

import sys
from importlib import import_module
from types import SimpleNamespace

from ferry import make_ferry_job, make_ferry_schedule

from nesting.files.marks import DXF_MARK
from nesting.values.casts import totals

SCHEDULE_JSON = '{"format": "nesting-schedule", "layouts": [{"layout": 1}]}\n'
FILES = {"schedule.json": SCHEDULE_JSON, "layout-01.svg": "<svg/>", "overview.svg": "<svg/>"}
RESULT = (
    "Ferry terminal, waiting hall: 7 casts, 1 set of dams, 1 layout; at least 7 needed; "
    "fewest casts PROVED.\n"
)


class Shop:
    """Stand-ins for the pieces the commands call, and what they were called with."""

    def __init__(self):
        self.schedule = make_ferry_schedule()
        self.findings = ()
        self.stated = None
        self.trouble = {}
        self.called = []
        self.limit = None
        self.progress = ("bound 7", "7 casts")

    def pass_through(self, piece, value):
        """Note that the piece was called, then return its value or raise its trouble."""
        self.called.append(piece)
        if piece in self.trouble:
            raise self.trouble[piece]
        return value

    def schedule_casts(self, job, *, time_limit=None, progress=None):
        """Speak of progress where somebody listens, and return the schedule."""
        self.limit = time_limit
        for word in self.progress if progress else ():
            progress(word)
        return self.pass_through("search", self.schedule)


def stand_in(monkeypatch):
    """Put the stand-ins in place of the pieces, and return them."""
    import_module("nesting.schedules.findings")  # or it would keep the stand-ins it finds
    shop = Shop()
    pieces = {
        "jobs.read": {"read_job": lambda path: shop.pass_through("job", make_ferry_job())},
        "planning.schedule": {"schedule_casts": shop.schedule_casts},
        "checking.schedule": {
            "check_schedule": lambda job, plan: shop.pass_through("check", shop.findings)
        },
        "schedules.write": {
            "schedule_to_json": lambda schedule, job: SCHEDULE_JSON,
            "read_schedule": lambda path: shop.pass_through("read", shop.schedule),
            "read_totals": lambda path: shop.stated or totals(shop.schedule),
        },
        "drawings.planfiles": {
            "write_plan_files": lambda job, plan, drawn, dxf: shop.pass_through(
                "draw", FILES | ({"layout-01.dxf": DXF_MARK} if dxf else {})
            )
        },
    }
    for name, functions in pieces.items():
        monkeypatch.setitem(sys.modules, f"nesting.{name}", SimpleNamespace(**functions))
    return shop


def read_folder(folder):
    """Return the text of each file in the folder by its name."""
    return {path.name: path.read_text() for path in folder.iterdir()}
