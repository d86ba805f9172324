"""What speaks for what becomes of a part: the rule of the sheet, its bolts, what was read of it, its age."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from gudgeon.bench.buying.model import ACCEPT, OPEN, RENEW, REUSE, REWORK, Ground
from gudgeon.bench.buying.said import SaidOfPart
from gudgeon.bench.buying.wear import age_in, amount_in, unit_of, use_words
from gudgeon.bench.context import Bench
from gudgeon.bench.good import inspect
from gudgeon.bench.judging.evaluate import RENEWED
from gudgeon.bench.judging.rows import Row
from gudgeon.bench.new_bolts import always_new
from gudgeon.bench.part_keys import fasteners_of, key_of
from gudgeon.bench.reuse import DOUBT, NOT, UNKNOWN, ReuseAnswer, reuse
from gudgeon.book.state import JointState
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.parts import Part

NAMED = 2
"""So many places are named one by one; of more the rest is counted."""
GRAVEST = (RENEW, REWORK, OPEN, ACCEPT, REUSE)


@dataclass(frozen=True, slots=True)
class Judged:
    """What was judged, by the key of the part: rows of readings, and the bolts of joints."""

    rows: Mapping[str, tuple[Row, ...]] = field(default_factory=dict)
    bolts: Mapping[str, tuple[ReuseAnswer, ...]] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)
    """What parts are called that the list of the sheet does not have."""
    chosen: Mapping[str, tuple[Ground, ...]] = field(default_factory=dict)
    """What another question says of a part."""
    by_eye: tuple[str, ...] = ()
    """Fasteners that the list does not have, and that only the eye judges: the joint, and how many."""


def judged(bench: Bench) -> Judged:
    """Everything that was read and judged, by the part that it is about."""
    sheet = bench.sheet
    bolts, names, by_eye = _bolts(bench)
    of_bolts = {
        name
        for joint in sheet.joints.values()
        for rule in (joint.reuse.rules if joint.reuse is not None else ())
        for name in rule.measured_as
    }
    rows: dict[str, list[Row]] = {}
    chosen = _set_by_shims(sheet)
    for row in inspect(bench).rows:
        key = part_of(sheet, row)
        if key not in sheet.parts:
            names.setdefault(key, row.part)
        if row.item not in of_bolts and row.item not in chosen:
            rows.setdefault(key, []).append(row)
    return Judged({key: tuple(found) for key, found in rows.items()}, bolts, names, by_eye=by_eye)


def part_of(sheet: DataSheet, row: Row) -> str:
    """The part that a row is about: one that is called as the characteristic itself, else the part that it names."""
    for said in (row.item, row.name):
        key = key_of(sheet, said)
        if key in sheet.parts:
            return key
    return key_of(sheet, row.part)


def _set_by_shims(sheet: DataSheet) -> frozenset[str]:
    """Characteristics that say nothing against a part: a clearance is set by another shim, or by a screw."""
    gear = sheet.valve_gear
    sides = [side for side in (gear.intake, gear.exhaust) if side is not None] if gear is not None else []
    return frozenset(item for side in sides for item in (side.clearance, side.shim) if item is not None)


_Bolts = dict[str, tuple[ReuseAnswer, ...]]


def _bolts(bench: Bench) -> tuple[_Bolts, dict[str, str], tuple[str, ...]]:
    """The bolts of every joint that states a rule, by their part: the joint itself where the sheet lists no such part.

    Of those without a part the eye alone may be the judge; they are only counted.
    """
    found: _Bolts = {}
    names: dict[str, str] = {}
    by_eye = []
    for key, joint in bench.sheet.joints.items():
        rules = joint.reuse.rules if joint.reuse is not None else ()
        if not rules or rules[0].rule == "not stated":
            continue
        part = fasteners_of(bench.sheet, key)
        if part not in bench.sheet.parts:
            if all(rule.rule == "as found good" for rule in rules):
                by_eye.append(f"{joint.name} ({len(joint.bolt_names)})")
                continue
            names[part] = joint.name
        found[part] = (*found.get(part, ()), reuse(bench, key))
    return found, names, tuple(by_eye)


def renewed_bolts(bench: Bench, answer: ReuseAnswer) -> list[str]:
    """The bolts that may not go back, and of which no new one is in hand."""
    joint = bench.state.joints.get(answer.joint, JointState())
    return [one.bolt for one in answer.bolts if one.verdict == NOT and not joint.new_in_hand(one.bolt)]


def every_time(bench: Bench, key: str, *, part: Part | None, known: Judged) -> bool:
    """Whether a part is renewed every time: by the list, by the rule of its bolts, or by what limits it."""
    return (
        (part is not None and part.one_time)
        or any(always_new(bench.sheet.joints[one.joint]) for one in known.bolts.get(key, ()))
        or any(RENEWED in row.reason for row in known.rows.get(key, ()))
    )


def grounds_of(
    bench: Bench, key: str, *, part: Part | None, said: SaidOfPart, known: Judged
) -> Iterator[Ground]:
    """Everything that speaks for what becomes of one part."""
    if part is not None and part.one_time:
        yield Ground(RENEW, "the manual has it renewed every time", str(part.source or ""))
    for answer in known.bolts.get(key, ()):
        if not (part is not None and part.one_time and always_new(bench.sheet.joints[answer.joint])):
            yield from _of_bolts(bench, answer)
    one_time = part is not None and part.one_time
    yield from _of_rows(
        bench, [row for row in known.rows.get(key, ()) if not (one_time and RENEWED in row.reason)]
    )
    yield from known.chosen.get(key, ())
    if part is not None and not part.one_time:
        yield from _of_age(part, said)


def _of_bolts(bench: Bench, answer: ReuseAnswer) -> Iterator[Ground]:
    if always_new(bench.sheet.joints[answer.joint]):
        yield Ground(RENEW, f"the manual has them renewed every time ({answer.name})", answer.source)
        return
    found = {
        verdict: [one.bolt for one in answer.bolts if one.verdict == verdict]
        for verdict in (NOT, DOUBT, UNKNOWN)
    }
    words = f"{answer.name}: {answer.said}"
    if found[NOT]:
        yield Ground(RENEW, f"{words} ({answer.called} {', '.join(found[NOT])} to renew)", answer.source)
    elif found[DOUBT] or found[UNKNOWN]:
        yield Ground(OPEN, f"{words}: gudgeon reuse {answer.joint}", answer.source)
    else:
        yield Ground(REUSE, words, answer.source)


def _of_rows(bench: Bench, rows: Sequence[Row]) -> Iterator[Ground]:
    """What was read: outside, in doubt, accepted, not measured, inside; the worst place is named."""
    sorts: dict[str, list[Row]] = {}
    for row in rows:
        sorts.setdefault("accepted" if row.accepted else row.verdict, []).append(row)
    for row_sort, proposes in (("outside", RENEW), ("in doubt", OPEN), ("accepted", ACCEPT)):
        for proposed, found in _by_proposal(bench, sorts.get(row_sort, ()), proposes).items():
            yield Ground(proposed, _placed(found, row_sort), found[0].source)
    lacking = list(dict.fromkeys(row.name for row in sorts.get("not measured", ())))
    if lacking:
        yield Ground(OPEN, f"not measured: {_few(lacking)}")
    inside = sorts.get("inside", ())
    if inside:
        total = sum(row.count for row in inside)
        yield Ground(REUSE, f"{total} {'reading' if total == 1 else 'readings'} inside")


def _by_proposal(bench: Bench, rows: Sequence[Row], proposes: str) -> dict[str, list[Row]]:
    """What is outside is for the shop where a shop can do it, else for a new part."""
    found: dict[str, list[Row]] = {}
    for row in rows:
        shop = proposes == RENEW and _by_shop(bench, row)
        found.setdefault(REWORK if shop else proposes, []).append(row)
    return found


def _by_shop(bench: Bench, row: Row) -> bool:
    """A face is cut, a bore is bored: what the cut or the shop order is about."""
    sheet = bench.sheet
    item = sheet.characteristics[row.item]
    if item.face is not None or item.part.lower() in {one.lower() for one in bench.state.shop}:
        return True
    bored = sheet.cylinder.measured_as.get("bore") if sheet.cylinder is not None else None
    return bored is not None and (row.item == bored or bored in item.of)


def _placed(rows: Sequence[Row], sort: str) -> str:
    words = []
    for row in rows[:NAMED]:
        place = f", {row.place}" if row.place else ""
        read = f" {row.reading}" if row.reading else ""
        why = row.accepted if sort == "accepted" else row.reason
        words.append(f"{row.name}{place}:{read} {sort}" + (f", {why}" if why else ""))
    more = len(rows) - NAMED
    return "; ".join(words) + (f"; and {more} more {sort}" if more > 0 else "")


def _few(names: Sequence[str]) -> str:
    more = len(names) - 3
    return ", ".join(names[:3]) + (f" and {more} more" if more > 0 else "")


def _of_age(part: Part, said: SaidOfPart) -> Iterator[Ground]:
    """How much of its use is over, by distance and by age: the first of the two that is reached counts."""
    if part.renew_after is None:
        return
    use, source = part.renew_after.value, str(part.renew_after.source or part.source or "")
    units = [unit_of(use)] if use.distance is not None else []
    units += ["months"] if use.months is not None else []
    over, left, unknown = [], [], []
    for unit in units:
        age, most = age_in(said.age, unit), amount_in(use, unit)
        assert most is not None  # it is stated in this unit
        if age is None:
            unknown.append("its distance" if unit != "months" else "its age")
        elif age >= most:
            over.append(f"{use_words(age, unit)} old, renewed after {use_words(most, unit)}")
        else:
            left.append(f"{use_words(age, unit)} of {use_words(most, unit)}")
    if over:
        yield Ground(RENEW, f"due: {'; '.join(over)}", source)
    elif unknown:
        told = f"{'; '.join(left)}; " if left else ""
        yield Ground(
            OPEN,
            f"renewed after {use.text}: {told}{' and '.join(unknown)} not in the book: "
            f'gudgeon record age "{part.name}" --basis …',
            source,
        )
    else:
        yield Ground(REUSE, f"not due yet: {'; '.join(left)}", source)
