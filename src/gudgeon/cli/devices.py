"""The devices that may write: listed, let in, taken off the list."""

from argparse import Namespace
from datetime import datetime
from urllib.parse import urlsplit

from gudgeon.book.address import data_folder
from gudgeon.cli.invitation import show_code
from gudgeon.cli.show import as_json, clean, program, say, table
from gudgeon.errors import InputError
from gudgeon.web.devices import VALID, Device, Devices, spaced


class NoAddress(InputError):
    """Something that is not the address of a server."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{said}` is no address of a server. It looks like http://192.168.1.20:8765, as `gudgeon serve --lan` "
            "prints it."
        )


def devices(chosen: Namespace) -> int:
    """List the paired devices, let another one in, or take one off the list."""
    kept = Devices(data_folder() / "devices")
    if chosen.invite:
        return _invite(kept, chosen)
    if chosen.remove is not None:
        removed = kept.remove(chosen.remove)
        if chosen.json:
            return as_json({"removed": _plain(removed)})
        say(
            f"{removed.name} is off the list; its next request is a stranger's. What it wrote stays in the book."
        )
        return 0
    known = kept.all()
    if chosen.json:
        return as_json([_plain(one) for one in known])
    if not known:
        say(f"No device is paired. A code for one: {program()} devices --invite")
        return 0
    rows = [(one.name, one.who, _when(one.paired), _when(one.seen), one.key) for one in known]
    table(("device", "who writes", "paired", "last heard of", "key"), rows)
    return 0


def _invite(kept: Devices, chosen: Namespace) -> int:
    from gudgeon.bench.context import clock

    address = _address(chosen.at) if chosen.at is not None else ""
    now = clock()
    code = kept.invite(now=now)
    if chosen.json:
        return as_json({"code": code, "until": (now + VALID).isoformat()})
    if address:
        show_code(address, code=code, until=now + VALID)
        return 0
    print(f"\n    {spaced(code)}\n")
    say(
        f"It is good once, until {(now + VALID).astimezone():%H:%M}. Open the address of the server on the other "
        "device, with /pair behind it, and type the code. (Which address: the terminal says it in which "
        "`gudgeon serve` runs.)"
    )
    return 0


def _address(said: str) -> str:
    try:
        split = urlsplit(said)
        port = split.port
    except ValueError:
        raise NoAddress(clean(said)) from None
    if split.scheme not in ("http", "https") or not split.hostname or "@" in split.netloc:
        raise NoAddress(clean(said))
    host = f"[{split.hostname}]" if ":" in split.hostname else split.hostname
    return f"{split.scheme}://{host}{f':{port}' if port else ''}/"


def _plain(device: Device) -> dict[str, str]:
    return {
        "key": device.key,
        "name": device.name,
        "who": device.who,
        "paired": device.paired.isoformat(),
        "seen": device.seen.isoformat(),
    }


def _when(at: datetime) -> str:
    return f"{at.astimezone():%Y-%m-%d %H:%M}"
