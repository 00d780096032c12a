"""``tallybed preview``: the site while it is being written, on this machine or also on a phone beside it."""

from __future__ import annotations

import signal
from pathlib import Path

import click

from tallybed.commands.screen.options import folder_argument
from tallybed.commands.screen.terminal import say, today
from tallybed.tasks import preview as previewing


@click.command()
@folder_argument
@click.option(
    "--port", type=click.IntRange(0, 65535), default=8640, show_default=True, help="0 for any free one."
)
@click.option("--lan", is_flag=True, help="Let phones of the same network in, by a code printed here.")
@click.option(
    "--address", metavar="ADDRESS", default="", help="This machine's address in it, where it has several."
)
def preview(folder: Path, port: int, lan: bool, address: str) -> None:
    """Show the site of the garden in FOLDER, built again at each change, until Ctrl-C.

    Findings are shown beside the page they concern, entries that are not published yet
    are shown too, and a form weighs in as `tallybed weigh` does.
    """
    if address and not lan:
        raise click.UsageError("--address works only together with --lan")
    # Being told to stop is no different from Ctrl-C, nor is a closed terminal: the passing folder, which
    # holds what is not published yet, is deleted first.
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name):  # Windows has no SIGHUP
            signal.signal(getattr(signal, name), signal.default_int_handler)
    previewing.preview(folder, port, lambda text: say(text, err=True), today, lan=lan, address=address)
