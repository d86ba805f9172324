"""Waits while the entries are folded: those that run by the clock, those that end by distance, two for a bead.

A clock that runs behind would end a wait at once. So none counts from an hour earlier than one that its sender had seen
in the book when he began it; only an open time does, which is over the sooner.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from decimal import Decimal

from gudgeon.book.entries import Entry
from gudgeon.book.kept import as_it_is
from gudgeon.book.state import TimerState

CLOCKS_DIFFER = timedelta(minutes=10)
"""By how much two clocks may differ before it is said. COMMON PRACTICE, no source."""


class Timers:
    """The waits by their short names. What belongs together is worked out where the joints are known."""

    def __init__(self) -> None:
        self._timers: dict[str, TimerState] = {}

    def started(self, entry: Entry, *, not_before: datetime | None) -> None:
        """A wait started again while it runs, or before it would have ended, ends at the later of both.

        An open time is the other way round: a new one belongs to a new bead.
        """
        body, ends, until = entry.body, "", ""
        there = self._timers.get(body["timer"])
        running = there if there is not None and not there.ended and body["kind"] != "open time" else None
        if body["minutes"] is not None:
            end = _counts_from(entry, body["kind"], not_before) + timedelta(minutes=body["minutes"])
            if running is not None and running.ends:
                end = max(end, datetime.fromisoformat(running.ends))
            ends = end.isoformat()
        else:
            until = str(Decimal(body["odometer"]) + Decimal(body["distance"]))
        self._timers[body["timer"]] = TimerState(
            entry.id, body["name"], entry.device_time, ends, False, body["task"], body["due_before"],
            kind=body["kind"], joint=body["joint"] or "", until=until, unit=body["unit"] or "", order=entry.number,
            minutes=body["minutes"], stated=body["why"], behind=_behind(entry, body["kind"], not_before),
        )  # fmt: skip

    def laid(self, entry: Entry, *, not_before: datetime | None) -> None:
        """A bead is laid: both its clocks begin anew, whatever an earlier bead had left."""
        body = entry.body
        for clock, kind in (("open", "open time"), ("cure", "cure")):
            laid = _counts_from(entry, kind, not_before) - timedelta(minutes=body["minutes_ago"])
            minutes = body[f"{clock}_minutes"]
            ends = (laid + timedelta(minutes=minutes)).isoformat() if minutes is not None else ""
            self._timers[f"{body['timer']}_{clock}"] = TimerState(
                entry.id, f"{body['name']}, {kind}", laid.isoformat(), ends, False, body["task"], body["due_before"],
                kind=kind, joint=body["joint"], order=entry.number, minutes=minutes, bead=body["sealant"],
                stated=body["shown"].get(kind) or body["why"], behind=_behind(entry, kind, not_before),
            )  # fmt: skip

    def ended(self, entry: Entry) -> str:
        """A wait is over by a person's word; or why that says nothing."""
        there = self._timers.get(entry.body["timer"])
        if there is None or there.ended:
            return f"it ends the wait {entry.body['timer']}, which was not running"
        self._timers[entry.body["timer"]] = replace(there, ended=True, how=entry.body["how"])
        return ""

    def states(self) -> Mapping[str, TimerState]:
        """Every wait, those that are over as well."""
        return as_it_is(self._timers)


def _counts_from(entry: Entry, kind: str, not_before: datetime | None) -> datetime:
    """When a wait begins: by the clock of its device, and not before what its sender had seen."""
    said = datetime.fromisoformat(entry.device_time)
    return said if not_before is None or kind == "open time" else max(said, not_before)


def _behind(entry: Entry, kind: str, not_before: datetime | None) -> str:
    """The hour from which a wait counts because the clock of its device was wrong; nothing where it was not."""
    counts = _counts_from(entry, kind, not_before)
    return counts.isoformat() if counts - datetime.fromisoformat(entry.device_time) > CLOCKS_DIFFER else ""
