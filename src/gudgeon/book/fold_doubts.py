"""What is in doubt: entries made on an outdated state, and closings of what was not open."""

from gudgeon.book.entries import Entry


def subject(entry: Entry) -> str:
    """What exactly an entry states: a later entry on the same subject states it anew."""
    body = entry.body
    match entry.kind:
        case "reading":
            return f"reading:{body['item']}:{body['place']}:{body['condition']}"
        case "identity-read":
            return "identity"
        case "pull" | "bolt-loosened":
            return f"{entry.kind}:{body['joint']}:{body['stage']}:{body['round']}:{body['bolt']}"
        case "joint-marked" | "joint-witnessed" | "joint-disturbed" | "tightened-again":
            return f"{entry.kind}:{body['joint']}"
        case "hold-proved" | "hold-voided":
            return f"hold:{body['hold']}"
        case "timer-started" | "timer-ended" | "sealant-laid":
            return f"timer:{body['timer']}"
        case "task-started" | "task-paused" | "task-done":
            return f"task:{body['task']}"
        case "provisional-made" | "provisional-cleared":
            return f"provisional:{body['item']}"
        case "left-in" | "taken-out":
            return f"left in:{body['item']}"
        case "plugged" | "opened":
            return f"plugged:{body['item']}"
        case "taken-off" | "refitted":
            return f"left over:{body['item']}"
        case "part-disposition" | "part-received":
            return f"{entry.kind}:{body['part']}"
        case "shop-out" | "shop-back":
            return f"shop:{body['part']}"
        case "engine-state" | "turned":
            return "engine"
        case "inspected":
            return f"breach:{body['entry']}:{body['gate']}"
        case "counted":
            return f"counted:{body['group']}:{body['when']}"
        case "odometer-read":
            return "odometer"
    return ""


def concerns(entry: Entry) -> tuple[str, ...]:
    """What an entry touches: whoever writes about one of these must have seen it."""
    if entry.kind in (
        "pull", "bolt-loosened", "joint-marked", "joint-witnessed", "joint-disturbed", "tightened-again",
    ):  # fmt: skip
        return (f"joint:{entry.body['joint']}",)
    own = subject(entry)
    if entry.kind == "sealant-laid":
        # Whoever ends one of its clocks speaks of this bead.
        return (own, f"{own}_open", f"{own}_cure")
    if entry.kind == "provisional-made" and entry.body["joint"]:
        return (own, f"joint:{entry.body['joint']}")
    return (own,) if own else ()


def _looks_at(entry: Entry) -> tuple[str, ...]:
    """What a sender must have seen; a proof looks at all it rests on."""
    about = concerns(entry)
    return (*about, *entry.body["rests_on"]) if entry.kind == "hold-proved" else about


class Outdated:
    """Finds entries whose sender had not seen what had been written on the same thing.

    A struck entry counts too: its sender had not seen it either, and striking it mends nothing.
    """

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}
        self._touched: dict[str, Entry] = {}

    def why(self, entry: Entry) -> str:
        """What makes an entry outdated; nothing when its sender had seen all it looks at."""
        if not entry.basis or entry.basis == entry.prev:
            return ""
        seen = self._numbers.get(entry.basis)
        if seen is None:
            return "recorded on a state that is not in this chain" if _looks_at(entry) else ""
        for thing in _looks_at(entry):
            other = self._touched.get(thing)
            if other is not None and other.number > seen:
                what = other.kind.replace("-", " ")
                return f"recorded on an older state: {other.who} had recorded “{what}” on the same in the meantime"
        return ""

    def note(self, entry: Entry, touches: tuple[str, ...]) -> None:
        """Remember an entry and what it touches."""
        self._numbers[entry.hash] = entry.number
        for thing in touches:
            self._touched[thing] = entry


class Doubts:
    """Entries in doubt. Those with a subject are settled by the next entry that states the same anew."""

    def __init__(self) -> None:
        self._lasting: list[tuple[Entry, str]] = []
        self._open: dict[str, list[tuple[Entry, str]]] = {}

    def add(self, entry: Entry, why: str, *, settled_by: str = "") -> None:
        """An entry is in doubt."""
        found = self._open.setdefault(settled_by, []) if settled_by else self._lasting
        found.append((entry, why))

    def settle(self, stated: str) -> None:
        """The same was stated anew by someone who had seen the doubt."""
        self._open.pop(stated, None)

    def listed(self) -> list[tuple[Entry, str]]:
        """Every doubt that still stands."""
        return [*self._lasting, *(one for found in self._open.values() for one in found)]
