"""The table of a part: every place as a row with one field, moving on with Enter, each row recorded by itself."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from starlette.responses import JSONResponse, Response

from gudgeon.bench.context import Bench
from gudgeon.bench.errors import Unknown
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.measuring import write_reading
from gudgeon.bench.measuring_errors import LIKELY_SLIPS
from gudgeon.bench.pictures.places import gravest
from gudgeon.bench.record import Recorded
from gudgeon.bench.recordable import recordable
from gudgeon.bench.to_measure import ToMeasure, to_measure
from gudgeon.errors import GudgeonError, InputError
from gudgeon.sheet.inspections import Characteristic
from gudgeon.web.desk import Address, Asked, Desk, go, own_address
from gudgeon.web.measuring import (
    CONDITIONS,
    SAY_WHICH,
    Starting,
    drawing_address,
    limits,
    sheet_address,
    starting,
    table_address,
    verdicts,
    worked_on,
)
from gudgeon.web.recording import at_the_time, back_to, fields_of, seen_basis
from gudgeon.web.scripted import NOT_NOW
from gudgeon.web.shapes import shape_of
from gudgeon.web.whole import whole
from gudgeon.web.wording import worded

AT_THE_TOP = ("part_temperature", "gauge_temperature")
"""What is asked once for a whole table."""

MOST_FIELDS = 3000
MOST_BYTES = 512 * 1024


class WorkedOnSince(InputError):
    """A row that was taken for one from before any work, on a page from before that work was in the book."""

    def __init__(self) -> None:
        super().__init__(
            "Since this page was made, work on this part came into the book; whether this was read as found or as left "
            "was never said. Open the table anew, say which it is, then write it again."
        )


@dataclass(frozen=True, slots=True)
class Told:
    """What became of a row that was sent: it is in the book, or why it is not."""

    recorded: bool
    said: str
    verdict: str = ""
    why: str = ""
    entry: str = ""
    keepable: bool = False
    """Whether it is refused as a likely slip only, and may be kept on purpose."""
    later: bool = False
    """Whether nothing is wrong with the row itself: the book could not be written just now."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row of the table; `number` ties its fields together."""

    number: int
    item: str
    place: str
    reading: str
    other: str
    verdict: str
    told: Told | None


@dataclass(frozen=True, slots=True)
class Group:
    """One characteristic of the table: what is asked once for it, and its rows."""

    item: str
    name: str
    limits: tuple[str, ...]
    form: ToMeasure
    start: Starting
    decides: str
    lines: tuple[Line, ...]
    drawing: str = ""
    """Where the drawing of its places stands."""

    @property
    def open(self) -> tuple[Line, ...]:
        """The rows that want a reading: those without one, and those whose reading was refused."""
        return tuple(one for one in self.lines if not one.reading or (one.told and not one.told.recorded))

    @property
    def read(self) -> tuple[Line, ...]:
        """The rows that have one."""
        return tuple(one for one in self.lines if one not in self.open)


def table(desk: Desk, asked: Asked) -> Response:
    """The table of a part: a row for every place that can be read, those without a reading first."""
    with desk.bench() as bench:
        return _page(desk, asked, bench, told={})


def fill(desk: Desk, asked: Asked) -> Response:
    """Record every row that was filled in: what is refused stays filled with its reason, the others are in the book."""
    with desk.bench() as bench:
        items = _items(bench, asked.path["name"])
        told: dict[int, Told] = {}
        done: list[Recorded] = []
        now = bench
        for number, _, _ in _filled(now, items, asked.form):
            now, said, found = _recorded(now, asked.form, number, first=not done)
            told[number] = said
            done += [found] if found is not None else []
        refused = [one for one in told.values() if not one.recorded]
        if refused or not done:
            return _page(desk, asked, now, told=told)
    desk.said.keep(_together(done, asked.path["name"]))
    return go(back_to(own_address(asked.form.get("back", ""), otherwise="/good"), entry=done[-1].entry))


def one_row(desk: Desk, asked: Asked) -> Response:
    """Record one row of a table at once, and say what became of it: what the script of a table asks for."""
    with desk.bench() as bench:
        said_rows = (whole(name[5:]) for name in asked.form if name.startswith("item."))
        number = next((one for one in said_rows if one is not None), 0)
        after, said, _ = _recorded(at_the_time(bench, asked.form), asked.form, number, first=True)
        told = said.said if said.recorded else worded(said.said, name="reading")
        words = {"recorded": said.recorded, "said": told, "verdict": said.verdict, "why": said.why}
        return JSONResponse({
            **words, "entry": said.entry, "shape": shape_of(said.verdict), "basis": after.state.head,
            "keepable": said.keepable, "counts": _counts(after, asked.form.get(f"item.{number}", "")),
        }, 503 if said.later else 200)  # fmt: skip


def _counts(bench: Bench, item: str) -> list[dict[str, str]]:
    """How many places of its part have which verdict now, as the top of the table says it."""
    of = bench.sheet.characteristics.get(item)
    if of is None or bench.locked is not None:
        return []
    rows = (row for row in inspect(bench, only=of.part).rows if row.part == of.part)
    return [
        {"words": f"{count} {verdict}", "shape": shape_of(verdict)}
        for verdict, count in verdicts(rows).items()
    ]


def _filled(
    bench: Bench, items: Mapping[str, Characteristic], form: Mapping[str, str]
) -> Iterator[tuple[int, str, str]]:
    """The rows in which something was written, in the order of the table."""
    for number, item, place in _numbered(bench, items):
        if any(form.get(f"{name}.{number}", "").strip() for name in ("value", "low", "high")):
            yield number, item, place


def _numbered(bench: Bench, items: Mapping[str, Characteristic]) -> Iterator[tuple[int, str, str]]:
    number = 0
    for key in items:
        for one in to_measure(bench, key).places:
            number += 1
            yield number, key, one.place


def _recorded(
    bench: Bench, form: Mapping[str, str], number: int, *, first: bool
) -> tuple[Bench, Told, Recorded | None]:
    """Record a row; the bench as it stands then. Only the first one was written without knowing the others."""
    item, place = form.get(f"item.{number}", ""), form.get(f"place.{number}", "")
    own = {name: form.get(f"{name}.{number}", "") for name in ("value", "low", "high", "sure")}
    once = {name: form.get(f"{name}.{item}", "") for name in ("unit", "instrument")}
    shared = {"condition": form.get("condition", ""), **_warmth(form)}
    said = {**shared, **once, **own, "item": item, "place": place}
    try:
        _still_supposed(bench, form, item)
        fields = fields_of(bench, recordable("reading"), said)
        basis = seen_basis(bench, form) if first else None
        done, after = write_reading(bench, fields, entry_id=form.get(f"entry.{number}") or None, basis=basis)
    except GudgeonError as error:
        keepable, later = isinstance(error, LIKELY_SLIPS), isinstance(error, NOT_NOW)
        return bench, Told(False, str(error), keepable=keepable, later=later), None
    row = _row_of(after, item, place)
    told = Told(True, done.said, row.verdict if row else "", row.reason if row else "", done.entry)
    return after, told, done


def _still_supposed(bench: Bench, form: Mapping[str, str], item: str) -> None:
    """A page on which nobody said when it was read supposes that it was before any work: only while there is none."""
    of = bench.sheet.characteristics.get(item)
    if form.get("supposed") and of is not None and worked_on(bench, _of_part(bench, of.part)):
        raise WorkedOnSince


def _of_part(bench: Bench, part: str) -> list[str]:
    return [key for key, one in bench.sheet.characteristics.items() if one.part == part]


def _warmth(form: Mapping[str, str]) -> dict[str, str]:
    """How warm part and gauge were, said once for all rows; of what is left empty nothing is known."""
    return {name: form.get(name, "").strip() for name in AT_THE_TOP}


def _row_of(bench: Bench, item: str, place: str) -> Row | None:
    rows = [row for row in inspect(bench, only=item).rows if row.item == item]
    return gravest(rows, place)


def _together(done: list[Recorded], part: str) -> Recorded:
    """Several readings said in one breath; the remarks of each stay."""
    if len(done) == 1:
        return done[0]
    remarks = tuple(
        f"{one.said.removeprefix('reading: ')}. {remark}" for one in done for remark in one.remarks
    )
    return Recorded(done[-1].entry, "readings", f"{len(done)} readings, {part}", remarks)


def _items(bench: Bench, part: str, *, only: str = "") -> dict[str, Characteristic]:
    """The characteristics of a part that are read; with `only`, that one of them."""
    bench.unlock()
    found = {key: one for key, one in bench.sheet.characteristics.items() if one.part == part}
    if not found:
        raise Unknown("part", part, dict.fromkeys(one.part for one in bench.sheet.characteristics.values()))
    return {key: one for key, one in found.items() if _is_read(one) and only in ("", key)}


def _is_read(item: Characteristic) -> bool:
    """Whether its values are read one by one, and not worked out or taken from a file."""
    return not item.computed and item.method != "scanned face"


def _page(desk: Desk, asked: Asked, bench: Bench, *, told: Mapping[int, Told]) -> Response:
    part, query = asked.path["name"], asked.query
    every = _items(bench, part)
    only = query.get("only", "") if query.get("only", "") in every else ""
    said = query.get("condition", "") in CONDITIONS
    before_any = "" if worked_on(bench, _of_part(bench, part)) else CONDITIONS[0]
    condition = query["condition"] if said else before_any
    rows = tuple(row for row in inspect(bench, only=part).rows if row.part == part)
    groups = tuple(_groups(bench, every, rows, condition=condition, told=told, only=only))
    inputs = {one.field: one for one in recordable("reading").inputs}
    return desk.page(
        "part.html",
        bench=bench,
        asked=asked,
        status=422 if any(not one.recorded for one in told.values()) else 200,
        part=part,
        condition=condition,
        supposed=not said,
        say_which=SAY_WHICH if not condition else "",
        conditions=[(one, table_address(part, condition=one, only=only)) for one in CONDITIONS],
        address=table_address(part, condition=condition if said else "", only=only),
        only=only,
        whole=table_address(part, condition=condition if said else ""),
        groups=groups,
        counts=verdicts(rows),
        sheet_address=sheet_address(part),
        refused=sum(not one.recorded for one in told.values()),
        written=sum(one.recorded for one in told.values()),
        at_the_top=[inputs[name] for name in AT_THE_TOP if name in inputs],
    )


def _groups(
    bench: Bench,
    items: Mapping[str, Characteristic],
    rows: tuple[Row, ...],
    *,
    condition: str,
    told: Mapping[int, Told],
    only: str,
) -> Iterator[Group]:
    forms = {key: to_measure(bench, key) for key in items}
    lines: dict[str, list[Line]] = {key: [] for key in items}
    for number, key, place in _numbered(bench, items):
        found = next(one for one in forms[key].places if one.place == place)
        reading, other = found.as_found, found.as_left
        if condition == "as left":
            reading, other = found.as_left, f"found {found.as_found}" if found.as_found else ""
        else:
            other = f"left {found.as_left}" if found.as_left else ""
        row = gravest([row for row in rows if row.item == key], place) if reading else None
        verdict = row.verdict if row is not None else ""
        lines[key].append(Line(number, key, place, reading, other, verdict, told.get(number)))
    for key, form in forms.items():
        if only in ("", key):
            yield Group(
                key,
                form.name,
                limits(bench, key),
                form,
                starting(bench, form),
                can_decide(bench, key).words,
                tuple(lines[key]),
                drawing_address(bench, key),
            )


ADDRESSES = (
    Address("/good/row", one_row, methods=("POST",)),
    Address("/good/part/{name:path}", table),
    Address(
        "/good/part/{name:path}", fill, methods=("POST",), most_bytes=MOST_BYTES, most_fields=MOST_FIELDS
    ),
)
