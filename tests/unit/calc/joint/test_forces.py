"""Torque, clamp, bands and stiffness: what they refuse, flag, and how they agree with themselves."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.calc import errors
from gudgeon.calc.joint.bands import (
    Spreads,
    band_of_factor,
    combined_band,
    least_preload,
    tightening_factor,
)
from gudgeon.calc.joint.clamp import clamp_needed
from gudgeon.calc.joint.preload import BoltJoint, assembly_preload
from gudgeon.calc.joint.stiffness import (
    Layer,
    Segment,
    bolt_compliance,
    fitted_member_compliance,
    member_compliance,
    vdi_member_compliance,
)
from gudgeon.calc.joint.thread import read_thread
from gudgeon.calc.joint.torque import (
    nut_factor_preload,
    nut_factor_torque,
    preload_from_torque,
    torque_from_preload,
)

M10 = read_thread("M10")
THREADS = st.sampled_from(["M6", "M8x1", "M10", "M12x1.25", "M14", "#10-32 UNF", "1/2-13 UNC", "3/4-16 UNF"])
MU = st.floats(0.04, 0.35)


@given(THREADS, MU, MU, st.floats(1.05, 2.5), st.floats(1.0, 500.0))
def test_the_shares_add_up_and_the_way_back_is_the_way_there(
    name: str, mu_thread: float, mu_head: float, bearing: float, torque: float
) -> None:
    thread = read_thread(name)
    wide = bearing * thread.nominal_mm
    found = preload_from_torque(
        torque, thread=thread, mu_thread=mu_thread, mu_head=mu_head, bearing_diameter_mm=wide
    )
    assert found.share_pitch + found.share_thread + found.share_head == pytest.approx(1, abs=1e-15)
    assert min(found.share_pitch, found.share_thread, found.share_head) > 0
    # energy: one turn of the wrench does 2π T; the bolt gets F · P of it
    work = found.preload_n * thread.pitch_mm / (2 * math.pi * torque * 1000)
    assert found.share_pitch == pytest.approx(work)
    back = torque_from_preload(
        found.preload_n, thread=thread, mu_thread=mu_thread, mu_head=mu_head, bearing_diameter_mm=wide
    )
    assert back.torque_nm == pytest.approx(torque)


@given(THREADS, MU, MU, st.floats(0.3, 1.0))
def test_the_torque_of_the_greatest_preload_is_the_same_by_both_kernels(
    name: str, mu_thread: float, mu_head: float, share: float
) -> None:
    thread = read_thread(name)
    bearing = 1.3 * thread.nominal_mm
    whole = assembly_preload(BoltJoint(thread, 640.0, mu_thread, mu_head, bearing, utilisation=share))
    split = torque_from_preload(
        whole.preload_n, thread=thread, mu_thread=mu_thread, mu_head=mu_head, bearing_diameter_mm=bearing
    )
    assert split.torque_nm == pytest.approx(whole.torque_nm)
    assert split.share_head * split.torque_nm == pytest.approx(whole.head_torque_nm)


@given(THREADS, st.floats(0.05, 0.5), st.floats(1.0, 1e5))
def test_a_nut_factor_there_and_back(name: str, factor: float, preload: float) -> None:
    thread = read_thread(name)
    there = nut_factor_torque(preload, thread=thread, nut_factor=factor)
    back = nut_factor_preload(there.torque_nm, thread=thread, nut_factor=factor)
    assert back.preload_n == pytest.approx(preload)
    assert there.share_pitch == pytest.approx(back.share_pitch)


@given(st.floats(0, 0.99))
def test_band_and_factor_are_each_others_inverse(band: float) -> None:
    assert band_of_factor(tightening_factor(band)) == pytest.approx(band, abs=1e-12)


@given(st.floats(0, 0.5), st.floats(0, 0.5), st.floats(0, 0.5), st.floats(0, 1))
def test_a_combined_band_lies_between_the_greatest_and_the_sum(
    friction: float, tool: float, angle: float, share: float
) -> None:
    spreads = Spreads(friction, tool, angle)
    whole = combined_band(spreads)
    assert max(friction, tool, angle) <= whole * (1 + 1e-12) + 1e-12
    assert whole <= friction + tool + angle + 1e-12
    assert combined_band(spreads, snug_share=share) <= whole + 1e-12
    assert combined_band(spreads, snug_share=1.0) == pytest.approx(math.hypot(friction, tool))
    assert combined_band(spreads, snug_share=0.0) == pytest.approx(angle)


def test_what_cannot_be() -> None:
    friction = {"mu_thread": 0.12, "mu_head": 0.12}
    with pytest.raises(errors.NotPositive, match="Torque 0 N·m cannot be"):
        preload_from_torque(0.0, thread=M10, bearing_diameter_mm=12.8, **friction)
    with pytest.raises(errors.NotPositive, match="Preload -1 N cannot be"):
        torque_from_preload(-1.0, thread=M10, bearing_diameter_mm=12.8, **friction)
    with pytest.raises(errors.BearingTooSmall):
        torque_from_preload(1e4, thread=M10, bearing_diameter_mm=9.0, **friction)
    with pytest.raises(errors.FrictionUnusual, match=r"Head friction 1\.2 cannot be"):
        torque_from_preload(1e4, thread=M10, mu_thread=0.1, mu_head=1.2, bearing_diameter_mm=12.8)
    with pytest.raises(errors.FrictionUnusual, match="Nut factor 2 cannot be"):
        nut_factor_torque(1e4, thread=M10, nut_factor=2.0)
    with pytest.raises(errors.BandTooWide, match="±100 %"):
        tightening_factor(1.0)
    with pytest.raises(errors.FactorBelowOne, match=r"Tightening factor 0\.9 cannot be"):
        band_of_factor(0.9)
    with pytest.raises(errors.FactorBelowOne):
        least_preload(1e4, factor=0.5)
    with pytest.raises(errors.ShareOutOfRange, match=r"Share of the snug torque 1\.5"):
        combined_band(Spreads(0.1), snug_share=1.5)
    with pytest.raises(errors.NotPositive, match="Count of bolts 0 cannot be"):
        clamp_needed(86.0, peak_pressure_mpa=7.0, cylinders=4, bolts=0, factor=3.0)


def test_clamp_is_in_step_with_what_it_is_made_of() -> None:
    def needed(bore: float = 86.0, cylinders: int = 4, bolts: int = 10, factor: float = 3.0) -> float:
        found = clamp_needed(bore, peak_pressure_mpa=7.0, cylinders=cylinders, bolts=bolts, factor=factor)
        assert found.clamp_n == pytest.approx(bolts * found.clamp_per_bolt_n)
        return found.clamp_per_bolt_n

    assert needed(bore=172.0) == pytest.approx(4 * needed())
    assert needed(cylinders=8) == pytest.approx(2 * needed())
    assert needed(bolts=20) == pytest.approx(needed() / 2)
    assert needed(factor=6.0) == pytest.approx(2 * needed())


def test_what_no_joint_can_have() -> None:
    steel = [Layer(205e3, 20.0)]
    with pytest.raises(errors.NothingClamped, match="No clamped layer is given"):
        member_compliance([], head_diameter_mm=18.0, hole_mm=12.0)
    with pytest.raises(errors.NothingClamped):
        vdi_member_compliance([], head_diameter_mm=18.0, hole_mm=12.0)
    with pytest.raises(errors.NothingClamped):
        fitted_member_compliance([], nominal_mm=12.0, fit=(0.8, 0.6))
    with pytest.raises(errors.NothingClamped, match="No segment of the bolt is given"):
        bolt_compliance((), thread=M10)
    with pytest.raises(errors.HeadInsideHole):
        member_compliance(steel, head_diameter_mm=12.0, hole_mm=12.0)
    with pytest.raises(errors.OutsideInsideHole, match="Outside diameter 11 mm is not larger"):
        vdi_member_compliance(steel, head_diameter_mm=18.0, hole_mm=12.0, outside_diameter_mm=11.0)
    with pytest.raises(errors.HalfAngleUnusual, match="Half angle 90° cannot be"):
        member_compliance(steel, head_diameter_mm=18.0, hole_mm=12.0, half_angle_deg=90.0)
    with pytest.raises(errors.LayersDiffer, match="holds for one material"):
        fitted_member_compliance([*steel, Layer(71e3, 5.0)], nominal_mm=12.0, fit=(0.8, 0.6))
    with pytest.raises(errors.NotPositive, match="Thickness 0 mm cannot be"):
        member_compliance([Layer(205e3, 0.0)], head_diameter_mm=18.0, hole_mm=12.0)


def test_a_short_engagement_and_an_unknown_width_are_flags() -> None:
    short = bolt_compliance([Segment(30.0)], thread=M10, engagement_mm=6.0)
    assert short.flags == (
        "An engagement of 6 mm is less than 0.8 of the diameter (8 mm): the bolt gives more than this.",
    )
    assert bolt_compliance([Segment(30.0)], thread=M10, engagement_mm=10.0).flags == ()
    wide = vdi_member_compliance([Layer(205e3, 20.0)], head_diameter_mm=18.0, hole_mm=12.0)
    assert wide.flags == ("The width of the parts is not given: they count as wide as the cone.",)


@given(st.floats(1.0, 200.0), st.floats(1.05, 2.0), st.floats(5.0, 20.0), st.floats(1.0, 4.0))
def test_narrower_parts_give_more(grip: float, head: float, hole: float, outside: float) -> None:
    layers = [Layer(100e3, grip)]
    wide = member_compliance(layers, head_diameter_mm=head * hole, hole_mm=hole)
    narrow = member_compliance(
        layers, head_diameter_mm=head * hole, hole_mm=hole, outside_diameter_mm=(outside + 0.01) * hole
    )
    assert narrow.compliance_mm_per_n >= wide.compliance_mm_per_n * (1 - 1e-9)
