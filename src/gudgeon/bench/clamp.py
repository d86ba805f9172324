"""What limits the clamp? A joint tightened at random, many times over, as its program and his wrenches do it."""

import math
from dataclasses import dataclass, replace

import numpy as np

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.clamp_acts import AS_WRITTEN, Doings, WhatIf, doings, offered, read_what_if, words
from gudgeon.bench.clamp_model import Mechanics, Missing, Notes, mechanics
from gudgeon.bench.clamp_words import compared, sentence, shares_words, stage_name
from gudgeon.bench.context import Bench
from gudgeon.bench.progress import progress
from gudgeon.calc.joint.program import Tightened, tighten
from gudgeon.calc.joint.scatter import (
    CAUSES,
    Cause,
    Chances,
    Floats,
    Scatter,
    chances,
    draws,
    variance_shares,
)
from gudgeon.quantity.format import both_ends, number
from gudgeon.quantity.units import convert
from gudgeon.sheet.joints import Joint
from gudgeon.sources.tightening import usual

TRIALS, SEED = 10_000, 1
SHARED_OUT = 1500  # trials that tell which cause makes how much: to about 2 in 100
CAUTION = (
    "This is no design check of the joint. It says how far the clamp scatters when the program is done as written; "
    "the maker's program always rules. What the model does not know comes on top: embedding, bending, parts that yield."
)


@dataclass(frozen=True, slots=True)
class BoltClamp:
    """One bolt after one stage: median and ends of the band that holds 90 of 100 tightenings."""

    bolt: str
    where: str
    clamp_n: float
    low_n: float
    high_n: float
    clamp: str
    band: str
    of_yield: str
    yields: float | None
    stretch: str
    stretch_mm: float | None


@dataclass(frozen=True, slots=True)
class StageClamp:
    """All bolts after one stage.

    `band_share` is half the width of a bolt's band against its median; `every_bolt` is what every bolt has in 95 of
    100 tightenings; `still` is the part of the pulls of this stage whose wrench clicked at once and moved nothing.
    """

    stage: int
    words: str
    clamp: str
    band: str
    band_share: float
    every_bolt: str
    still: float
    causes: dict[Cause, float]
    bolts: tuple[BoltClamp, ...]


@dataclass(frozen=True, slots=True)
class WhatIfLine:
    """The last stage, with one thing done otherwise, on the same chances."""

    asked: str
    words: str
    clamp: str
    band: str
    band_share: float
    of_yield: str
    compared: str
    said: str


@dataclass(frozen=True, slots=True)
class Clamp:
    """The answer to “What limits the clamp?”; without stages where nothing can be said."""

    heading: Heading
    joint: str
    name: str
    called: str
    said: str
    apart: str
    causes: tuple[tuple[str, str], ...]
    stages: tuple[StageClamp, ...]
    what_ifs: tuple[WhatIfLine, ...]
    offered: tuple[tuple[str, str], ...]
    missing: tuple[Missing, ...]
    taken: tuple[str, ...]
    trials: int
    seed: int
    caution: str
    source: str


@dataclass(frozen=True, slots=True)
class _Case:
    """A joint with one way of doing it, ready to be run."""

    mechanics: Mechanics
    doings: Doings
    scatter: Scatter

    def run(self, drawn: Chances) -> Tightened:
        """Tighten it once for each row of the chances."""
        acts = [one.act for one in self.doings.acts]
        return tighten(self.mechanics.model, acts=acts, draws=draws(drawn, scatter=self.scatter))


def clamp(
    bench: Bench,
    key: str,
    *,
    what_if: tuple[str, ...] = (),
    trials: int = TRIALS,
    seed: int = SEED,
    bolts_are: str = "",
) -> Clamp:
    """Tighten a joint many times at random: the clamp of every bolt, its band, and where the band comes from."""
    bench.unlock()
    joint, notes = joint_of(bench.sheet, key), Notes()
    asked = [(spec, read_what_if(spec, joint=joint, kit=bench.kit)) for spec in what_if]
    are = bolts_are or progress(joint, bench.state.joints.get(key)).bolts_are
    case = _case(bench, joint, notes, bolts_are=are)
    drawn = _drawn(bench, joint, case, trials=trials, seed=seed, bolts_are=are) if case or asked else None
    stages: tuple[StageClamp, ...] = ()
    if case is not None and drawn is not None:
        stages = _stages(joint, case, drawn)
    lines = []
    for spec, one in asked:
        other = _case(bench, joint, own := Notes(), bolts_are=are, what_if=one)
        if other is None or drawn is None:
            said = words(one, joint=joint, kit=bench.kit)
            lines.append(WhatIfLine(spec, said, "", "", 0.0, "", "", _why_not(joint, own)))
        else:
            lines.append(_line(bench, joint, spec, one, other=other, drawn=drawn, stages=stages))
    return Clamp(
        bench.heading("What do I set?"),
        key,
        joint.name,
        joint.called,
        sentence(joint, stages[-1].causes, stages[-1].band_share) if stages else _why_not(joint, notes),
        _apart(joint, case, stages[-1]) if stages and case is not None else "",
        shares_words(stages[-1].causes) if stages else (),
        stages,
        tuple(lines),
        offered(joint, bench.kit),
        tuple(notes.missing),
        tuple(notes.taken),
        trials,
        seed,
        CAUTION,
        str(joint.source) if joint.source is not None else "",
    )


def _why_not(joint: Joint, notes: Notes) -> str:
    lacking = [one.what for one in notes.missing if one.stops]
    if not lacking:
        return f"What clamp the {joint.called}s get cannot be said: nothing is left to do."
    return f"What clamp the {joint.called}s get cannot be said. Not stated: {'; '.join(lacking)}."


def _apart(joint: Joint, case: _Case, last: StageClamp) -> str:
    """How far the bolts lie from each other because they see each other; nothing where that is little."""
    middles = [one.clamp_n for one in last.bolts]
    if not case.mechanics.see_each_other or max(middles) < 1.05 * min(middles):
        return ""
    return (
        f"Besides, the {joint.called}s end at {last.clamp} in the middle: tightening one takes load from its "
        "neighbors, and from those done first the most."
    )


def _case(
    bench: Bench, joint: Joint, notes: Notes, *, bolts_are: str, what_if: WhatIf = AS_WRITTEN
) -> _Case | None:
    built = mechanics(joint, notes, friction=what_if.friction)
    done = doings(
        joint, bench.kit, notes, bolts_are=bolts_are, what_if=what_if, today=bench.now.astimezone().date()
    )
    if built is None or done is None:
        return None
    shared, starting = usual("shared_friction"), usual("breakaway")
    notes.takes(
        f"{100 * shared.value:.0f} % of the variance of the friction is shared by all bolts; source: {shared.source}"
    )
    notes.takes(
        f"a head starts at 1 to {starting.value:g} times the torque that turns it; source: {starting.source}"
    )
    pulls = tuple(one.error for one in done.acts)
    scatter = Scatter(built.mu_thread, built.mu_head, pulls, shared=shared.value, breakaway=starting.value)
    return _Case(built, done, scatter)


def _drawn(
    bench: Bench, joint: Joint, case: _Case | None, *, trials: int, seed: int, bolts_are: str
) -> Chances:
    """Chances for the program as it is written: the what-ifs take theirs from the same ones."""
    if case is not None:
        count = case.doings.chances
    else:
        pulls = sum(
            len(joint.stage_bolts(stage)) * stage.repeat for _, stage in joint.stages(bolts_are=bolts_are)
        )
        count = max(pulls, len(bench.kit.wrenches) + 1)
    return chances(np.random.default_rng(seed), trials=trials, bolts=len(joint.bolt_names), acts=count)


def _causes(case: _Case, drawn: Chances, found: Floats) -> list[dict[Cause, float]]:
    """For each stage the shares of the causes, from trials of the same chances."""
    trials, stages, bolts = found.shape
    rows = min(SHARED_OUT, trials // 2)
    one, other = drawn.rows(slice(0, rows)), drawn.rows(slice(trials - rows, trials))
    still = [cause for cause in CAUSES if _without_effect(case, one, other=other, cause=cause)]

    def run(changed: Chances) -> Floats:
        return case.run(changed).preload_n.reshape(len(changed.shared), stages * bolts)

    shares = variance_shares(
        run, one=one, other=other, found=found.reshape(trials, stages * bolts), without=tuple(still)
    )
    by_stage = shares.shares.reshape(len(CAUSES), stages, bolts)
    variance = shares.variance.reshape(stages, bolts)
    return [replace(shares, shares=by_stage[:, at], variance=variance[at]).of_all() for at in range(stages)]


def _without_effect(case: _Case, one: Chances, *, other: Chances, cause: Cause) -> bool:
    """Whether a cause has no size here: the draws stay as they are."""
    few = slice(0, 2)
    before = draws(one.rows(few), scatter=case.scatter)
    after = draws(one.rows(few).with_cause(cause, other=other.rows(few)), scatter=case.scatter)
    names = ("mu_thread", "mu_head", "breakaway", "torque_factor", "angle_error_deg")
    return all(np.array_equal(getattr(before, name), getattr(after, name)) for name in names)


def _stages(joint: Joint, case: _Case, drawn: Chances) -> tuple[StageClamp, ...]:
    found = case.run(drawn)
    causes = _causes(case, drawn, found.preload_n)
    return tuple(_stage(joint, case, found, at, causes=causes[at]) for at in range(len(found.stages)))


def _stage(joint: Joint, case: _Case, found: Tightened, at: int, *, causes: dict[Cause, float]) -> StageClamp:
    preload, number_of = found.preload_n[:, at], found.stages[at]
    low, middle, high = np.quantile(preload, (0.05, 0.5, 0.95), axis=0)
    under = middle > 1.0
    band = float(np.mean((high - low)[under] / middle[under]) / 2) if under.any() else 0.0
    acts = [one.act for one in case.doings.acts]
    own = [place for place, act in enumerate(acts) if act.stage == number_of and act.kind == "torque"]
    every = float(np.quantile(preload.min(axis=1), 0.05))
    bolts = _bolts(joint, case, found, at, ends=(low, middle, high))
    least, most = float(middle.min()), float(middle.max())
    return StageClamp(
        number_of,
        stage_name(joint, number_of, settles=case.doings.settles),
        _forces(least, most) if under.any() else "none",
        f"± {number(100 * band, decimals=0)} %" if under.any() else "",
        band,
        _force(every) if every > 1 else "",
        float(1 - found.moved[:, own].mean()) if own else 0.0,
        causes,
        bolts,
    )


def _bolts(
    joint: Joint, case: _Case, found: Tightened, at: int, *, ends: tuple[Floats, Floats, Floats]
) -> tuple[BoltClamp, ...]:
    known, made = case.mechanics.yield_known, []
    share = np.quantile(found.yield_share[:, at], (0.05, 0.5, 0.95), axis=0)
    yields = (found.permanent_stretch_mm[:, at] > 0).mean(axis=0)
    stretch = np.quantile(found.permanent_stretch_mm[:, at], (0.05, 0.5, 0.95), axis=0)
    for place, name in enumerate(joint.bolt_names):
        low, middle, high = (float(one[place]) for one in ends)
        turned = float(stretch[2, place]) > 0.0005
        made.append(
            BoltClamp(
                name,
                joint.bolt(name).where or "",
                middle,
                low,
                high,
                _force(middle) if middle > 1 else "none",
                _forces(low, high) if middle > 1 else "",
                _percent(share[:, place]) if known and middle > 1 else "",
                float(yields[place]) if known else None,
                both_ends(
                    float(stretch[0, place]), high=float(stretch[2, place]),
                    kind="length_difference", decimals=2, middle=float(stretch[1, place]),
                ) if turned and known else "",
                float(stretch[1, place]) if known else None,
            )
        )  # fmt: skip
    return tuple(made)


def _percent(ends: Floats) -> str:
    low, middle, high = (number(100 * float(one), decimals=0) for one in ends)
    return f"{middle} %" if low == high else f"{middle} % ({low} to {high})"


def _force(force_n: float) -> str:
    """A force in the digits that are meant, in both systems."""
    return f"{_three(force_n / 1000)} kN ({_three(_lbf(force_n))} lbf)"


def _forces(low: float, high: float) -> str:
    """A range of forces, each end once."""
    metric = dict.fromkeys(_three(one / 1000) for one in (low, high))
    inch = dict.fromkeys(_three(_lbf(one)) for one in (low, high))
    return f"{'–'.join(metric)} kN ({'–'.join(inch)} lbf)"


def _lbf(force_n: float) -> float:
    return convert(force_n, frm="N", to="lbf", kind="force")


def _three(value: float) -> str:
    """Three digits: more are not meant."""
    places = 2 - math.floor(math.log10(max(abs(value), 0.01)))
    return number(round(value, places), decimals=max(places, 0))


def _line(
    bench: Bench,
    joint: Joint,
    spec: str,
    one: WhatIf,
    *,
    other: _Case,
    drawn: Chances,
    stages: tuple[StageClamp, ...],
) -> WhatIfLine:
    found = other.run(drawn)
    last = len(found.stages) - 1
    causes = _causes(other, drawn, found.preload_n)[last]
    made = _stage(joint, other, found, last, causes=causes)
    share = np.quantile(found.yield_share[:, last], (0.05, 0.5, 0.95))
    return WhatIfLine(
        spec,
        words(one, joint=joint, kit=bench.kit),
        made.clamp,
        made.band,
        made.band_share,
        _percent(share) if other.mechanics.yield_known else "",
        compared(_middle(made), band=made.band_share, was=(_middle(stages[-1]), stages[-1].band_share))
        if stages
        else "",
        sentence(joint, causes, made.band_share),
    )


def _middle(stage: StageClamp) -> float:
    return sum(one.clamp_n for one in stage.bolts) / max(len(stage.bolts), 1)
