"""The machine's address in the network it stands in."""

from __future__ import annotations

import ipaddress
import socket
from contextlib import closing

_ANYWHERE = ("192.0.2.1", 9)
"""An address kept for documentation (RFC 5737): asked how it would be reached, nothing is sent to it."""


def own_address(told: str = "") -> str:
    """Return the address to listen on: the one told, else the one this machine has in its network.

    Raises OSError where there is none, or it is one that the whole world can reach.
    """
    text = told or _found()
    try:
        address = ipaddress.IPv4Address(text)
    except ipaddress.AddressValueError:
        raise OSError(f"{text} is not an address such as 192.168.1.20") from None
    if address.is_unspecified or not (address.is_private or address.is_link_local):
        raise OSError(f"{address} is not an address in a home network; the preview is shown nowhere else")
    return str(address)


def _found() -> str:
    """Return the address this machine has in its network. Raises OSError where it is in none."""
    with closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as asking:
        try:
            asking.connect(_ANYWHERE)
        except OSError as error:
            raise OSError("this machine is not in a network; name its address with --address") from error
        return str(asking.getsockname()[0])
