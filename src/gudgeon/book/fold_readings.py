"""Readings while the entries are folded: what counts of each place, and what a proof went by."""

from collections.abc import Iterable, Mapping

from gudgeon.book.entries import Entry
from gudgeon.book.kept import as_it_is
from gudgeon.book.state import ReadingState

KINDS = ("reading", "face-scanned")
_CHARACTERISTIC = "characteristics."


def items_of(figures: Iterable[str]) -> tuple[str, ...]:
    """What was measured, of the figures that a proof was held against: `characteristics.ITEM.wear_limit`."""
    found = (path.split(".")[1] for path in figures if path.startswith(_CHARACTERISTIC))
    return tuple(dict.fromkeys(found))


class Readings:
    """The last reading of each place counts, and where it was left otherwise than found, the one as left.

    Of what a proof went by a struck one counts until it is struck.
    """

    def __init__(self) -> None:
        self._now: dict[tuple[str, str, str], ReadingState] = {}
        self._said: dict[str, dict[tuple[str, str], dict[str, list[str]]]] = {}
        """The entries by item, by place and kind, and by condition; without those that are struck by now."""

    def said(self, entry: Entry) -> None:
        """Somebody has measured, struck later or not."""
        self._of(entry).append(entry.id)

    def struck(self, entry: Entry) -> None:
        """It was not so."""
        self._of(entry).remove(entry.id)

    def _of(self, entry: Entry) -> list[str]:
        body = entry.body
        places = self._said.setdefault(body["item"], {})
        place = places.setdefault((entry.kind, body.get("place", "")), {})
        return place.setdefault(body["condition"], [])

    def read(self, entry: Entry) -> None:
        """What a later version added is as it was not said in an earlier one."""
        body = entry.body
        self._now[(body["item"], body["place"], body["condition"])] = ReadingState(
            entry.id, body["item"], body["place"], body["value"], body["low"], body["high"], body["unit"],
            body["instrument"], body["condition"], entry.device_time, entry.sheet, entry.kit, body["shown"],
            entry.who, entry.number, tuple(body.get("repeats", ())), body.get("part_temperature"),
            body.get("gauge_temperature"), body.get("temperature_unit"), body.get("gauge_as_part", False),
        )  # fmt: skip

    def counting(self, figures: Iterable[str]) -> frozenset[str]:
        """The entries that count now of all that some figures are limits of."""
        found: set[str] = set()
        for item in items_of(figures):
            for place in self._said.get(item, {}).values():
                last = {condition: entries[-1] for condition, entries in place.items() if entries}
                found |= {last["as left"]} if "as left" in last else set(last.values())
        return frozenset(found)

    def states(self) -> Mapping[tuple[str, str, str], ReadingState]:
        """The readings as they stand."""
        return as_it_is(self._now)
