"""What a compression gauge should show of this engine here, and the printed pressures as they are here."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.camshafts import Camshafts
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.known import EXACTLY_ZERO, Known
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.words import mm
from gudgeon.bench.judging.altitude import shares_of_the_sea
from gudgeon.bench.judging.criteria import criteria
from gudgeon.bench.measured import CANNOT
from gudgeon.bench.running.answers import Air, Expected, PrintedLimit
from gudgeon.bench.running.gathered import Gathered, sentence
from gudgeon.bench.running.pressures import cranking_in_bar, shown_ends
from gudgeon.bench.running.pressures import shown as shown_pressure
from gudgeon.calc.engine.cranking import EXPONENTS, cranking_pressure, dynamic_ratio
from gudgeon.calc.engine.cut import after_cut
from gudgeon.calc.engine.cylinder import clearance_of_ratio, swept_volume_cm3
from gudgeon.calc.engine.running_errors import ClosingOutside
from gudgeon.calc.errors import RatioImpossible, RodTooShort
from gudgeon.quantity.errors import BoundOpen
from gudgeon.quantity.format import number
from gudgeon.sheet.engine import Cylinder
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic

NO_BAND = "what the gauge should show cannot be worked out"


def expected(bench: Bench, air: Air, wanted: Gathered) -> Expected | None:
    """The band of an engine in order; what it lacks is named."""
    cylinder = bench.sheet.cylinder or Cylinder()
    gear = bench.sheet.valve_gear
    valves = gear.intake if gear is not None else None
    closes = valves.closes if valves is not None else None
    ratio = _ratio(bench, cylinder, wanted)
    stroke = _needed(cylinder.stroke, "stroke", wanted)
    rod = _needed(cylinder.rod_length, "rod length", wanted)
    closing = _value(closes, "°")
    if closing is None:
        wanted.lacks("intake closing", therefore=NO_BAND, path="valve_gear.intake.closes")
    if ratio is None or stroke is None or rod is None or closing is None:
        return None
    value, words = ratio
    offset = _value(cylinder.pin_offset, "mm") or 0.0
    try:
        effective = dynamic_ratio(
            value, closing_deg=closing, stroke_mm=stroke, rod_length_mm=rod, pin_offset_mm=offset
        )
        found = cranking_pressure(effective, ambient_kpa=air.pressure_kpa)
    except CANNOT as error:
        what, path = _to_blame(error, stroke_mm=stroke, rod_mm=rod)
        wanted.lacks(what, therefore=NO_BAND, path=path, wrong=sentence(error))
        return None
    at_lift = valves.at_lift if valves is not None else None
    lift = f", given at a lift of {at_lift.value.text}" if at_lift is not None else ""
    return Expected(
        shown_ends(found.gauge_low_kpa, high_kpa=found.gauge_high_kpa, bar=cranking_in_bar(bench)),
        found.gauge_low_kpa,
        found.gauge_high_kpa,
        number(value, decimals=2),
        words,
        number(effective, decimals=2),
        f"{closing:g}° after bottom dead center{lift}",
        f"compressed air with exponents {EXPONENTS[0]:.2f} to {EXPONENTS[1]:.2f} (common practice); "
        f"sizes: {cylinder.cited(cylinder.stroke) or 'the data sheet'}",
    )


def _to_blame(error: Exception, *, stroke_mm: float, rod_mm: float) -> tuple[str, str]:
    """Which figure of the sheet makes no crank drive or no compression, and where it stands."""
    if isinstance(error, ClosingOutside):
        return "intake closing", "valve_gear.intake.closes"
    if isinstance(error, RatioImpossible):
        return "compression ratio", "cylinder.compression_ratio"
    if stroke_mm <= 0:
        return "stroke", "cylinder.stroke"
    if isinstance(error, RodTooShort) or rod_mm <= 0:
        return "rod length", "cylinder.rod_length"
    return "sizes of the cylinder", "cylinder"


def _value(figure: Stated | None, unit: str) -> float | None:
    """The middle of a stated figure; a bound has none."""
    if figure is None:
        return None
    try:
        return figure.value.middle_in(unit)
    except BoundOpen:
        return None


def _needed(figure: Stated | None, name: str, wanted: Gathered) -> float | None:
    found = _value(figure, "mm")
    if found is None:
        wanted.lacks(name, therefore=NO_BAND, path=f"cylinder.{name.replace(' ', '_')}")
    return found


def _ratio(bench: Bench, cylinder: Cylinder, wanted: Gathered) -> tuple[float, str] | None:
    """The ratio of today as “What does the cut do?” has it; else the printed one, with what a cut made of it."""
    try:
        return _ratio_of(bench, cylinder, wanted)
    except CANNOT as error:
        therefore = f"{NO_BAND}, as they give no compression ratio"
        wanted.lacks("sizes of the cylinder", therefore=therefore, path="cylinder", wrong=sentence(error))
        return None


def _ratio_of(bench: Bench, cylinder: Cylinder, wanted: Gathered) -> tuple[float, str] | None:
    inputs = gather(bench)
    made = inputs.head.made
    shown = mm(made.value) if made is not None else ""
    without_drive = Camshafts(None, ())  # no ratio depends on it
    found = Laws(inputs, without_drive).ratio(made.known if made is not None else EXACTLY_ZERO)
    if isinstance(found, Known):
        cut = f", with the cut of {shown} in the book" if made is not None else ""
        return found.value, f"worked out from the volumes as for “What does the cut do?”{cut}"
    stated = _value(cylinder.compression_ratio, "1")
    if stated is None:
        wanted.lacks("compression ratio", therefore=NO_BAND, path="cylinder.compression_ratio")
        return None
    words = f"as printed, {cylinder.cited(cylinder.compression_ratio) or 'the data sheet'}"
    if made is None or made.value <= 0:
        return stated, words
    bore, stroke, mouth = (
        _value(cylinder.bore, "mm"), _value(cylinder.stroke, "mm"), _value(cylinder.chamber_mouth_area, "mm²"),
    )  # fmt: skip
    if bore is None or stroke is None or mouth is None:
        wanted.lacks(
            "chamber mouth area, bore or stroke",
            therefore=f"the cut of {shown} in the book raised the ratio, and is not counted in the band",
            path="cylinder.chamber_mouth_area",
        )
        return stated, f"{words}, without the cut"
    swept = swept_volume_cm3(bore, stroke_mm=stroke)
    clearance = clearance_of_ratio(swept, ratio=stated)
    new = after_cut(made.value, swept_cm3=swept, clearance_cm3=clearance, mouth_area_mm2=mouth).new_ratio
    return new, f"{number(stated, decimals=2)} ({words}) before a cut of {shown}, by the heights in the book"


def printed_limits(bench: Bench, key: str, air: Air) -> tuple[PrintedLimit, ...]:
    """Every pressure that the sheet prints for the cylinders, and what it is in the air here."""
    return tuple(_printed(bench.sheet.characteristics[key], bench, key, air))


def _printed(item: Characteristic, bench: Bench, key: str, air: Air) -> Iterator[PrintedLimit]:
    if item.new_range is not None:
        ends = item.new_range.value.low_in("kPa"), item.new_range.value.high_in("kPa")
        source = str(item.cited(item.new_range) or "the data sheet")
        yield _line("new engine", item.new_range.value.text, ends, air, source)
    for one in criteria(bench.sheet, key):
        if one.shape != "plain" and getattr(one.stated, "limit", None) is None:
            continue  # a share of the highest is the same in any air
        what = one.stands_for if one.shape == "plain" else one.shape
        yield _line(what, one.text or one.words, (one.low, one.high), air, one.source or "the data sheet")


def _line(
    what: str, printed: str, ends: tuple[float | None, float | None], air: Air, source: str
) -> PrintedLimit:
    if not air.known:
        return PrintedLimit(what, printed, "", "", source)
    bar = "bar" in printed
    shown = [_ends(*(None if end is None else share * end for end in ends), bar=bar) for share in shares(air)]
    return PrintedLimit(what, printed, shown[0], shown[1], source)


def _ends(low: float | None, high: float | None, *, bar: bool) -> str:
    if low is None or high is None:
        word, end = ("at most", high) if low is None else ("at least", low)
        return f"{word} {shown_pressure(end or 0.0, bar=bar)}"
    return shown_ends(low, high_kpa=high, bar=bar)


def shares(air: Air) -> tuple[float, float]:
    """What becomes of a pressure that is printed for the level of the sea: by pressures, by densities."""
    return shares_of_the_sea(pressure_kpa=air.pressure_kpa, density_kg_per_m3=air.density_kg_per_m3)
