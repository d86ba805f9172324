"""A measuring instrument read for people: what it reaches, how far it may be off and who says so, its last check."""

from collections.abc import Iterator
from datetime import date

from gudgeon.bench.wrench_state import months_on
from gudgeon.kit.gauges import GOOD_FOR_MONTHS, STRIP_RANGE_MM, Gauge
from gudgeon.kit.model import Kit
from gudgeon.quantity.format import both
from gudgeon.quantity.kinds import KINDS
from gudgeon.sources.tables import other_error, permitted_error

LENGTHS = ("length", "length_difference")


def gauge_facts(kit: Kit, gauge: Gauge) -> Iterator[tuple[str, str]]:
    """What the kit says of a gauge, and what a standard or common practice says where the kit is silent."""
    if gauge.range is not None:
        yield "Range", gauge.range.text
    elif gauge.kind == "plastic gauging strip":
        yield "Range", f"{STRIP_RANGE_MM[0]:g}–{STRIP_RANGE_MM[1]:g} mm (common practice)"
    if gauge.step is not None:
        yield "Step", gauge.step.text
    if gauge.blades:
        yield "Blades", ", ".join(blade.text for blade in gauge.blades)
    if gauge.kind == "plastic gauging strip":
        shown = ", ".join(f"{width:.3f}" for width in gauge.step_widths_mm)
        yield "Widths", f"{shown} mm{'' if gauge.steps else ' (common practice)'}"
    for name, figure in (("Go", gauge.go), ("No-go", gauge.no_go), ("Angle", gauge.angle)):
        if figure is not None:
            yield name, figure.text
    if gauge.thread is not None:
        yield "Thread", gauge.thread
    if gauge.grade is not None:
        yield "Grade", str(gauge.grade)
    yield "May be off", off_words(gauge)
    if gauge.material is not None:
        yield "Made of", gauge.material.replace("_", " ")
    if gauge.zeroed_in is not None:
        yield "Zeroed in", kit.gauges[gauge.zeroed_in].name


def off_words(gauge: Gauge) -> str:
    """How far a gauge may be off, and who says so."""
    if gauge.error is not None:
        said = gauge.error.text.lstrip("± ") + (" of the reading" if gauge.error_share is not None else "")
        by = "U of its certificate, k = 2" if gauge.stated_as == "U (k = 2)" else "your kit"
        return f"± {said} ({by})"
    return standard_words(gauge) or "not known"


def standard_words(gauge: Gauge) -> str:
    """What a standard, or common practice, lets a gauge of this kind be off; empty where none is on file."""
    if gauge.reads in LENGTHS:
        size = _largest_mm(gauge)
        found = permitted_error(gauge.standard, length_mm=size) if size is not None else None
        return (
            f"± {both(found.value, kind='length_difference', decimals=3)} ({found.source})" if found else ""
        )
    unit = KINDS[gauge.reads].base
    high = (gauge.range.high_in(unit) if gauge.range is not None else None) or 0.0
    other, none = (other_error(gauge.kind, kind=gauge.reads, reading=reading) for reading in (high, 0.0))
    if other is None or none is None:
        return ""
    if not none.value and high:
        return f"± {100 * other.value / high:g} % of the reading ({other.source})"
    return (
        f"± {none.value:g} {none.unit} ({other.source})"
        if none.value
        else f"a share of the reading ({other.source})"
    )


def _largest_mm(gauge: Gauge) -> float | None:
    """The largest size that it is used for: the end of its range, its length, its thickest blade."""
    if gauge.range is not None:
        return gauge.range.high_in("mm")
    if gauge.length is not None:
        return gauge.length.middle_in("mm")
    if gauge.blades:
        return gauge.blades[-1].middle_in("mm")
    return STRIP_RANGE_MM[1] if gauge.kind == "plastic gauging strip" else None


def gauge_check_due(gauge: Gauge, *, today: date) -> str:
    """Why the check of a gauge is due; empty where it is not, or where no check is on record."""
    if gauge.checked is None:
        return ""
    months = gauge.good_for or GOOD_FOR_MONTHS
    until = months_on(gauge.checked, months)
    if today < until:
        return ""
    by = "your kit" if gauge.good_for is not None else "common practice"
    return (
        f"check due since {until.isoformat()}: last checked on {gauge.checked.isoformat()}, "
        f"good for {months} months ({by})"
    )
