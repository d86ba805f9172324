"""What is kept as it was said while entries are folded: photos, faces, money, signatures, counts, the odometer."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from gudgeon.book.entries import Entry
from gudgeon.book.kept import as_it_is
from gudgeon.book.state import MoneyState, PhotoState, ScanState, SignedOff, Tally, TightenedAgain

MILE = Fraction(1_609_344, 1_000_000)
"""Kilometers in a mile, exactly: 5280 feet of 0.3048 m."""


def kilometers(value: str, *, unit: str) -> Fraction:
    """A distance in kilometers, without any rounding."""
    return Fraction(Decimal(value)) * (MILE if unit == "mi" else 1)


class Records:
    """Facts that neither open nor close anything by themselves."""

    def __init__(self) -> None:
        self.photos: list[PhotoState] = []
        self.money: list[MoneyState] = []
        self.signed: list[SignedOff] = []
        self.odometer: tuple[str, str] | None = None
        self.last_run = ""
        self._tallies: dict[str, Tally] = {}
        self._again: dict[str, TightenedAgain] = {}
        self._scans: dict[tuple[str, str], ScanState] = {}

    def photo(self, entry: Entry) -> None:
        """A photo beside the book."""
        body = entry.body
        self.photos.append(
            PhotoState(
                entry.id, body["sha"], body["type"], body["caption"], tuple(body["about"]), entry.device_time,
                body["taken"], body["width"], body["height"], tuple(body["pins"]),
            )
        )  # fmt: skip

    def scanned(self, entry: Entry) -> None:
        """The points of a face; the latest count."""
        body = entry.body
        points = tuple((x, y, z) for x, y, z in body["points"])
        self._scans[(body["item"], body["condition"])] = ScanState(
            entry.id, body["item"], body["condition"], body["unit"], points, body["instrument"], body["file"],
            body["sha"], entry.device_time, entry.sheet, entry.kit, body["shown"], entry.who, entry.number,
        )  # fmt: skip

    def scans(self) -> Mapping[tuple[str, str], ScanState]:
        """The points of faces, by characteristic and condition."""
        return as_it_is(self._scans)

    def paid(self, entry: Entry) -> None:
        """Money went out, or came back."""
        body = entry.body
        self.money.append(
            MoneyState(
                entry.id, body["what"], body["amount"], body["currency"], body["way"], body["part"] or "",
                body["to"], entry.device_time,
            )
        )  # fmt: skip

    def sign(self, entry: Entry) -> None:
        """Somebody stands for the engine as it is."""
        body = entry.body
        self.signed.append(
            SignedOff(entry.id, entry.number, body["milestone"], body["by"], body["words"], entry.device_time)
        )

    def counted(self, entry: Entry) -> None:
        """What was counted last counts."""
        body = entry.body
        known = self._tallies.get(body["group"], Tally())
        self._tallies[body["group"]] = replace(known, **{body["when"]: body["count"]})

    def explained(self, entry: Entry) -> None:
        """One piece by which two counts differ is explained."""
        body = entry.body
        known, said = self._tallies.get(body["group"], Tally()), f"{body['what']}: {body['why']}"
        if body["way"] == "missing":
            self._tallies[body["group"]] = replace(known, missing=(*known.missing, said))
        else:
            self._tallies[body["group"]] = replace(known, over=(*known.over, said))

    def again(self, entry: Entry) -> None:
        """A finished joint was tightened again."""
        body = entry.body
        self._again[body["joint"]] = TightenedAgain(entry.id, entry.number, body["seen"], entry.device_time)

    def tightened_again(self) -> Mapping[str, TightenedAgain]:
        """The joints that were tightened again, and when last."""
        return as_it_is(self._again)

    def drove(self, value: str, *, unit: str) -> str:
        """What the odometer shows; or why that cannot be. The most that it showed is kept: no car drives back."""
        if self.odometer is not None:
            most, of = self.odometer
            if kilometers(value, unit=unit) < kilometers(most, unit=of):
                return f"the odometer went back: {value} {unit}, after {most} {of}"
        self.odometer = (value, unit)
        return ""

    def tallies(self) -> Mapping[str, Tally]:
        """What was counted by hand, by group."""
        return as_it_is(self._tallies)
