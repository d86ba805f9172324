"""Size at 20 °C and what is uncertain of it."""

import math
from collections.abc import Callable

import pytest

from gudgeon.calc.metrology.propagation import combine
from gudgeon.calc.metrology.temperature import Expansion, SizeAt20, Temperature, size_at_20
from gudgeon.errors import InputError

ALUMINUM, STEEL = Expansion(21.5e-6, 0.5e-6), Expansion(11.5e-6, 1e-6)


def found(part: float, gauge: float | None = None, *, error: float = 1.0, tag: str = "") -> SizeAt20:
    return size_at_20(
        86.0,
        part=Temperature(part, error),
        gauge=None if gauge is None else Temperature(gauge, error),
        part_expansion=ALUMINUM,
        gauge_expansion=STEEL,
        tag=tag,
    )


def test_a_warm_bore_and_a_cold_gauge() -> None:
    # HAND: 86 over 1.000215 is 85.981514
    assert found(30.0, 20.0).length_mm == pytest.approx(86 / 1.000215, abs=1e-12)
    assert found(30.0, 20.0).correction_mm == pytest.approx(-0.018486, abs=5e-7)
    assert found(30.0, 20.0).first_order_mm == pytest.approx(86 * (1 - 0.000215), abs=1e-12)


def test_a_gauge_as_warm_as_the_part_leaves_the_difference() -> None:
    # HAND: 86 · (11.5 − 21.5) · 1e-6 · 10 = −0.0086
    assert found(30.0).correction_mm == pytest.approx(-0.0086, abs=5e-6)
    assert found(5.0).correction_mm == pytest.approx(+0.0129, abs=5e-6)
    assert found(20.0).correction_mm == 0.0


def test_what_is_uncertain_of_it() -> None:
    # HAND: in µm, /√3: part 1 K · 86 · 21.5e-3 = 1.849; gauge 0.989; αp 0.5e-6 · 86e3 · 10 = 0.43; αg nothing at 20 °C
    parts = {one.name: abs(one.share) * 1000 * math.sqrt(3) for one in found(30.0, 20.0).components}
    assert parts == {
        "part temperature": pytest.approx(1.849, abs=1e-3),
        "gauge temperature": pytest.approx(0.989, abs=1e-3),
        "part expansion": pytest.approx(0.43, abs=1e-3),
        "gauge expansion": 0.0,
    }
    # one temperature for both: only 86 · (21.5 − 11.5) · 1e-3 = 0.86 is left of it
    shared = {one.name: abs(one.share) * 1000 * math.sqrt(3) for one in found(30.0).components}
    assert shared["temperature"] == pytest.approx(0.86, abs=1e-3)
    assert shared["gauge expansion"] == pytest.approx(0.86, abs=1e-3)


def test_the_sensitivities_are_slopes() -> None:
    step = 1e-3
    slope = (found(40.0 + step, 10.0).length_mm - found(40.0 - step, 10.0).length_mm) / (2 * step)
    by_name = {one.name: one.sensitivity for one in found(40.0, 10.0).components}
    assert by_name["part temperature"] == pytest.approx(slope, rel=1e-6)
    together = (found(40.0 + step).length_mm - found(40.0 - step).length_mm) / (2 * step)
    assert {one.name: one.sensitivity for one in found(40.0).components}["temperature"] == pytest.approx(
        together, rel=1e-6
    )


def test_readings_of_one_gauge_share_its_errors() -> None:
    """A difference of two sizes read at one temperature with one gauge: of the tagged errors nothing is left."""
    first, second = (
        found(30.0, 25.0, tag="micrometer").components,
        found(30.0, 25.0, tag="micrometer").components,
    )
    of_gauge = [
        one
        if sign > 0
        else type(one)(f"{one.name} 2", one.value, one.distribution, -one.sensitivity, tag=one.tag)
        for sign, parts in ((1, first), (-1, second))
        for one in parts
        if one.tag
    ]
    assert [one.tag for one in of_gauge[:2]] == [
        "micrometer: gauge temperature",
        "micrometer: gauge expansion",
    ]
    assert combine(of_gauge).u == 0.0


@pytest.mark.parametrize(
    ("cause", "message"),
    [
        (lambda: found(300.0), "Part temperature 300 °C (572 °F) cannot be: a part is measured between -50 and 250 °C "
         "(order of size, by hand). Write the unit with it, like `68 °F`."),
        (lambda: found(20.0, -60.0), "Gauge temperature -60 °C (-76 °F) cannot be: a part is measured between -50 and "
         "250 °C (order of size, by hand). Write the unit with it, like `68 °F`."),
        (lambda: found(20.0, error=-1.0),
         "Error of part temperature -1 K cannot be: it is 0 or more. Check the figure and its sign."),
        (lambda: size_at_20(86.0, part=Temperature(30.0), part_expansion=Expansion(21.5), gauge_expansion=STEEL),
         "Expansion of the part 21.5 1/K cannot be: metals and plastics lie from 0 to 0.0003 1/K (order of size, by "
         "hand). Write it with its unit, like `21.5 µm/(m·K)`, or as 21.5e-6."),
        (lambda: size_at_20(86.0, part=Temperature(30.0), part_expansion=ALUMINUM, gauge_expansion=Expansion(1e-5, 1.0)),
         "Error of the expansion of the gauge 1 1/K cannot be: metals and plastics lie from 0 to 0.0003 1/K (order of "
         "size, by hand). Write it with its unit, like `21.5 µm/(m·K)`, or as 21.5e-6."),
        (lambda: size_at_20(0.0, part=Temperature(30.0), part_expansion=ALUMINUM, gauge_expansion=STEEL),
         "Length 0 mm cannot be: it is above 0. Check the figure and its sign."),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(cause: Callable[[], object], message: str) -> None:
    with pytest.raises(InputError) as refused:
        cause()
    assert str(refused.value) == message
