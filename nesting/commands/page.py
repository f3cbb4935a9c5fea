"""The command ``nesting page``: a page in the browser on which sizes are tried on one liner.

Only click is imported before the command runs.
"""

from pathlib import Path

import click

from nesting.commands.options import command
from nesting.commands.say import say

USUAL_PORT = 8120


@command(
    "Try sizes on a liner in the browser and see the dams move.",
    click.argument("job_file", metavar="JOB"),
    click.option(
        "--port",
        type=click.IntRange(0, 65535),
        default=USUAL_PORT,
        metavar="N",
        help=f"Serve on this port, 0 for any that is free; {USUAL_PORT} unless given.",
    ),
    click.option(
        "--lan",
        is_flag=True,
        help="Serve the whole network, a tablet say, under an address nobody can guess.",
    ),
)
def page(job_file: str, port: int, lan: bool) -> None:
    """Serve a page on which sizes are tried on the liner of JOB, until Ctrl-C.

    JOB is a liner file or a job, whose order is ignored. Type or drag a panel's width and
    height: dams and places move with it, and where it does not fit the reason and the nearest
    sizes that do are told, as by nesting fit. The page saves nothing and changes nothing; it
    is served to this machine alone unless --lan is given.
    """
    from nesting.bench.server import PageServer
    from nesting.jobs.read import read_job

    job = read_job(Path(job_file), order_needed=False)
    with PageServer(job, Path(job_file).name, port, lan=lan) as server:
        say(f"Liner {job.liner.name!r}: open {server.address} in a browser; Ctrl-C ends it.")
        if lan:
            say("Whoever has this address can see the liner; it goes unencrypted.")
        server.serve_forever(poll_interval=0.1)
