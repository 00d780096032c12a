"""What is said on a terminal while one command waits for another that is writing."""

from __future__ import annotations

import sys

from tallybed.commands.screen.terminal import as_sentence, say
from tallybed.writing.atomic import ON_WAIT


def tell_of_waits() -> None:
    """Let it be said on a terminal, from now on, whom this command waits for."""
    if sys.stderr.isatty():
        ON_WAIT.set(lambda words: say(f"{as_sentence(words)} Ctrl-C stops.", err=True))
