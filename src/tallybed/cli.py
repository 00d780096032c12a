"""The command line: which commands there are, and what their ends look like from outside.

0 good · 1 the content has errors · 2 wrong usage · 3 trouble with the machine · 4 a picking may come from
inside a wait · 130 stopped by Ctrl-C
"""

from __future__ import annotations

import atexit
import gc
import sys
from importlib import import_module
from typing import Any

import click

from tallybed.commands.screen.telling import (
    CONTENT_ERRORS,
    MACHINE_TROUBLE,
    STOPPED,
    WRONG_USAGE,
    complain,
    print_findings,
)
from tallybed.publishing.swap.machine import machine_words
from tallybed.publishing.swap.refused import RefusedError
from tallybed.tasks.base.errors import BrokenError, UsageError

_NEW_BETWEEN_LOOKS = 100_000
"""Objects made before Python next looks for those that nobody needs any more."""
COMMANDS = {
    "start": "Make a new garden folder with examples.",
    "check": "List what is wrong or doubtful in a garden.",
    "build": "Build a garden's site.",
    "preview": "Show the site while you write, with its findings and a form to weigh in.",
    "writeup": "Begin a log entry.",
    "weigh": "Write what was weighed into the ledger.",
    "take-in": "Take the weighings of a spreadsheet into the ledger.",
    "seeds": "List the seeds, plants and supports that a plan needs.",
    "marks": "Tell how to mark out a bed, and what fills it.",
    "sun": "Tell the hours of sun in a bed, and what takes them.",
    "bulletin": "Tell a week in under 120 words.",
    "archive": "Put a season into one file that opens without the web.",
    "withdraw": "Take a picture, an entry or a name out for good.",
}
"""The guide: each command and what it is for, in the order of a garden's year.

A command ``take-in`` is the function ``take_in`` of ``commands/take_in.py``, which parses words,
asks and prints; its work is in ``tasks/take_in.py``. Its module is loaded when it is called and no
sooner, so that no command waits for libraries that only another one needs.
"""


def loaded(name: str) -> click.Command:
    """Return a command of the guide."""
    module = name.replace("-", "_")
    command: click.Command = getattr(import_module(f"tallybed.commands.{module}"), module)
    return command


class _Group(click.Group):
    """Loads a command when it is called, and turns what can go wrong into a sentence and an exit code."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of the guide, in its order."""
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command of the guide, or None where it has none of that name."""
        del ctx
        return loaded(cmd_name) if cmd_name in COMMANDS else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the guide without loading what it lists."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; see click.Group."""
        _keep_to_the_end()
        try:
            return super().invoke(ctx)
        except BrokenError as error:
            print_findings(error.errors)
            complain(f"{error}; nothing can be done until it is corrected")
            ctx.exit(CONTENT_ERRORS)
        except (UsageError, RefusedError) as error:
            complain(str(error))
            ctx.exit(WRONG_USAGE)
        except KeyboardInterrupt:
            complain("stopped")
            ctx.exit(STOPPED)
        except (BrokenPipeError, click.exceptions.Exit, click.Abort):
            raise  # a command's own end, which click tells by a RuntimeError
        except (OSError, RuntimeError) as error:
            # Python up to 3.12 makes a RuntimeError of the machine's word on links that lead to each other.
            machine = error if isinstance(error, OSError) else error.__context__
            if not isinstance(machine, OSError):
                raise
            complain(machine_words(machine))
            ctx.exit(MACHINE_TROUBLE)


def _keep_to_the_end() -> None:
    """Let Python look seldom for what nobody needs any more: what a command makes it keeps to its end.

    Nor need anything be taken apart at its end, which took an eighth of a weighing.
    """
    gc.set_threshold(_NEW_BETWEEN_LOOKS, 20, 100)
    atexit.register(gc.freeze)


@click.group(cls=_Group, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="tallybed", message="tallybed %(version)s")
def main() -> None:
    """Turn a garden folder of plain text into its public site."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # A console that cannot show a sign shows its number instead of ending the command.
            stream.reconfigure(errors="backslashreplace")
