"""Writes docs/validation.md from the published figures of the tests: python tools/validation.py."""

import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))  # the published figures belong to the tests

from gudgeon.bench.proof.run import proofread  # noqa: E402
from gudgeon.sheet.load import parse_sheet  # noqa: E402
from tests.published.cases import Case, cases  # noqa: E402
from tests.published.manuals.filling import MANUALS, Manual, places, taken  # noqa: E402
from tests.published.test_misprints import ROWS, Misprint, sheet  # noqa: E402

PAGE = ROOT / "docs" / "validation.md"
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
    ("metrology", "What a reading proves", "Probabilities of lying inside, and uncertainties."),
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
        "Misprints of printed manuals, each as a small sheet that says what its page says. The firing order that lost "
        "digits (X21) is refused when the sheet is read. X17 concerns two manuals and not one sheet."
    )
    yield "\n| | found as | at |\n|---|---|---|"
    graded = [(row, _gravest(row)) for row in ROWS]
    for row, grade in graded:
        yield f"| {row.row} | {grade} | `{row.path}` |"
    counts = ", ".join(f"{sum(grade == one for _, grade in graded)} as {one}" for one in ("error", "doubt"))
    mended = sum(not sheet(row.mended) for row in ROWS)
    yield f"\nOf {len(graded)} figures {counts}. Of the same pages mended, {mended} raise nothing.\n"


def _gravest(row: Misprint) -> str:
    grades = {one.grade for one in sheet(row.printed)}
    return next((grade for grade in ("error", "doubt", "note") if grade in grades), "nothing")


def manuals() -> Iterable[str]:
    """What proof-reading says of two manuals whose clean rows were transcribed."""
    yield (
        "Two printed manuals, their clean rows transcribed as data sheets. A note says that figures agree only "
        "roughly, or that parts must be matched."
    )
    yield "\n| manual | rows | figures | errors | doubts | notes |\n|---|---|---|---|---|---|"
    for manual in MANUALS:
        yield "| " + " | ".join(str(cell) for cell in _counted(manual)) + " |"


def _counted(manual: Manual) -> tuple[str | int, ...]:
    loaded = parse_sheet(manual.sheet(), file="manual.yaml")
    grades = [one.grade for one in proofread(loaded.sheet, written=loaded.written)]
    title = loaded.sheet.sources["manual"].title
    by_grade = (grades.count("error"), grades.count("doubt"), grades.count("note"))
    return (title, len(taken(manual)), len(places(manual.template)), *by_grade)


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
