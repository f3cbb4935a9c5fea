"""The keys of a job's tables for quantities and for the calendar; no plan depends on them."""

from fractions import Fraction

from nesting.files.dates import read_date, read_minutes, read_time
from nesting.files.keys import Inner, Key, Keys
from nesting.files.lengths import LengthReaders
from nesting.files.readers import read_choice, read_name, read_names, read_whole
from nesting.jobs.readers import (
    MOST_BEDS,
    read_counts,
    read_dates,
    read_density,
    read_hours,
    read_mass,
    read_price,
    read_share,
    read_weekdays,
    read_window,
)
from nesting.masses import KG_PER_LB, M_PER_FT
from nesting.values.material import (
    BACKING_MIX,
    FACE_MIX,
    INGREDIENTS,
    LIFTING,
    RUBBER,
    Mix,
    default_batching,
    default_material,
)
from nesting.values.shopdays import NO_DUE, USUAL_DAYS

MOST_A_DAY = 8
"""Most casts of one liner in a day."""


def list_shop_keys(lengths: LengthReaders) -> dict[str, Key | Inner]:
    """Return the tables by their names."""
    says = "for `nesting quantities` only"
    mixes = {
        "face": Inner(mix_keys(lengths, FACE_MIX), "the face coat's mix"),
        "backing": Inner(mix_keys(lengths, BACKING_MIX), "the backing's mix"),
    }
    return {
        "material": Inner(material_keys(lengths), says),
        "mix": Inner(Keys(mixes), says),
        "batch": Inner(batch_keys(lengths), says),
        "rubber": Inner(rubber_keys(lengths), says),
        "lifting": Inner(lifting_keys(lengths), says),
        "prices": Inner(prices_keys(lengths), says, stated=True),
        "calendar": Inner(calendar_keys(), "for `nesting calendar`"),
    }


def material_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[material]``."""
    usual, own = default_material(lengths.units), "of a panel without a `thickness` of its own"
    coat, least = "how much of it is face coat", "what a hollow must leave, or there is a warning"
    return Keys(
        {
            "thickness": Key(lengths.positive, own, usual.thickness),
            "face_coat": Key(lengths.not_negative, coat, usual.face_coat),
            "least_thickness": Key(lengths.not_negative, least, usual.least_thickness),
        }
    )


def mix_keys(lengths: LengthReaders, usual: Mix) -> Keys:
    """Return the keys of one of the two mixes; ``usual`` has its defaults."""
    cement, density = "the cement", read_density(lengths.units)
    solids = read_share("the dispersion", 1, least=Fraction(1, 10))
    spellings = {
        "sand": (read_share(cement, 10), "share of the cement"),
        "water": (read_share(cement, 2), "all the water, that of the dispersion counted"),
        "polymer": (read_share(cement, 1), "solids of the polymer dispersion"),
        "dispersion_solids": (solids, "its solids; the rest is water"),
        "plasticiser": (read_share(cement, 1), "it counts as no water"),
        "pigment": (read_share(cement, 1), "share of the cement"),
        "fibre": (read_share("the whole", 1, below=True), "share of the whole"),
        "wet_density": (density, "density when sprayed"),
        "cured_density": (density, "density when cured"),
    }
    return Keys({name: Key(*told, getattr(usual, name)) for name, told in spellings.items()})


def batch_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[batch]``."""
    usual, mass = default_batching(lengths.units), read_mass(lengths.units)
    added = read_share("the mix in the panels", 2)
    return Keys(
        {
            "overspray": Key(added, "what misses the panel", usual.overspray),
            "loss": Key(added, "what stays in mixer, hose and pail", usual.loss),
            "mixer": Key(mass, "the most one batch may weigh", usual.mixer),
            "scale": Key(mass, "the division the scale shows", usual.scale),
        }
    )


def rubber_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[rubber]``."""
    density, days = read_density(lengths.units), "days for the model a second liner is made from"
    fill, leave = "to mix the rubber and fill the model", "until the liner leaves the model"
    return Keys(
        {
            "density": Key(density, "density of the liner's rubber", RUBBER.density),
            "model_days": Key(read_whole(0, 1000), days, RUBBER.model_days),
            "making_hours": Key(read_hours, fill, RUBBER.making_hours),
            "demould_hours": Key(read_hours, leave, RUBBER.demould_hours),
            "second": Inner(second_keys(lengths), "a second liner to be reckoned", stated=True),
        }
    )


def second_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[rubber.second]``."""
    return Keys(
        {
            "size": Key(lengths.size, "`[width, height]`"),
            "thickness": Key(lengths.positive, "length > 0", None),
            "ornaments": Key(read_names, "ornaments of `[liner]` it carries", ()),
        }
    )


def lifting_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[lifting]``."""
    mass, most = read_mass(lengths.units), "the most one person is reckoned to lift"
    points = "lifting points that share a panel's mass"
    return Keys(
        {
            "points": Key(read_whole(1, 100), points, LIFTING.points),
            "hand_limit": Key(mass, most, LIFTING.hand_limit),
        }
    )


def prices_keys(lengths: LengthReaders) -> Keys:
    """Return the keys of ``[prices]``."""
    metric = lengths.units == "mm"
    by_mass = read_price(Fraction(1) if metric else KG_PER_LB)
    by_length = read_price(Fraction(1) if metric else M_PER_FT)
    return Keys(
        {
            "currency": Key(read_name, "name", ""),
            **{name: Key(by_mass, "price of each, per kg", None) for name in INGREDIENTS},
            "rubber": Key(by_mass, "price per kg or per lb", None),
            "dam": Key(by_length, "price of the strip dams are cut from, per m or per ft", None),
            "liner": Key(read_price(), "price of this liner", None),
            "pulls": Key(read_whole(1, 1_000_000), "casts expected of this liner", None),
        },
        {"dependentRequired": {"liner": ["pulls"]}},
    )


def calendar_keys() -> Keys:
    """Return the keys of ``[calendar]``."""
    usual, hours = USUAL_DAYS, "all work but curing lies between them"
    a_day, first = "how many casts one liner takes in a day", "what goes first among orders late"
    return Keys(
        {
            "start": Key(read_date, "the first day of work", NO_DUE),
            "casts_per_day": Key(read_whole(1, MOST_A_DAY), a_day, 1),
            "liners": Key(read_whole(1, MOST_BEDS), "equal liners", 1),
            "beds": Key(read_counts, "how many beds there are of a name", ()),
            "first": Key(read_choice("changes", "finish"), first, usual.first),
            "opens": Key(read_time, hours, usual.opens),
            "closes": Key(read_time, hours, usual.closes),
            "weekdays_off": Key(read_weekdays, "list of weekdays", usual.weekdays_off),
            "dates_off": Key(read_dates, "list of dates", ()),
            "times": Inner(times_keys(), "one table"),
        }
    )


def times_keys() -> Keys:
    """Return the keys of ``[calendar.times]``."""
    says = {
        "set_out": "laying the first dams on a liner",
        "reset": "laying the dams of another layout",
        "bed_change": "moving a liner to another bed",
        "masking": "masking other bays under the same dams",
        "face_coat": "duration",
        "haze": "the window after the face coat in which the backing is begun, judged by eye",
        "backing": "duration",
        "cover": "least time under cover before demoulding",
        "demould": "duration",
    }
    usual = USUAL_DAYS.times
    return Keys(
        {
            name: Key(read_window if name == "haze" else read_minutes, text, getattr(usual, name))
            for name, text in says.items()
        }
    )
