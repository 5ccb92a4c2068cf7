"""Where other devices find this machine."""

from __future__ import annotations

import socket
from contextlib import suppress


def own_addresses() -> tuple[str, ...]:
    """This machine's addresses on the local network."""
    found = set()
    with suppress(OSError):
        found |= {str(info[4][0]) for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)}
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect(("192.0.2.1", 9))
        found.add(str(probe.getsockname()[0]))
    return tuple(sorted(address for address in found if not address.startswith("127.")))
