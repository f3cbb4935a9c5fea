"""The command line: it gathers the commands, and ends each with its exit code.

Only click is imported before a command runs, and no other command's module, so that help comes at
once.
"""

import sys
import traceback
from collections.abc import Iterator, Mapping, Sequence
from importlib import import_module

import click

from nesting.commands.console import hush, speak_up, watched_line
from nesting.commands.help import EXAMPLES, NOTES, OVERVIEW
from nesting.commands.options import help_option
from nesting.commands.say import say, tell
from nesting.errors import InputError, NestingError

EXIT_OWN_FAULT = 1
EXIT_STOPPED = 130


class _Commands(Mapping[str, click.Command]):
    """Every command by its name, in the order of the help page; a module is loaded when asked for.

    The command NAME is what ``nesting/commands/NAME.py`` calls so.
    """

    def __getitem__(self, name: str) -> click.Command:
        if name not in EXAMPLES:
            raise KeyError(name)
        command: click.Command = getattr(import_module(f"nesting.commands.{name}"), name)
        return command

    def __iter__(self) -> Iterator[str]:
        return iter(EXAMPLES)

    def __len__(self) -> int:
        return len(EXAMPLES)


class _InOrder(click.Group):
    """A group that lists its commands in the order they are written."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)


def _show_version(context: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if not wanted or context.resilient_parsing:
        return
    from importlib.metadata import PackageNotFoundError, version

    try:
        say(f"nesting {version('nesting')}")
    except PackageNotFoundError:
        say("nesting, from a folder where it is not installed")
    context.exit()


_version = click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_version,
    help="Show the version and stop.",
)


@click.group(
    cls=_InOrder,
    commands=_Commands(),
    help=OVERVIEW,
    epilog=NOTES,
    context_settings={"max_content_width": 100},
    invoke_without_command=True,
    add_help_option=False,
)
@_version
@help_option
@click.pass_context
def nesting(context: click.Context) -> None:
    """Show the help page where no command is given."""
    if context.invoked_subcommand is None:
        say(context.get_help())


def main() -> None:
    """Run the command line and end the process with its exit code."""
    sys.exit(run(sys.argv[1:]))


def run(args: Sequence[str]) -> int:
    """Run one command line and return its exit code; trouble is told on standard error."""
    line = None if "--quiet" in args else watched_line()
    if line is None:
        return _run(args)
    with speak_up(line):
        return _run(args)


def _run(args: Sequence[str]) -> int:
    try:
        return int(nesting.main(args=list(args), prog_name="nesting", standalone_mode=False) or 0)
    except click.Abort:
        tell("stopped.")
        return EXIT_STOPPED
    except click.ClickException as error:
        where = error.ctx.command_path if isinstance(error, click.UsageError) and error.ctx else ""
        tell(f"{error.format_message()} See '{where or 'nesting'} --help'.")
        return InputError.exit_code
    except NestingError as error:
        _show_trace(args)
        tell(str(error))
        return error.exit_code
    except Exception as error:
        _show_trace(args)
        kind = type(error).__name__
        tell(f"something went wrong in nesting itself ({kind}); run with --debug to see where.")
        return EXIT_OWN_FAULT


def _show_trace(args: Sequence[str]) -> None:
    if "--debug" in args:
        hush()
        click.echo(traceback.format_exc(), nl=False, err=True)


if __name__ == "__main__":
    main()
