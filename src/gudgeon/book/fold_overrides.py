"""Overrides while the entries are folded: each stands until something happens to what it is about."""

from dataclasses import replace

from gudgeon.book.entries import Entry
from gudgeon.book.fold_lists import CLOSES, OPENS
from gudgeon.book.state import Overridden


class Overrides:
    """What named persons let pass. One of a gate serves one act; any other ends when its subject changes."""

    def __init__(self) -> None:
        self._all: list[Overridden] = []

    def made(self, entry: Entry, *, struck: bool) -> None:
        """Somebody lets something pass; what was said before on the same no longer counts. Struck, it never stood."""
        body = entry.body
        if not struck:
            self.touched(body["about"])
        self._all.append(
            Overridden(
                entry.id, entry.number, body["about"], body["by"], body["why"], body["shown"],
                entry.device_time, not struck,
            )
        )  # fmt: skip

    def touched(self, about: str) -> None:
        """Something happened to it: what was let pass was another state of it."""
        for place, one in enumerate(self._all):
            if one.stands and one.about == about:
                self._all[place] = replace(one, stands=False)

    def stands(self, about: str) -> bool:
        """Whether somebody lets it pass as it is now."""
        return any(one.stands and one.about == about for one in self._all)

    def use(self, about: str) -> str:
        """Who lets this act pass and why, where somebody does; that is used up by it."""
        found = next((one for one in self._all if one.stands and one.about == about), None)
        if found is None:
            return ""
        self.touched(about)
        return f"{found.by}: {found.why}"

    def seen(self, entry: Entry) -> None:
        """An entry changes what it is about."""
        if not self._all:
            return
        for about in _abouts(entry):
            self.touched(about)

    def listed(self) -> tuple[Overridden, ...]:
        """Every override, those that stand no more as well."""
        return tuple(self._all)


_LISTS = {**OPENS, **CLOSES}


def _abouts(entry: Entry) -> tuple[str, ...]:
    """What an entry is about, as an override names it. Holds are told by themselves, because they void each other."""
    body = entry.body
    if entry.kind in _LISTS:
        return (f"item:{_LISTS[entry.kind]}:{body['item']}",)
    if entry.kind == "reading":
        return (f"reading:{body['item']} {body['place']}".strip(),)
    if entry.kind == "face-scanned":
        return (f"reading:{body['item']}",)
    if entry.kind in ("counted", "explained"):
        return (f"counted:{body['group']}",)
    if entry.kind == "sealant-laid":
        return (f"timer:{body['timer']}_open", f"timer:{body['timer']}_cure", f"joint:{body['joint']}")
    if entry.kind in ("timer-started", "timer-ended"):
        return (f"timer:{body['timer']}",)
    for field, family in (("joint", "joint"), ("task", "task"), ("part", "part")):
        if isinstance(body.get(field), str):
            return (f"{family}:{body[field]}",)
    return ()
