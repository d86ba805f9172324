"""The devices that may write: who they are, letting another one in, taking one off the list."""

from dataclasses import dataclass
from datetime import datetime

from starlette.responses import Response

from gudgeon.bench.context import clock
from gudgeon.web.code_picture import as_svg
from gudgeon.web.desk import Address, Asked, Desk, NotPaired, go
from gudgeon.web.devices import Device, NoSuchDevice, spaced
from gudgeon.web.invitations import Invitation
from gudgeon.web.network import addresses, is_this_machine, names, pairing_address


@dataclass(frozen=True, slots=True)
class Listed:
    """A device as it stands on the list."""

    device: Device
    paired: str
    seen: str
    own: bool
    """Whether it is the one that asks."""


def devices(desk: Desk, asked: Asked) -> Response:
    """The paired devices, a code for another one, and what is protected from whom."""
    made = _open_invitation(desk, asked)
    own = asked.seen.holder.device.key if asked.seen.holder else ""
    reached = reached_at(desk, asked)
    with desk.bench() as bench:
        return desk.page(
            "devices.html",
            bench=bench,
            asked=asked,
            listed=[_listed(one, own=one.key == own) for one in desk.door.devices.all()],
            code=spaced(made.code) if made else "",
            until=_clock_time(made.until) if made else "",
            reached=reached,
            lan=desk.door.lan,
            certificate=desk.door.certificate,
        )


def invite(desk: Desk, asked: Asked) -> Response:
    """Make a code for another device; it is shown to the one that asked for it, and kept nowhere in plain letters."""
    holder = asked.seen.holder
    if holder is None:
        raise NotPaired(wrote=True)
    desk.door.invitations.make(desk.door.devices, asks=holder.device.key, now=clock())
    return go("/devices#code")


def code_picture(desk: Desk, asked: Asked) -> Response:
    """The code that this device has just asked for, with the address to use it at, as a picture for a camera."""
    made = _open_invitation(desk, asked)
    if made is None:
        return desk.bare("no_such.html", asked=asked, status=404)
    address = pairing_address(reached_at(desk, asked)[0], code=made.code)
    return Response(as_svg(address), media_type="image/svg+xml")


def ask_first(desk: Desk, asked: Asked) -> Response:
    """Ask before a device is taken off the list; the one that asks is told that it is itself."""
    device = _named(desk, asked.path["key"])
    own = asked.seen.holder is not None and asked.seen.holder.device.key == device.key
    with desk.bench() as bench:
        return desk.page(
            "device_off.html", bench=bench, asked=asked, device_named=_listed(device, own=own), own=own
        )


def take_off(desk: Desk, asked: Asked) -> Response:
    """Take a device off the list: its next request is a stranger's."""
    removed = desk.door.devices.remove(_named(desk, asked.path["key"]).key)
    own = asked.seen.holder is not None and asked.seen.holder.device.key == removed.key
    return go("/pair" if own else "/devices")


def authority(desk: Desk, asked: Asked) -> Response:
    """The certificate of this machine's own authority, for a device that is to trust it; not its key."""
    held = desk.door.certificate
    if held is None:
        return desk.bare("no_such.html", asked=asked, status=404)
    kept = {"Content-Disposition": 'attachment; filename="gudgeon-this-machine.crt"'}
    return Response(held.authority, media_type="application/x-x509-ca-cert", headers=kept)


def reached_at(desk: Desk, asked: Asked) -> tuple[str, ...]:
    """Where other devices find this server, the surest address first: the one by which this device found it."""
    scheme = "https" if asked.seen.secure else "http"
    name, _, port = (
        asked.seen.host.rpartition(":") if _has_port(asked.seen.host) else (asked.seen.host, "", "")
    )
    behind = f":{port}" if port else ""
    own = f"{scheme}://{asked.seen.host}"
    if not desk.door.lan:
        return (own,)
    found = [
        f"{scheme}://{one}{behind}"
        for one in (*addresses(), *(one for one in names() if one.endswith(".local")))
    ]
    alone = name.lower() == "localhost" or is_this_machine(name.strip("[]"))
    return tuple(dict.fromkeys(found if alone and found else [own, *found]))


def _has_port(host: str) -> bool:
    return host.rpartition(":")[2].isdecimal() and not host.endswith("]")


def _open_invitation(desk: Desk, asked: Asked) -> Invitation | None:
    holder = asked.seen.holder
    if holder is None:
        return None
    return desk.door.invitations.shown(desk.door.devices, to=holder.device.key, now=clock())


def _named(desk: Desk, key: str) -> Device:
    known = desk.door.devices.all()
    found = next((one for one in known if one.key == key), None)
    if found is None:
        raise NoSuchDevice(key, tuple(f"{one.name} [{one.key}]" for one in known))
    return found


def _listed(device: Device, *, own: bool) -> Listed:
    return Listed(device, _day_time(device.paired), _day_time(device.seen), own)


def _day_time(at: datetime) -> str:
    return f"{at.astimezone():%Y-%m-%d %H:%M}"


def _clock_time(at: datetime) -> str:
    return f"{at.astimezone():%H:%M}"


ADDRESSES = (
    Address("/devices", devices),
    Address("/devices/invite", invite, methods=("POST",), most_bytes=4096, most_fields=8),
    Address("/devices/code.svg", code_picture),
    Address("/devices/{key}/off", ask_first),
    Address("/devices/{key}/off", take_off, methods=("POST",), most_bytes=4096, most_fields=8),
    Address("/certificate", authority, open=True),
)
