"""The chart of a calendar: a row for each liner and each bed, a column for each day.

Nothing is decided here. A layout has its number, its tint and its hatch, so that the chart reads in
black and white; days off are narrow and grey.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cached_property, partial

from nesting.days.sheet import ChartSheet, divide_sheet
from nesting.drawings.compose import Head, lay_out
from nesting.drawings.hatching import hatch
from nesting.drawings.key import MOST_WIDTH, KeyRow, divide_foot, draw_key, explain, list_notes
from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.ordinates import HEIGHT
from nesting.drawings.record import Area, AreaStyle, Drawing, Layer, Line, Rect, Shape, Text
from nesting.files.columns import count_of
from nesting.values.calendar import CastCalendar, DayCast, Due
from nesting.values.job import Job
from nesting.values.names import liner_name
from nesting.values.shopdays import is_working

_SMALL = 3.0
_TINTS: tuple[AreaStyle, ...] = ("tint_1", "tint_2", "tint_3", "tint_4", "tint_5", "tint_6")
_OFF_WEIGHT = 0.3
_INSET = 0.4
_LETTERS = {"set out": "S", "re-set": "R", "bed change": "B", "mask": "M"}
_MEANINGS = {
    "set out": "dams set out",
    "re-set": "dams re-set",
    "bed change": "bed change",
    "mask": "bays masked",
}
_HAZE = (
    "The haze wait within a cast is a window, judged by eye; times of the day are in the report."
)


@dataclass(frozen=True)
class _Chart:
    """What is to be shown, worked out once."""

    job: Job
    calendar: CastCalendar

    @cached_property
    def days(self) -> tuple[date, ...]:
        """Every day from the start to the finish."""
        span = (self.calendar.finish - self.calendar.start).days
        return tuple(self.calendar.start + timedelta(days=n) for n in range(span + 1))

    @cached_property
    def rows(self) -> tuple[str, ...]:
        """The names of the rows."""
        return (
            *(liner_name(n).capitalize() for n in self.liners),
            *(self.bed_name(*bed) for bed in self.beds),
        )

    @cached_property
    def liners(self) -> tuple[int, ...]:
        """The liners in use."""
        return tuple(sorted({cast.liner for cast in self.calendar.casts}))

    @cached_property
    def beds(self) -> tuple[tuple[str, int], ...]:
        """The beds in use, in the order of the job."""
        order = [bed.name for bed in self.job.beds]
        used = {(cast.bed, cast.bed_number) for cast in self.calendar.casts}
        return tuple(sorted(used, key=lambda bed: (order.index(bed[0]), bed[1])))

    @cached_property
    def layouts(self) -> tuple[DayCast, ...]:
        """One cast of each layout, by number."""
        first = {cast.layout: cast for cast in reversed(self.calendar.casts)}
        return tuple(first[number] for number in sorted(first))

    @cached_property
    def dues(self) -> dict[int, str]:
        """What is due on each day of the chart that has a due date, by the day's number."""
        days: dict[int, list[Due]] = {}
        for due in self.calendar.dues:
            days.setdefault((due.due - self.days[0]).days, []).append(due)
        shown = {day: dues for day, dues in sorted(days.items()) if 0 <= day < len(self.days)}
        return {day: _due_words(dues) for day, dues in shown.items()}

    @cached_property
    def meanings(self) -> tuple[str, ...]:
        """What the letters and lines mean, of those that are shown."""
        tasks = {task.name for cast in self.calendar.casts for task in cast.before}
        shown = [f"{_LETTERS[name]} {words}" for name, words in _MEANINGS.items() if name in tasks]
        lines = ["Line behind a block: under cover."]
        if any(self.weight(day) < 1 for day in self.days):
            lines.append("Grey: day off.")
        if self.dues:
            lines.append("Thick dashes: end of a due date's day.")
        above = f"{', '.join(shown)}; on" if shown else "On"
        return f"{above} a bed's row the liner", " ".join(lines), _HAZE

    def bed_name(self, name: str, number: int) -> str:
        """Return the bed's name, with a number where there are several."""
        return f"Bed {self.job.shop.name_bed(name, number)}"

    def look(self, layout: int) -> int:
        """Return which tint and hatch a layout has."""
        return [cast.layout for cast in self.layouts].index(layout)

    def weight(self, day: date) -> float:
        """Return how wide a day is, a working day being 1."""
        return 1.0 if is_working(self.job.shop, day) else _OFF_WEIGHT


def draw_calendar(job: Job, calendar: CastCalendar) -> Drawing:
    """Return the chart on the smallest paper that holds it, in bands of days where it is long."""
    chart = _Chart(job, calendar)
    key = tuple(_key_rows(chart))
    lanes = range(len(chart.dues) + 1)
    sheets = (_divide(chart, key, count) for count in lanes)
    sheet = next(sheet for sheet in sheets if _holds_dues(chart, sheet))
    bands = [shape for band in range(len(sheet.bands)) for shape in _draw_band(chart, sheet, band)]
    head = Head(
        "calendar",
        f"{calendar.job}: casting calendar",
        f"{len(calendar.casts)} casts from {calendar.start} to {calendar.finish}, "
        "a row for each liner and each bed, a column for each day.",
        job.units,
        ((calendar.job, "Casting calendar"), (_dates(calendar),), (_counts(calendar),)),
    )
    days = Layer("days", tuple(bands))
    return lay_out(head, sheet, [days], draw_key(sheet.key, sheet.key_columns, key))


def draw_calendar_key(job: Job, calendar: CastCalendar, width: float) -> Drawing:
    """Return the key of the chart alone, in as many columns as the width [mm] holds."""
    key = tuple(_key_rows(_Chart(job, calendar)))
    columns, ground = divide_foot(Rect(0, 0, width, 0), key)
    return Drawing(
        "calendar-key",
        width,
        ground.height,
        f"{calendar.job}: key of the calendar",
        "What the chart of the calendar shows.",
        (Layer("key", draw_key(ground, columns, key)),),
    )


def _divide(chart: _Chart, key: Sequence[KeyRow], lanes: int) -> ChartSheet:
    return divide_sheet(
        chart.job.units,
        [chart.weight(day) for day in chart.days],
        rows=len(chart.rows),
        lanes=lanes,
        label=max(words_width(name, HEIGHT) for name in chart.rows) + 2,
        key=key,
    )


def _draw_band(chart: _Chart, sheet: ChartSheet, band: int) -> list[Shape]:
    """Return one band: its frame, then casts, then due dates."""
    shapes = _draw_frame(chart, sheet, band)
    for cast in chart.calendar.casts:
        letters = " ".join(dict.fromkeys(_LETTERS[task.name] for task in cast.before))
        liner = chart.liners.index(cast.liner)
        bed = len(chart.liners) + chart.beds.index((cast.bed, cast.bed_number))
        shapes += _draw_lead(chart, sheet, band, liner, cast)
        shapes += _draw_cast(chart, sheet, band, liner, cast, letters)
        shapes += _draw_cast(chart, sheet, band, bed, cast, liner_name(cast.liner))
    return shapes + _draw_dues(chart, sheet, band)


def _draw_frame(chart: _Chart, sheet: ChartSheet, band: int) -> list[Shape]:
    grid = sheet.grid(band)
    shapes: list[Shape] = []
    named, free_from = (0, 0), grid.x0
    for index in sheet.bands[band]:
        day, (x0, x1) = chart.days[index], sheet.column(index)
        middle, top = (x0 + x1) / 2, sheet.head(band)
        if chart.weight(day) < 1:
            shapes.append(Area((Rect(x0, grid.y0, x1, grid.y1).ring,), "closed"))
        else:
            shapes.append(Text(middle, top - 9.2, f"{day:%a}", HEIGHT, "plain", "middle"))
            shapes.append(Text(middle, top - 14.2, str(day.day), HEIGHT, "bold", "middle"))
        month = Text(max(x0, free_from), top - 4.2, f"{day:%B} {day.year}", HEIGHT, "bold")
        if (day.year, day.month) != named and month.rect.x1 <= sheet.inside.x1 - 1:
            shapes.append(month)
            named, free_from = (day.year, day.month), month.rect.x1 + 4
        shapes.append(Line(((x1, grid.y0), (x1, grid.y1)), "witness"))
    for row, name in enumerate(chart.rows):
        low, high = sheet.row(band, row)
        shapes.append(Line(((sheet.left, low), (grid.x1, low)), "rule"))
        shapes.append(Text(sheet.left + 1, (low + high - HEIGHT) / 2, name, HEIGHT))
    first_bed = sheet.row(band, len(chart.liners) - 1)[0]
    shapes.append(Line(((sheet.left, first_bed), (grid.x1, first_bed)), "rim"))
    return [*shapes, Line((*grid.ring, grid.ring[0]), "rule")]


def _draw_lead(chart: _Chart, sheet: ChartSheet, band: int, row: int, cast: DayCast) -> list[Shape]:
    """Return an empty block for each shift before the cast's own in which dams are set out."""
    low, high = sheet.row(band, row)
    own = _shift_at(chart, cast.task("face coat").begins)
    shapes: list[Shape] = []
    for task in cast.before:
        day, share = _shift_at(chart, task.begins)
        if (day, share) != own and day in sheet.bands[band]:
            x0, x1 = sheet.column(day)
            left = x0 + share * (x1 - x0)
            right = left + (x1 - x0) / chart.job.shop.casts_per_day
            block = Rect(left, low, right, high).grown(-_INSET)
            words = Text(block.x0 + 0.7, block.y1 - 0.9 - _SMALL, _LETTERS[task.name], _SMALL)
            shapes += [Line((*block.ring, block.ring[0]), "rule"), words]
    return shapes


def _draw_cast(
    chart: _Chart, sheet: ChartSheet, band: int, row: int, cast: DayCast, letters: str
) -> list[Shape]:
    """Return the block of a cast on one row, and the line of its cover up to the demoulding."""
    low, high = sheet.row(band, row)
    begin = _shift_at(chart, cast.task("face coat").begins)
    end = _shift_at(chart, cast.demould.begins)
    shapes: list[Shape] = []
    days = (cast.day - chart.days[0]).days
    middle = (low + high) / 2
    for index in sheet.bands[band]:
        x0, x1 = sheet.column(index)
        stop = x0 + (end[1] if index == end[0] else 1.0) * (x1 - x0)
        if index > days and (index, 0.0) < end:
            shapes.append(Line(((x0, middle), (stop, middle)), "rim"))
        if index == days:
            left = x0 + begin[1] * (x1 - x0)
            right = left + 1 / chart.job.shop.casts_per_day * (x1 - x0)
            shapes.append(Line(((right, middle), (stop, middle)), "rim"))
            shapes += _draw_block(chart, cast, Rect(left, low, right, high).grown(-_INSET), letters)
    return shapes


def _draw_block(chart: _Chart, cast: DayCast, block: Rect, letters: str) -> list[Shape]:
    look = chart.look(cast.layout)
    base = block.y0 + max(1.2, (block.height - _SMALL - HEIGHT) / 2 - 0.6)
    number = Text(block.centre[0], base, str(cast.layout), HEIGHT, "bold", "middle")
    plate = Area((number.rect.grown(0.3).ring,), "plate")
    shapes: list[Shape] = [*_tinted(look, block), plate, number]
    fitting = shorten(letters, block.width - 1.4, _SMALL)
    if fitting:
        words = Text(block.x0 + 0.7, block.y1 - 0.9 - _SMALL, fitting, _SMALL)
        shapes += [Area((words.rect.grown(0.2).ring,), "plate"), words]
    return shapes


def _shift_at(chart: _Chart, moment: datetime) -> tuple[int, float]:
    """Return the day a moment lies in, and the share of the day before its shift."""
    shop = chart.job.shop
    opens = datetime.combine(moment.date(), shop.opens)
    shift = int((moment - opens).total_seconds() // 60 // shop.shift_minutes)
    shift = min(shift, shop.casts_per_day - 1)
    return (moment.date() - chart.days[0]).days, shift / shop.casts_per_day


def _due_words(dues: Sequence[Due]) -> str:
    marks = [f"{due.mark} ({due.days_late} d late)" if due.days_late else due.mark for due in dues]
    return f"due {', '.join(marks)}"


def _holds_dues(chart: _Chart, sheet: ChartSheet) -> bool:
    """Whether every due date finds a line of its band where it meets no other."""
    placed = sum(len(_place_dues(chart, sheet, band)) for band in range(len(sheet.bands)))
    return placed == len(chart.dues) or sheet.lanes == len(chart.dues)


def _place_dues(chart: _Chart, sheet: ChartSheet, band: int) -> list[tuple[Line, Text]]:
    """Return line and words of each due date of a band, on the lowest line where both are free.

    On as many lines as there are due dates, words may stand on another's line, never on words.
    """
    grid = sheet.grid(band)
    taken: list[Rect] = []
    placed: list[tuple[Line, Text]] = []
    for day, words in chart.dues.items():
        x = sheet.column(day)[1]
        for lane in range(sheet.lanes if day in sheet.bands[band] else 0):
            y = sheet.lane(band, lane)
            fitting = shorten(words, max(x - grid.x0, grid.x1 - x) - 2, HEIGHT)
            on_left = x - grid.x0 >= words_width(fitting, HEIGHT) + 2
            text = Text(x - 1.2, y, fitting, HEIGHT, "plain", "end")
            if not on_left:
                text = Text(x + 1.2, y, fitting, HEIGHT)
            stem = Rect(x - 0.8, grid.y1, x + 0.8, y + HEIGHT)
            ground = [text.rect] if sheet.lanes == len(chart.dues) else [stem, text.rect]
            if not any(rect.overlaps(other) for rect in ground for other in taken):
                taken += ground
                line = Line(((x, grid.y0), (x, y + HEIGHT)), "edge_side")
                placed.append((line, text))
                break
    return placed


def _draw_dues(chart: _Chart, sheet: ChartSheet, band: int) -> list[Shape]:
    placed = _place_dues(chart, sheet, band)
    shapes: list[Shape] = [line for line, _ in placed]
    for _, text in placed:
        shapes += [Area((text.rect.ring,), "plate"), text]
    return shapes


def _key_rows(chart: _Chart) -> Iterator[KeyRow]:
    """Yield layouts with their looks, due dates beyond the chart, and what letters mean."""
    for look, cast in enumerate(chart.layouts):
        counts = {mark: cast.marks.count(mark) for mark in cast.marks}
        marks = ", ".join(m if n == 1 else f"{n} × {m}" for m, n in counts.items())  # noqa: RUF001
        words = f"Layout {cast.layout}: {marks}, on {cast.bed}"
        yield from explain(words, MOST_WIDTH, partial(_tinted, look))
    for due in chart.calendar.dues:
        if not 0 <= (due.due - chart.days[0]).days < len(chart.days):
            late = f", {count_of(due.days_late, 'day')} late" if due.days_late else ""
            yield from explain(f"Due beyond the chart: {due.mark} {due.due}{late}", MOST_WIDTH)
    yield from list_notes(chart.meanings, MOST_WIDTH)


def _tinted(look: int, ground: Rect) -> tuple[Shape, ...]:
    """Return ground with the tint and the hatch of a layout."""
    tint = Area((ground.ring,), _TINTS[look % len(_TINTS)])
    return tint, *hatch(ground, look), Line((*ground.ring, ground.ring[0]), "rule")


def _dates(calendar: CastCalendar) -> str:
    return (
        f"{calendar.start:%A} {calendar.start} to {calendar.finish:%A} {calendar.finish}, "
        f"{calendar.days.value} working days"
    )


def _counts(calendar: CastCalendar) -> str:
    casts, resets = count_of(len(calendar.casts), "cast"), count_of(calendar.resets, "re-set")
    changes = count_of(calendar.bed_changes, "bed change")
    return f"{casts}, {resets}, {changes}; days late over all panels: {calendar.late.value}"
