"""The command ``nesting schema``: what editors need to know of job files.

Only click is imported before the command runs.
"""

from nesting.commands.options import command
from nesting.commands.say import say


@command("Print the JSON Schema of job files, for editors.")
def schema() -> None:
    """Print the JSON Schema of job files, draft 2020-12, by which editors complete and check them.

    Keep it in a file beside your jobs, and begin each with: #:schema job.schema.json
    """
    from nesting.jobs.schema import schema_to_json

    say(schema_to_json())
