"""The calculator of one shim: from inputs to the kernel and back to results."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.calc.calculator import Value, Worked
from gudgeon.calc.engine.lash import NM, even_series_nm, lash, uneven_words
from gudgeon.calc.engine.shim_errors import SeriesUnreadable, WantedOpen
from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.reading import figure, text
from gudgeon.errors import InputError
from gudgeon.quantity.format import both_ends, known_between
from gudgeon.quantity.written import Span, parse_printed

_STEP = re.compile(r"^(?P<ends>.+?)[\s,;]*\b(?:steps?(?:\s+of)?|by)\b\s*(?P<step>\S.*)$", re.IGNORECASE)
_IN_STEPS = re.compile(r"(?<=[A-Za-z])\s+in$")  # `mm in steps of`
_IN_AFTER_NUMBER = re.compile(r"(?P<last>\d*\.?\d+)\s+in$")
_THICKEST_IN = 0.5  # no shim is thicker than half an inch, and no series ends below half a millimeter
_HAS_UNIT = re.compile(r"[A-Za-zµ\"]")
_WORDS = re.compile(r"\b(?:to|steps?|of|by)\b", re.IGNORECASE)
_UNIT = re.compile(r"[A-Za-zµ\"]+\.?\s*$")
NO_UNIT = ", no unit written: mm"


def shim(values: Mapping[str, Value]) -> Worked:
    """Works out engine.shim."""
    given = values["series"]
    sizes = series_nm(given) if isinstance(given, str) else ()
    wanted, measured = _known(values, "wanted"), _known(values, "measured")
    (low, high), (least, most) = wanted.ends, measured.ends
    found = lash(
        figure(values, "old_shim"), measured_mm=(least + most) / 2,
        wanted_low_mm=low, wanted_high_mm=high, sizes_nm=sizes,
    )  # fmt: skip
    results: dict[str, float | str | None] = {"exact_mm": found.exact_mm}
    flags = [*_stretched(given, sizes), *found.flags]
    understood = {"wanted": wanted.words, "measured": measured.words}
    if isinstance(given, str):
        understood["series"] = _series_words(given, sizes)
    if found.fitted_mm is not None and found.clearance_after_mm is not None:
        results |= {"fitted_mm": found.fitted_mm, "clearance_after_mm": found.clearance_after_mm}
        if least < most:
            half = (most - least) / 2
            ends = found.clearance_after_mm - half, found.clearance_after_mm + half
            results["after_between"] = both_ends(ends[0], high=ends[1], kind="length_difference", decimals=3)
            flags += _between_flag(ends, low, high)
    else:
        flags.append("No series is given, so only the exact thickness is told.")
    return Worked(results, tuple(flags), understood=understood)


def _between_flag(ends: tuple[float, float], low: float, high: float) -> list[str]:
    """What a reading between two blades leaves open; the middle being outside is a flag of the kernel."""
    crosses = low < high and (round(ends[0] * NM) < round(low * NM) or round(ends[1] * NM) > round(high * NM))
    if not crosses or not low <= (ends[0] + ends[1]) / 2 <= high:
        return []
    return [
        "In doubt: an end of what the blades leave open lies outside. Measure it with finer steps of blades."
    ]


def series_nm(written: str) -> tuple[int, ...]:
    """The sizes of a series as a person writes it: first, last and step, or every one of them [nm]."""
    stepped = _STEP.match(written.strip())
    if stepped is None:
        sizes = sorted({size for item in _items(written) for size in _whole(item, written)})
        if not sizes:
            raise SeriesUnreadable(written)
        return tuple(sizes)
    between, unit = _without_in(stepped["ends"]), _unit_of_steps(stepped)
    ends, step = _span(between, unit, "series"), _span(stepped["step"], unit, "series")
    first, last, each = ends.low, ends.high, step.low
    if first is None or last is None or each is None or not step.single or ends.single:
        raise SeriesUnreadable(written)
    return even_series_nm(
        first.to("mm"), last_mm=last.to("mm"), step_mm=each.to("mm"),
        hidden_mm=first.half_digit_in("mm") + last.half_digit_in("mm"),
    )  # fmt: skip


def _without_in(ends: str) -> str:
    """Without the `in` of `in steps of`; behind a bare number it may be the unit, which its size tells."""
    bare = _IN_AFTER_NUMBER.search(ends)
    if bare is not None:
        return ends if float(bare["last"]) < _THICKEST_IN else ends[: bare.end("last")]
    return _IN_STEPS.sub("", ends)


def _items(written: str) -> list[str]:
    """The items of a list; a unit behind the last one is that of all, where no other has one."""
    items = [one.strip() for one in re.split(r"[;\n]|,\s", written) if one.strip()]
    if len(items) > 1 and not any(_HAS_UNIT.search(one) for one in items[:-1]):
        unit = _unit_of(items[-1])
        items = [f"{one} {unit}".strip() for one in items[:-1]] + items[-1:]
    return items


def _whole(item: str, written: str) -> tuple[int, ...]:
    span = _span(item, "", "series")
    if not span.single or span.low is None:
        raise SeriesUnreadable(written)
    size = round(span.low.to("mm") * NM)
    if size <= 0:
        raise SeriesUnreadable(written)
    return (size,)


def _unit_of(written: str) -> str:
    found = _UNIT.search(written.strip())
    return found.group().strip() if found else ""


def _span(written: str, unit: str, key: str) -> Span:
    """A figure; a bare one takes the unit that stands beside it in the list, else mm."""
    bare = not _has_unit(written)
    try:
        return parse_printed(f"{written} {unit or 'mm'}" if bare else written, kind="length_difference").first
    except InputError as error:
        raise InputRefused(key, error) from None


@dataclass(frozen=True, slots=True)
class _Known:
    """A clearance as written, between its ends [mm], in words with the unit that it counts in."""

    ends: tuple[float, float]
    words: str


def _known(values: Mapping[str, Value], key: str) -> _Known:
    written = text(values, key)
    span = _span(written, "", key)
    low, high = span.low_in("mm"), span.high_in("mm")
    if low is None or high is None:
        raise WantedOpen(written)
    shown = known_between(low, high=high, kind="length_difference")
    return _Known((low, high), shown + ("" if _has_unit(written) else NO_UNIT))


def _series_words(written: str, sizes: Sequence[int]) -> str:
    """How many sizes were understood, from where to where."""
    ends = known_between(sizes[0] / NM, high=sizes[-1] / NM, kind="length")
    many = f"{len(sizes)} sizes" if len(sizes) > 1 else "1 size"
    stepped = _STEP.match(written.strip())
    has_unit = _has_unit(written) if stepped is None else bool(_unit_of_steps(stepped))
    return f"{many}, {ends}" + ("" if has_unit else NO_UNIT)


def _unit_of_steps(stepped: re.Match[str]) -> str:
    """The unit behind the ends of a series, else behind its step."""
    return _unit_of(_without_in(stepped["ends"])) or _unit_of(stepped["step"])


def _stretched(written: Value, sizes: Sequence[int]) -> list[str]:
    """What is said where first and last miss a whole number of steps by no more than their rounding."""
    stepped = _STEP.match(written.strip()) if isinstance(written, str) else None
    if stepped is None or len(sizes) < 2:
        return []
    step = _span(stepped["step"], _unit_of_steps(stepped), "series").middle_in("mm")
    return list(uneven_words(sizes, step_mm=step))


def _has_unit(written: str) -> bool:
    return _HAS_UNIT.search(_WORDS.sub("", written)) is not None
