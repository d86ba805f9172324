"""Bores and journals as a picture: each height as a section, the readings exaggerated around the nominal circle."""

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.context import Bench
from gudgeon.bench.good import inspect
from gudgeon.bench.measured import Measured, measured
from gudgeon.bench.pictures.places import counted, verdict_of
from gudgeon.quantity.format import both
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic, place_names

ROOM = 0.3
"""How far the readings may leave the nominal circle on the drawing, as a share of its radius."""

_DEGREES = re.compile(r"^(\d+(?:\.\d+)?) ?(?:°|deg(?:rees)?)$")


@dataclass(frozen=True, slots=True)
class Across:
    """One diameter that was read: in which direction, at which angle on the drawing, and what it proves.

    Where it is known only between two ends, `value_mm` is the lower one and `high_mm` the upper one.
    """

    direction: str
    angle_deg: float
    value_mm: float
    text: str
    verdict: str
    high_mm: float | None = None

    @property
    def ends_mm(self) -> tuple[float, float]:
        """Both ends; of a single value twice the same."""
        return self.value_mm, self.value_mm if self.high_mm is None else self.high_mm


@dataclass(frozen=True, slots=True)
class Section:
    """One height, with the diameters that were read there; `missing` names the directions that were not.

    `at_mm` is how deep it lies, where the sheet states that of every height, and `at` the same in words.
    """

    height: str
    across: tuple[Across, ...]
    missing: tuple[str, ...]
    at_mm: float | None = None
    at: str = ""


@dataclass(frozen=True, slots=True)
class Bore:
    """One bore or journal, from one end to the other."""

    name: str
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class BorePicture:
    """Every bore that has a reading; `exaggerated` says how many times the differences are drawn too large."""

    item: str
    name: str
    part: str
    nominal_mm: float
    nominal: str
    new_mm: tuple[float, float] | None
    new: str
    limits_mm: tuple[float, ...]
    limits: str
    exaggerated: int
    directions: tuple[str, ...]
    angles: str
    bores: tuple[Bore, ...]
    not_drawn: tuple[str, ...]
    words: str


def is_bore(item: Characteristic) -> bool:
    """Whether its places are bores or journals by heights by directions."""
    return item.kind == "length" and isinstance(item.places, dict) and len(item.places) == 3


def bore_picture(bench: Bench, key: str) -> BorePicture | None:
    """The bores of a characteristic, each with its sections; nothing where no reading of it has both its ends."""
    item = bench.sheet.characteristics[key]
    rows = [row for row in inspect(bench, only=key).rows if row.item == key]
    found = measured(bench, key)
    drawable = {place: one for place, one in found.items() if math.isfinite(one.low + one.high)}
    if not drawable:
        return None
    verdicts = {place: verdict_of(rows, place, read=place in found) for place in place_names(item)}
    bores = _bores(item, drawable, verdicts)
    new, limits = _ends(item.new_range, item.kind), _wear(item)
    nominal, words = _nominal(item, [(one.low + one.high) / 2 for one in drawable.values()], new)
    ends = [end for one in drawable.values() for end in (one.low, one.high)]
    drawn = [*ends, *limits, *(new or ())]
    directions = tuple(list(_places(item).values())[2])
    return BorePicture(
        item=key,
        name=item.name,
        part=item.part,
        nominal_mm=nominal,
        nominal=words,
        new_mm=new,
        new=f"new range {item.new_range.value.text}" if item.new_range is not None else "",
        limits_mm=limits,
        limits=_limit_words(item),
        exaggerated=exaggeration(max(abs(one - nominal) for one in drawn), nominal_mm=nominal),
        directions=directions,
        angles=_angle_words(directions),
        bores=bores,
        not_drawn=tuple(f"{place}: {one.text}" for place, one in found.items() if place not in drawable),
        words=_words(item, bores),
    )


def exaggeration(most_mm: float, *, nominal_mm: float) -> int:
    """The largest of 1, 2, 5, 10, 20, 50 … with which the largest difference still has room on the drawing."""
    if most_mm <= 0:
        return 1000
    room = ROOM * nominal_mm / most_mm
    if room < 1:
        return 1
    power = 10 ** math.floor(math.log10(room))
    return int(power * max(one for one in (1, 2, 5) if one * power <= room * (1 + 1e-12)))


def _places(item: Characteristic) -> dict[str, tuple[str, ...]]:
    assert isinstance(item.places, dict)
    return dict(item.places)


def _bores(
    item: Characteristic, drawable: Mapping[str, Measured], verdicts: Mapping[str, str]
) -> tuple[Bore, ...]:
    places = _places(item)
    (what, names), (_, heights), (_, directions) = places.items()
    angles, deep = _angles(directions), _depths(item, heights)
    bores = []
    for name in names:
        sections = []
        for height in sorted(heights, key=deep.__getitem__) if deep else heights:
            named = {way: f"{what} {name}, {height}, {way}" for way in directions}
            across = tuple(
                _across(way, angles[way], drawable[place], verdict=verdicts[place])
                for way, place in named.items()
                if place in drawable
            )
            missing = tuple(way for way, place in named.items() if place not in drawable)
            at = item.at_heights[height].text if deep else ""
            sections.append(Section(height, across, missing, deep.get(height), at))
        if any(one.across for one in sections):
            bores.append(Bore(f"{what} {name}", tuple(sections)))
    return tuple(bores)


def _across(way: str, angle: float, one: Measured, *, verdict: str) -> Across:
    high = None if math.isclose(one.low, one.high, abs_tol=1e-12) else one.high
    return Across(way, angle, one.low, one.text, verdict, high)


def _depths(item: Characteristic, heights: Sequence[str]) -> dict[str, float]:
    """How deep each height lies [mm]; empty unless the sheet states it of all of them."""
    if any(height not in item.at_heights for height in heights):
        return {}
    return {height: item.at_heights[height].middle_in("mm") for height in heights}


def _angles(directions: Sequence[str]) -> dict[str, float]:
    """Angles as their names say; else two are square to each other, more are spread evenly."""
    written = [_DEGREES.match(one) for one in directions]
    if all(written):
        return {one: float(match[1]) for one, match in zip(directions, written, strict=True) if match}
    return {one: 180.0 * place / len(directions) for place, one in enumerate(directions)}


def _angle_words(directions: Sequence[str]) -> str:
    if all(_DEGREES.match(one) for one in directions):
        return "directions drawn at their angles"
    if len(directions) == 2:
        return f"{directions[0]} is drawn from left to right, {directions[1]} up and down"
    return "directions spread evenly: the sheet does not state their angles"


def _ends(figure: Stated | None, kind: str) -> tuple[float, float] | None:
    base = BASE_UNIT[kind]
    low = figure.value.low_in(base) if figure is not None else None
    high = figure.value.high_in(base) if figure is not None else None
    return (low, high) if low is not None and high is not None else None


def _wear(item: Characteristic) -> tuple[float, ...]:
    figure = item.required or item.wear_limit
    if figure is None:
        return ()
    base = BASE_UNIT[item.kind]
    return tuple(end for end in (figure.value.low_in(base), figure.value.high_in(base)) if end is not None)


def _limit_words(item: Characteristic) -> str:
    figure = item.required or item.wear_limit
    name = "required" if item.required else "wear limit"
    return f"{name} {figure.value.text}" if figure is not None else "no limit given"


def _nominal(
    item: Characteristic, values: Sequence[float], new: tuple[float, float] | None
) -> tuple[float, str]:
    if new is not None:
        middle = (new[0] + new[1]) / 2
        return middle, f"middle of the new range, {both(middle, kind=item.kind)}"
    mean = sum(values) / len(values)
    return mean, f"mean of the readings, {both(mean, kind=item.kind)}"


def _words(item: Characteristic, bores: Sequence[Bore]) -> str:
    """The picture for somebody who does not see it."""
    said = [item.name]
    for bore in bores:
        read = [
            f"{one.height} {way.direction} {way.text} {way.verdict}"
            for one in bore.sections
            for way in one.across
        ]
        verdicts = [way.verdict for one in bore.sections for way in one.across]
        said.append(f"{bore.name} ({counted(verdicts)}): {'; '.join(read)}")
    return ". ".join(said) + "."
