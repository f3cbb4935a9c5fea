"""Quantities as JSON and CSV: what the report says, in figures for other programs."""

import csv
import io
import json
from pathlib import Path

import pytest
from quantityjobs import PRICES, make_quantities

from nesting.amounts.export import CSV_MARKS, quantities_to_csv, quantities_to_json

PAGE = (Path(__file__).parents[3] / "docs" / "file-format.md").read_text(encoding="utf-8")


def load(**options):
    """Return the JSON document of the hand-sized job."""
    return json.loads(quantities_to_json(*make_quantities(**options)))


def test_masses_are_conserved_from_batch_to_order():
    """Ingredients sum to the batch, batches to the cast's need or more, casts to the order."""
    found = load()
    for cast in found["casts"]:
        for mix in (cast["face_coat"], cast["backing"]):
            assert sum(mix["ingredients"].values()) == pytest.approx(mix["one_batch_kg"])
            assert mix["all_batches_kg"] == pytest.approx(mix["one_batch_kg"] * mix["batches"])
            assert mix["all_batches_kg"] >= mix["need_kg"]
    wet = sum(cast["casts"] * cast["wet_kg"] for cast in found["casts"])
    assert wet == pytest.approx(found["order"]["wet_kg"])
    assert found["order"]["wet_lb"] * 0.45359237 == pytest.approx(wet)


def test_what_is_not_known_is_null():
    """No prices, no second liner: null, and no cost without a price."""
    found = load()
    assert (found["cost"], found["currency"], found["rubber"]["second"]) == (None, None, None)
    assert found["panels"][0]["material_cost"] is None
    assert load(prices=PRICES)["currency"] == "crowns"
    assert load(prices=PRICES)["unpriced"] == ["water", "dispersion", "plasticiser"]


def test_tables_hold_what_the_document_holds():
    """A row for each panel, cast, mix and day, with lists in one cell."""
    job, found = make_quantities(prices=PRICES)
    document = json.loads(quantities_to_json(job, found))
    files = quantities_to_csv(job, found)
    tables = {name: list(csv.DictReader(io.StringIO(text))) for name, text in files.items()}
    assert {name: len(rows) for name, rows in tables.items()} == {
        "panels.csv": 3,
        "casts.csv": 2,
        "batches.csv": 4,
        "days.csv": 2,
    }
    assert all("\r" not in text for text in files.values())
    first = tables["panels.csv"][0]
    assert (first["mark"], first["shows"]) == ("A1", "heron")
    assert float(first["wet_kg"]) == document["panels"][0]["wet_kg"]
    backing = tables["batches.csv"][1]
    assert (backing["layout"], backing["mix"]) == ("1", "backing")
    assert float(backing["fibre_kg"]) == document["casts"][0]["backing"]["ingredients"]["fibre_kg"]
    assert "face_coat" not in tables["casts.csv"][0]
    assert tables["days.csv"][0]["layouts"] == "1"


def test_a_comma_in_a_name_stays_in_its_cell():
    """Cells are quoted where they must be."""
    job, found = make_quantities()
    from dataclasses import replace

    row = found.panels[0]
    panel = replace(row.panel, mark='A,1"')
    found = replace(found, panels=(replace(row, panel=panel),))
    text = quantities_to_csv(job, found)["panels.csv"]
    assert next(csv.DictReader(io.StringIO(text)))["mark"] == 'A,1"'


def test_every_table_begins_with_what_it_is_known_by():
    """So that the command knows its own tables again; one without rows is empty."""
    tables = quantities_to_csv(*make_quantities())
    assert list(tables) == list(CSV_MARKS)
    assert [name for name, text in tables.items() if not text] in ([], ["days.csv"])
    assert all(text.startswith(CSV_MARKS[name]) for name, text in tables.items() if text)
