"""The command ``nesting fit``: does a size fit a liner, or which liners of a folder give it.

Only click is imported before the command runs.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import prove_folder
from nesting.commands.options import command, exact_option, json_option, output_option
from nesting.commands.say import say, tell, written_to
from nesting.errors import InputError, install_words

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from nesting.fitting.screening import Answers, Question

EXIT_FILE_REFUSED = 2
CONNECT_S = 10
"""How long to wait for a scheduler."""


@command(
    "Tell whether a size fits a liner, where best, or what would fit.",
    click.argument("liner", metavar="LINER"),
    click.argument("sizes", metavar="SIZE...", nargs=-1, required=True),
    click.option("--bed", default="", metavar="NAME", help="Try this bed only; else every bed."),
    click.option(
        "--measured-on",
        type=click.Choice(["face", "back", "chord"]),
        default="face",
        help="Where the sizes are measured on a curved bed; face unless given.",
    ),
    click.option(
        "--thickness",
        default="",
        metavar="LENGTH",
        help="Of the panel, where it is measured on its back.",
    ),
    click.option(
        "--tolerance",
        default="",
        metavar="CLASS|LOW,HIGH",
        help="How far a size may differ where it has no place itself.",
    ),
    output_option("FOLDER", "Write drawings here."),
    click.option(
        "--processes",
        type=click.IntRange(1, 64),
        metavar="N",
        help="How many to work on a folder; as many as there are cores unless given.",
    ),
    click.option(
        "--scheduler", metavar="ADDRESS", help="Have a Dask cluster work on a folder instead."
    ),
    exact_option,
    json_option("the answers"),
)
def fit(
    liner: str,
    sizes: tuple[str, ...],
    output: str | None,
    processes: int | None,
    scheduler: str | None,
    exact: bool,
    as_json: bool,
    **options: str,
) -> int:
    """Tell whether panels of each SIZE have a place on LINER, and where it is best.

    LINER is a liner file or a job, whose order is ignored; or a folder of them, all of which
    are tried. A SIZE is written 1500x900, or "5 ft 3 in x 2 ft 11 1/2 in"; plain numbers are
    in the units of each liner. Where a size has no place, the reason is given, with the
    nearest sizes that have one and, for a single liner, the smallest change to it.
    """
    from nesting.files.clock import read_clock
    from nesting.fitting.screening import Question, list_liner_files, screen

    check_sizes(sizes)
    files = list_liner_files(Path(liner))
    if output is not None:
        prove_folder(output, {})
    alone = not Path(liner).is_dir()
    drawn = None if output is None else read_clock()
    questions = [
        Question(str(path), sizes, drawn=drawn, mends=alone, exact=exact, **options)  # type: ignore[arg-type]
        for path in files
    ]
    with choose_executor(questions, processes, scheduler) as executor:
        answers = screen(questions, executor)
    if alone and answers[0].errors:
        raise _Refused(answers[0].errors)
    if output is not None:
        write_drawings(output, answers)
    for each in answers:
        if each.errors:
            tell(each.errors)
    say(_json(answers) if as_json else _text(answers, output))
    return EXIT_FILE_REFUSED if any(each.errors for each in answers) else 0


class _Refused(InputError):
    """The errors of the one file, as they are."""

    def __init__(self, text: str) -> None:
        super().__init__("", text.removesuffix("."))


def check_sizes(sizes: Sequence[str]) -> None:
    """Refuse a size that is none in any units, before any file is read."""
    from nesting.files.sizes import parse_size

    for text in sizes:
        try:
            parse_size(text, "mm")
        except InputError:
            parse_size(text, "in")


@contextmanager
def choose_executor(
    questions: Sequence[Question], processes: int | None, scheduler: str | None
) -> Iterator[Executor | None]:
    """Yield who works on the questions: nobody else, processes of our own, or a cluster."""
    if scheduler is not None:
        with _cluster(scheduler) as executor:
            yield executor
        return
    count = min(processes or os.cpu_count() or 1, len(questions))
    if count < 2:
        yield None
        return
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    with ProcessPoolExecutor(count, mp_context=get_context("spawn")) as executor:
        yield executor


@contextmanager
def _cluster(address: str) -> Iterator[Executor]:
    """Yield an executor on the Dask cluster whose scheduler has that address."""
    try:
        from distributed import Client
    except ImportError as error:
        rule = "needs the package distributed"
        remedy = f"{install_words('cluster')}; or leave --scheduler out"
        raise InputError("--scheduler", rule, remedy=remedy) from error
    try:
        client = Client(address, timeout=CONNECT_S)  # type: ignore[no-untyped-call]
    except (OSError, ValueError, TimeoutError) as error:
        rule = "no scheduler answers there"
        remedy = "give it like tcp://host:8786"
        raise InputError("--scheduler", rule, got=repr(address), remedy=remedy) from error
    with client:
        yield client.get_executor(pure=False)  # type: ignore[no-untyped-call]


def write_drawings(folder: str, answers: Sequence[Answers]) -> None:
    """Write the drawings of all sizes that have a place, all or none: FILE-NN.svg."""
    from nesting.files.marks import MARK
    from nesting.files.output import write_into

    files = {
        f"{Path(each.path).stem}-{number:02d}.svg": text
        for each in answers
        for number, text in enumerate(each.drawings, start=1)
        if text
    }
    write_into(prove_folder(folder, dict.fromkeys(files, MARK)), files)


def _json(answers: Sequence[Answers]) -> str:
    from nesting.files.document import to_json

    records = [record for each in answers for record in each.records]
    return to_json("nesting-fit", 1, {"answers": records})


def _text(answers: Sequence[Answers], folder: str | None) -> str:
    from nesting.files.columns import count_of
    from nesting.tape import explain_beside

    texts = [
        text if len(answers) == 1 else f"{Path(each.path).name}: {text}"
        for each in answers
        for text in each.texts
    ]
    drawn = sum(bool(text) for each in answers for text in each.drawings)
    if told := explain_beside("\n".join(texts)):
        texts.append(told)
    if folder is not None:
        texts.append(written_to(folder, [count_of(drawn, "drawing")], ""))
    return "\n\n".join(texts)
