"""Where this machine is found on its own network: its addresses there, and the names by which it is called."""

import socket
from ipaddress import IPv4Address, IPv6Address, ip_address
from urllib.parse import urlencode

NEAR = ("10.255.255.255", "172.31.255.255", "192.168.255.255", "169.254.255.255")
"""Places in each range of RFC 1918 and RFC 3927: the way to one of them is the way to the neighbors."""


def addresses() -> tuple[str, ...]:
    """The addresses of this machine on its networks, the one that neighbors most likely use first.

    Only those that no machine outside can use. A route is asked for and nothing is sent.
    """
    found = [*(_way_to(one) for one in NEAR), *_by_name()]
    return tuple(dict.fromkeys(one for one in found if one and is_near(one) and not _is_own(one)))


def names() -> tuple[str, ...]:
    """The names by which this machine may be called: its own, and the one that it has among its neighbors."""
    full = socket.gethostname().lower().rstrip(".")
    short = full.partition(".")[0]
    return tuple(dict.fromkeys(("localhost", full, short, f"{short}.local"))) if short else ("localhost",)


def is_figure(name: str) -> bool:
    """Whether a name is an address in figures."""
    try:
        ip_address(name)
    except ValueError:
        return False
    return True


def is_near(address: str) -> bool:
    """Whether an address belongs to this machine or its neighbors, and not to the world."""
    try:
        read = ip_address(address)
    except ValueError:
        return False
    return not _plain(read).is_global


def is_this_machine(address: str) -> bool:
    """Whether an address is the one by which a machine speaks to itself."""
    try:
        return _plain(ip_address(address)).is_loopback
    except ValueError:
        return False


def pairing_address(address: str, *, code: str) -> str:
    """Where a device that has a code goes."""
    return f"{address.rstrip('/')}/pair?{urlencode({'code': code})}"


def _plain(read: IPv4Address | IPv6Address) -> IPv4Address | IPv6Address:
    """An address of four figures that is written inside a longer one is that address."""
    return (read.ipv4_mapped or read) if isinstance(read, IPv6Address) else read


def _is_own(address: str) -> bool:
    return is_this_machine(address) or address == "0.0.0.0"


def _way_to(neighbor: str) -> str:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as line:
        try:
            line.connect((neighbor, 9))
            return str(line.getsockname()[0])
        except OSError:  # no way there
            return ""


def _by_name() -> list[str]:
    try:
        found = socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET, socket.SOCK_DGRAM)
    except OSError:  # the machine does not know its own name
        return []
    return [str(one[4][0]) for one in found]
