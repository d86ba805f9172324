"""Writes docs/validation.md from the published figures of the tests: python tools/validation.py."""

import sys
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))  # the published figures belong to the tests

from gudgeon.bench.proof.findings import Finding  # noqa: E402
from gudgeon.bench.proof.run import proofread  # noqa: E402
from gudgeon.errors import InputError  # noqa: E402
from gudgeon.sheet.load import parse_sheet  # noqa: E402
from tests.published.cases import Case, cases  # noqa: E402
from tests.published.manuals.filling import MANUALS, Manual, places, taken  # noqa: E402
from tests.published.test_manuals import MISPRINTS, as_printed, found  # noqa: E402
from tests.published.test_misprints import (  # noqa: E402
    FIRING_ORDER,
    LOST_DIGITS,
    OTHER_MANUALS,
    ROWS,
    WHOLE_ORDER,
    firing_order,
    rows_of_one_sheet,
    sheet,
)

PAGE = ROOT / "docs" / "validation.md"
FOUND = {
    "error": "found as error",
    "doubt": "as doubt",
    "refused": "refused on reading",
    "nothing": "not found",
}
SECTIONS = (
    ("threads", "Threads", "Diameters and areas of bolts against printed tables."),
    ("bolt_loads", "Loads of bolts", "Stress areas and strength classes together against printed loads."),
    (
        "vdi2230",
        "Assembly preload and torque",
        "The tables follow VDI 2230 with exact tangents. Since 2001 the torsion counts as fully plastic; "
        "before, as elastic, which gives 5 to 14 % less torque. Both can be had; the first is the default.",
    ),
    (
        "torque",
        "Torque and preload",
        "Torque from a preload by frictions and by a nut factor. The preload of the general torques is 75 % of the "
        "proof load.",
    ),
    (
        "stiffness",
        "Stiffness of bolts and clamped parts",
        "Textbook method, because its steps are printed: cones of 30° half angle that meet in the middle of the grip, "
        "through and tapped. The way `frustum` is one such cone, `joint_constant` the share of the bolt.",
    ),
    (
        "scatter",
        "Scatter and friction",
        "Bands of the preload by the way of tightening, and classes of friction.",
    ),
    ("clamp", "Clamp against the gas", "Gas force on a bore and the clamp for each bolt."),
    ("wrench", "Wrench with an adapter", "The setting that leaves the wanted torque at the bolt."),
    ("engine", "Engine geometry", "Displacement, ratio, cut and piston position."),
    (
        "engine_drive",
        "Drive of the camshafts",
        "Camshafts turned by a lowered head, belt lengths and center distances, marks that line up again. Random "
        "drives are solved by the whole length between two teeth in `tests/siblings/test_cam_shift.py`.",
    ),
    (
        "engine_events",
        "Valve events and dead centers",
        "Durations, overlap, lobe separation, a camshaft advanced and retarded; dead center from a stop and lobe "
        "center from two flanks, as the circular mean; the ratio of a rocker.",
    ),
    (
        "engine_shims",
        "Shims",
        "The shim of one valve: exact, nearest size, clearance after. The choice for all valves is held against every "
        "choice there is and against another solver in `tests/siblings/test_shim_choice.py`.",
    ),
    (
        "engine_running",
        "Proofs of a running engine",
        "The air at an altitude, cranking pressure, leak-down, freezing points and mixing of coolant. A public table "
        "of the air prints −25.96 °C at 4572 m (row A10), which is not followed. Rules between cylinders are held in "
        "`tests/published/test_running.py`; freezing points and air are compared over grids with other libraries in "
        "`tests/siblings/test_air_and_coolant.py`.",
    ),
    (
        "engine_fits",
        "Fits",
        "Clearances of printed ranges, ring gaps hot and against the bore, drill shanks as pins; and two figures of "
        "cylinders. The way `half_shell` is what one half of an undersize pair changes.",
    ),
    (
        "metrology",
        "What a reading proves",
        "Probabilities of lying inside, uncertainties, Student's factors, repeats, sizes at 20 °C, errors of "
        "instruments. Examples H.2, H.3 and H.5 of JCGM 100 are held in `tests/published/test_uncertainty_guide.py`, "
        "risks over many parts in `tests/published/test_global_risk.py`.",
    ),
    (
        "face_forms",
        "Faces and lines",
        "Least zones, and deviations from a line through both ends. Faces of many points are compared with linear "
        "programs in `tests/siblings/test_flatness.py`, adversarial ones held in `tests/published/test_face_forms.py`.",
    ),
    (
        "round_forms",
        "Round forms",
        "Circles through points, lobes under gauges with few contacts, ring gaps. The way `circle` reads points of "
        "`tests/published/points`; all 30 sets of NIST are held in `tests/published/test_round_forms.py`.",
    ),
    (
        "planning",
        "Weeks and wear",
        "Critical paths, three-point estimates, lives of parts and the age to replace them. Every cell of five "
        "printed tables is held in `tests/published/test_critical_path.py`; floats, merge bias, lives and ages are "
        "compared with other ways in `tests/siblings`. The way `cost_rate_even` is a life that ends evenly up to a "
        "greatest age.",
    ),
    ("units", "Units", "Pairs that manuals print, exactly converted."),
)
HEAD = """# Validation

What outside sources print, and what Gudgeon finds for the same inputs. A figure is met when the difference
is at most half of its last printed digit, or the tolerance shown. The same rows are tests: see
`tests/published`.

Provenance: PRINTED was read in the source, or in a republished copy of it; HAND was worked on paper, the way
is given; MEMORY was not seen. A figure copied from our own output would prove nothing, and there is none.

This page is written by `tools/validation.py` from the rows of the tests.
"""
NOT_COVERED = """## Not compared

- Torque ranges of AC 43.13-1B, table 7-1: figures to look up, with no formula that gives them.
- Factors of safety of Shigley's example 8-4 (yield 1.16, load 2.18, separation 3.8): they need a working load, and
  no calculator takes one.
- Loss of preload in the first days (Munse, 2.5 % plain and 6.5 % galvanized): to look up.
- The VDI 2230 forms of bolt and parts: we saw no worked example. They are compared with the textbook and with
  sums by hand in `tests/siblings/test_stiffness.py`; their formulas are from memory.
- The minimum zone of 24 points of the literature on roundness (38.231 µm, from memory): the coordinates at hand have
  lost a digit, and have a zone of 38.024 µm; `tests/published/test_round_forms.py` holds it within that rounding.
- Tap drills (W29 to W47) and the rate of a valve spring (R19): no calculator takes them.
- Elastic interaction of bolts: `tests/published/test_interaction.py`; its figures are derived by hand.
"""


def page() -> str:
    """The whole page, as it should stand in the file."""
    parts = [HEAD, *summary()]
    for subject, title, words in SECTIONS:
        parts += [f"\n## {title}\n\n{words}\n", *table(cases(subject))]
    parts += ["\n## Proof-reading\n", *misprints(), "", *manuals()]
    parts += ["\n## Figures that are not met at their printed digits\n", *missed(), f"\n{NOT_COVERED}"]
    return "\n".join(parts)


def summary() -> Iterable[str]:
    """How many figures there are, and how many are met."""
    yield "| subject | figures | met at their printed digits |\n|---|---|---|"
    for subject, title, _ in SECTIONS:
        rows = cases(subject)
        yield f"| {title} | {len(rows)} | {sum(not row.reason for row in rows)} |"


def table(rows: Sequence[Case]) -> Iterable[str]:
    """Published, ours, difference, source: one line for each figure."""
    yield "| | inputs | published | ours | difference | allowed | source | provenance |"
    yield "|---|---|---|---|---|---|---|---|"
    for row in rows:
        ours, miss, allowed = (digits(value, row) for value in (row.ours, row.miss, row.allowed))
        mark = " ¹" if row.reason else ""
        cells = (row.id, given(row), f"{row.printed} {row.unit}".strip(), ours, miss, f"{allowed}{mark}")
        yield f"| {' | '.join((*cells, row.source, row.provenance))} |"
    if any(row.reason for row in rows):
        yield "\n¹ Not met at its printed digits; the reason stands below."


def given(row: Case) -> str:
    """The inputs and what they go into, short enough for a cell."""
    inputs = ", ".join(f"{key} {value}" for key, value in row.inputs.items())
    return f"{row.way}: {inputs}" + (f" → {row.result}" if row.result else "")


def misprints() -> Iterable[str]:
    """What proof-reading says of pages that were printed wrong."""
    yield (
        "Misprints of printed manuals, each as a small sheet that says what its page says; found means found at the "
        "place of the misprint. A sheet that no engine can have is refused when it is read, which counts as an error."
    )
    yield "\n| | found as | at |\n|---|---|---|"
    met = {row.row: (_grade_at(partial(sheet, row.printed), row.path), row.path) for row in ROWS}
    met[FIRING_ORDER] = (_grade_at(partial(firing_order, LOST_DIGITS), ""), "engine.firing_order")
    for name in (rows := [name for name in rows_of_one_sheet() if name not in OTHER_MANUALS]):
        grade, path = met[name]
        yield f"| {name} | {grade} | `{path}` |"
    grades = [met[name][0] for name in rows]
    yield f"\nOf {len(rows)} rows {_counts(grades)}. Not in scope: {_other_manuals()}."
    mended = sum(not sheet(row.mended) for row in ROWS) + (firing_order(WHOLE_ORDER) == ())
    yield f"Of the same {len(rows)} pages mended, {mended} raise nothing."


def _counts(grades: Sequence[str]) -> str:
    return ", ".join(f"{grades.count(one)} {words}" for one, words in FOUND.items())


def _other_manuals() -> str:
    return "; ".join(f"{name} {why}" for name, why in OTHER_MANUALS.items())


def _grade_at(proof: Callable[[], Sequence[Finding]], path: str) -> str:
    """The gravest finding at this place; refused where the sheet is not taken at all."""
    try:
        grades = {one.grade for one in proof() if one.path == path}
    except InputError:
        return "refused"
    return next((grade for grade in ("error", "doubt", "note") if grade in grades), "nothing")


def manuals() -> Iterable[str]:
    """What proof-reading says of two manuals whose clean rows were transcribed, and of their misprinted rows."""
    yield (
        "Two printed manuals, their clean rows transcribed as data sheets. A note says that figures agree only "
        "roughly, or that parts must be matched. Then the misprints that the manuals have, one at a time as printed."
    )
    yield "\n| manual | rows | figures | errors | doubts | notes | misprints put in | error | refused | missed |"
    yield "|---|---|---|---|---|---|---|---|---|---|"
    for manual in MANUALS:
        yield "| " + " | ".join(str(cell) for cell in (*_counted(manual), *_misprinted(manual))) + " |"


def _counted(manual: Manual) -> tuple[str | int, ...]:
    loaded = parse_sheet(manual.sheet(), file="manual.yaml")
    grades = [one.grade for one in proofread(loaded.sheet, written=loaded.written)]
    title = loaded.sheet.sources["manual"].title
    by_grade = (grades.count("error"), grades.count("doubt"), grades.count("note"))
    return (title, len(taken(manual)), len(places(manual.template)), *by_grade)


def _misprinted(manual: Manual) -> tuple[int, ...]:
    rows = [row for row in MISPRINTS if row.manual == manual.name]
    grades = [_grade_at(partial(found, as_printed(row)), row.path) for row in rows]
    error, refused = grades.count("error"), grades.count("refused")
    return (len(rows), error, refused, len(rows) - error - refused)


def missed() -> Iterable[str]:
    """Every figure with a reason, gathered by its reason."""
    reasons: dict[str, list[str]] = {}
    for subject, _, _ in SECTIONS:
        for row in cases(subject):
            if row.reason:
                reasons.setdefault(row.reason, []).append(f"{row.id} ({100 * row.miss / row.value:+.2f} %)")
    for reason, rows in reasons.items():
        yield f"- {reason[0].upper()}{reason[1:]}: {', '.join(rows)}."


def digits(value: float, row: Case) -> str:
    """A number with two digits more than the printed one, and no minus zero."""
    decimals = len(row.printed.partition(".")[2]) + 2
    text = f"{value:.{decimals}f}"
    return text.removeprefix("-") if not text.strip("-0.") else text


if __name__ == "__main__":
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(page(), encoding="utf-8")
