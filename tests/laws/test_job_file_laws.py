"""A job file is written, read and told of by one list of keys: whatever uses it agrees."""

import json
import re
from copy import deepcopy
from datetime import date, time
from random import Random

from anyjob import draw_job, every, to_toml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker

from nesting.errors import InputErrors
from nesting.files.keys import Inner
from nesting.files.lengths import LengthReaders
from nesting.jobs.keys import job_keys
from nesting.jobs.read import read_job_text
from nesting.jobs.schema import schema_to_json
from nesting.jobs.write import write_job

SCHEMA = json.loads(schema_to_json())
SEEDS = st.integers(0, 2**32)
EDITOR = Draft202012Validator(SCHEMA, format_checker=FormatChecker())


def as_json(value):
    """Return what TOML holds as an editor hands it on: days and times as text."""
    if isinstance(value, dict):
        return {key: as_json(each) for key, each in value.items()}
    if isinstance(value, list):
        return [as_json(each) for each in value]
    return value.isoformat() if isinstance(value, date | time) else value


def names_of(keys, path=""):
    """Return the dotted name of every key of a table and of those in it."""
    for name, key in keys.rows.items():
        yield f"{path}{name}"
        if isinstance(key, Inner):
            yield from names_of(key.keys, f"{path}{name}.")


def given_of(table, path=""):
    """Return the dotted names of the keys that nested tables give."""
    for name, value in table.items():
        yield f"{path}{name}"
        for each in value if isinstance(value, list) else [value]:
            if isinstance(each, dict):
                yield from given_of(each, f"{path}{name}.")


def test_the_generated_jobs_know_every_key():
    """But for a liner file, and the liner's size where it has an outline."""
    keys = set(names_of(job_keys(LengthReaders("mm"))))
    assert keys - set(given_of(draw_job(every))) == {"liner.file", "liner.size"}


def test_a_job_with_every_key_reads_back_equal():
    """None of its values is that of a key left out."""
    job = read_job_text(to_toml(draw_job(every)), "job")
    assert read_job_text(write_job(job), "job") == job


@given(SEEDS)
@settings(max_examples=100)
def test_a_written_job_reads_back_equal(seed):
    """Over every table, in both units, its liner as drawn; and it is written the same again."""
    job = read_job_text(to_toml(draw_job(Random(seed).choice)), "job")
    text = write_job(job, ["a remark"])
    again = read_job_text(text, "job")
    assert again == job
    assert write_job(again, ["a remark"]) == text


@given(SEEDS)
@settings(max_examples=100)
def test_the_schema_accepts_every_job_that_is_read(seed):
    """Whatever the units, and however its values are spelled."""
    top = as_json(draw_job(Random(seed).choice))
    assert [each.message for each in EDITOR.iter_errors(top)] == []


BROKEN = [
    *(True, -1, 0, 0.25, 7, 1e9, [], {}, [1], [1, 2], [1, 2, 3], [[1, 2]], {"a": 1}, [True]),
    *("", " ", "x ", "a/b", 'a"b', "a\tb", "x" * 61, "x" * 201, "detail", "Heron", "none", "flat"),
    *("1,5 mm", "12 kg", "12 kilo", "5 %", "-5 %", "mm", "-3 mm", "0 mm", "0.0 in", "1e3 mm"),
    *("3 - 1/2 in", "12 ft ft", "2 t/m3", "20 C", "20 K", "90 min", "1 h 30", "h", "25:00", "7:00"),
    *("07:00:30", "2026-02-30", "2026-3-2", "1999-12-31", "2200-01-01", ["Sunday", "Sonntag"]),
    *(["heron", "heron"], ["x", 3], ["-1 mm", "1 mm"], ["1 mm", "2 mm"], [5, -5], [10, "x"]),
    *([{}], [{"name": "z"}], ["Monday"]),
]
BEYOND = [
    "there is no such (bed|ornament)",
    "each one needs a (name|mark) of its own",
    "must (lie on|keep its shape|leave a size|not repeat|be there for|be later than opens)",
    "must bound one area|different points",
    "must be .*(thickness|face coat's|scale|on bed|divisions|the water|least <= most)",
    "this key is needed where (there are several beds|measured_on is back)",
    "must be (>= .* as a share of|from .* C$|from .* kg/m3|from 0 to below 0.1|.* minutes$)",
    "must be at most",
    "must (hold the liner|leave a face of radius)|must be square where",
]
"""What only the reader can judge: geometry, names elsewhere, numbers in texts or on each other."""


def spots_of(value):
    """Return every place in nested tables and lists: what holds it, and its key there."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value)
    for key, each in pairs:
        yield value, key
        if isinstance(each, dict | list):
            yield from spots_of(each)


def rules_broken(top):
    """Return the rules of the reader that a job breaks."""
    try:
        read_job_text(to_toml(top), "job")
    except InputErrors as errors:
        return [each.rule for each in errors.errors]
    return []


@given(SEEDS)
@settings(max_examples=500)
def test_schema_and_reader_refuse_the_same(seed):
    """One value exchanged, one key taken away or one too many; the reader judges more besides."""
    pick = Random(seed).choice
    top = draw_job(pick)
    where, key = pick(list(spots_of(top)))
    change = pick(["exchange", "exchange", "exchange", "drop", "add"])
    if change == "exchange":
        where[key] = deepcopy(pick(BROKEN))
    elif change == "drop":
        del where[key]
    elif isinstance(where, dict):
        where[pick(["size", "outline", "file", "radius", "zz", "name"])] = 3
    broken = rules_broken(top)
    if EDITOR.is_valid(as_json(top)):
        assert [rule for rule in broken if not re.search("|".join(BEYOND), rule)] == []
    else:
        assert broken, [each.message for each in EDITOR.iter_errors(as_json(top))]


def test_the_schema_is_one_of_its_draft():
    """And names no pattern that needs more than the oldest dialects know."""
    Draft202012Validator.check_schema(SCHEMA)
    assert not re.search(r"\(\?(?![:=!])|\\[pdwAZ]", schema_to_json())
