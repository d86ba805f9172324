"""Sizes and grades that other questions choose: shims, shells, and which head gasket."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from gudgeon.bench.buying.grounds import Judged
from gudgeon.bench.buying.model import OPEN, REUSE, REWORK, Ground
from gudgeon.bench.context import Bench
from gudgeon.bench.cut.camshafts import Camshafts
from gudgeon.bench.cut.gasket import choice
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.known import EXACTLY_ZERO
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.fits.shells import chosen_halves
from gudgeon.bench.judging.rows import Row
from gudgeon.bench.shims.model import ShimAnswer
from gudgeon.bench.shims.shims import shims
from gudgeon.errors import GudgeonError
from gudgeon.sheet.fits import Bearing

SHIMS = "gudgeon shims"


@dataclass(frozen=True, slots=True)
class Sized:
    """So many of one size; `of` is the part of the list that it belongs to, empty where the list has none."""

    of: str
    name: str
    size: str
    count: int
    where_from: str
    firm: bool
    notes: tuple[str, ...] = ()


def sized(
    bench: Bench, names: Mapping[str, str]
) -> tuple[tuple[Sized, ...], Mapping[str, tuple[Ground, ...]], tuple[str, ...]]:
    """Shims and shells by size; what the choice of shims says of them; and what could not be chosen, in words."""
    found: list[Sized] = []
    grounds: dict[str, tuple[Ground, ...]] = {}
    missing: list[str] = []
    of = _part_named(names, "shim")
    gear = bench.sheet.valve_gear
    try:
        if gear is not None and gear.adjustment == "shims":
            answer = shims(bench)
            found += _shims(answer, of)
            grounds[of] = (shim_ground(answer),)
        found += _shells(bench, names)
    except GudgeonError as error:
        missing.append(str(error))
    return tuple(found), grounds, tuple(missing)


def _shims(answer: ShimAnswer, of: str) -> Iterator[Sized]:
    for one in answer.shopping:
        yield Sized(
            of, "Shim", one.size, one.count, f"for {'; '.join(one.goes_to)}: {SHIMS}", not answer.measure_again,
            tuple(_shim_notes(answer)),
        )  # fmt: skip


def shim_ground(answer: ShimAnswer) -> Ground:
    """What the choice of shims says of them."""
    if answer.missing:
        return Ground(OPEN, f"which shim goes where cannot be said for every valve yet: {SHIMS}")
    proposes = OPEN if answer.measure_again or answer.never else REWORK if answer.work else REUSE
    return Ground(
        proposes, f"{answer.said} {' '.join(answer.measure_again)}".strip(), "; ".join(answer.sources)
    )


def _shim_notes(answer: ShimAnswer) -> Iterator[str]:
    yield from answer.measure_again
    if answer.missing:
        yield f"not every valve is answered for yet: {SHIMS}"


def _part_named(names: Mapping[str, str], word: str) -> str:
    """The part of the list whose name has a word in it."""
    return next((key for key, name in names.items() if word in name.lower()), "")


def _shells(bench: Bench, names: Mapping[str, str]) -> Iterator[Sized]:
    """Halves by grade, for every bearing whose places were measured."""
    sheet = bench.sheet.fits
    for key, bearing in (sheet.bearings if sheet is not None else {}).items():
        counts = Counter(name for pair in chosen_halves(bench, key) if pair is not None for name in pair)
        of = _part_of_bearing(names, key, bearing)
        name = names.get(of, bearing.name)
        for grade in bearing.grades:
            if counts[grade]:
                mark = bearing.grades[grade].mark
                size = f"grade {grade}" + (f" ({mark})" if mark and mark.lower() != grade.lower() else "")
                yield Sized(of, f"{name}, half", size, counts[grade], "by the clearances: gudgeon fits", True)


def _part_of_bearing(names: Mapping[str, str], key: str, bearing: Bearing) -> str:
    """The part of the list that the shells of a bearing are, by its name: `Main bearing shells` of `Main bearings`."""
    low = _bare(bearing.name)
    return next(
        (part for part, name in names.items() if part == key or low in _bare(name) or _bare(name) in low), ""
    )


def _bare(name: str) -> str:
    words = [
        word
        for word in name.lower().replace("-", " ").split()
        if word not in ("shell", "shells", "the", "of")
    ]
    return " ".join(word.removesuffix("s") for word in words)


@dataclass(frozen=True, slots=True)
class Grade:
    """Which of several a part has to be, and what is to be said about it.

    `right` are the words by which an article is known as this one, `wrong` those of the others.
    """

    words: str
    note: str
    right: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()


def gasket_grade(bench: Bench, key: str, *, name: str, known: Judged, head_away: bool) -> Grade | None:
    """Which head gasket: by what came off the head, else by the grade that a reading chooses; None for other parts."""
    if "head gasket" not in f"{key.replace('_', ' ')} {name.lower()}":
        return None
    return _by_cut(bench, head_away=head_away) or _by_reading(bench, known)


def _by_cut(bench: Bench, *, head_away: bool) -> Grade | None:
    gaskets = bench.sheet.cylinder.gaskets if bench.sheet.cylinder is not None else {}
    if not gaskets:
        return None
    try:
        inputs = gather(bench)
    except GudgeonError as error:
        return Grade("", f"which of the gaskets cannot be said: {error}")
    made = inputs.head.made
    if made is None and head_away:
        return Grade(
            "", "which of the gaskets is known when the head is back and its height is measured: gudgeon cut"
        )
    laws = Laws(inputs, Camshafts(None, ()))
    found = choice(inputs, in_all=laws.in_all(made.known if made is not None else EXACTLY_ZERO))
    if found is None:
        return None
    if found.gasket is None:
        return Grade("", found.words)
    why = f"by the cut ({found.source}): gudgeon cut"
    marks = {name: (name.lower(), *([one.mark.lower()] if one.mark else [])) for name, one in gaskets.items()}
    right = marks.pop(found.gasket.name, ())
    wrong = tuple(word for words in marks.values() for word in words)
    return Grade(found.gasket.called, f"{found.doubt}; {why}" if found.doubt else why, right, wrong)


def _by_reading(bench: Bench, known: Judged) -> Grade | None:
    """The grade that a characteristic of the gasket chooses; the highest place where several do."""
    rows = [
        row
        for rows in known.rows.values()
        for row in rows
        if bench.sheet.characteristics[row.item].grades and "gasket" in f"{row.name} {row.part}".lower()
    ]
    chosen = _deciding(rows)
    if chosen is None:
        return None
    if chosen.verdict != "inside" or not chosen.reason.startswith("grade "):
        return Grade("", f"{chosen.name}: {chosen.verdict}, {chosen.reason}")
    grades = [name.lower() for name in bench.sheet.characteristics[chosen.item].grades]
    right = chosen.reason.removeprefix("grade ").lower()
    note = f"{chosen.name}{f', {chosen.place}' if chosen.place else ''}: {chosen.reading}"
    return Grade(chosen.reason, note, (right,), tuple(one for one in grades if one != right))


def _deciding(rows: Sequence[Row]) -> Row | None:
    """The row that chooses; one that is open stands above those that are decided."""
    highest = [row for row in rows if any("it chooses" in note for note in row.notes)]
    among = highest or [row for row in rows if row.verdict != "inside"] or list(rows)
    return among[0] if among else None
