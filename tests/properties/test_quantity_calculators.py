"""Whatever is given to a calculator: an answer, or a refusal that a person can read."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc.calculator import calculator, names, run
from gudgeon.calc.engine.cut import after_cut, cut_for_ratio, squish
from gudgeon.calc.engine.cylinder import piston_position
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload
from gudgeon.calc.joint.thread import metric_thread, read_thread
from gudgeon.calc.joint.wrench import mark_in_range, scale_setting
from gudgeon.calc.metrology.verdict import judge, judge_interval, probability_inside
from gudgeon.errors import InputError

FIGURE = st.one_of(
    st.floats(-1e4, 1e4).map(lambda value: f"{value:.6g}"),
    st.sampled_from(
        ["86 mm", "3.386 in", "40 N·m", "29.5 lbf·ft", "90°", "9.5", "8.8", "M10", "nan", "-1 mm"]
    ),
    st.sampled_from(["0", "", "-1 mm", "1e12", "1e300", "1e-12", "mm", "simple", "elastic", "1/2-13 UNC"]),
    st.text(max_size=12),
)


@given(st.sampled_from(names()), st.data())
def test_an_answer_or_a_refusal(name: str, data: st.DataObject) -> None:
    known = [parameter.name for parameter in calculator(name).parameters]
    inputs = data.draw(st.dictionaries(st.sampled_from(known), FIGURE, max_size=len(known)))
    try:
        answer = run(name, inputs)
    except InputError as error:
        refusal = str(error)
    else:
        for result in answer.results:
            assert not isinstance(result.value, float) or math.isfinite(result.value)
            assert result.shown
        return
    assert refusal
    assert refusal.count("\n") <= 1


@given(st.text(max_size=15))
def test_any_text_is_a_thread_or_a_refusal(text: str) -> None:
    try:
        found = read_thread(text)
    except InputError:
        return
    assert 0 < found.root_diameter_mm < found.pitch_diameter_mm < found.nominal_mm


@given(st.floats(4.0, 20.0), st.floats(0.03, 0.2))
def test_a_finer_pitch_carries_more(nominal: float, share: float) -> None:
    fine, coarse = (metric_thread(nominal, pitch_mm=nominal * part) for part in (share * 0.9, share))
    assert fine.root_area_mm2 > coarse.root_area_mm2
    assert fine.root_area_mm2 < fine.stress_area_mm2 < math.pi / 4 * nominal**2


@given(st.floats(0.05, 0.30), st.floats(1.01, 1.5), st.floats(0.3, 0.99))
def test_more_friction_takes_preload_and_adds_torque(mu: float, more: float, share: float) -> None:
    def found(friction: float) -> tuple[float, float]:
        bolt = BoltJoint(read_thread("M10"), 640.0, friction, friction, 12.8, utilisation=share)
        answer = assembly_preload(bolt)
        return answer.preload_n, answer.torque_nm / answer.preload_n

    (preload, lever), (less, longer) = found(mu), found(min(mu * more, 0.45))
    assert less < preload
    assert longer > lever


CUT = st.floats(0.0, 2.0)


@given(CUT, CUT, st.floats(30.0, 80.0), st.floats(2000.0, 6000.0))
def test_two_cuts_are_one_of_their_sum(first: float, second: float, clearance: float, area: float) -> None:
    once = after_cut(first + second, swept_cm3=500.0, clearance_cm3=clearance, mouth_area_mm2=area)
    half = after_cut(first, swept_cm3=500.0, clearance_cm3=clearance, mouth_area_mm2=area)
    twice = after_cut(second, swept_cm3=500.0, clearance_cm3=half.clearance_volume_cm3, mouth_area_mm2=area)
    assert twice.new_ratio == pytest.approx(once.new_ratio, rel=1e-12)
    assert once.new_ratio >= once.old_ratio
    back = cut_for_ratio(once.new_ratio, swept_cm3=500.0, clearance_cm3=clearance, mouth_area_mm2=area)
    assert back == pytest.approx(first + second, abs=1e-9)


@given(st.floats(0.0, 3.0), st.floats(-1.0, 2.0), st.floats(0.0, 2.0), CUT, CUT)
def test_a_deeper_cut_never_opens_the_gap(
    gasket: float, below: float, recess: float, a: float, b: float
) -> None:
    gaps = [
        squish(gasket, piston_below_deck_mm=below, pad_recess_mm=recess, cut_mm=cut) for cut in sorted((a, b))
    ]
    assert gaps[1].after_mm <= gaps[0].after_mm + 1e-12
    for gap in gaps:
        assert gap.least_mm - 1e-12 <= gap.after_mm <= gap.most_mm + 1e-12


@given(st.floats(0.0, 360.0), st.floats(60.0, 200.0), st.floats(-3.0, 3.0))
def test_the_piston_stays_inside_its_stroke_and_the_mirror_image_moves_alike(
    angle: float, rod: float, offset: float
) -> None:
    found = piston_position(86.0, rod_length_mm=rod, crank_angle_deg=angle, pin_offset_mm=offset)
    mirrored = piston_position(86.0, rod_length_mm=rod, crank_angle_deg=-angle, pin_offset_mm=-offset)
    assert -1e-9 <= found.drop_mm <= found.stroke_mm + 1e-9
    assert mirrored.drop_mm == pytest.approx(found.drop_mm, abs=1e-9)
    assert mirrored.speed_ratio == pytest.approx(-found.speed_ratio, abs=1e-9)


@given(st.floats(5.0, 300.0), st.sampled_from([0.1, 0.5, 1.0, 2.0, 5.0]))
def test_no_mark_is_nearer_than_the_one_found(target: float, step: float) -> None:
    found = scale_setting(target, step=step)
    assert abs(found.error) <= step / 2 + 1e-8
    assert found.setting / step == pytest.approx(round(found.setting / step), abs=1e-6)


@given(st.floats(10.0, 200.0), st.floats(1.0, 1.6), st.sampled_from([0.5, 1.0, 2.0, 5.0]))
def test_a_mark_in_a_range_stays_inside_it_with_its_deviation(low: float, factor: float, step: float) -> None:
    found = mark_in_range(low, high=low * factor, step=step, relative=0.04)
    if found is not None:
        assert found.setting * 0.96 >= low - 1e-6
        assert found.setting * 1.04 <= low * factor + 1e-6


READING, SPREAD = st.floats(-3.0, 3.0), st.floats(1e-3, 2.0)


@given(READING, SPREAD, st.floats(0.01, 0.4))
def test_a_mirrored_reading_is_judged_alike(value: float, u: float, risk: float) -> None:
    above, below = judge(value, u=u, upper=1.0, risk=risk), judge(-value, u=u, lower=-1.0, risk=risk)
    assert above.verdict == below.verdict
    assert above.probability_inside == pytest.approx(below.probability_inside, abs=1e-15)
    assert above.guard_band == below.guard_band


@given(READING, SPREAD)
def test_inside_is_what_lies_beyond_the_guard_band(value: float, u: float) -> None:
    found = judge(value, u=u, lower=-1.0, upper=1.0)
    band = found.guard_band
    deep = band is not None and -1.0 + band <= value <= 1.0 - band
    edge = band is not None and abs(abs(value) - (1.0 - band)) < 1e-9
    assert edge or (found.verdict == "inside") == deep
    assert 0.0 <= found.probability_inside <= 1.0


@given(READING, READING, SPREAD)
def test_an_interval_proves_no_more_than_the_readings_in_it(first: float, second: float, u: float) -> None:
    low, high = sorted((first, second))
    whole = judge_interval(low, high=high, u=u, lower=-1.0, upper=1.0)
    middle = judge((low + high) / 2, u=u, lower=-1.0, upper=1.0)
    if whole.verdict == "inside":
        assert middle.verdict == "inside"
    if whole.verdict == "outside":
        assert middle.verdict == "outside"
    point = judge_interval(low, high=low, u=u, lower=-1.0, upper=1.0)
    assert point.verdict == judge(low, u=u, lower=-1.0, upper=1.0).verdict


@given(READING, SPREAD, st.floats(0.0, 2.0))
def test_wider_limits_never_lower_the_probability(value: float, u: float, more: float) -> None:
    narrow = probability_inside(value, u=u, lower=-1.0, upper=1.0)
    assert probability_inside(value, u=u, lower=-1.0 - more, upper=1.0 + more) >= narrow - 1e-15
