"""What came off and went back, what was put into the engine and taken out again, what was plugged and opened."""

from collections.abc import Iterator, Mapping

from gudgeon.bench.closed.model import Row, Section, Table
from gudgeon.bench.closed.told import Told, hour, table
from gudgeon.bench.open_lists import GroupCount, open_lists
from gudgeon.bench.record import OPENS
from gudgeon.book.entries import Entry

PAIRS = (
    ("taken-off", "refitted", "Taken off and fitted again", ("What", "Where", "Off", "Back")),
    ("left-in", "taken-out", "Put into the engine and taken out", ("What", "Where", "In", "Out")),
    ("plugged", "opened", "Closed and opened", ("What", "Where", "Closed", "Opened")),
)


def lists(told: Told) -> Section:
    """Each thing with the hour at which it came off and that at which it went back; the counts by hand."""
    tables: list[Table] = []
    missing: list[str] = []
    for off, on, name, heads in PAIRS:
        rows = list(_rows(told, off, on))
        tables += table(name, heads, rows)
        left = sum(row.mark == "doubt" for row in rows)
        if left:
            missing.append(
                f"{name}: {left} of {len(rows)} {'is' if left == 1 else 'are'} still open by the book."
            )
    counts = [
        Row(
            (
                one.group,
                f"{one.off} off, {one.on} back",
                _by_hand(one),
                "; ".join((*one.explained, *one.differs)),
            )
        )
        for one in open_lists(told.bench).counts
    ]
    tables += table("Counts", ("Group", "By the list", "Counted by hand", "Besides"), counts)
    tables += told.listed("Counted and explained", told.of("counted", "explained"))
    if not tables:
        missing.append("Nothing is written down as taken off, put into the engine, or closed.")
    return Section("lists", "Off and back, in and out", tables=tuple(tables), missing=tuple(missing))


def _by_hand(one: GroupCount) -> str:
    counted = ((one.counted_off, "off"), (one.counted_back, "back"))
    said = [f"{count} {words}" for count, words in counted if count is not None]
    return ", ".join(said) or "not counted"


def _rows(told: Told, off: str, on: str) -> Iterator[Row]:
    backs: dict[str, list[Entry]] = {}
    for one in told.of(on):
        backs.setdefault(one.body["item"], []).append(one)
    used: set[int] = set()
    for one in told.of(off):
        if told.struck(one) is not None:
            yield told.row(one, one.body["name"], _where(one.body), hour(one.device_time), "")
            continue
        until = _next(told, one, off)
        own = [
            back for back in backs.get(one.body["item"], ())
            if back.number not in used and one.number < back.number < until and told.struck(back) is None
        ]  # fmt: skip
        used |= {back.number for back in own}
        said = "; ".join([*map(_back, own), *_still_open(told, one)])
        yield Row(
            (one.body["name"], _where(one.body), f"{hour(one.device_time)}, {one.who}", said),
            (one.number, *(back.number for back in own)),
            "doubt" if any(_still_open(told, one)) else "",
        )
    for several in backs.values():
        for back in several:
            if back.number not in used:
                yield told.row(
                    back, told.lines[back.id].what, "", "", f"{hour(back.device_time)}, {back.who}"
                )


def _still_open(told: Told, one: Entry) -> tuple[str, ...]:
    """Whether it is on its list still, by the book: all of it, or so many."""
    item = getattr(told.bench.state, OPENS[one.kind][0]).get(one.body["item"])
    if item is None or item.entry != one.id:
        return ()
    return ("NOT YET",) if item.off == item.of else (f"{item.off} NOT YET",)


def _next(told: Told, one: Entry, off: str) -> int:
    """The entry by which the same thing came off again, if it did."""
    later = (other.number for other in told.standing(off) if other.body["item"] == one.body["item"])
    return min((number for number in later if number > one.number), default=len(told.entries) + 1)


def _where(body: Mapping[str, object]) -> str:
    many = f"{body['count']} in all" if isinstance(body.get("count"), int) and body["count"] != 1 else ""
    bag = f"bag {body['bag']}" if body.get("bag") else ""
    said = (str(body.get("group") or ""), str(body.get("place") or body.get("where") or ""), many, bag)
    return ", ".join(filter(None, said))


def _back(one: Entry) -> str:
    many = f"{one.body['count']} of them, " if one.body.get("count") else ""
    return f"{many}{hour(one.device_time)}, {one.who}"
