"""The schema command."""

import json

from nesting.cli import run
from nesting.jobs.schema import job_schema


def test_the_schema_is_printed_as_json(capsys):
    """In ASCII, and nothing else, so that it can be sent into a file on any system."""
    assert run(["schema"]) == 0
    text = capsys.readouterr().out
    assert text.isascii()
    assert json.loads(text) == job_schema()
    assert json.loads(text)["$schema"] == "https://json-schema.org/draft/2020-12/schema"
