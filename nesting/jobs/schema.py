"""The JSON Schema of a job file, for editors: draft 2020-12, of the keys the reader goes by.

It sees one value at a time, and which keys stand together. That outlines are simple, ornaments lie
on the liner, names are there, and numbers hold against each other is for the reader alone; so are
numbers inside texts, and limits that depend on the units, of which it knows the wider.
"""

import json

from nesting.files.keys import table_schema
from nesting.files.lengths import LengthReaders, shared_schemas
from nesting.jobs.keys import job_keys


def job_schema() -> dict[str, object]:
    """Return the schema as it is written in JSON."""
    metric, inch = (job_keys(LengthReaders(units)) for units in ("mm", "in"))
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Job of nesting",
        "description": "A liner, a shop's rules, its beds and an order: docs/file-format.md.",
        **table_schema(metric, inch),
        "$defs": shared_schemas(),
    }


def schema_to_json() -> str:
    """Return the schema as JSON in ASCII, so that it survives every editor."""
    return json.dumps(job_schema(), indent=1)
