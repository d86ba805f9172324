"""The plane whose largest deviation is least, by exchanging the four points that hold it.

Four points hold such a plane: three above and one below within them, or two and two that cross. Shares
of the four that balance (sum 1 above, 1 below, the same middle) prove that no plane does better: for any
plane the widest deviation is at least Σ share · z above less Σ share · z below. A point that lies beyond the two
planes takes the place of one of the four, and the proven value rises, until none lies beyond.
"""

import math
from dataclasses import dataclass, field
from operator import mul

import numpy as np

from gudgeon.calc.metrology.cloud import ROUNDING, Floats

MOST_EXCHANGES = 2000
AFRESH = 25  # exchanges after which the inverse is reckoned anew
PATIENCE = 12  # exchanges that bring nothing, until the careful rule is taken: it never goes round in circles
LEAST_PIVOT = 1e-10
SMALL_PIVOT = 1e-5  # what is divided by so little is reckoned anew at once
TIE = 1e-12
BEYOND = 200 * ROUNDING  # of the highest point: what lies farther beyond the planes is exchanged
TINY = 1e-300  # stands for a scale of nothing
NUDGES = (0.0, 1e-9)
PARTS = (1.0, 0.7, 0.4, 0.2)  # of the nudge, for each of the four

Rows = list[list[float]]
Four = list[int]  # point numbers, those below the plane as -1 - number


@dataclass(frozen=True, slots=True)
class Held:
    """A plane z = slope · (x, y) + height between two parallel ones, and the four points that hold it.

    `least` is proven: no plane has a smaller zone. It is as large as the zone of the four where their shares
    balance, which is when `worst_share` is not below zero.
    """

    slope: tuple[float, float]
    least: float
    worst_share: float
    four: Four = field(repr=False)

    @property
    def upper(self) -> list[int]:
        """Points that hold the upper plane, by number."""
        return sorted({one for one in self.four if one >= 0})

    @property
    def lower(self) -> list[int]:
        """Points that hold the lower plane, by number."""
        return sorted({-1 - one for one in self.four if one < 0})

    @property
    def balanced(self) -> bool:
        """Whether no share is below zero by more than rounding."""
        return self.worst_share > -TIE

    @staticmethod
    def by(four: Four, *, points: Floats) -> "Held | None":
        """The planes that four points hold, one row x, y, z each; None where they determine none."""
        size = np.maximum(np.abs(points).max(axis=0), TINY)
        base = _Base(
            four, [_signed(one, row) for one, row in zip(four, (points / size).tolist(), strict=True)]
        )
        return base.held(size.tolist()) if base.inverse else None


@dataclass(slots=True)
class _Base:
    """Four columns of the balance with their heights, its inverse, the planes that they hold, and their shares."""

    four: Four
    columns: list[tuple[list[float], float]]
    inverse: Rows = field(default_factory=list)
    planes: list[float] = field(default_factory=list)
    shares: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.reckon()

    def reckon(self) -> None:
        """Inverse, planes and shares anew from the columns: each exchange leaves a little rounding behind."""
        try:
            self.inverse = np.linalg.inv(np.array([column for column, _ in self.columns]).T).tolist()
        except np.linalg.LinAlgError:
            return
        costs = [cost for _, cost in self.columns]
        self.planes = [sum(map(mul, costs, column)) for column in zip(*self.inverse, strict=True)]
        self.shares = [row[2] + row[3] for row in self.inverse]

    def take(self, entering: int, column: tuple[list[float], float], careful: bool) -> bool:
        """A point takes the place of the one of the four whose share is first used up, if there is one."""
        (x, y, up, down), cost = column
        use = [a * x + b * y + c * up + d * down for a, b, c, d in self.inverse]
        steps = [
            max(share, 0.0) / by if by > LEAST_PIVOT else math.inf
            for share, by in zip(self.shares, use, strict=True)
        ]
        step = min(steps)
        if step == math.inf:
            return False
        tied = [k for k in range(4) if steps[k] < math.inf and steps[k] <= step + TIE]
        if len(tied) == 1:
            leaving = tied[0]
        elif careful:
            leaving = min(tied, key=lambda k: (self.four[k] < 0, abs(self.four[k])))
        else:
            leaving = max(tied, key=lambda k: use[k])
        by = use[leaving]
        a, b, c, d = taken = [one / by for one in self.inverse[leaving]]
        p, q, r, s = self.planes
        gain = cost - (p * x + q * y + r * up + s * down)
        self.planes = [p + gain * a, q + gain * b, r + gain * c, s + gain * d]
        for k, (first, second, third, fourth) in enumerate(self.inverse):
            if k != leaving:
                by = use[k]
                self.inverse[k] = [first - by * a, second - by * b, third - by * c, fourth - by * d]
                self.shares[k] -= by * step
        self.inverse[leaving], self.shares[leaving] = taken, step
        self.four[leaving], self.columns[leaving] = entering, column
        if use[leaving] < SMALL_PIVOT:
            self.reckon()
        return True

    def held(self, size: list[float]) -> Held:
        """What the four prove; what is left of the balance is charged: it is no more than rounding."""
        sums = [0.0, 0.0]
        for one, share in zip(self.four, self.shares, strict=True):
            sums[one < 0] += max(share, 0.0)
        shares = [max(share, 0.0) / sums[one < 0] for one, share in zip(self.four, self.shares, strict=True)]
        a, b = self.planes[:2]
        level = sum(share * cost for share, (_, cost) in zip(shares, self.columns, strict=True))
        left = [sum(share * c[k] for share, (c, _) in zip(shares, self.columns, strict=True)) for k in (0, 1)]
        charge = abs(left[0]) * (1 + abs(a)) + abs(left[1]) * (1 + abs(b))
        slope = (a * size[2] / size[0], b * size[2] / size[1])
        return Held(slope, (level - charge) * size[2], min(self.shares), self.four)


def _signed(one: int, row: list[float]) -> tuple[list[float], float]:
    """The balance that a point brings as one of the four, and its height, both with its sign."""
    x, y, z = row
    return ([x, y, 1.0, 0.0], z) if one >= 0 else ([-x, -y, 0.0, 1.0], -z)


class Exchange:
    """The search for the planes that hold some points, one row x, y, z each, given from about their middle."""

    def __init__(self, points: Floats) -> None:
        self.rows = np.ascontiguousarray(points.T)
        self.size = np.maximum(np.abs(self.rows).max(axis=1), TINY)
        self.rows /= self.size[:, None]
        self.wide = self._triangle()

    def solve(self, start: Four | None = None) -> Held:
        """The planes of the least zone over these points."""
        base = None if start is None else self._base(list(start))
        if base is None or not base.inverse or min(base.shares) < -TIE:
            base = self._base(list(self.wide))
        for nudge in NUDGES:  # so little that no two shares are tied: where the careful rule came to no end
            base.shares = [one + nudge * part for one, part in zip(base.shares, PARTS, strict=True)]
            if self._exchanged(base):
                break
        base.reckon()
        return base.held(self.size.tolist())

    def _triangle(self) -> Four:
        """A wide triangle above, and one of its corners below: the middles agree from the start."""
        x, y = self.rows[0], self.rows[1]
        a = int(((x - x[0]) ** 2 + (y - y[0]) ** 2).argmax())
        b = int(((x - x[a]) ** 2 + (y - y[a]) ** 2).argmax())
        side = (x[b] - x[a]) * (y - y[a]) - (y[b] - y[a]) * (x - x[a])
        return [a, b, int(np.abs(side).argmax()), -1 - a]

    def _column(self, one: int) -> tuple[list[float], float]:
        return _signed(one, self.rows[:, one if one >= 0 else -1 - one].tolist())

    def _base(self, four: Four) -> _Base:
        return _Base(four, [self._column(one) for one in four])

    def _exchanged(self, base: _Base) -> bool:
        """Exchanges until no point lies beyond the planes; whether it came to that."""
        best, waited = -math.inf, 0
        for turn in range(MOST_EXCHANGES):
            a, b, above, below = base.planes
            waited, best = (0, above + below) if above + below > best + TIE else (waited + 1, best)
            careful = waited > PATIENCE
            entering = self._beyond(np.array([-a, -b, 1.0]) @ self.rows, above, below, careful)
            if entering is None or entering in base.four:  # one of the four is beyond by its rounding alone
                return True
            if not base.take(entering, self._column(entering), careful):
                return False
            if turn % AFRESH == AFRESH - 1:
                base.reckon()
        return False

    def _beyond(self, rest: Floats, above: float, below: float, careful: bool) -> int | None:
        """The point that lies farthest beyond the planes; the first of them where care is taken."""
        if careful:
            first = np.flatnonzero(rest > above + BEYOND)
            if len(first):
                return int(first[0])
            first = np.flatnonzero(-rest > below + BEYOND)
            return -1 - int(first[0]) if len(first) else None
        highest, lowest = int(rest.argmax()), int(rest.argmin())
        over, under = float(rest[highest]) - above, -float(rest[lowest]) - below
        if max(over, under) <= BEYOND:
            return None
        return highest if over >= under else -1 - lowest
