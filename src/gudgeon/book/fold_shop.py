"""Parts at the machine shop while the entries are folded: what leaves again has to be proved again."""

from collections.abc import Mapping
from dataclasses import replace

from gudgeon.book.entries import Entry
from gudgeon.book.fold_holds import Holds
from gudgeon.book.kept import as_it_is
from gudgeon.book.part_names import is_part
from gudgeon.book.state import ShopState


class Shop:
    """What is at the machine shop, and what came back from it, by the name under which it left."""

    def __init__(self, holds: Holds) -> None:
        self._holds = holds
        self._parts: dict[str, ShopState] = {}

    def left(self, entry: Entry) -> None:
        """A part leaves: what was proved of it says how it was before. Struck, it was said all the same."""
        part, shop = entry.body["part"], entry.body["shop"]
        self._holds.void_on_part(part, why=f"{part} went to {shop} since", by=entry.id)

    def out(self, entry: Entry) -> str:
        """It is away; or why that is in doubt."""
        body, there = entry.body, self._parts.get(entry.body["part"])
        before = there.returned or there.back_before if there is not None else ""
        self._parts[body["part"]] = ShopState(
            body["shop"], body["ordered"], body["most_off"], entry.device_time, False, "", back_before=before,
            order=entry.number,
        )  # fmt: skip
        return f"{body['part']} was at {there.shop} already" if there is not None and not there.back else ""

    def back(self, entry: Entry) -> str:
        """It is here again; or why that says nothing."""
        part, there = entry.body["part"], self._parts.get(entry.body["part"])
        if there is None or there.back:
            return f"{part} is back, and was not away"
        self._parts[part] = replace(there, back=True, found=entry.body["found"], returned=entry.device_time)
        return ""

    def away(self, word: str) -> str:
        """Why nothing can be proved of a part now; nothing where it is here."""
        for part, one in self._parts.items():
            if not one.back and is_part(word, said=part):
                return f"{part} is at {one.shop}"
        return ""

    def states(self) -> Mapping[str, ShopState]:
        """Every part that was ever sent."""
        return as_it_is(self._parts)
