"""Every reading: against new range and limit, as found and as left with U, the verdict, the gauge."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from gudgeon.bench.closed.model import Drawn, Mark, Row, Section
from gudgeon.bench.closed.told import Told, asked, table
from gudgeon.bench.entries import how_read
from gudgeon.bench.good import RULE, inspect
from gudgeon.bench.good import Row as Judged
from gudgeon.bench.judging.criteria import difference_kind
from gudgeon.bench.judging.finding import NOT_MEASURED, plus_minus
from gudgeon.bench.measured import measured_in
from gudgeon.bench.pictures.of import drawn_from, picture
from gudgeon.book.entries import Entry

HEADS = ("Place", "As found", "As left", "Verdict")
NO_LIMIT = "no limit given"
_ODD = re.compile(r"entry (\d+)")
"""How a reading is named that nothing can be made of by the sheet of today: then it stands as it was written."""
_MARKS: Mapping[str, Mark] = {"outside": "outside", "in doubt": "doubt"}


def findings(told: Told) -> Section:
    """The inspection sheet part by part, the faces and bores as drawings, and what was read before."""
    answer, locked = asked(lambda: inspect(told.bench))
    rows = answer.rows if answer is not None else ()
    read = [one for one in rows if one.reading or one.verdict not in (NOT_MEASURED, NO_LIMIT)]
    parts = dict.fromkeys(one.part for one in read)
    tables = [
        one
        for part in parts
        for one in table(part, HEADS, _part(told, [row for row in read if row.part == part]))
    ]
    tables += told.listed("Faces scanned", told.of("face-scanned"))
    tables += told.listed(
        "Read before, or struck", _earlier(told), note="A later reading of the same place took their place."
    )
    return Section(
        "findings",
        "Findings",
        said=(RULE, _counted(answer.counts)) if answer is not None and read else (),
        tables=tuple(tables),
        missing=(*locked, *_unread(rows, read)),
        pictures=tuple(_pictures(told, read)),
    )


def _counted(counts: Mapping[str, int]) -> str:
    said = [f"{count} {verdict}" for verdict, count in counts.items() if verdict != NOT_MEASURED]
    return f"Of what was judged: {', '.join(said)}."


def _part(told: Told, rows: Sequence[Judged]) -> Iterator[Row]:
    for key, several in groupby(rows, key=lambda one: one.item):
        own = list(several)
        common = _Common.of(own)
        yield Row((common.words(own[0]),), mark="group")
        spread = _as_found_u(told, key)
        yield from (_row(told, one, spread, common) for one in own)


@dataclass(frozen=True, slots=True)
class _Common:
    """What is so of every reading of a characteristic, and is said once above them."""

    gauge: str
    notes: tuple[str, ...]
    criterion: str

    @classmethod
    def of(cls, rows: Sequence[Judged]) -> "_Common":
        """What all rows have in common."""
        first = rows[0]
        notes = tuple(note for note in first.notes if all(note in one.notes for one in rows))
        one_gauge = all(one.gauge == first.gauge for one in rows)
        one_limit = all(one.criterion == first.criterion for one in rows)
        return cls(first.gauge if one_gauge else "", notes, first.criterion if one_limit else "")

    def words(self, one: Judged) -> str:
        """What the sheet says of a characteristic, in front of its readings, and what was read with."""
        said = [
            f"new: {one.new_range}" if one.new_range else "",
            f"limit: {one.wear_limit}" if one.wear_limit else "",
            f"required: {one.required}" if one.required else "",
        ]
        stated = "; ".join(filter(None, said)) or self.criterion or "the sheet states no limit"
        source = f" ({one.source})" if one.source else ""
        gauge = _read_with(self.gauge)
        notes = [f"{note[0].upper()}{note[1:]}" for note in self.notes]
        return ". ".join(filter(None, [f"{one.name} – {stated}{source}", gauge, *notes])) + "."


def _row(told: Told, one: Judged, spread: Mapping[str, str], common: _Common) -> Row:
    odd = _ODD.fullmatch(one.reading)
    reading = told.words(told.entries[int(odd[1]) - 1]) if odd is not None else one.reading
    now = " ".join(filter(None, [reading, one.uncertainty if one.uncertainty != "not known" else ""]))
    if one.uncertainty == "not known":
        now += ", ± not known"
    if one.at_20:
        now += f"; at 20 °C {one.at_20}"
    now += _besides(told, one, one.condition)
    found = f"{one.as_found} {spread.get(one.place, '')}".strip() if one.as_found else ""
    found += _besides(told, one, "as found") if found else ""
    before, after = (found, now) if one.condition == "as left" else (now, "")
    return Row(
        (one.place or "the one place", before, after, _verdict(one, common)),
        tuple(_entries(told, one)),
        _MARKS.get(one.verdict, ""),
    )


def _besides(told: Told, one: Judged, condition: str) -> str:
    """What was noted with the reading of a place: of how many it is the mean, how warm it was, and the note."""
    read = told.bench.state.readings.get((one.item, one.place, condition))
    if read is None or _ODD.fullmatch(one.reading):
        return ""
    body = told.entries[read.order - 1].body
    return "".join(f"; {said}" for said in (*how_read(body), body["note"]) if said)


def _entries(told: Told, one: Judged) -> list[int]:
    """The entries that a row was made of: those that were judged, and that of the reading as found."""
    found = told.bench.state.readings.get((one.item, one.place, "as found")) if one.as_found else None
    ids = {*one.rests_on, *((found.entry,) if found is not None else ())}
    return sorted(told.numbers[entry] for entry in ids if entry in told.numbers)


def _verdict(one: Judged, common: _Common) -> str:
    """The verdict with the limit that it is of, why, and who lets it be."""
    known = (one.new_range, one.wear_limit, one.required, common.criterion)
    limit = "" if one.criterion in known else one.criterion
    verdict = one.verdict.upper() if one.verdict in _MARKS else one.verdict
    if one.reason.startswith(one.verdict):
        verdict = ""
    gauge = _own(one.gauge) if one.gauge != common.gauge else ""
    notes = [note for note in one.notes if note not in common.notes]
    return "; ".join(filter(None, [verdict, one.reason, limit, one.missing, one.accepted, gauge, *notes]))


def _read_with(gauge: str) -> str:
    if gauge.startswith("worked out"):
        return f"{gauge[0].upper()}{gauge[1:]}"
    return f"Read with {_own(gauge)}" if gauge else ""


def _own(gauge: str) -> str:
    """Who holds the book has no kit: whose figure the error is stays said."""
    return gauge.replace("(your kit)", "(by the kit)")


def _as_found_u(told: Told, key: str) -> Mapping[str, str]:
    """How uncertain the readings as found are, by their places."""
    kind = difference_kind(told.bench.sheet.characteristics[key].kind)
    read = measured_in(told.bench, key, condition="as found")
    return {place: plus_minus(one.u, kind=kind) for place, one in read.items() if one.u_known}


def _earlier(told: Told) -> Iterator[Entry]:
    """Readings that count no more: read anew later, or struck."""
    counts = {one.entry for one in told.bench.state.readings.values()}
    return (one for one in told.of("reading") if one.id not in counts)


def _unread(rows: Sequence[Judged], read: Sequence[Judged]) -> Iterator[str]:
    open_ones = [one for one in rows if one not in read]
    for verdict, words in (
        (NOT_MEASURED, "Not read"),
        (NO_LIMIT, "The sheet gives no limit, and nothing was read"),
    ):
        names = dict.fromkeys(f"{one.name} ({one.part})" for one in open_ones if one.verdict == verdict)
        if names:
            yield f"{words}: {'; '.join(names)}."
    if not rows:
        yield "No reading in the book."


def _pictures(told: Told, read: Sequence[Judged]) -> Iterator[Drawn]:
    """Faces and bores that were read, each once."""
    drawn = dict.fromkeys(drawn_from(told.bench, one.item) for one in read)
    for key in drawn:
        if key:
            found, _ = asked(lambda key=key: picture(told.bench, key))  # type: ignore[misc]
            if found is not None:
                yield found
