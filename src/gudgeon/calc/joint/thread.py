"""Screw threads: dimensions and areas of a bolt from the formulas of the standards, and designations."""

import math
import re
from dataclasses import dataclass, replace

from gudgeon.calc.errors import (
    PitchTooCoarse,
    SeriesContradicts,
    ThreadPitchNeeded,
    ThreadUnreadable,
    positive,
)
from gudgeon.sources.tables import MetricSize, UnifiedSize, metric_sizes, unified_sizes

INCH = 25.4
HEIGHT = math.sqrt(3) / 2  # fundamental triangle, per pitch (ISO 68-1, ASME B1.1)
COVERED_MM = (4.0, 20.0)


@dataclass(frozen=True, slots=True)
class Thread:
    """The thread of a bolt: dimensions in mm, areas in mm²."""

    designation: str
    nominal_mm: float
    pitch_mm: float
    pitch_diameter_mm: float
    root_diameter_mm: float
    stress_area_mm2: float
    root_area_mm2: float
    flags: tuple[str, ...] = ()

    @property
    def stress_diameter_mm(self) -> float:
        """The diameter of a plain bar with the stress area."""
        return math.sqrt(4 * self.stress_area_mm2 / math.pi)

    @property
    def lead_angle_rad(self) -> float:
        """How steeply the thread climbs, at the pitch diameter."""
        return math.atan(self.pitch_mm / (math.pi * self.pitch_diameter_mm))


def metric_thread(nominal_mm: float, *, pitch_mm: float) -> Thread:
    """The dimensions of an ISO metric bolt thread.

    Equation:
        H = √3/2 · P; d2 = d − 3/4 · H; d3 = d − 17/12 · H (= d − 1.2269 P);
        As = π/4 · ((d2 + d3) / 2)²; A3 = π/4 · d3²

    Parameters:
        nominal_mm: nominal diameter, d [mm]
        pitch_mm: pitch, P [mm]

    Returns:
        pitch and root diameter [mm], stress and root area [mm²]

    Valid for:
        ISO metric threads of bolts; M4 to M20 are checked against published tables

    Source:
        ISO 68-1:1998 and ISO 724:1993 (profile); ISO 898-1:2013, 9.1.6.1 (stress area).

    Example:
        >>> thread = metric_thread(10.0, pitch_mm=1.25)
        >>> round(thread.pitch_diameter_mm, 3), round(thread.root_diameter_mm, 3)
        (9.188, 8.466)
        >>> round(thread.stress_area_mm2, 1)
        61.2

    Not covered:
        tolerances of the thread, waisted shanks, nuts.
    """
    _check(nominal_mm, pitch_mm)
    height = HEIGHT * pitch_mm
    pitch_diameter, root = nominal_mm - 0.75 * height, nominal_mm - 17 / 12 * height
    stress_area = math.pi / 4 * ((pitch_diameter + root) / 2) ** 2
    name = f"M{nominal_mm:g}×{pitch_mm:g}"
    return Thread(name, nominal_mm, pitch_mm, pitch_diameter, root, stress_area, math.pi / 4 * root**2)


def unified_thread(nominal_in: float, *, threads_per_inch: float) -> Thread:
    """The dimensions of a unified bolt thread.

    Equation:
        H = √3/2 / n; d2 = d − 3/4 · H; dr = d − 3/2 · H (= d − 1.2990 / n);
        At = π/4 · (d − 0.9743 / n)²; Ar = π/4 · dr²

    Parameters:
        nominal_in: nominal diameter, d [in]
        threads_per_inch: threads to the inch, n [1/in]

    Returns:
        pitch and root diameter [mm], stress and root area [mm²]

    Valid for:
        unified threads of bolts; #10 to 3/4 in are checked against published tables

    Source:
        ASME B1.1:2003, appendix B (tensile stress area); Shigley, 9th edition, table 8-2 (minor area).

    Example:
        >>> thread = unified_thread(0.5, threads_per_inch=13)
        >>> round(thread.stress_area_mm2 / 645.16, 4), round(thread.root_area_mm2 / 645.16, 4)
        (0.1419, 0.1257)

    Not covered:
        rounded roots (UNR, UNJ), tolerances of the thread, nuts.
    """
    positive(threads_per_inch, "Threads per inch", unit="1/in")
    nominal, pitch = positive(nominal_in, "Nominal diameter", unit="in") * INCH, INCH / threads_per_inch
    _check(nominal, pitch)
    height = HEIGHT * pitch
    pitch_diameter, root = nominal - 0.75 * height, nominal - 1.5 * height
    stress_area = math.pi / 4 * (nominal - 9 / 8 * height) ** 2
    name = f"{nominal_in:g} in-{threads_per_inch:g}"
    return Thread(name, nominal, pitch, pitch_diameter, root, stress_area, math.pi / 4 * root**2)


def _check(nominal_mm: float, pitch_mm: float) -> None:
    positive(nominal_mm, "Nominal diameter", unit="mm")
    if positive(pitch_mm, "Pitch", unit="mm") > nominal_mm / 3:
        raise PitchTooCoarse(nominal_mm, pitch_mm)


_METRIC = re.compile(
    r"^M\s*(\d+(?:\.\d+)?)\s*(?:[x×*]\s*(\d*\.?\d+))?(?:\s*-\s*\d[A-Za-z]\w*)?$", re.IGNORECASE
)
_UNIFIED = re.compile(
    r"^(?:(?P<number>#?\d{1,2})|(?P<whole>\d)?(?:[ -]?(?P<over>\d+)/(?P<under>\d+))?|(?P<decimal>\d?\.\d+))"
    r"\s*(?:in\.?|\")?\s*(?:-\s*(?P<tpi>\d+(?:\.\d+)?))?\s*(?P<series>UN[A-Z]{0,3})?(?:\s*-?\s*\d[AB])?$",
    re.IGNORECASE,
)


def read_thread(designation: str) -> Thread:
    """The thread of a bolt from its designation.

    Equation:
        see metric_thread and unified_thread; a metric size without pitch has its coarse pitch

    Parameters:
        designation: such as M12, M10x1.25, 1/2-13 UNC, 3/8-24 UNF, #10-32 UNF [text]

    Returns:
        pitch and root diameter [mm], stress and root area [mm²], flags

    Valid for:
        M4 to M20 and #10 to 3/4 in; other sizes and pitches outside the series are flagged

    Source:
        ISO 261:1998 (metric series); ASME B1.1:2003, table 1 (unified series).

    Example:
        >>> read_thread("M12").pitch_mm, read_thread("#10-32 UNF").designation
        (1.75, '#10-32 UNF')

    Not covered:
        pipe threads, tapered threads, multiple starts.
    """
    text = " ".join(designation.split())
    metric = _METRIC.match(text)
    if metric:
        return _read_metric(text, float(metric[1]), metric[2])
    unified = _UNIFIED.match(text)
    if unified is None or not (unified["tpi"] or unified["series"]):
        raise ThreadUnreadable(designation)
    return _read_unified(text, unified)


def _read_metric(text: str, nominal: float, pitch_text: str | None) -> Thread:
    size = next((one for one in metric_sizes() if one.diameter_mm == nominal), None)
    if pitch_text is not None:
        pitch = float(pitch_text)
    elif size is not None:
        pitch = size.coarse_mm
    else:
        raise ThreadPitchNeeded(text, f"M{nominal:g}x1")
    coarse = size is not None and pitch == size.coarse_mm
    thread = metric_thread(nominal, pitch_mm=pitch)
    name = f"M{nominal:g}" if coarse else f"M{nominal:g}×{pitch:g}"
    return replace(thread, designation=name, flags=_metric_flags(name, nominal, pitch, size))


def _metric_flags(name: str, nominal: float, pitch: float, size: MetricSize | None) -> tuple[str, ...]:
    flags = []
    if size is None or pitch not in (size.coarse_mm, *size.fine_mm):
        flags.append(f"{name} is not in the series of ISO 261: measure diameter and pitch again.")
    if not COVERED_MM[0] <= nominal <= COVERED_MM[1]:
        flags.append(f"{name} lies outside M4 to M20, for which the formulas were checked on tables.")
    return tuple(flags)


def _read_unified(text: str, match: re.Match[str]) -> Thread:
    size = _unified_size(text, match)
    nominal_in = size if isinstance(size, float) else size.diameter_in
    known = {} if isinstance(size, float) else dict(size.threads_per_inch)
    series = (match["series"] or "").upper()
    if match["tpi"]:
        count = float(match["tpi"])
    elif series in known:
        count = float(known[series])
    else:
        raise ThreadPitchNeeded(text, "1/2-13 UNC")
    if series in known and known[series] != count:
        raise SeriesContradicts(text, series, known[series])
    found = next((name for name, tpi in known.items() if tpi == count), "")
    shown = f"{nominal_in:g}" if isinstance(size, float) else size.size
    name = f"{shown}-{count:g} {series or found or 'UN'}"
    flags = [] if found else [f"{name} is in neither UNC nor UNF: measure diameter and pitch again."]
    if not 0.189 < nominal_in < 0.751:
        flags.append(f"{name} lies outside #10 to 3/4 in, for which the formulas were checked on tables.")
    return replace(unified_thread(nominal_in, threads_per_inch=count), designation=name, flags=tuple(flags))


def _unified_size(text: str, match: re.Match[str]) -> UnifiedSize | float:
    """The size of the series, or the bare diameter in inches where the series has none such."""
    if match["number"]:
        number = int(match["number"].lstrip("#"))
        if number > 12 or (number == 1 and "#" not in match["number"]):
            if number != 1:
                raise ThreadUnreadable(text)
            diameter = 1.0
        else:
            diameter = round(0.060 + 0.013 * number, 4)
    elif match["decimal"]:
        diameter = float(match["decimal"])
    else:
        over, under = int(match["over"] or 0), int(match["under"] or 1)
        if under == 0:
            raise ThreadUnreadable(text)
        diameter = int(match["whole"] or 0) + over / under
    positive(diameter, "Nominal diameter", unit="in")
    return next((one for one in unified_sizes() if abs(one.diameter_in - diameter) < 1e-9), diameter)
