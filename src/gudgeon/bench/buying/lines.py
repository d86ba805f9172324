"""The list: what is needed of each part, what of it is ordered or there, and before which task it has to be."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from gudgeon.bench.buying.counts import counted
from gudgeon.bench.buying.grounds import Judged, renewed_bolts
from gudgeon.bench.buying.model import (
    COMPARED,
    FITTED,
    LATE,
    ORDERED,
    RECEIVED,
    RENEW,
    REWORK,
    STATES,
    TO_ORDER,
    Asked,
    Disposition,
    Line,
    Ordered,
)
from gudgeon.bench.buying.part_tasks import task_for
from gudgeon.bench.buying.said import SaidOfPart, day_words
from gudgeon.bench.buying.sizes import Sized, gasket_grade
from gudgeon.bench.context import Bench
from gudgeon.bench.network import Task
from gudgeon.book.plan_state import Order
from gudgeon.sheet.parts import Part

_MM = re.compile(r"[\d.]+ mm")
COMPARE_FIRST = "keep the old one until the new one was laid on it"
MAY_GO = "compared: the old one may go"


@dataclass(frozen=True, slots=True)
class Need:
    """So many of a part, as long as nothing of it is ordered; `priced_as` are the keys of its offers."""

    key: str
    name: str
    size: str
    quantity: int
    counted: str
    one_time: bool
    why: str
    source: str
    compare: str
    notes: tuple[str, ...]
    priced_as: tuple[str, ...]
    covered: int = 0
    right: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    """By which words an article is known as the grade that is needed, and as another one."""


def needs(
    bench: Bench,
    parts: Sequence[Disposition],
    *,
    known: Judged,
    sizes: Iterable[Sized],
    said: Mapping[str, SaidOfPart],
) -> tuple[Need, ...]:
    """Everything that is renewed, and every size that another question chose."""
    by_part: dict[str, list[Sized]] = {}
    for one in sizes:
        by_part.setdefault(one.of, []).append(one)
    found: list[Need] = []
    away = any(part.counts == REWORK and "head" in part.name.lower() for part in parts)
    for part in parts:
        own = by_part.get(part.part, [])
        if own and (part.counts == RENEW or all(size.name == "Shim" for size in own)):
            found += _sizes(bench, part, own, said)
        elif part.counts == RENEW:
            found.append(_whole(bench, part, known=known, head_away=away))
        elif not part.decision and (there := said.get(part.part)) is not None and _bought(there):
            found.append(_undecided(bench, part, there))
    for size in by_part.get("", []):
        if size.name == "Shim":
            found += _sizes(bench, None, [size], said)
    return tuple(found)


def _whole(bench: Bench, one: Disposition, *, known: Judged, head_away: bool) -> Need:
    part = bench.sheet.parts.get(one.part)
    count = counted(part.quantity if part is not None else None)
    number, notes = count.number, list[str]()
    if not count.known and part is not None:
        notes.append(
            f"the sheet says “{part.quantity}” of it, which is no number: one is counted; write how many"
        )
    bolts = known.bolts.get(one.part, ())
    if part is None and bolts:
        number = sum(len(answer.bolts) for answer in bolts)
    some = [name for answer in bolts for name in renewed_bolts(bench, answer)]
    if one.decision == RENEW and 0 < len(some) < number:
        notes.append(f"by the readings only {len(some)} of {number} have to be renewed ({', '.join(some)})")
    grade = gasket_grade(bench, one.part, name=one.name, known=known, head_away=head_away)
    size = grade.words if grade is not None else ""
    if grade is not None and grade.note:
        notes.append(grade.note)
    told = f"{number} {count.of}" if count.of else str(number)
    return Need(
        one.part, one.name, size, number, told, one.one_time, _why(one), _source(part, one),
        (part.compare or "") if part is not None else "", tuple(notes), (one.part, one.name.lower()),
        right=grade.right if grade is not None else (), wrong=grade.wrong if grade is not None else (),
    )  # fmt: skip


def _bought(said: SaidOfPart) -> bool:
    """Whether a part was ordered, or came."""
    return bool(said.orders) or said.state.received


def _undecided(bench: Bench, one: Disposition, said: SaidOfPart) -> Need:
    """What was bought although nothing was decided about it: as many as were ordered."""
    part = bench.sheet.parts.get(one.part)
    number = sum(order.quantity for order in said.orders) or counted(part.quantity if part else None).number
    return Need(
        one.part, one.name, "", number, str(number), False, "", "", (part.compare or "") if part is not None else "",
        ("nothing is decided about it: say what becomes of the old one",), (one.part, one.name.lower()),
    )  # fmt: skip


def _why(one: Disposition) -> str:
    if one.decision == RENEW:
        return one.why
    return next((ground.words for ground in one.grounds if ground.proposes == RENEW), "")


def _source(part: Part | None, one: Disposition) -> str:
    own = next((ground.source for ground in one.grounds if ground.proposes == RENEW and ground.source), "")
    return own or (str(part.source or "") if part is not None else "")


def _sizes(
    bench: Bench, one: Disposition | None, sizes: Iterable[Sized], said: Mapping[str, SaidOfPart]
) -> Iterator[Need]:
    """A line for each size; what was ordered of the part without a size is taken off the first ones."""
    part = bench.sheet.parts.get(one.part) if one is not None else None
    without_size = said.get(one.part, SaidOfPart()) if one is not None else SaidOfPart()
    left = sum(order.quantity for order in without_size.orders)
    for size in sizes:
        if not size.firm:
            continue
        bare = _MM.search(size.size)
        name = f"{size.name} {bare[0]}" if bare is not None else f"{size.name}, {size.size}"
        covered = min(left, size.count)
        left -= covered
        notes = size.notes
        if covered:
            notes = (*notes, f"{covered} of it counted as ordered: the order named no size")
        key = name.lower()
        yield Need(
            key, name, size.size, size.count, str(size.count), False, size.where_from, "",
            (part.compare or "") if part is not None else "", notes,
            (key, *((one.part, one.name.lower()) if one is not None else ())), covered,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Work:
    """The tasks of the build, which of them are done, and on which day each is planned."""

    tasks: Mapping[str, Task]
    done: frozenset[str]
    days: Mapping[str, date]


def line_of(
    bench: Bench,
    need: Need,
    *,
    said: SaidOfPart,
    asked: tuple[Asked, ...],
    work: Work,
    called: Callable[[str], str],
    supplier: str,
) -> Line:
    """One line of the list, with how it stands and what may be recorded of it."""
    task = task_for(need.name, tasks=work.tasks)
    left = to_order(need, said)
    orders = tuple(_ordered(bench, one, said=said, called=called) for one in said.orders)
    state = _state(said, orders, left=left, done=task is not None and task.key in work.done)
    there = state in (RECEIVED, COMPARED, FITTED)
    notes = (
        *(need.notes if state not in (COMPARED, FITTED) else ()),
        *_notes(said, left=left, task=task, work=work),
        *_parcels(said, called=called),
    )
    line = Line(
        need.key, need.name, need.size, need.quantity, need.counted, left, need.one_time, need.why, need.source,
        task.title if task is not None else "", task.key if task is not None else "",
        _day(task, work),
        state, orders, need.compare, _old(state) if there else "", asked,
        notes, (),
    )  # fmt: skip
    return replace(line, records=tuple(_records(line, said=said, supplier=supplier)))


def _day(task: Task | None, work: Work) -> str:
    day = work.days.get(task.key) if task is not None else None
    return "" if day is None else day_words(day.isoformat())


def to_order(need: Need, said: SaidOfPart) -> int:
    """How many are neither ordered nor there."""
    return lacking(said, need.quantity, covered=need.covered)


def lacking(said: SaidOfPart, needed: int, *, covered: int = 0) -> int:
    """How many of a part nobody has ordered. What came without a word of an order is taken to be all of it."""
    here = needed if said.state.received and not said.here else sum(one.quantity for one in said.here)
    under_way = sum(one.quantity for one in said.under_way)
    return max(0, needed - covered - here - under_way)


def _ordered(bench: Bench, one: Order, *, said: SaidOfPart, called: Callable[[str], str]) -> Ordered:
    waits = any(one is other for other in said.under_way)
    promise = said.promises.get(one.entry)
    expected = promise.on if promise is not None else one.expected
    today = bench.now.astimezone().date().isoformat()
    over = waits and bool(expected) and expected < today
    return Ordered(
        called(one.supplier), one.quantity, day_words(expected) if waits else "",
        f"late: it should have come on {day_words(expected)}" if over else "",
        f"{one.amount} {one.currency}" if one.amount else "",
    )  # fmt: skip


def _state(said: SaidOfPart, orders: tuple[Ordered, ...], *, left: int, done: bool) -> str:
    if left:
        return TO_ORDER
    if said.under_way:
        return LATE if any(one.late for one in orders) else ORDERED
    if not said.state.received:
        return ORDERED
    if done:
        return FITTED
    return COMPARED if said.state.compared else RECEIVED


def _old(state: str) -> str:
    return {RECEIVED: COMPARE_FIRST, COMPARED: MAY_GO}.get(state, "")


def _notes(said: SaidOfPart, *, left: int, task: Task | None, work: Work) -> Iterator[str]:
    if left and task is not None and task.key in work.done:
        yield f"“{task.title}” is done by the book, and this is not there: look which of the two is wrong"
    if left and said.orders:
        yield f"ordered so far: {sum(one.quantity for one in said.orders)}"


def _parcels(said: SaidOfPart, *, called: Callable[[str], str]) -> Iterator[str]:
    """Which of several orders are here, which are still open, and which went back."""
    if said.here and said.under_way:
        yield f"here: {_of_whom(said.here, called)}; still to come: {_of_whom(said.under_way, called)}"
    if said.returned:
        yield f"the money for {_of_whom(said.returned, called)} came back: it counts as sent back"


def _of_whom(orders: Iterable[Order], called: Callable[[str], str]) -> str:
    return ", ".join(f"{one.quantity} of {called(one.supplier)}" for one in orders)


def _records(line: Line, *, said: SaidOfPart, supplier: str) -> Iterator[tuple[str, str]]:
    """What may be recorded now, the next thing first."""
    name = f'"{line.name}"'
    if line.state == TO_ORDER:
        of = f' --supplier "{supplier}"' if supplier else ""
        yield "Ordered", f"gudgeon record ordered {name}{of} --quantity {line.to_order}"
        yield "A price", f"gudgeon record price {name}"
        yield "It came", f"gudgeon record received {name}"
    elif line.state in (ORDERED, LATE):
        yield "It came", f"gudgeon record received {name}"
    elif line.state == RECEIVED:
        yield "Compared with the old one", f"gudgeon record received {name} --compared"
    if not said.state.decided and not line.one_time and line.state != FITTED:
        yield "Decide", f"gudgeon record part {name} renew"


def in_order(lines: Iterable[Line], tasks: Mapping[str, Task]) -> tuple[Line, ...]:
    """What has to be done first stands first, and of that what is needed first."""
    place = {key: number for number, key in enumerate(tasks)}
    return tuple(
        sorted(lines, key=lambda one: (STATES.index(one.state), place.get(one.before_task, len(place))))
    )
