"""What differs from one tightening to the next, drawn at random, and which cause makes how much of the spread.

Chances are drawn first, without size: normal for friction, even from −1 to 1 for all else. Sizes come after, so
that the same chances serve every what-if.
"""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from gudgeon.calc.errors import not_negative
from gudgeon.calc.joint.program import Draws
from gudgeon.calc.joint.scatter_errors import BandImpossible, ShareImpossible, TooFewTrials

Floats = NDArray[np.float64]
Cause = Literal["shared friction", "own friction", "wrench", "setting", "angle"]
CAUSES: tuple[Cause, ...] = ("shared friction", "own friction", "wrench", "setting", "angle")
HOLDS = 1.959964  # standard deviations to either side that hold 95 of 100 of a normal distribution
MOST_FRICTION = 0.95  # beyond it a draw is cut off: a friction of 1 is no longer a thread that turns
LEAST_TRIALS = 20


@dataclass(frozen=True, slots=True)
class Band:
    """Ends between which 95 of 100 frictions lie [1]; the same figure twice where it does not scatter."""

    low: float
    high: float

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.high < 1:
            raise BandImpossible(self.low, self.high)

    @property
    def middle(self) -> float:
        """The median [1]."""
        return float(np.sqrt(self.low * self.high))

    @property
    def sigma(self) -> float:
        """Standard deviation of the logarithm [1]."""
        return float(np.log(self.high / self.low)) / (2 * HOLDS)


@dataclass(frozen=True, slots=True)
class PullError:
    """How far one act may be off, and which chances it takes.

    `deviation` is that of the wrench, `setting` that of the scale as it is set or read, both as shares of the
    torque; `angle_deg` that of the angle. Each is the half-width of an even spread. Acts that share a wrench, or
    one setting of it, name the same chance. An angle that is read from a mark which was painted before the turn
    `ends_from` the chance of the angle before: what that was off by is made good.
    """

    wrench: int = 0
    deviation: float = 0.0
    set_once: int = 0
    setting: float = 0.0
    angle: int = 0
    angle_deg: float = 0.0
    ends_from: int | None = None


@dataclass(frozen=True, slots=True)
class Scatter:
    """Sizes of all that scatters: frictions by bolt, and errors by act.

    `shared` is the part of the variance of the friction that all bolts of a joint have in common. The torque that
    starts a head is between 1 and `breakaway` times the one that keeps it turning.
    """

    mu_thread: tuple[Band, ...]
    mu_head: tuple[Band, ...]
    pulls: tuple[PullError, ...]
    shared: float
    breakaway: float = 1.0


@dataclass(frozen=True, slots=True)
class Chances:
    """What chance decides, one row for each trial; without size."""

    shared: Floats
    thread: Floats
    head: Floats
    starting: Floats
    wrench: Floats
    setting: Floats
    angle: Floats

    def rows(self, of: slice) -> "Chances":
        """Those of some of the trials."""
        return Chances(*(getattr(self, one.name)[of] for one in fields(self)))

    def with_cause(self, cause: Cause, *, other: "Chances") -> "Chances":
        """The same, with one cause taken from other trials."""
        return replace(self, **{name: getattr(other, name) for name in _OF_CAUSE[cause]})


_OF_CAUSE: dict[Cause, tuple[str, ...]] = {
    "shared friction": ("shared",),
    "own friction": ("thread", "head", "starting"),
    "wrench": ("wrench",),
    "setting": ("setting",),
    "angle": ("angle",),
}


@dataclass(frozen=True, slots=True)
class VarianceShares:
    """For each output, the part of its variance that would go if a cause did not scatter (causes × outputs) [1].

    `variance` is that of the output. Where the causes act one by one their shares add up to 1; what is above
    1 is counted with every cause that has a hand in it.
    """

    shares: Floats
    variance: Floats

    def of_all(self) -> dict[Cause, float]:
        """The shares of all outputs together, each output by its variance."""
        whole = float(self.variance.sum())
        found = (self.shares * self.variance).sum(axis=1) / whole if whole > 0 else np.zeros(len(CAUSES))
        return {cause: float(share) for cause, share in zip(CAUSES, found, strict=True)}


def chances(random: np.random.Generator, *, trials: int, bolts: int, acts: int) -> Chances:
    """What chance decides in so many trials of a joint.

    Equation:
        normal N(0, 1) for friction, even from −1 to 1 for wrench, setting, angle and starting torque

    Parameters:
        random: where chance comes from; the same seed gives the same chances [generator]
        trials: how many tightenings, at least 20 [1]
        bolts: of the joint [1]
        acts: how many chances of wrench, setting and angle there are, at least one for each act [1]

    Returns:
        chances without size [1]

    Valid for:
        causes that have nothing to do with each other

    Source:
        HAND: a limit without more knowledge is an even spread, JCGM 100:2008, 4.3.7.

    Example:
        >>> found = chances(np.random.default_rng(1), trials=20, bolts=10, acts=30)
        >>> found.thread.shape, found.wrench.shape
        ((20, 10), (20, 30))

    Not covered:
        causes that hang together, such as a bolt that is dry in the thread and under the head.
    """
    if trials < LEAST_TRIALS:
        raise TooFewTrials(trials, LEAST_TRIALS)
    by_bolt, by_act = (trials, bolts), (trials, acts)
    return Chances(
        shared=random.standard_normal((trials, 1)),
        thread=random.standard_normal(by_bolt),
        head=random.standard_normal(by_bolt),
        starting=random.uniform(-1, 1, by_bolt),
        wrench=random.uniform(-1, 1, by_act),
        setting=random.uniform(-1, 1, by_act),
        angle=random.uniform(-1, 1, by_act),
    )


def draws(drawn: Chances, *, scatter: Scatter) -> Draws:
    """What the chances come to in friction, torque and angle.

    Equation:
        µ = √(low · high) · exp(σ · (√s · z + √(1 − s) · z_i)), σ = ln(high / low) / 3.92, s the shared part;
        torque (1 + deviation · u) · (1 + setting · u'); angle error a · u, from a painted mark a · (u − u_before)

    Parameters:
        drawn: chances without size [1]
        scatter: bands of friction [1], shares of the torque [1], half-widths of the angle [°]

    Returns:
        frictions [1], factors on the torque [1] and errors of the angle [°] of every trial

    Valid for:
        frictions below 0.95, where draws are cut off

    Source:
        HAND: friction is a product of many influences, so its logarithm is taken as normal.

    Example:
        >>> found = chances(np.random.default_rng(1), trials=4000, bolts=1, acts=1)
        >>> one = Scatter((Band(0.08, 0.16),), (Band(0.12, 0.12),), (PullError(deviation=0.04),), shared=0.5)
        >>> made = draws(found, scatter=one)
        >>> round(float(np.median(made.mu_thread)), 2), round(float(made.torque_factor.max()), 2)
        (0.11, 1.04)

    Not covered:
        friction that changes while a bolt is turned, or from one use to the next.
    """
    if not 0 <= scatter.shared <= 1:
        raise ShareImpossible(scatter.shared)
    not_negative(scatter.breakaway - 1, "Breakaway above 1")
    pulls = scatter.pulls
    deviation, setting, angle = (
        np.array([getattr(one, name) for one in pulls]) for name in ("deviation", "setting", "angle_deg")
    )
    wrench = drawn.wrench[:, [one.wrench for one in pulls]]
    once = drawn.setting[:, [one.set_once for one in pulls]]
    read = drawn.angle[:, [one.angle for one in pulls]]
    for place, one in enumerate(pulls):
        if one.ends_from is not None:
            read[:, place] -= drawn.angle[:, one.ends_from]
    return Draws(
        mu_thread=_friction(scatter.mu_thread, drawn.shared, own=drawn.thread, part=scatter.shared),
        mu_head=_friction(scatter.mu_head, drawn.shared, own=drawn.head, part=scatter.shared),
        breakaway=1 + (scatter.breakaway - 1) * (1 + drawn.starting) / 2,
        torque_factor=(1 + deviation * wrench) * (1 + setting * once),
        angle_error_deg=angle * read,
    )


def _friction(bands: tuple[Band, ...], shared: Floats, *, own: Floats, part: float) -> Floats:
    middle, sigma = (np.array([getattr(one, name) for one in bands]) for name in ("middle", "sigma"))
    found = middle * np.exp(sigma * (np.sqrt(part) * shared + np.sqrt(1 - part) * own))
    return np.asarray(np.minimum(found, MOST_FRICTION), np.float64)


def variance_shares(
    run: Callable[[Chances], Floats],
    *,
    one: Chances,
    other: Chances,
    found: Floats | None = None,
    without: tuple[Cause, ...] = (),
) -> VarianceShares:
    """Which cause makes how much of the spread of some outputs, from the same chances.

    Equation:
        S_c = Σ (y(one) − y(one with cause c of other))² / (2 · n · V)

    Parameters:
        run: outputs of trials, one row for each; called once for each cause that has a size [any unit]
        one: chances of some trials [1]
        other: chances of as many other trials [1]
        found: the outputs of all trials there are, of which those of `one` come first and those of
            `other` are among the rest [any unit]
        without: causes that have no size here, whose share is 0 [text]

    Returns:
        share of each cause in the variance of each output [1], and that variance [unit of the outputs, squared]

    Valid for:
        causes that have nothing to do with each other; to about 1.5 / √n of the share itself

    Source:
        Jansen, Computer Physics Communications 117, 1999, equation for total effects (MEMORY); HAND.

    Example:
        >>> random = np.random.default_rng(1)
        >>> one, other = (chances(random, trials=40000, bolts=1, acts=1) for _ in range(2))
        >>> found = variance_shares(lambda c: 3 * c.shared + 4 * c.thread, one=one, other=other)
        >>> {cause: round(share, 1) for cause, share in found.of_all().items() if share}
        {'shared friction': 0.4, 'own friction': 0.6}

    Not covered:
        which direction a cause pushes.
    """
    first = run(one) if found is None else found[: len(one.shared)]
    both = np.concatenate([first, run(other)]) if found is None else found
    variance = both.var(axis=0)
    rows = []
    for cause in CAUSES:
        changed = first if cause in without else run(one.with_cause(cause, other=other))
        rows.append(((first - changed) ** 2).mean(axis=0) / 2)
    with np.errstate(invalid="ignore", divide="ignore"):
        shares = np.where(variance > 0, np.array(rows) / variance, 0.0)
    return VarianceShares(np.asarray(shares, np.float64), np.asarray(variance, np.float64))
