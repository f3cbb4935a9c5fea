"""What can go wrong, and the exit code each kind of trouble ends with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager


class NestingError(Exception):
    """Any trouble this project reports in one line; never shown as a traceback.

    It can be sent from one process to another with its attributes.
    """

    exit_code = 1

    def __reduce__(self) -> tuple[object, ...]:
        return _revive, (type(self), self.args), self.__dict__


def _revive(kind: type[NestingError], args: tuple[object, ...]) -> NestingError:
    """Return an error as `NestingError.__reduce__` took it apart, its attributes left aside."""
    return kind.__new__(kind, *args)


class InputError(NestingError, ValueError):
    """One mistake in what the user gave: where, the rule, the value got, what to do.

    Parameters
    ----------
    where
        File, line and key path as far as known, or the object: ``job.toml:5: liner.thickness``.
    rule
        The rule that was broken, with its unit: ``must be > 0 mm``.
    got
        The value found, as the user would recognise it; empty where there is none.
    remedy
        What to do about it, as a sentence without full stop; empty where the rule says it.

    Examples
    --------
    >>> print(InputError("panel[2].size", "width must be > 0 mm", got="-40 mm"))
    panel[2].size: width must be > 0 mm, got -40 mm.
    """

    exit_code = 2

    def __init__(self, where: str, rule: str, got: str = "", remedy: str = "") -> None:
        self.where, self.rule, self.got, self.remedy = where, rule, got, remedy
        text = f"{where}: {rule}" if where else rule
        text += f", got {got}" if got else ""
        text += f"; {remedy}" if remedy else ""
        super().__init__(text + ".")

    @property
    def errors(self) -> tuple[InputError, ...]:
        """Every mistake told: this one alone, unless there are several."""
        return (self,)


@contextmanager
def naming(where: str) -> Iterator[None]:
    """Have a mistake found inside be told of another place: an option, say, that gave the value."""
    try:
        yield
    except InputErrors:
        raise
    except InputError as error:
        raise InputError(where, error.rule, error.got, error.remedy) from error


class InputErrors(InputError):
    """All mistakes of one file together, one line each, in the order of the file.

    ``where``, ``rule``, ``got`` and ``remedy`` are those of the first.
    """

    def __init__(self, errors: Iterable[InputError]) -> None:
        self._errors = tuple(errors)
        first = self._errors[0]
        super().__init__(first.where, first.rule, first.got, first.remedy)
        self.args = ("\n".join(str(error) for error in self._errors),)

    @property
    def errors(self) -> tuple[InputError, ...]:
        """Every mistake, in the order of the file."""
        return self._errors


@contextmanager
def gathered() -> Iterator[None]:
    """Have a mistake found inside be told as those of a file are, all together."""
    try:
        yield
    except InputError as error:
        raise InputErrors([error]) from error


class NoScheduleError(NestingError):
    """No schedule exists: one reason per panel that has no place on the liner."""

    exit_code = 3

    def __init__(self, reasons: Iterable[str]) -> None:
        self.reasons = tuple(reasons)
        super().__init__("\n".join(self.reasons))


class RefusedError(NestingError):
    """The independent checker refused a result of our own; nothing was written."""

    exit_code = 4

    def __init__(self, findings: Iterable[object]) -> None:
        self.findings = tuple(findings)
        lines = "\n".join(str(finding) for finding in self.findings)
        super().__init__(f"Our own checker refused our own schedule; nothing was written.\n{lines}")


class FaultyScheduleError(NestingError):
    """A schedule that was given does not fit its job by the rules, so nothing is built on it."""

    exit_code = 5

    def __init__(self, file: str, findings: Iterable[object]) -> None:
        self.findings = tuple(findings)
        count = "1 fault" if len(self.findings) == 1 else f"{len(self.findings)} faults"
        head = f"{file}: the schedule must be without fault, got {count}; plan the job anew."
        super().__init__("\n".join([head, *map(str, self.findings)]))


def install_words(extra: str) -> str:
    """Return what to do where one of the packages that only some people need is missing.

    >>> print(install_words("cad"))
    in the folder of nesting run .venv/bin/pip install '.[cad]'
    """
    return f"in the folder of nesting run .venv/bin/pip install '.[{extra}]'"


def shown(value: object, longest: int = 60) -> str:
    """Return a value the user gave as a message shows it: short, on one line, text in quotes.

    >>> shown("63,5 mm"), shown([1, 2]), shown({}), shown(True), shown(None)
    ("'63,5 mm'", 'a list of 2', 'a table', 'true', 'null')
    """
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, int) and abs(value) >= 10**30:
        return "a number of more than 30 digits"
    text = repr(value) if isinstance(value, str | int | float) else str(value)
    return text if len(text) <= longest else f"{text[: longest - 4]} ..."
