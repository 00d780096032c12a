"""``tallybed preview``: the site while it is being written, on this machine or also on a phone beside it."""

from __future__ import annotations

import signal
from datetime import UTC, date, datetime
from pathlib import Path

import click

from tallybed.commands.terminal import say
from tallybed.tasks import preview as desk


def _today() -> date:
    return datetime.now(UTC).astimezone().date()


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), default=".")
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8640, show_default=True, help="0 for any free one."
)
@click.option("--lan", is_flag=True, help="Let phones of the same network in, by a code printed here.")
@click.option(
    "--address", metavar="ADDRESS", default="", help="This machine's address there, where it has several."
)
def preview(folder: Path, port: int, lan: bool, address: str) -> None:
    """Show the site of the garden in FOLDER with its findings, anew at each change, until Ctrl-C.

    It is a desk to write at: findings stand beside the page they concern, entries that
    wait are shown, and a form weighs in as `tallybed weigh` does.
    """
    if address and not lan:
        raise click.UsageError("--address is of use with --lan alone")
    # Being told to stop is no different from Ctrl-C, nor is a closed terminal: the passing folder, in which
    # lies what waits, is taken away first.
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name):  # Windows has no SIGHUP
            signal.signal(getattr(signal, name), signal.default_int_handler)
    desk.preview(folder, port, lambda text: say(text, err=True), _today, lan=lan, address=address)
