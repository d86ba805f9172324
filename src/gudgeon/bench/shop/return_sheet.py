"""What came back as a sheet to fill in: every figure as ordered, as the shop has it, and as he read it himself.

It works before the part is back as well: then it is blank, and says what to read.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.judging.finding import NOT_MEASURED
from gudgeon.bench.measured import measured_in
from gudgeon.bench.reason import when
from gudgeon.bench.shop.back_lines import AS_LEFT, Check, NotBack
from gudgeon.bench.shop.found import PartKind, face_key
from gudgeon.bench.shop.incoming import IncomingCheck, incoming
from gudgeon.bench.shop.ordered import MORE, order_of
from gudgeon.sheet.inspections import place_names

AWAY, NO_ORDER, BACK = "not back yet", "not ordered", "back"
PRACTICE = "common practice, no source"

_TO_DO = (
    (MORE, "talk to the shop before it is fitted; who lets it be says so by name, with the reason"),
    ("outside", "do not fit it like this: back to the shop, or somebody accepts it by name, with the reason"),
    ("in doubt", "read it again, with a finer gauge or more often: in doubt is not inside"),
    (NOT_MEASURED, "read it before anything is fitted"),
    ("no limit given", "ask the manual, or the maker of the gasket, what it may be"),
)
"""What is to be done by the verdict; of any other, nothing."""


@dataclass(frozen=True, slots=True)
class ReturnRow:
    """One figure: what was ordered or limits it, what was read of it, the verdict, how far it is off, what to do."""

    what: str
    ordered: str
    read: str
    verdict: str
    difference: str
    to_do: str
    source: str


@dataclass(frozen=True, slots=True)
class ReturnPlace:
    """One place: what was read there before it left and since it is back, and by how much the two differ."""

    place: str
    before: str
    after: str
    off: str


@dataclass(frozen=True, slots=True)
class ReturnFigure:
    """A figure that is read at several places."""

    what: str
    how: str
    places: tuple[ReturnPlace, ...]


@dataclass(frozen=True, slots=True)
class ReturnSheet:
    """What came back against what was ordered, each figure with room for that of the shop.

    `state` is `back`, `not back yet` or `not ordered`; `out`, `promised` and `back_on` are days, empty where nobody
    said them.
    `rests_on` is what stands behind the things to do.
    """

    heading: Heading
    check: IncomingCheck
    state: str
    out: str
    promised: str
    rows: tuple[ReturnRow, ...]
    figures: tuple[ReturnFigure, ...]
    rests_on: str = PRACTICE
    back_on: str = ""


def return_sheet(bench: Bench, *, part: PartKind = "head") -> ReturnSheet:
    """The sheet for what came back of the head, or of the block."""
    check = incoming(bench, part=part)
    order = order_of(bench, part=part)
    state = NO_ORDER if order is None else BACK if order.back else AWAY
    return ReturnSheet(
        heading=check.heading,
        check=check,
        state=state,
        out=_day(order.out) if order is not None else "",
        promised=_promised(bench, part),
        back_on=_day(order.returned) if order is not None else "",
        rows=tuple(_rows(check)),
        figures=tuple(_figures(bench, check, part)),
    )


def _day(time: str) -> str:
    return when(datetime.fromisoformat(time)) if time else ""


def _promised(bench: Bench, part: PartKind) -> str:
    """The day on which the shop promised it."""
    for (of, what), promise in bench.state.plan.promises.items():
        if of == "shop" and part in what.lower().split():
            return f"{date.fromisoformat(promise.on[:10]):%a %b %d}"
    return ""


def _rows(check: IncomingCheck) -> Iterator[ReturnRow]:
    """What was read, then what was not; a figure that is not there for one and the same reason is told once."""
    unread = {one.why: one for one in check.not_back}
    for line in check.lines:
        yield _checked(line, lacks=unread.get(line.follows), let_be=bool(check.accepted))
    told = {one.follows for one in check.lines}
    yield from (_unread(one) for one in check.not_back if one.why not in told)


def _checked(one: Check, *, lacks: NotBack | None, let_be: bool) -> ReturnRow:
    to_do = next((words for verdict, words in _TO_DO if one.verdict.startswith(verdict)), "")
    if one.verdict == MORE and let_be:
        to_do = "somebody let it be, by name: see above"
    if lacks is not None:
        to_do = _to_get(lacks)
    return ReturnRow(one.what, one.asked, one.got, one.verdict, one.follows, to_do, one.source)


def _unread(one: NotBack) -> ReturnRow:
    why = one.why if one.command and not one.why.startswith("not read") else ""
    return ReturnRow(one.what[0].upper() + one.what[1:], one.asked, "", NOT_MEASURED, why, _to_get(one), "")


def _to_get(one: NotBack) -> str:
    """How a figure is got that is not there; one for which the sheet has no place comes from the shop."""
    if "record hold" in one.command:
        return "have it tested, and have on paper how and what it showed"
    return dict(_TO_DO)[NOT_MEASURED] if one.command else "have it from the shop in figures, on paper"


def _figures(bench: Bench, check: IncomingCheck, part: PartKind) -> Iterator[ReturnFigure]:
    """Heights and flatness place by place, also where nothing is read yet."""
    head = bench.sheet.head
    off = {one.place: one.off for one in check.places}
    height = head.measured_as if head is not None and part == "head" else None
    for key in (height, face_key(bench, part=part)):
        if key is None or key not in bench.sheet.characteristics:
            continue
        item = bench.sheet.characteristics[key]
        before, after = (measured_in(bench, key, condition=one) for one in ("as found", AS_LEFT))
        places = dict.fromkeys((*place_names(item), *before, *after))
        yield ReturnFigure(
            item.name,
            item.how or "",
            tuple(
                ReturnPlace(
                    place,
                    before[place].text if place in before else "",
                    after[place].text if place in after else "",
                    off.get(place, "") if key == height else "",
                )
                for place in places
            ),
        )
