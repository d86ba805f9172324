"""Figures as manuals print them; the printings are real ones of public manuals or plain usage."""

import pytest

from gudgeon.errors import InputError
from gudgeon.quantity import errors
from gudgeon.quantity.written import parse_amount, parse_printed

Ends = tuple[str, float | None, float | None]

# text, kind, then unit, low and high of every figure
READ: list[tuple[str, str, list[Ends]]] = [
    ("40 N·m (29.5 lbf·ft)", "torque", [("N·m", 40, 40), ("lbf·ft", 29.5, 29.5)]),
    ("8.0–9.5 kgf·m (59–69 lb-ft)", "torque", [("kgf·m", 8, 9.5), ("lbf·ft", 59, 69)]),
    ("140-150 lb-ft (196-210 N.m)", "torque", [("lbf·ft", 140, 150), ("N·m", 196, 210)]),
    ("8.0-9.5 kgf-m", "torque", [("kgf·m", 8, 9.5)]),
    ("70 ft.-lb.", "torque", [("lbf·ft", 70, 70)]),
    ("40 N·m ± 4", "torque", [("N·m", 36, 44)]),
    ("10 N·m +5/-3 (7 lbf·ft)", "torque", [("N·m", 7, 15), ("lbf·ft", 7, 7)]),
    ("10 N.m +5/-3 N.m (7 lb-ft)", "torque", [("N·m", 7, 15), ("lbf·ft", 7, 7)]),
    ("10 +5/−3 N·m", "torque", [("N·m", 7, 15)]),
    ("25 -0.01/+0.02 mm", "length", [("mm", 24.99, 25.02)]),
    ("20 mm +0.030/+0.010", "length", [("mm", 20.01, 20.03)]),
    ("20 mm +30/-10 µm", "length", [("mm", 19.99, 20.03)]),
    ("90° +10/-0°", "angle", [("°", 90, 100)]),
    ("0.38 mm (0.015 in)", "length", [("mm", 0.38, 0.38), ("in", 0.015, 0.015)]),
    ("0.011 in or 0.28 mm", "length", [("in", 0.011, 0.011), ("mm", 0.28, 0.28)]),
    ("0.05 mm / 0.002 in", "length", [("mm", 0.05, 0.05), ("in", 0.002, 0.002)]),
    ("0.05 mm/0.002 in", "length", [("mm", 0.05, 0.05), ("in", 0.002, 0.002)]),
    ("0.45 mm to 0.55 mm", "length", [("mm", 0.45, 0.55)]),
    (".00075 in", "length", [("in", 0.00075, 0.00075)]),
    ('0.002"', "length", [("in", 0.002, 0.002)]),
    ("1 1/2 in (38.1 mm)", "length", [("in", 1.5, 1.5), ("mm", 38.1, 38.1)]),
    ("1-1/2 in", "length", [("in", 1.5, 1.5)]),
    ("1/4-1/2 in", "length", [("in", 0.25, 0.5)]),
    ("0-1/2 in", "length", [("in", 0, 0.5)]),
    ("−0.05 to +0.10 mm", "length_difference", [("mm", -0.05, 0.10)]),
    ("-0.05 mm", "length_difference", [("mm", -0.05, -0.05)]),
    ("less than 0.1 mm (0.004 in)", "length", [("mm", None, 0.1), ("in", None, 0.004)]),
    ("0.05 mm (0.002 in) max.", "length", [("mm", None, 0.05), ("in", None, 0.002)]),
    ("max 0.05 mm", "length", [("mm", None, 0.05)]),
    ("≤0.05 mm", "length", [("mm", None, 0.05)]),
    ("not less than 0.5 mm", "length", [("mm", 0.5, None)]),
    ("at least 0.2 mm", "length", [("mm", 0.2, None)]),
    ("0.2 mm or more", "length", [("mm", 0.2, None)]),
    ("85–95°", "angle", [("°", 85, 95)]),
    ("85 to 95 °", "angle", [("°", 85, 95)]),
    ("90° ± 5°", "angle", [("°", 85, 95)]),
    ("90 +/- 5 deg", "angle", [("°", 85, 95)]),
    ("1/4 turn", "angle", [("turn", 0.25, 0.25)]),
    ("45 deg 30 min", "angle", [("°", 45.5, 45.5)]),
    ("45° 30′", "angle", [("°", 45.5, 45.5)]),
    ("30 min", "time", [("min", 30, 30)]),
    ("600-650 min-1", "speed", [("r/min", 600, 650)]),
    ("650 min-1", "speed", [("r/min", 650, 650)]),
    ("8.5 L (9 US qt, 7 Imp qt)", "volume", [("L", 8.5, 8.5), ("US qt", 9, 9), ("imp qt", 7, 7)]),
    ("-430 mmHg (-16.93 inHg)", "pressure_gauge", [("mmHg", -430, -430), ("inHg", -16.93, -16.93)]),
    ("less than 1.0 kgf/cm2 (14 psi)", "pressure_gauge", [("kgf/cm²", None, 1.0), ("psi", None, 14)]),
    ("9.5:1", "ratio", [("1", 9.5, 9.5)]),
    ("9.5", "ratio", [("1", 9.5, 9.5)]),
    ("11.4 µm/(m·K)", "expansion", [("µm/(m·K)", 11.4, 11.4)]),
]


@pytest.mark.parametrize(("text", "kind", "expected"), READ, ids=[row[0] for row in READ])
def test_a_figure_reads_as_printed(text: str, kind: str, expected: list[Ends]) -> None:
    found = parse_printed(text, kind=kind)
    assert found.text == text
    assert [(span.unit.symbol, span.low_in(span.unit.symbol), span.high_in(span.unit.symbol))
            for span in found.spans] == expected  # fmt: skip


REFUSED: list[tuple[str, str, type[InputError], str]] = [
    ("", "torque", errors.FigureBlank,
     "A figure was expected (torque), nothing was found. Write number and unit."),
    ("40", "torque", errors.UnitMissing,
     "`40` has no unit. Write it with one of: N·m, lbf·ft, lbf·in, kgf·m (torque)."),
    ("40 J", "torque", errors.UnitOfAnotherKind,
     "`J` is a unit of energy, not of torque. Write one of: N·m, lbf·ft, lbf·in, kgf·m."),
    ("40 nm", "torque", errors.UnitMiswritten,
     "`nm` is not how a unit of torque is written. Write N·m."),
    ("40 Foot-Lbs", "torque", errors.UnknownUnit,
     "`Foot-Lbs` is not a known unit of torque. "
     "Known: N·m, lbf·ft, lbf·in, kgf·m, kgf·cm, cN·m, daN·m, kN·m, ozf·in."),
    ("30 psia", "pressure_gauge", errors.UnitOfAnotherKind,
     "`psia` is a unit of absolute pressure, not of gauge pressure. "
     "Write one of: kPa, psi, bar, kgf/cm²."),
    ("4 qt", "volume", errors.UnitAmbiguous, "`qt` can mean US qt or imp qt. Write which."),
    ("20 kg", "force", errors.UnitMiswritten, "`kg` is not how a unit of force is written. Write kgf."),
    ("0,05 mm", "length", errors.DecimalComma,
     "`0,05` has a comma. Write the decimal with a point: 0.05"),
    ("1,781 mm", "length", errors.CommaAmbiguous,
     "`1,781` can mean 1.781 or 1781. Write one of the two."),
    ("1.000,5 mm", "length", errors.DecimalComma,
     "`1.000,5` has a comma. Write the decimal with a point: 1000.5"),
    ("1,234.5 N", "force", errors.DigitsParted,
     "`1,234.5` has its digits parted. Write them together: 1234.5"),
    ("1 781 N", "force", errors.DigitsParted,
     "`1 781` has its digits parted. Write them together: 1781"),
    ("nan mm", "length", errors.FigureNotFinite,
     "`nan mm` is not a finite number. Write the number that was read."),
    ("inf mm", "length", errors.FigureNotFinite,
     "`inf mm` is not a finite number. Write the number that was read."),
    ("1e999999999 mm", "length", errors.FigureBeyondReason,
     "`1e999999999` is beyond any figure of an engine. Check its digits and its exponent."),
    ("1/99999999999999999999 mm", "length", errors.FigureBeyondReason,
     "`1/99999999999999999999` is beyond any figure of an engine. Check its digits and its exponent."),
    ("40–30 N·m", "torque", errors.RangeDownward,
     "`40–30 N·m` runs downward, from 40 N·m to 30 N·m. Write the smaller figure first."),
    ("20 +0.03/+0.03 mm", "length", errors.ToleranceNegative,
     "`20 +0.03/+0.03 mm` has a tolerance that is not above zero. Write it like `90° ± 5°`."),
    ("max 20 +0.03/-0.01 mm", "length", errors.BoundsContradict,
     "`20 +0.03/-0.01 mm` says at most and at least of one figure. Write one, or a range."),
    ("20 +0.03/-0.01", "length", errors.UnitMissing,
     "`20 +0.03/-0.01` has no unit. Write it with one of: mm, in, µm, thou (length)."),
    ("90° ± 0°", "angle", errors.ToleranceNegative,
     "`90° ± 0°` has a tolerance that is not above zero. Write it like `90° ± 5°`."),
    ("0.05 mm max (0.002 in min)", "length", errors.BoundsContradict,
     "`0.05 mm max (0.002 in min)` says at most and at least of one figure. Write one, or a range."),
    ("40 N·m + 90°", "torque", errors.FigureUnreadable,
     "`40 N·m + 90°` cannot be read as a figure (torque). "
     "Write a number and its unit, like `0.05 mm`, `85–95°` or `40 N·m (29.5 lbf·ft)`."),
    ("(40 N·m", "torque", errors.FigureUnreadable,
     "`(40 N·m` cannot be read as a figure (torque). "
     "Write a number and its unit, like `0.05 mm`, `85–95°` or `40 N·m (29.5 lbf·ft)`."),
    ("1/0 in", "length", errors.FigureUnreadable,
     "`1/0` cannot be read as a figure (number). "
     "Write a number and its unit, like `0.05 mm`, `85–95°` or `40 N·m (29.5 lbf·ft)`."),
    ("5 mm", "lenght", errors.UnknownKind, "`lenght` is no kind of quantity. Did you mean `length`?"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind", "cause", "message"), REFUSED, ids=[row[0] for row in REFUSED])
def test_nothing_is_guessed(text: str, kind: str, cause: type[InputError], message: str) -> None:
    with pytest.raises(cause) as caught:
        parse_printed(text, kind=kind)
    assert str(caught.value) == message


def test_the_first_figure_leads() -> None:
    found = parse_printed("8.0–9.5 kgf·m (59–69 lb-ft)", kind="torque")
    assert found.low_in("N·m") == pytest.approx(78.4532, abs=1e-9)
    assert found.high_in("lbf·ft") == pytest.approx(68.7, abs=0.05)
    assert found.middle_in("kgf·m") == 8.75


def test_a_tolerance_keeps_its_middle_and_a_mixed_unit_is_turned() -> None:
    found = parse_printed("86 mm ± 5 µm", kind="length").first
    assert (found.low_in("mm"), found.middle_in("mm"), found.high_in("mm")) == (85.995, 86.0, 86.005)


def test_an_open_figure_has_no_middle_and_a_range_no_single_value() -> None:
    with pytest.raises(errors.BoundOpen, match=r"^`0\.05 mm` is open at one end and has no middle\."):
        parse_printed("max 0.05 mm", kind="length").middle_in("mm")
    with pytest.raises(errors.NotSingle, match=r"^`85–95°` is a range; one value is needed here\."):
        parse_printed("85–95°", kind="angle").in_unit("°")


@pytest.mark.parametrize(
    ("text", "unit", "half"),
    [("0.015 in", "mm", 0.0127), ("40 N·m", "N·m", 0.5), ("0.050 mm", "mm", 0.0005), ("1/2 in", "mm", 0.0)],
)
def test_the_last_printed_digit_is_known(text: str, unit: str, half: float) -> None:
    kind = "torque" if "N" in unit else "length"
    assert parse_amount(text, kind=kind).half_digit_in(unit) == pytest.approx(half, abs=1e-15)


def test_a_difference_of_temperature_has_no_zero_point() -> None:
    assert parse_amount("10 °C", kind="temperature_difference").to("°F") == 18.0
    assert parse_amount("10 °C", kind="temperature").to("°F") == 50.0
    assert parse_amount("1 °F", kind="temperature").half_digit_in("K") == pytest.approx(5 / 18, abs=1e-15)


def test_a_bare_number_takes_the_default_unit_only_where_one_is_given() -> None:
    assert parse_amount("0.05", kind="length", default_unit="mm").to("µm") == 50.0
    with pytest.raises(errors.UnitMissing):
        parse_amount("0.05", kind="length")
    with pytest.raises(errors.NotSingle):
        parse_amount("0.05-0.06", kind="length", default_unit="mm")


def test_a_long_line_of_garbage_is_refused_quickly_and_briefly() -> None:
    with pytest.raises(InputError) as caught:
        parse_printed("9" * 200 + "–" * 3000 + "(" * 500, kind="length")
    assert len(str(caught.value)) < 300


def test_a_size_with_two_deviations_stays_the_target_where_it_lies_between_them() -> None:
    found = parse_printed("10 N·m +5/-3 N·m (7 lbf·ft)", kind="torque")
    assert (found.low_in("N·m"), found.middle_in("N·m"), found.high_in("N·m")) == (7.0, 10.0, 15.0)
    fit = parse_printed("20 +0.030/+0.010 mm", kind="length").first
    assert fit.nominal is None
    assert (fit.low_in("mm"), fit.high_in("mm")) == (20.01, 20.03)
