"""Misprints of printed manuals, each as a small sheet that says what the page says, and mended.

The table of misprints beside the checkout names the page of each and what is wrong (status PRINTED: seen on
the page named). Where a row gives the figure at fault alone, the figures around it that the check needs are
HAND: chosen so that they close with what the row says is right. The variants at the end are HAND throughout:
slips of the same kinds, made on paper.
"""

from dataclasses import dataclass

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from tests.reference import reference_rows

HEAD = """gudgeon: data sheet 1
engine: {{name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: {cylinders}, numbered_from: front{order}}}
sources: {{manual: {{title: Manual, edition: first}}}}
"""


def sheet(body: str, *, cylinders: int = 4, order: str = "") -> tuple[Finding, ...]:
    """What proof-reading finds in a sheet of this body."""
    told = f", source: manual p. 1, firing_order: [{order}]" if order else ""
    loaded = parse_sheet(HEAD.format(cylinders=cylinders, order=told) + body, file="sheet.yaml")
    return proofread(loaded.sheet, written=loaded.written)


def measured(**fields: str) -> str:
    """One characteristic `it`."""
    said = ", ".join(f"{name}: {text}" for name, text in fields.items())
    return f"characteristics:\n  it: {{name: It, part: Part, source: manual p. 1, {said}}}\n"


def closing(bore: str, shaft: str, clearance: str) -> str:
    """A bore, a shaft, and the clearance between them."""
    return f"""characteristics:
  hole: {{name: Guide, part: Head, source: manual p. 1, new_range: {bore}}}
  stem: {{name: Stem, part: Valves, source: manual p. 1, new_range: {shaft}}}
  it: {{name: Clearance, part: Valves, source: manual p. 1, method: gap, between: [hole, stem], new_range: {clearance}}}
"""


@dataclass(frozen=True)
class Misprint:
    """A page as printed and as it should be; the gravest finding, its place, and a word of what it says."""

    row: str
    printed: str
    mended: str
    grade: str
    path: str
    says: tuple[str, ...]


IT = "characteristics.it."
ROWS = (
    Misprint(
        "X01",
        measured(method="gap", new_range="0.01-0.066 mm", wear_limit="max 0.03 mm"),
        measured(method="gap", new_range="0.01-0.066 mm", wear_limit="max 0.1 mm"),
        "error",
        f"{IT}wear_limit",
        ("inside the new range",),
    ),
    Misprint(
        "X03",
        measured(quantity="pressure_gauge", new_range="11.0 kgf/cm2 (15 psi)"),
        measured(quantity="pressure_gauge", new_range="11.0 kgf/cm2 (156 psi)"),
        "error",
        f"{IT}new_range",
        ("15 psi for 156 psi", "a digit 6 lost"),
    ),
    Misprint(
        "X05",
        measured(method="gap", wear_limit="max 0.00015 in (0.038 mm)"),
        measured(method="gap", wear_limit="max 0.0015 in (0.038 mm)"),
        "error",
        f"{IT}wear_limit",
        ("0.00015 in for 0.0015 in", "ten-fold"),
    ),
    Misprint(
        "X07",
        measured(method="gap", grades="{intake: 0.011 in or 0.028 mm, exhaust: 0.023 in or 0.058 mm}"),
        measured(method="gap", grades="{intake: 0.011 in or 0.28 mm, exhaust: 0.023 in or 0.58 mm}"),
        "error",
        f"{IT}grades.intake",
        ("0.028 mm for 0.28 mm", "ten-fold"),
    ),
    Misprint(
        "X09",
        measured(grades="{low: 5.487 in = 13.972 cm, high: 5.488 in = 13.930 cm}"),
        measured(grades="{low: 5.487 in = 13.937 cm, high: 5.488 in = 13.940 cm}"),
        "error",
        f"{IT}grades.high",
        ("rises in one unit and falls in the other",),
    ),
    Misprint(
        "X11",
        measured(new_range="15.581-15.5835 in", wear_limit="min 15.171 in (385.34 mm)"),
        measured(new_range="15.581-15.5835 in", wear_limit="min 15.571 in (395.50 mm)"),
        "doubt",
        f"{IT}wear_limit",
        ("164 times the new tolerance", "agrees in both units"),
    ),
    Misprint(
        "X13",
        measured(method="gap", wear_limit="max 0.006 in (0.015 mm)"),
        measured(method="gap", wear_limit="max 0.006 in (0.15 mm)"),
        "error",
        f"{IT}wear_limit",
        ("0.015 mm for 0.15 mm", "ten-fold"),
    ),
    Misprint(
        "X15",
        closing("0.3750-0.3760 in", "0.3710-0.3730 in", "0.0020-0.0060 in"),
        closing("0.3750-0.3760 in", "0.3710-0.3730 in", "0.0020-0.0050 in"),
        "error",
        f"{IT}new_range",
        ("from the sizes: 0.0020–0.0050 in", "at one end"),
    ),
    Misprint(
        "X19",
        measured(quantity="torque", required="140-150 lb-ft (196-210 N.m)"),
        measured(quantity="torque", required="140-150 lb-ft (190-203 N.m)"),
        "error",
        f"{IT}required",
        ("1.4 N·m to 1 lbf·ft was taken, it is 1.3558",),
    ),
    Misprint(
        "X23",
        measured(method="gap", new_range="0.0080-0.0120 in", wear_limit="max 0.005 in"),
        measured(method="gap", new_range="0.0080-0.0120 in", wear_limit="max 0.0160 in"),
        "error",
        f"{IT}wear_limit",
        ("it is the wear allowance and not the limit",),
    ),
    Misprint(
        "X25",
        measured(method="gap", new_range="0.0015 in (0.3810 mm)"),
        measured(method="gap", new_range="0.0015 in (0.0381 mm)"),
        "error",
        f"{IT}new_range",
        ("0.3810 mm for 0.03810 mm", "ten-fold"),
    ),
    Misprint(
        "X27",
        measured(method="gap", grades="{one: 0.758-0.813 mm, two: 0.813-0.859 mm, three: 0.859-0.908 mm}"),
        measured(
            method="gap",
            grades="{one: 0.758-0.813 mm, two: 0.813-0.859 mm, three: 0.859-0.908 mm}, tie: the thicker takes it",
        ),
        "doubt",
        f"{IT}grades.two",
        ("0.813 mm belongs to the grades one and two", "tie:"),
    ),
)


def text_of(finding: Finding) -> str:
    """All that a finding says, without what was printed."""
    return " | ".join((finding.why, finding.agrees, finding.digit))


@pytest.mark.parametrize("case", ROWS, ids=lambda case: case.row)
def test_a_misprint_is_found_at_its_place(case: Misprint) -> None:
    found = [one for one in sheet(case.printed) if one.path == case.path and one.grade == case.grade]
    assert any(all(word in text_of(one) for word in case.says) for one in found), sheet(case.printed)
    assert all(one.line is not None and one.source for one in found)


@pytest.mark.parametrize("case", ROWS, ids=lambda case: case.row)
def test_the_mended_page_raises_nothing(case: Misprint) -> None:
    assert [one for one in sheet(case.mended) if one.grade != "note"] == []


FIRING_ORDER, LOST_DIGITS, WHOLE_ORDER = "X21", "1, 5, 3, 6", "1, 5, 3, 6, 2, 4"
OTHER_MANUALS = {"X17": "compares two manuals of two vehicles, and no figure of one sheet is wrong"}


def firing_order(text: str) -> tuple[Finding, ...]:
    """What proof-reading finds in a sheet of six cylinders with this firing order."""
    return sheet("", cylinders=6, order=text)


def test_a_firing_order_that_lost_digits_is_refused_on_loading() -> None:
    """X21: a sheet with a firing order that no engine can have is not taken at all."""
    with pytest.raises(InputError) as refused:
        firing_order(LOST_DIGITS)
    assert "The firing order 1-5-3-6 does not name each of 6 cylinders once." in str(refused.value)
    assert firing_order(WHOLE_ORDER) == ()


def rows_of_one_sheet() -> list[str]:
    """The rows of the table that concern a sheet of figures; from X29 on none does."""
    return [row["id"] for row in reference_rows("misprints.csv") if row["id"] <= "X27"]


def test_every_row_that_concerns_one_sheet_is_here() -> None:
    assert set(rows_of_one_sheet()) - set(OTHER_MANUALS) == {case.row for case in ROWS} | {FIRING_ORDER}


# HAND: slips made on paper on pairs that are right (1 in = 25.4 mm, 1 lbf·ft = 1.3558 N·m, 1 bar = 14.504 psi,
# 1 US qt = 0.9464 L, °F = 1.8 °C + 32); what stands in brackets is the slip.
VARIANTS = (
    ("length", "45.20–46.00 mm (1.780–1.118 in)", "refused", "runs downward"),
    ("length", "52.40 mm (2.603 in)", "error", "the digits 6 and 0 exchanged"),
    ("length", "25.94–25.96 mm (1.0213–1.2022 in)", "error", "1.2022 in for 1.0222 in"),
    ("length_difference", "0.20 ± 0.05 mm (0.008 ± 0.020 in)", "error", "ten-fold"),
    ("length_difference", "0.25–0.40 mm (0.0098–0.157 in)", "error", "0.157 in for 0.0157 in"),
    ("length_difference", "0.004–0.006 mm (0.10–0.15 in)", "error", "the units exchanged"),
    ("length", "14.2 mm (5.591 in)", "error", "14.2 mm would agree as 14.2 cm"),
    ("length", "17/32 in (0.5513 in)", "error", "0.5513 in is 35/64 in|17/32 in is 0.5313 in"),
    ("torque", "65 N·m (74.9 lbf·ft)", "error", "the digits 7 and 4 exchanged"),
    ("torque", "21–27 N·m (15.5–199 lbf·ft)", "error", "199 lbf·ft for 19.9 lbf·ft"),
    ("torque", "100–120 lbf·ft (150–180 N·m)", "error", "1.5 N·m to 1 lbf·ft was taken"),
    ("pressure_gauge", "3.0–4.5 bar (43–56 psi)", "error", "56 psi for 65 psi"),
    ("volume", "4.2 L (44 US qt)", "error", "44 US qt for 4.4 US qt"),
    ("length", "7/8 in (0.7874 in)", "error", "7/8 in is 0.8750 in"),
    ("torque", "20 in-lb (27 N·m)", "error", "20 in-lb would agree as 20 lbf·ft"),
    ("length_difference", "0.0006–0.0021 in (0.015–0.533 mm)", "error", "0.533 mm for 0.0533 mm"),
    ("temperature", "88 °C (109 °F)", "error", "the digits 0 and 9 exchanged"),
)


@pytest.mark.parametrize(("kind", "printed", "grade", "says"), VARIANTS, ids=lambda value: str(value)[:40])
def test_invented_slips_of_the_same_kinds(kind: str, printed: str, grade: str, says: str) -> None:
    body = measured(method="gap", quantity=kind, new_range=f'"{printed}"')
    if grade == "refused":
        with pytest.raises(InputError, match=says):
            sheet(body)
        return
    found = sheet(body)
    assert found[0].grade == grade
    assert any(word in text_of(found[0]) for word in says.split("|")), text_of(found[0])


@pytest.mark.parametrize(
    ("kind", "printed"),
    [
        ("length", "45.20–46.00 mm (1.780–1.811 in)"),
        ("length", "52.40 mm (2.063 in)"),
        ("length_difference", "0.20 ± 0.05 mm (0.008 ± 0.002 in)"),
        ("length_difference", "0.10–0.15 mm (0.004–0.006 in)"),
        ("length", "17/32 in (0.5313 in)"),
        ("torque", "65 N·m (47.9 lbf·ft)"),
        ("torque", "100–120 lbf·ft (136–163 N·m)"),
        ("pressure_gauge", "3.0–4.5 bar (43–65 psi)"),
        ("volume", "4.2 L (4.4 US qt)"),
        ("temperature", "88 °C (190 °F)"),
    ],
)
def test_the_same_pairs_without_a_slip(kind: str, printed: str) -> None:
    """HAND: converted with the factors above and rounded."""
    body = measured(method="gap", quantity=kind, new_range=f'"{printed}"')
    assert [one for one in sheet(body) if one.grade != "note"] == []
