"""Whatever is done to whatever joint: the equations hold, and the fast and the plain simulation say the same."""

import itertools
from dataclasses import dataclass, fields
from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.joint.program import Act, BoltSpec, Draws, JointModel, Kind, Tightened, certain, tighten
from gudgeon.calc.joint.program_loop import Trial, tighten_one
from gudgeon.calc.joint.thread import read_thread
from gudgeon.calc.joint.turn import yield_preload

BOLT = st.builds(
    BoltSpec,
    st.sampled_from(["M8", "M10", "M10x1.25", "3/8-24 UNF"]).map(read_thread),
    yield_mpa=st.sampled_from([640.0, 940.0]),
    bearing_diameter_mm=st.just(13.0),
    compliance_mm_per_n=st.floats(3e-6, 1e-5),
    hardening_n_per_mm=st.sampled_from([0.0, 300.0, 6000.0]),
)
AMOUNTS: dict[Kind, tuple[float, float]] = {
    "snug": (0.0, 8000.0),
    "torque": (5.0, 90.0),
    "turn": (0.0, 120.0),
    "loosen": (0.0, 200.0),
    "verify": (5.0, 60.0),
    "creep": (0.0, 0.03),
}
OFTEN: tuple[Kind, ...] = ("torque", "turn", *AMOUNTS)


@dataclass(frozen=True)
class Case:
    """A joint, what is done to it, and what differs from trial to trial."""

    model: JointModel
    acts: list[Act]
    draws: Draws

    def run(self) -> Tightened:
        return tighten(self.model, acts=self.acts, draws=self.draws)

    def trial(self, place: int) -> Trial:
        return Trial(*(getattr(self.draws, one.name)[place].tolist() for one in fields(Trial)))


@st.composite
def acts(draw: st.DrawFn, bolts: int, count: int) -> list[Act]:
    found = []
    for stage in range(count):
        kind = draw(st.sampled_from(OFTEN))
        amount = draw(st.floats(*AMOUNTS[kind]))
        if kind == "loosen" and draw(st.booleans()):
            amount = inf
        found.append(Act(stage, draw(st.integers(0, bolts - 1)), kind, amount))
    return found


@st.composite
def cases(draw: st.DrawFn, *, apart: bool = False) -> Case:
    """Bolts that press and lift each other through parts up to three times as soft as they are."""
    bolts, trials = draw(st.integers(1, 5)), draw(st.integers(1, 6))
    random = np.random.default_rng(draw(st.integers(0, 10**6)))
    root = random.normal(size=(bolts, bolts)) + draw(st.sampled_from([0.0, 1.0]))
    parts = root @ root.T * draw(st.floats(1e-7, 1e-5)) / bolts
    if apart:
        parts = np.diag(np.diag(parts))
    done = draw(acts(bolts, draw(st.integers(1, 12))))
    size, each = (trials, bolts), (trials, len(done))
    return Case(
        JointModel(tuple(draw(BOLT) for _ in range(bolts)), (parts + parts.T) / 2),
        done,
        Draws(
            mu_thread=random.uniform(0.06, 0.2, size),
            mu_head=random.uniform(0.06, 0.2, size),
            breakaway=random.uniform(1.0, 1.3, size),
            torque_factor=random.uniform(0.9, 1.1, each),
            angle_error_deg=random.normal(0.0, 5.0, each),
        ),
    )


def first_yield(case: Case) -> np.ndarray:
    bolts = enumerate(case.model.bolts)
    columns = [[yield_preload(bolt, mu_thread=mu) for mu in case.draws.mu_thread[:, i]] for i, bolt in bolts]
    return np.array(columns).T[:, None, :]


@settings(deadline=None, max_examples=120)
@given(cases())
def test_the_plain_loop_says_the_same(case: Case) -> None:
    fast = case.run()
    for k in range(len(case.draws.mu_thread)):
        slow = tighten_one(case.model, acts=case.acts, trial=case.trial(k))
        assert fast.moved[k].tolist() == slow.moved
        assert fast.preload_n[k] == pytest.approx(np.array(slow.preload_n), rel=1e-9, abs=1e-5)
        assert fast.permanent_stretch_mm[k] == pytest.approx(
            np.array(slow.permanent_stretch_mm), rel=1e-9, abs=1e-10
        )
        assert fast.travel_mm[k] == pytest.approx(np.array(slow.travel_mm), rel=1e-9, abs=1e-10)


@settings(deadline=None, max_examples=120)
@given(cases())
def test_the_equations_hold_after_every_act(case: Case) -> None:
    """For a bolt under load x = dS F + p + creep + Σ C F; no bolt beyond its yield line; stretch never goes back."""
    found = case.run()
    force, stretch = found.preload_n, found.permanent_stretch_mm
    crept = np.zeros_like(force)
    for place, act in enumerate(case.acts):
        if act.kind == "creep":
            crept[:, place:, act.bolt] += (act.amount * case.draws.torque_factor[:, place])[:, None]
    give = np.array([bolt.compliance_mm_per_n for bolt in case.model.bolts])
    hardening = np.array([bolt.hardening_n_per_mm for bolt in case.model.bolts])
    rest = found.travel_mm - give * force - stretch - crept - force @ case.model.parts_mm_per_n
    assert (force >= 0).all()
    assert np.abs(rest[force > 0]).max(initial=0.0) < 1e-10
    assert (rest[(force == 0) & (found.travel_mm != 0)] < 1e-10).all()
    assert (force <= first_yield(case) + hardening * stretch + 1e-5).all()
    assert (np.diff(stretch, axis=1, prepend=0.0) >= 0).all()
    assert found.yield_share == pytest.approx(force / first_yield(case), rel=1e-9)


@settings(deadline=None, max_examples=60)
@given(cases())
def test_only_a_bolt_on_its_yield_line_stretches(case: Case) -> None:
    found = case.run()
    hardening = np.array([bolt.hardening_n_per_mm for bolt in case.model.bolts])
    grew = np.diff(found.permanent_stretch_mm, axis=1, prepend=0.0) > 1e-9
    line = first_yield(case) + hardening * found.permanent_stretch_mm
    assert found.preload_n[grew] == pytest.approx(line[grew], rel=1e-6)


@settings(deadline=None, max_examples=60)
@given(cases(), st.floats(5.0, 80.0), st.floats(1.0, 2.0))
def test_more_torque_never_makes_less_clamp(case: Case, torque: float, more: float) -> None:
    last = len(case.acts)
    row = np.ones((len(case.draws.mu_thread), 1))
    draws = Draws(
        case.draws.mu_thread,
        case.draws.mu_head,
        case.draws.breakaway,
        torque_factor=np.hstack([case.draws.torque_factor, row]),
        angle_error_deg=np.hstack([case.draws.angle_error_deg, 0 * row]),
    )
    some, greater = (
        tighten(case.model, acts=[*case.acts, Act(last, 0, "torque", amount)], draws=draws).preload_n[
            :, -1, 0
        ]
        for amount in (torque, torque * more)
    )
    assert (greater >= some - 1e-6).all()


@settings(deadline=None, max_examples=60)
@given(cases(), st.permutations(range(5)))
def test_loosened_fully_nothing_is_left_whatever_the_order(case: Case, order: list[int]) -> None:
    count, last = len(case.model.bolts), len(case.acts)
    done = [*case.acts, *(Act(last, bolt, "loosen", inf) for bolt in order if bolt < count)]
    draws = certain(case.model, acts=done, mu_thread=0.12, mu_head=0.12)
    assert (tighten(case.model, acts=done, draws=draws).preload_n[:, -1] == 0).all()


@settings(deadline=None, max_examples=60)
@given(cases(apart=True))
def test_bolts_that_share_nothing_do_not_mind_the_order(case: Case) -> None:
    """Each bolt sees the same acts with the same draws; only who is first changes."""
    place = list(range(len(case.acts)))
    mixed = sorted(place, key=lambda at: (case.acts[at].bolt, at))
    once = [Act(1, act.bolt, act.kind, act.amount) for act in case.acts]
    draws = Draws(
        case.draws.mu_thread,
        case.draws.mu_head,
        case.draws.breakaway,
        torque_factor=case.draws.torque_factor[:, mixed],
        angle_error_deg=case.draws.angle_error_deg[:, mixed],
    )
    first = tighten(case.model, acts=once, draws=case.draws)
    second = tighten(case.model, acts=[once[at] for at in mixed], draws=draws)
    assert second.preload_n == pytest.approx(first.preload_n, rel=1e-9, abs=1e-6)
    assert second.permanent_stretch_mm == pytest.approx(first.permanent_stretch_mm, rel=1e-9, abs=1e-12)


def test_bolts_of_one_spring_are_alike_in_every_order() -> None:
    """Four bolts on one spring, all pulled to one torque: the places in the order decide, not the bolts."""
    bolt = BoltSpec(read_thread("M10"), 940.0, 13.0, 6e-6)
    model = JointModel((bolt,) * 4, np.full((4, 4), 2e-6))
    for order in itertools.permutations(range(4)):
        done = [Act(1, one, "torque", 40.0) for one in order]
        found = tighten(model, acts=done, draws=certain(model, acts=done, mu_thread=0.12, mu_head=0.12))
        assert found.preload_n[0, 0, list(order)] == pytest.approx(sorted(found.preload_n[0, 0]), rel=1e-12)
