"""A process of our own for answers that take their time, so that quick ones need not wait.

Only the newest question matters to somebody who is trying sizes: an older one that is still being
worked on is given a moment and is then stopped, together with its process.
"""

import os
import signal
import threading
import time
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection

from nesting.bench.answers import AnswerPart, Asked, TryOut
from nesting.errors import InputError
from nesting.files.document import to_line
from nesting.values.job import Job

PATIENCE_S = 2.0
"""How long an outrun question is given to end by itself, which saves the start of a process."""

_LOOK_S = 0.05


class Aside:
    """Answers one question at a time in another process, which starts at once."""

    def __init__(self, job: Job, file: str) -> None:
        self._given = job, file
        self._turn = threading.Lock()
        self._newest = 0
        self._start()

    def answer(self, part: AnswerPart, asked: Asked) -> str | None:
        """Return the answer as JSON, or None where a newer question came before it was found.

        Raises InputError as `TryOut.answer` does, RuntimeError where the process failed.
        """
        self._newest += 1
        mine = self._newest
        with self._turn:
            if mine != self._newest:
                return None
            try:
                self._pipe.send((part, asked))
                return self._receive() if self._await(mine) else None
            except (EOFError, ConnectionError) as error:
                self._start_anew()
                raise RuntimeError("the process that works on slow answers ended") from error

    def close(self) -> None:
        """End the process."""
        self._process.terminate()
        self._process.join()
        self._pipe.close()

    def _start(self) -> None:
        context = get_context("spawn")
        self._pipe, theirs = context.Pipe()
        self._process = context.Process(target=_work, args=(theirs, *self._given), daemon=True)
        self._process.start()
        theirs.close()

    def _start_anew(self) -> None:
        self.close()
        self._start()

    def _await(self, mine: int) -> bool:
        """Wait for the answer; False where it was given up for a newer question."""
        outrun_at = 0.0
        while not self._pipe.poll(_LOOK_S):
            if mine == self._newest:
                continue
            outrun_at = outrun_at or time.monotonic()
            if time.monotonic() - outrun_at > PATIENCE_S:
                self._start_anew()
                return False
        return True

    def _receive(self) -> str:
        kind, text = self._pipe.recv()
        if kind == "refused":
            raise InputError("", text.removesuffix("."))
        if kind == "failed":
            raise RuntimeError(text)
        return str(text)


def _work(pipe: Connection, job: Job, file: str) -> None:
    """Answer question after question until the other end is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server, which ends this too
    if hasattr(os, "nice"):
        os.nice(5)
    tryout = TryOut(job, file)
    with suppress(EOFError, OSError):
        while True:
            pipe.send(_answer(tryout, *pipe.recv()))


def _answer(tryout: TryOut, part: AnswerPart, asked: Asked) -> tuple[str, str]:
    try:
        return "answer", to_line(tryout.answer(part, asked))
    except InputError as error:
        return "refused", str(error)
    except Exception as error:
        return "failed", f"{type(error).__name__}: {error}"
