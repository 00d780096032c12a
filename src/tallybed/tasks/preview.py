"""``tallybed preview``: the site as a desk to write at, with what a build found and a form that weighs."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import date
from pathlib import Path

from tallybed.publishing.assets import OWN, shipped_folder
from tallybed.publishing.swap.disk import BusyError
from tallybed.publishing.swap.handoff import repair
from tallybed.reading.folder.known_files import CONTENT
from tallybed.server import loop as serving
from tallybed.server.lan import own_address
from tallybed.tasks.base.garden import require_garden
from tallybed.tasks.previewing.work import GardenWork
from tallybed.tasks.site.unchanged import SITE
from tallybed.tasks.weighing.form import GardenScales


def preview(
    root: Path,
    port: int,
    say: Callable[[str], None],
    today: Callable[[], date],
    *,
    lan: bool = False,
    address: str = "",
) -> None:
    """Serve the garden's site with its desk until Ctrl-C, renewed at each change.

    Nothing is written to the garden but weighings that somebody agreed to. With ``lan``
    devices of the network can come in, at ``address`` or the one this machine has there.
    ``say`` gets each line for the terminal. Raises UsageError where root is not a
    garden folder, OSError where the machine fails.
    """
    require_garden(root)
    with suppress(BusyError):
        repair(root / SITE)
    serving.preview(
        GardenWork(root),
        (root / CONTENT, root / OWN, shipped_folder()),
        port,
        say,
        scales=GardenScales(root, today),
        lan=own_address(address) if lan else "",
    )
