"""What is kept as it was said while the entries are folded: photos, money, signatures, counts, the odometer."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from gudgeon.book.entries import Entry
from gudgeon.book.state import MoneyState, PhotoState, SignedOff, Tally


class Records:
    """Facts that neither open nor close anything by themselves."""

    def __init__(self) -> None:
        self.photos: list[PhotoState] = []
        self.money: list[MoneyState] = []
        self.signed: list[SignedOff] = []
        self.odometer: tuple[str, str] | None = None
        self._tallies: dict[str, Tally] = {}

    def photo(self, entry: Entry) -> None:
        """A photo beside the book."""
        body = entry.body
        self.photos.append(
            PhotoState(
                entry.id, body["sha"], body["type"], body["caption"], tuple(body["about"]), entry.device_time,
                body["taken"], body["width"], body["height"], tuple(body["pins"]),
            )
        )  # fmt: skip

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

    def drove(self, entry: Entry) -> None:
        """What the odometer shows."""
        self.odometer = (entry.body["value"], entry.body["unit"])

    def tallies(self) -> Mapping[str, Tally]:
        """What was counted by hand, by group."""
        return MappingProxyType(self._tallies)
