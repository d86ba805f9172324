"""Two camshafts that turn opposite ways as their heads come down: the worse one counts for each kind of valve."""

from pathlib import Path

import pytest

from gudgeon.bench.budget import Component
from gudgeon.bench.cut.camshafts import Camshafts, camshafts
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.laws import Laws
from tests.unit.bench.stories import invented


@pytest.mark.parametrize(("which", "rate"), [("intake", -3.0), ("exhaust", 2.0)])
def test_the_camshaft_that_brings_the_valve_nearer_counts(tmp_path: Path, which: str, rate: float) -> None:
    bench = invented(tmp_path).bench()
    bench.unlock()
    inputs = gather(bench)
    valves = next(one for one in inputs.valves if one.which == which)

    def margin(*rates: float) -> Known:
        banks = tuple((f"bank {at}", one) for at, one in enumerate(rates, start=1))
        found = Laws(inputs, Camshafts(camshafts(bench).model, banks)).margin(valves, Known(0.1))
        assert isinstance(found, Known)
        return found

    # A later camshaft (plus) brings the exhaust nearer, an earlier one the intake: of −3 and +2 °/mm the one that does.
    both = margin(-3.0, 2.0)
    assert both.value == pytest.approx(margin(rate).value, abs=1e-12)
    assert both.value < margin(-3.0 if which == "exhaust" else 2.0).value


def test_what_is_uncertain_of_the_cut_counts_with_what_the_camshaft_adds(tmp_path: Path) -> None:
    bench = invented(tmp_path).bench()
    bench.unlock()
    inputs = gather(bench)
    exhaust = next(one for one in inputs.valves if one.which == "exhaust")
    made = Known(0.14, (Component("height of the head", 0.0125, tag="height"),))
    alone = Known(0.14)
    turned = Laws(inputs, Camshafts(None, (("camshaft", 10.0),)))
    sure, unsure = turned.margin(exhaust, alone), turned.margin(exhaust, made)
    assert isinstance(sure, Known)
    assert isinstance(unsure, Known)
    # HAND: d margin / d cut = cos 20° + 10 °/mm · 0.0637 mm/° = 0.9397 + 0.637 = 1.577 (0.0637: nearest_to_piston)
    share = (unsure.u**2 - sure.u**2) ** 0.5 / made.u
    assert share == pytest.approx(1.577, abs=2e-3)
