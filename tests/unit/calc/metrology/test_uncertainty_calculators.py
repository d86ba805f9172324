"""Uncertainty, repeats and size at 20 °C as a person asks for them, and every refusal of what is written wrong."""

import pytest

from gudgeon.calc.calculator import CalculatorAnswer, run
from gudgeon.errors import InputError

EXPANDED, SIZE, REPEATS = "metrology.expanded-uncertainty", "metrology.size-at-20", "metrology.repeats-needed"
LIKE = (
    "Write figure, distribution and what else is known, items apart by semicolons, like "
    "`scale: 3 µm rectangular; repeats: 1.2 µm dof=9`."
)


def expand(components: str, **others: str) -> CalculatorAnswer:
    return run(EXPANDED, {"components": components, **others})


def shown(answer: CalculatorAnswer, name: str) -> str:
    return next(one.shown for one in answer.results if one.name == name)


def test_however_a_component_is_written() -> None:
    # HAND: 3 / √3 = √3
    for written in (
        "3 µm rectangular",
        "± 3 µm",
        "scale: 3 µm uniform",
        "±3 µm Rectangular dof=inf",
        "rectangular 3 µm",
    ):
        assert expand(written)["u"] == pytest.approx(3**0.5), written
    assert expand("ring: ± 3 µm k=2")["u"] == pytest.approx(1.5)
    assert expand("3 µm k=2 normal")["u"] == pytest.approx(1.5)
    assert expand("3 µm sensitivity=-2")["u"] == pytest.approx(6.0)
    assert expand("3; 4")["u"] == 5.0
    assert expand("3\n4")["u"] == 5.0


def test_units_of_one_kind_come_out_in_the_first() -> None:
    found = expand("0.003 mm; 4 µm")
    assert found["u"] == pytest.approx(0.005)
    assert [one.unit for one in found.results] == ["mm", "1", "1", "mm", None]
    assert shown(found, "u") == "0.005 mm (0.00020 in)"
    assert shown(expand("4 µm; 0.003 mm"), "u") == "5.00 µm = 0.005 mm (0.00020 in)"
    assert shown(expand("3; 4"), "expanded") == "10.0"
    assert shown(expand("3; 4"), "dof_effective") == "without end: no component has few"


def test_a_cause_of_another_kind_has_a_sensitivity_with_units() -> None:
    # HAND: ± 1 K · 1.8 µm/K / √3 = 1.039 µm; 1.8 °F are 1 K
    for written in ("1 K rectangular sensitivity=1.8 µm/K", "1.8 °F rectangular sensitivity=0.0018 mm/K"):
        assert expand(f"0 µm; {written}")["u"] == pytest.approx(1.8 / 3**0.5), written
    assert expand("1 K rectangular sensitivity=1.8 µm/K")["u"] == pytest.approx(1.8 / 3**0.5)
    assert expand("0.2 °C; 0.1 K")["u"] == pytest.approx(0.05**0.5)


def test_what_is_shared_by_tag_or_by_correlation() -> None:
    assert expand("bore: 3 µm tag=zero; piston: 3 µm sensitivity=-1 tag=zero")["u"] == 0.0
    assert expand("bore: 3 µm; piston: 4 µm sensitivity=-1", correlation="bore, piston = 0.5")[
        "u"
    ] == pytest.approx(13**0.5)
    assert expand("3; 4", correlation="1 & 2 = -0.5")["u"] == pytest.approx(13**0.5)
    assert expand("3; scale: 4; 1", correlation="1, Scale = 0.5; 1, 3 = 0")["u"] == pytest.approx(38**0.5)


def test_coverage_by_a_factor_or_by_a_probability() -> None:
    assert (expand("1")["k"], expand("1", coverage="3")["k"]) == (2.0, 3.0)
    for written in ("95 %", "95%", "0.95", "95 percent"):
        assert expand("1", coverage=written)["k"] == pytest.approx(1.960, abs=5e-4)  # MEMORY: normal tables
    few = expand("1 dof=4", coverage="95 %")
    assert few["dof_effective"] == 4.0
    assert few["k"] == pytest.approx(2.78, abs=5e-3)  # JCGM 100:2008, table G.2


def test_what_is_said_beside_it() -> None:
    assert expand("1 dof=4").flags == (
        "With so few degrees of freedom ± 2 u covers 88 %, not 95 %. Write coverage=95 % for a factor that does.",
    )  # JCGM 100:2008, table G.2: t = 2.13 for 90 %, so 2 is a little less
    assert expand("1 dof=40").flags == ()
    assert expand("1 dof=40; 1", correlation="1, 2 = 0.1").flags == (
        "Correlated components count as one cause, with the fewest degrees of freedom among them.",
    )
    assert expand("scale: 4; 3")["largest"] == "scale (64 % of u²)"
    assert expand("0")["largest"] == "none"


@pytest.mark.parametrize(
    ("written", "trouble"),
    [
        ("3,2 µm", "`,` does not part anything here, and a decimal takes a point"),
        ("3 µm, rectangular", "`,` does not part anything here, and a decimal takes a point"),
        ("3 µm df=2", "`df=` is not known here, only dof, sensitivity, k, tag"),
        ("3 µm dof=2 dof=3", "something is said twice in it"),
        ("3 normal triangular", "it names two distributions"),
        ("± 3 µm normal", "± of a normal distribution says nothing without its k"),
        ("3 µm rectangular k=2", "k belongs to a normal distribution alone"),
        ("3 furlongs", "`furlongs` is no known unit"),
        ("3 µm sensitivity=2 µm", "sensitivity `2 µm` is neither a plain number nor one unit per another"),
        ("3 µm dof=2 µm", "dof is a plain number, not `2 µm`"),
        ("nan", "its figure cannot be read (`nan` is not a finite number. Write the number that was read)"),
    ],
)
def test_a_component_that_cannot_be_read(written: str, trouble: str) -> None:
    with pytest.raises(InputError) as refused:
        expand(written)
    assert str(refused.value) == f"Component `{written}`: {trouble}. {LIKE}"


@pytest.mark.parametrize(
    ("inputs", "message"),
    [
        ({"components": "3 µm; 2 K"},
         "Component `2 K` does not come out as length, as the first one does. Write the same kind of unit, or a "
         "sensitivity with its units, like `1 K rectangular sensitivity=1.8 µm/K`."),
        ({"components": "3 µm; 2"},
         "Component `2` does not come out as length, as the first one does. Write the same kind of unit, or a "
         "sensitivity with its units, like `1 K rectangular sensitivity=1.8 µm/K`."),
        ({"components": "3; 2 µm"},
         "Component `2 µm` does not come out as a bare number, as the first one does. Write the same kind of unit, or "
         "a sensitivity with its units, like `1 K rectangular sensitivity=1.8 µm/K`."),
        ({"components": "2 K sensitivity=1 µm/N"},
         "Component `2 K sensitivity=1 µm/N` does not come out as temperature difference, as the first one does. Write "
         "the same kind of unit, or a sensitivity with its units, like `1 K rectangular sensitivity=1.8 µm/K`."),
        ({"components": " ; "},
         "No component is given, so there is nothing to add up. "
         "Write at least one, like `scale: 3 µm rectangular; repeats: 1.2 µm dof=9`."),
        ({"components": "3; 4", "correlation": "1; 2"},
         "`1` is no correlation that can be read. Write two names or numbers of components and the figure, like "
         "`1, 2 = 0.5; 1, 3 = -0.2`."),
        ({"components": "3; 4", "correlation": "1, 2 = 0.5.1"},
         "`1, 2 = 0.5.1` is no correlation that can be read. Write two names or numbers of components and the figure, "
         "like `1, 2 = 0.5; 1, 3 = -0.2`."),
        ({"components": "3; 4", "correlation": "1, scale = 0.5"},
         "Correlation: there is no component `scale`. Write a name or a number of: 1, 2."),
        ({"components": "3; 4", "correlation": "1, 1 = 0.5"},
         "Component `1` stands twice where two different ones are meant. Give each its own name."),
        ({"components": "3; 4", "correlation": "1, 2 = 0.5; 2, 1 = 0.5"},
         "The correlation of 2 and 1 is given twice; a common tag counts as 1. Give it once."),
        ({"components": "3", "coverage": "95"},
         "coverage: `95` is neither a factor nor a probability. Write a factor from 1 to 10, like `2`, or a "
         "probability, like `95 %` or `0.95`."),
        ({"components": "3", "coverage": "2 mm"},
         "coverage: `2 mm` is neither a factor nor a probability. Write a factor from 1 to 10, like `2`, or a "
         "probability, like `95 %` or `0.95`."),
    ],
)  # fmt: skip
def test_an_expanded_uncertainty_that_cannot_be(inputs: dict[str, str], message: str) -> None:
    with pytest.raises(InputError) as refused:
        run(EXPANDED, inputs)
    assert str(refused.value) == message


def test_a_size_with_all_that_is_known() -> None:
    # HAND: αp 0.5e-6 · 85.98 · 10 K = 0.43 µm; αg at 20 °C nothing; 0.5 K · 1.849 and 0.5 K · 0.989; /√3; and 3 µm
    found = run(
        SIZE,
        {
            "length": "86 mm", "part_temperature": "30 °C", "material": "aluminum 356", "gauge_temperature": "68 °F",
            "part_temperature_error": "0.5", "gauge_temperature_error": "0.5 K", "u_length": "3 µm",
        },
    )  # fmt: skip
    assert found["length_mm"] == pytest.approx(86 / 1.000215)
    by_hand = ((0.43**2 + 0.9245**2 + 0.4945**2) / 3 + 3**2) ** 0.5
    assert found["u_mm"] == pytest.approx(by_hand / 1000, rel=1e-3)
    assert len(found.flags) == 2, "the material of the part and of the gauge"


def test_a_size_says_what_it_takes_for_granted() -> None:
    found = run(SIZE, {"length": "86", "part_temperature": "86 °F", "expansion": "21.5 µm/(m·K)"})
    assert found["correction_mm"] == pytest.approx(-0.0086, abs=5e-6)
    assert found.flags == (
        "Expansion of the part taken as good to ± 1 µm/(m·K) (0.56 µin/(in·°F)), as of gauge blocks "
        "(ISO 3650:1998, steel gauge blocks, 11.5 ± 1 (memory)).",
        "Gauge taken as steel: gauge steel, 11.5 µm/(m·K) (6.4 µin/(in·°F)) ± 1 µm/(m·K) (0.56 µin/(in·°F)), "
        "ISO 3650:1998, steel gauge blocks, 11.5 ± 1 (memory).",
        "Temperatures taken as good to ± 1 K (1.8 °F): Thermometers of a garage, dial or digital, touching the part, "
        "± 1 °C (common practice).",
        "The gauge is taken to be as warm as the part: leave both together until they are.",
        "The reading itself counts as exact: give u_length to add its uncertainty.",
    )


@pytest.mark.parametrize(
    ("inputs", "message"),
    [
        ({}, "metrology.size-at-20 needs expansion or material, which is not given. Add it, like material='aluminum 356'."),
        ({"material": "brass", "expansion": "2e-5"},
         "expansion and material are both given, and each decides alone. Give one of them."),
        ({"material": "gray irn"},
         "`gray irn` is no material on file. Did you mean `gray iron`? There are: gray iron, aluminum 356, mild steel, "
         "gauge steel, ductile iron, medium carbon steel, chromium molybdenum steel, stainless 304, aluminum 6061, "
         "piston aluminum, magnesium az31, titanium 6al4v, brass, iron or steel; or give the figure."),
        ({"material": "brass", "gauge_temperature_error": "1 K"},
         "gauge_temperature_error needs gauge_temperature, which is not given. Add it, like gauge_temperature='20 °C'."),
        ({"expansion": "21.5"},
         "Expansion of the part 21.5 1/K cannot be: metals and plastics lie from 0 to 0.0003 1/K (order of size, by "
         "hand). Write it with its unit, like `21.5 µm/(m·K)`, or as 21.5e-6."),
    ],
)  # fmt: skip
def test_a_size_that_cannot_be(inputs: dict[str, str], message: str) -> None:
    with pytest.raises(InputError) as refused:
        run(SIZE, {"length": "86", "part_temperature": "30", **inputs})
    assert str(refused.value) == message


def test_repeats_needed() -> None:
    assert (
        run(REPEATS, {"half_width_over_s": "0.5", "coverage": "95 %"})["repeats"] == 18.0
    )  # HAND: t(17)/√18 = 0.497
    with pytest.raises(InputError) as refused:
        run(REPEATS, {"half_width_over_s": "0.5", "coverage": "95"})
    assert str(refused.value) == (
        "Probability 95 cannot be used: it lies above 0 and below 1 (JCGM 100:2008, annex G). 0.95 is usual."
    )


def test_conformity_with_few_degrees_of_freedom_and_by_the_simple_rule() -> None:
    reading = {"value": "0.0709", "u": "0.01", "upper": "0.1"}
    assert run("metrology.conformity", reading)["verdict"] == "inside"
    assert run("metrology.conformity", {**reading, "dof": "2"})["verdict"] == "in doubt"  # HAND: 2.92 u
    simple = run("metrology.conformity", {**reading, "dof": "2", "rule": "simple"})
    assert simple["verdict"] == "inside"
    assert simple.flags == ("Simple rule: the reading alone decides, and its uncertainty does not count.",)
