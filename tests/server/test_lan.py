"""The desk is shown in a network at home, and nowhere that the whole world can reach."""

from __future__ import annotations

import ipaddress

import pytest

from tallybed.server.lan import own_address


@pytest.mark.parametrize(
    "address",
    # RFC 1918's three blocks, RFC 3927's link-local one, and this machine itself.
    ["10.1.2.3", "172.16.0.9", "172.31.255.1", "192.168.1.20", "169.254.7.7", "127.0.0.1"],
)
def test_addresses_of_a_home_are_taken(address: str) -> None:
    assert own_address(address) == address


@pytest.mark.parametrize(
    "address",
    [
        "8.8.8.8",
        "172.32.0.1",
        "192.169.0.1",
        "0.0.0.0",  # noqa: S104
        "100.64.0.1",
        "::1",
        "beds.example",
        "192.168.1",
        "x",
    ],
)
def test_others_are_refused(address: str) -> None:
    with pytest.raises(OSError, match="address"):
        own_address(address)


def test_the_machines_own_address_is_found_or_its_lack_is_said() -> None:
    try:
        found = own_address()
    except OSError as error:
        found = str(error)
    assert "network" in found or ipaddress.ip_address(found).is_private
