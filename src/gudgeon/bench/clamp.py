"""What limits the clamp? A joint tightened at random, many times over, as its program and his wrenches do it."""

from dataclasses import dataclass, replace

import numpy as np

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.clamp_acts import AS_WRITTEN, Doings, WhatIf, doings, offered, read_what_if, words
from gudgeon.bench.clamp_asked import SEED, TRIALS, clamp_asked
from gudgeon.bench.clamp_counted import Counted
from gudgeon.bench.clamp_families import Family, each, families
from gudgeon.bench.clamp_model import Mechanics, Missing, Notes, mechanics
from gudgeon.bench.clamp_unseen import unseen
from gudgeon.bench.clamp_words import (
    OF_YIELD,
    compared,
    force,
    forces,
    percent,
    sentence,
    shares_words,
    stage_name,
)
from gudgeon.bench.context import Bench
from gudgeon.book.tell import Tell, silent
from gudgeon.calc.joint.program import Tightened, tighten
from gudgeon.calc.joint.scatter import (
    CAUSES,
    Cause,
    Chances,
    Floats,
    Scatter,
    VarianceShares,
    chances,
    draws,
    variance_shares,
)
from gudgeon.quantity.format import both_ends, number
from gudgeon.sheet.joints import Joint
from gudgeon.sources.tightening import usual

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
    family: str
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
class FamilyClamp:
    """The bolts of one family after one stage; without a name where the joint has one kind of bolts.

    `band_share` is half the width of a bolt's band against its median; `every_bolt` is what every bolt has in 95 of
    100 tightenings; `still` is the part of the pulls of this stage whose wrench clicked at once and moved nothing.
    """

    family: str
    pulled: bool
    """Whether the stage does anything to these bolts."""
    clamp: str
    band: str
    band_share: float
    every_bolt: str
    still: float
    middle_n: float
    causes: dict[Cause, float]


@dataclass(frozen=True, slots=True)
class StageClamp:
    """All bolts after one stage, family by family; `band_share` is the widest, texts name each family."""

    stage: int
    words: str
    clamp: str
    band: str
    band_share: float
    every_bolt: str
    still: float
    causes: dict[Cause, float]
    families: tuple[FamilyClamp, ...]
    bolts: tuple[BoltClamp, ...]


@dataclass(frozen=True, slots=True)
class WhatIfLine:
    """The last stage, with one thing done otherwise, on the same chances: one line for each family.

    `unseen` is what the figures leave out where a stage is; it is said before them.
    """

    asked: str
    words: str
    family: str
    unseen: str
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
    of_yield: str
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

    def run(self, drawn: Chances, counted: Counted) -> Tightened:
        """Tighten it once for each row of the chances."""
        acts, made = [one.act for one in self.doings.acts], draws(drawn, scatter=self.scatter)
        with counted.run(len(drawn.shared)) as told:
            return tighten(self.mechanics.model, acts=acts, draws=made, told=told)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A what-if as it was written, what it means, and the joint done so; without a case where it cannot be said."""

    spec: str
    what: WhatIf
    case: _Case | None
    notes: Notes


def clamp(
    bench: Bench,
    key: str,
    *,
    what_if: tuple[str, ...] = (),
    trials: int = TRIALS,
    seed: int = SEED,
    bolts_are: str = "",
    tell: Tell = silent,
) -> Clamp:
    """Tighten a joint many times at random: the clamp of every bolt, its band, and where the band comes from.

    `tell` is told again and again how many of the tightenings are done; what it raises ends the work.
    """
    said = clamp_asked(bench, key, trials=trials, seed=seed, bolts_are=bolts_are)
    joint, notes, are = joint_of(bench.sheet, key), Notes(), said.bolts_are
    asked = [(spec, read_what_if(spec, joint=joint, kit=bench.kit)) for spec in what_if]
    case = _case(bench, joint, notes, bolts_are=are)
    others = [_Asked(spec, one, *_otherwise(bench, joint, one, bolts_are=are)) for spec, one in asked]
    tell("drawing what chance decides")
    drawn = _drawn(bench, joint, case, trials=trials, seed=seed, bolts_are=are) if case or asked else None
    runs = sum(one is not None for one in (case, *(other.case for other in others)))
    counted = Counted(runs * (trials + len(CAUSES) * _shared_rows(trials)), tell)
    stages: tuple[StageClamp, ...] = ()
    if case is not None and drawn is not None:
        stages = _stages(joint, case, drawn, counted)
    lines: list[WhatIfLine] = []
    for other in others:
        if other.case is None or drawn is None:
            named, left_out = words(other.what, joint=joint, kit=bench.kit), unseen(joint, other.what.skip)
            why = _why_not(joint, other.notes)
            lines.append(WhatIfLine(other.spec, named, "", left_out, "", "", 0.0, "", "", why))
        else:
            lines.extend(
                _lines(bench, joint, other, case=other.case, drawn=drawn, stages=stages, counted=counted)
            )
    return Clamp(
        bench.heading("What do I set?"),
        key,
        joint.name,
        joint.called,
        " ".join(_said(joint, one) for one in stages[-1].families) if stages else _why_not(joint, notes),
        _apart(joint, case, stages[-1]) if stages and case is not None else "",
        OF_YIELD if stages and any(one.of_yield for one in stages[-1].bolts) else "",
        _shared_out(stages[-1]) if stages else (),
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


def _said(joint: Joint, one: FamilyClamp) -> str:
    before = f"{one.family}: " if one.family else ""
    if one.clamp == "none":
        return f"{before}the program leaves these {joint.called}s without clamp."
    return before + sentence(joint, one.causes, one.band_share)


def _shared_out(last: StageClamp) -> tuple[tuple[str, str], ...]:
    """Every cause with its share, family by family."""
    return tuple(
        (f"{one.family}: {name}" if one.family else name, share)
        for one in last.families
        for name, share in shares_words(one.causes)
    )


def _apart(joint: Joint, case: _Case, last: StageClamp) -> str:
    """How far the bolts lie from each other because they see each other; nothing where that is little."""
    said = []
    for family in families(joint) if case.mechanics.see_each_other else ():
        held = [last.bolts[place] for place in family.places if last.bolts[place].clamp_n > 1]
        low, high = (how(held, key=lambda one: one.clamp_n, default=None) for how in (min, max))
        if low is None or high is None or high.clamp_n < 1.05 * low.clamp_n:
            continue
        said.append(
            f"{family.before}half of the tightenings of {joint.called} {low.bolt} end above {low.clamp}, "
            f"half of those of {joint.called} {high.bolt} above {high.clamp}"
        )
    if not said:
        return ""
    return (
        f"Besides, the {joint.called}s do not end alike: {'; '.join(said)}. Tightening one takes load from its "
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


def _otherwise(bench: Bench, joint: Joint, what_if: WhatIf, *, bolts_are: str) -> tuple[_Case | None, Notes]:
    """The joint with one thing done otherwise, with notes of its own."""
    own = Notes()
    return _case(bench, joint, own, bolts_are=bolts_are, what_if=what_if), own


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


def _shared_rows(trials: int) -> int:
    """So many of the trials tell which cause makes how much."""
    return min(SHARED_OUT, trials // 2)


def _causes(case: _Case, drawn: Chances, found: Floats, counted: Counted) -> list[VarianceShares]:
    """For each stage the shares of the causes, from trials of the same chances."""
    trials, stages, bolts = found.shape
    rows = _shared_rows(trials)
    one, other = drawn.rows(slice(0, rows)), drawn.rows(slice(trials - rows, trials))
    still = [cause for cause in CAUSES if _without_effect(case, one, other=other, cause=cause)]

    def run(changed: Chances) -> Floats:
        return case.run(changed, counted).preload_n.reshape(len(changed.shared), stages * bolts)

    counted.left_out(rows * len(still))
    shares = variance_shares(
        run, one=one, other=other, found=found.reshape(trials, stages * bolts), without=tuple(still)
    )
    by_stage = shares.shares.reshape(len(CAUSES), stages, bolts)
    variance = shares.variance.reshape(stages, bolts)
    return [replace(shares, shares=by_stage[:, at], variance=variance[at]) for at in range(stages)]


def _of(causes: VarianceShares, places: tuple[int, ...]) -> dict[Cause, float]:
    """The shares of the causes in the spread of some bolts."""
    at = list(places)
    return replace(causes, shares=causes.shares[:, at], variance=causes.variance[at]).of_all()


def _without_effect(case: _Case, one: Chances, *, other: Chances, cause: Cause) -> bool:
    """Whether a cause has no size here: the draws stay as they are."""
    few = slice(0, 2)
    before = draws(one.rows(few), scatter=case.scatter)
    after = draws(one.rows(few).with_cause(cause, other=other.rows(few)), scatter=case.scatter)
    names = ("mu_thread", "mu_head", "breakaway", "torque_factor", "angle_error_deg")
    return all(np.array_equal(getattr(before, name), getattr(after, name)) for name in names)


def _stages(joint: Joint, case: _Case, drawn: Chances, counted: Counted) -> tuple[StageClamp, ...]:
    found = case.run(drawn, counted)
    causes = _causes(case, drawn, found.preload_n, counted)
    return tuple(_stage(joint, case, found, at, causes=causes[at]) for at in range(len(found.stages)))


def _stage(joint: Joint, case: _Case, found: Tightened, at: int, *, causes: VarianceShares) -> StageClamp:
    ends = np.quantile(found.preload_n[:, at], (0.05, 0.5, 0.95), axis=0)
    rows = tuple(_family(case, found, at, family, ends=ends, causes=causes) for family in families(joint))
    return StageClamp(
        found.stages[at],
        stage_name(joint, found.stages[at], settles=case.doings.settles),
        each({one.family: one.clamp for one in rows}),
        each({one.family: one.band for one in rows}),
        max(one.band_share for one in rows),
        each({one.family: one.every_bolt for one in rows}),
        max(one.still for one in rows),
        causes.of_all(),
        rows,
        _bolts(joint, case, found, at, ends=ends),
    )


def _family(
    case: _Case, found: Tightened, at: int, family: Family, *, ends: Floats, causes: VarianceShares
) -> FamilyClamp:
    places = list(family.places)
    low, middle, high = ends[:, places]
    under = middle > 1.0
    band = float(np.mean((high - low)[under] / middle[under]) / 2) if under.any() else 0.0
    acts = [one.act for one in case.doings.acts]
    own = [
        place
        for place, act in enumerate(acts)
        if act.stage == found.stages[at] and act.kind == "torque" and act.bolt in places
    ]
    every = float(np.quantile(found.preload_n[:, at, places].min(axis=1), 0.05))
    return FamilyClamp(
        family.name,
        any(act.stage == found.stages[at] and act.bolt in places for act in acts),
        forces(float(middle.min()), high=float(middle.max())),
        f"± {number(100 * band, decimals=0)} %" if under.any() else "",
        band,
        force(every) if under.any() else "",
        float(1 - found.moved[:, own].mean()) if own else 0.0,
        float(middle.mean()),
        _of(causes, family.places),
    )


def _bolts(joint: Joint, case: _Case, found: Tightened, at: int, *, ends: Floats) -> tuple[BoltClamp, ...]:
    known, made = case.mechanics.yield_known, []
    share = np.quantile(found.yield_share[:, at], (0.05, 0.5, 0.95), axis=0)
    yields = (found.permanent_stretch_mm[:, at] > 0).mean(axis=0)
    stretch = np.quantile(found.permanent_stretch_mm[:, at], (0.05, 0.5, 0.95), axis=0)
    names = {place: family.name for family in families(joint) for place in family.places}
    for place, name in enumerate(joint.bolt_names):
        low, middle, high = (float(one[place]) for one in ends)
        turned = float(stretch[2, place]) > 0.0005
        made.append(
            BoltClamp(
                name,
                joint.bolt(name).where or "",
                names[place],
                middle,
                low,
                high,
                force(middle),
                forces(low, high=high) if middle > 1 else "",
                percent(share[:, place]) if known and middle > 1 else "",
                float(yields[place]) if known else None,
                both_ends(
                    float(stretch[0, place]), high=float(stretch[2, place]),
                    kind="length_difference", decimals=2, middle=float(stretch[1, place]),
                ) if turned and known else "",
                float(stretch[1, place]) if known else None,
            )
        )  # fmt: skip
    return tuple(made)


def _lines(
    bench: Bench,
    joint: Joint,
    asked: _Asked,
    *,
    case: _Case,
    drawn: Chances,
    stages: tuple[StageClamp, ...],
    counted: Counted,
) -> list[WhatIfLine]:
    found, one = case.run(drawn, counted), asked.what
    last = len(found.stages) - 1
    causes = _causes(case, drawn, found.preload_n, counted)[last]
    made = _stage(joint, case, found, last, causes=causes)
    lines = []
    for at, (family, row) in enumerate(zip(families(joint), made.families, strict=True)):
        share = np.quantile(found.yield_share[:, last][:, list(family.places)], (0.05, 0.5, 0.95))
        was = stages[-1].families[at] if stages else None
        lines.append(
            WhatIfLine(
                asked.spec,
                words(one, joint=joint, kit=bench.kit),
                row.family,
                unseen(joint, one.skip),
                row.clamp,
                row.band,
                row.band_share,
                percent(share) if case.mechanics.yield_known and row.clamp != "none" else "",
                compared(
                    row.middle_n,
                    band=row.band_share,
                    was=(was.middle_n, was.band_share),
                    no_gain=one.skip > 0,
                )
                if was is not None
                else "",
                _said(joint, row),
            )
        )
    return lines
