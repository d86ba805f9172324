"""The calculator of one shim: what it reads, what it flags, what it refuses."""

import pytest

from gudgeon.calc.calculator import CalculatorAnswer, run
from gudgeon.calc.engine.lash import HELD_OPEN
from gudgeon.errors import InputError

SERIES = "2.00-2.80 mm step 0.05 mm"


def shim(**inputs: str) -> CalculatorAnswer:
    given = {"old_shim": "2.45 mm", "measured": "0.24 mm", "wanted": "0.25-0.35 mm", "series": SERIES}
    return run("engine.shim", {name: text for name, text in (given | inputs).items() if text})


def figures(found: CalculatorAnswer) -> tuple[float, ...]:
    names = ("exact_mm", "fitted_mm", "clearance_after_mm")
    return tuple(round(value, 6) for name in names if isinstance(value := found[name], float))


def test_the_nearest_of_a_series() -> None:
    # HAND: 2.45 + 0.24 − 0.30 = 2.39; the nearest is 2.40; 0.24 + 2.45 − 2.40 = 0.29.
    assert figures(shim()) == (2.39, 2.4, 0.29)
    assert shim().flags == ()


@pytest.mark.parametrize(
    "series",
    [
        "2.00–2.80 mm step 0.05 mm", "2.00 to 2.80 mm in steps of 0.05 mm", "2.00-2.80 step 0.05", "2-2.8 mm by 0.05",
        "2.00 to 2.80 in steps of 0.05", "2.00-2.80 in steps of 0.05 mm", "2.35, 2.40, 2.45", "2.35, 2.40, 2.45 mm",
        "2.40; 2.35; 2.45 mm", "2.35 mm; 2.40 mm; 2.45 mm", "2.35\n2.40\n2.45",
        "0.0787-0.1102 in step 0.00197 in",
    ],
)  # fmt: skip
def test_a_series_as_it_is_written(series: str) -> None:
    # HAND, the last one: 16 even steps of (0.1102 − 0.0787) in are 0.05000625 mm; the eighth is 2.39903 mm.
    exact, fitted, after = figures(shim(series=series))
    inches = series.endswith("in")
    assert (exact, fitted) == (2.39, 2.39903 if inches else 2.4)
    assert after == pytest.approx(0.29097 if inches else 0.29, abs=1e-9)


def test_halfway_between_two_the_thinner() -> None:
    # HAND: 2.45 + 0.225 − 0.30 = 2.375.
    assert figures(shim(measured="0.225 mm")) == (2.375, 2.35, 0.325)


def test_between_two_blades() -> None:
    # HAND: middle 0.24; 0.23 + 0.05 and 0.25 + 0.05.
    found = shim(measured="0.23-0.25 mm")
    assert figures(found) == (2.39, 2.4, 0.29)
    assert found["after_between"] == "0.280–0.300 mm (0.0110–0.0118 in)"
    wide = shim(measured="0.18-0.30 mm", wanted="0.25-0.33 mm")
    # HAND: 2.45 + 0.24 − 0.29 = 2.40; after that 0.23 to 0.35, which crosses both ends.
    assert wide.flags == (
        "In doubt: an end of what the blades leave open lies outside. Measure it with finer steps of blades.",
    )


def test_one_value_is_no_range_to_be_outside_of() -> None:
    assert figures(shim(wanted="0.30 mm")) == (2.39, 2.4, 0.29)
    assert shim(wanted="0.30 mm").flags == ()


def test_inches() -> None:
    # HAND: 0.096 + 0.010 − 0.012 = 0.094 in = 2.3876 mm.
    found = shim(old_shim="0.096 in", measured="0.010 in", wanted="0.012 in", series="0.090; 0.092; 0.094 in")
    assert figures(found) == (2.3876, 2.3876, 0.3048)


def test_in_behind_a_number_below_half_an_inch_is_the_unit() -> None:
    # HAND: 0.110 + (0.014 − 0.010) = 0.114 in = 2.8956 mm, a size of the series
    found = shim(
        old_shim="0.110 in", measured="0.014 in", wanted="0.010 in", series="0.100-0.130 in steps of 0.002"
    )
    assert figures(found) == (2.8956, 2.8956, 0.254)


def test_without_a_series() -> None:
    found = shim(series="")
    assert figures_of(found) == ["exact_mm"]
    assert found.flags == ("No series is given, so only the exact thickness is told.",)


def figures_of(found: CalculatorAnswer) -> list[str]:
    return [one.name for one in found.results]


def test_the_series_ends() -> None:
    # HAND: 2.45 + 0.02 − 0.30 = 2.17; the thinnest, 2.30, leaves 0.17.
    assert shim(measured="0.02 mm", series="2.30-2.80 mm step 0.05 mm").flags == (
        "The series ends: its thinnest size is 2.3 mm, and a thinner one is wanted.",
        "The nearest size, 2.3 mm, leaves 0.17 mm: outside 0.25 to 0.35 mm.",
    )
    assert shim(measured="0.90 mm", series="2.30-2.50 mm step 0.05 mm").flags == (
        "The series ends: its thickest size is 2.5 mm, and a thicker one is wanted.",
        "The nearest size, 2.5 mm, leaves 0.85 mm: outside 0.25 to 0.35 mm.",
    )


def test_a_thicker_shim_is_not_wanted_where_the_thickest_is_good() -> None:
    # HAND: 2.45 + 0.17 − 0.30 = 2.32; 2.30 leaves 0.32, inside 0.25 to 0.35.
    given = {"old_shim": "2.45", "measured": "0.17", "wanted": "0.25-0.35"}
    found = run("engine.shim", {**given, "series": "2.00; 2.05; 2.10; 2.30"})
    assert found["exact_mm"] == pytest.approx(2.32)
    assert found["fitted_mm"] == 2.3
    assert found.flags == ()
    assert [found.inputs[key] for key in ("measured", "wanted", "series")] == [
        "0.17 mm (0.0067 in), no unit written: mm",
        "0.25–0.35 mm (0.0098–0.0138 in), no unit written: mm",
        "4 sizes, 2.0–2.3 mm (0.079–0.091 in), no unit written: mm",
    ]
    inches = run("engine.shim", {**given, "measured": "0.008 in", "series": "0.080-0.110 in step 0.002"})
    assert inches.inputs["measured"] == "0.203 mm (0.0080 in)"
    assert inches.inputs["series"].startswith("16 sizes, 2.03")
    assert "no unit" not in inches.inputs["series"]


def test_steps_that_miss_the_last_size_by_its_rounding_are_said() -> None:
    # HAND: 0.805 is 16 steps of 0.05 and 0.005, less than the half digits of 2.00 and 2.805 hide, 0.0055.
    given = {"old_shim": "2.45", "measured": "0.30", "wanted": "0.25-0.35"}
    assert run("engine.shim", {**given, "series": "2.00-2.805 step 0.05"}).flags == (
        "2 to 2.805 mm is no whole number of steps of 0.05 mm; it is off by less than the ends are rounded, so 16 "
        "equal steps are taken. Check the series.",
    )
    assert run("engine.shim", {**given, "series": "2.00-2.80 step 0.05"}).flags == ()


def test_a_valve_held_open() -> None:
    # HAND: the thinnest, 2.60, leaves 0.02 + 2.45 − 2.60 = −0.13.
    assert shim(measured="0.02 mm", series="2.60; 2.70 mm").flags[1] == (
        "With the nearest size the valve is held open by 0.13 mm."
    )
    assert shim(measured="0 mm").flags[0] == HELD_OPEN


def test_the_series_is_too_coarse() -> None:
    # HAND: 2.39 is wanted to ± 0.02; 2.30 and 2.50 leave 0.39 and 0.19.
    assert shim(wanted="0.28-0.32 mm", series="2.30-2.90 mm step 0.20 mm").flags == (
        "The nearest size, 2.3 mm, leaves 0.39 mm: outside 0.28 to 0.32 mm.",
        "The series is too coarse for this range: no size brings the clearance inside.",
    )


@pytest.mark.parametrize(
    ("inputs", "message"),
    [
        (
            {"old_shim": "0.1 mm", "measured": "0.1 mm", "wanted": "0.3 mm"},
            "The new shim would be -0.1 mm thick: it is above 0. Check the old shim, and whether measured and wanted "
            "clearance are exchanged.",
        ),
        (
            {"series": "2.00-2.80 mm step 0.03 mm"},
            "Sizes 2 to 2.8 mm do not lie a whole number of steps of 0.03 mm apart. Read first, last and step again, "
            "or list the sizes with semicolons between them.",
        ),
        (
            {"series": "2.00-2.80 mm step 0.0005 mm"},
            "A series of 1,601 sizes cannot be: shims come in some dozens, and 1,000 is the most that is worked with. "
            "Check the step and its unit.",
        ),
        (
            {"series": "2.00-2.80 mm"},
            "`2.00-2.80 mm` names no sizes. Write first, last and step, like `2.00-2.80 mm step 0.05 mm`, or every size "
            "with semicolons between them, like `2.00 mm; 2.05 mm; 2.10 mm`.",
        ),
        (
            {"wanted": "min 0.25 mm"},
            "`min 0.25 mm` has one end only, so there is no middle to aim at. Write both, like `0.20-0.30 mm`, or one "
            "value.",
        ),
    ],
)  # fmt: skip
def test_what_is_refused(inputs: dict[str, str], message: str) -> None:
    with pytest.raises(InputError) as refused:
        shim(**inputs)
    assert str(refused.value) == message


@pytest.mark.parametrize(
    "series",
    [";", "2.40; -2.35 mm", "0 mm; 1 mm", "2.40 mm step 0.05 mm", "2.80-2.00 mm step 0.05 mm", "2.40 kg"],
)
def test_what_names_no_sizes(series: str) -> None:
    with pytest.raises(InputError):
        shim(series=series)
