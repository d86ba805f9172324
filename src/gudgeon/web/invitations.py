"""Codes that a paired device has just asked for, to be shown to it alone: in memory, and gone with the program."""

from dataclasses import dataclass, field
from datetime import datetime
from threading import Lock

from gudgeon.web.devices import VALID, Devices


@dataclass(frozen=True, slots=True)
class Invitation:
    """A code in plain letters, and until when it is good."""

    code: str
    until: datetime


@dataclass(frozen=True, slots=True)
class Invitations:
    """For each device the last code that it asked for."""

    _made: dict[str, Invitation] = field(default_factory=dict, repr=False)
    _lock: Lock = field(default_factory=Lock, repr=False)

    def make(self, devices: Devices, *, asks: str, now: datetime) -> Invitation:
        """A new code for the device that asks; the one it had before is not shown any more."""
        made = Invitation(devices.invite(now=now, by=asks), now + VALID)
        with self._lock:
            self._made[asks] = made
        return made

    def shown(self, devices: Devices, *, to: str, now: datetime) -> Invitation | None:
        """The code that this device asked for, as long as nobody has used it and it is good."""
        with self._lock:
            made = self._made.get(to)
        if made is None:
            return None
        if devices.waits_for(made.code, now=now)[0]:
            return made
        with self._lock:
            if self._made.get(to) is made:
                del self._made[to]
        return None
