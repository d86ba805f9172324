"""Which readings counted when something was let be: it stands for those, and for none that comes after them."""

from gudgeon.book.entries import Entry

_READINGS = ("reading", "face-scanned")
Where = tuple[str, str, str]
"""What kind of entry, of which characteristic, at which place."""


class Counted:
    """The readings as they counted at each entry, with those that are struck only later."""

    def __init__(self) -> None:
        self._of: dict[Where, dict[str, list[str]]] = {}
        self._among: dict[str, list[str]] = {}

    def seen(self, entry: Entry) -> None:
        """One entry further: a reading counts from here on, a strike takes one out."""
        if entry.kind in _READINGS:
            where = (entry.kind, entry.body["item"], entry.body.get("place", ""))
            among = self._of.setdefault(where, {}).setdefault(entry.body["condition"], [])
            among.append(entry.id)
            self._among[entry.id] = among
        elif entry.kind == "strike":
            struck = entry.body["entry"]
            among = self._among.pop(struck, [])  # struck twice, it is gone already
            if among:
                among.remove(struck)

    def now(self) -> frozenset[str]:
        """The entries that count: of every place what was read last, as left before as found."""
        found = (said.get("as left") or said.get("as found") for said in self._of.values())
        return frozenset(entries[-1] for entries in found if entries)
