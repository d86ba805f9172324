"""The endless plate on an elastic foundation under a point load, and what it would feel at the edges of a real one.

Lengths are counted in characteristic lengths (D / k)^(1/4), so that D = k = 1: ∇⁴w + w = load. The
deflection under a load of one is −kei(r) / 2π, kei the Kelvin function Im K0(r · exp(iπ/4)).
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complex = NDArray[np.complex128]
TURN = complex(np.exp(0.25j * np.pi))
STEP = 0.1  # of the trapezoidal rule below; its error is exp(−π² / 2 / step), about 1e-21
NEAREST = 1e-9  # distance at which the deflection no longer differs from that under the load
FADED = 1060.0  # exp(−1060 / √2) is the smallest number that is not 0


@dataclass(frozen=True, slots=True)
class PointLoad:
    """A load of one on an endless plate; place and points in characteristic lengths."""

    x: float
    y: float

    def deflection(self, x: Floats, *, y: Floats) -> Floats:
        """How far the plate gives way at points."""
        away = np.hypot(x - self.x, y - self.y)
        return np.where(away < NEAREST, math.pi / 4, -_bessel(np.maximum(away, NEAREST))[0].imag) / (
            2 * math.pi
        )

    def on_edge(self, x: float, *, y: Floats, poisson: float) -> tuple[Floats, Floats]:
        """Curvature w_xx + ν · w_yy and shear w_xxx + (2 − ν) · w_xyy along a line across x; free edges have none."""
        away, along, across, first, second, third = self._slopes(np.full_like(y, x), y=y)
        apart = second - first / away
        w_xx = second * along**2 + first / away * across**2
        w_yy = second * across**2 + first / away * along**2
        w_xyy = along * (apart / away + across**2 * (third - 3 * apart / away))
        w_xxx = along * (third * along**2 + 3 * across**2 * apart / away)
        return (w_xx + poisson * w_yy) / (2 * math.pi), (w_xxx + (2 - poisson) * w_xyy) / (2 * math.pi)

    def twist(self, x: Floats, *, y: Floats) -> Floats:
        """The twist w_xy at points; a free corner, which nothing holds down, has none."""
        away, along, across, first, second, _ = self._slopes(x, y=y)
        return (second - first / away) * along * across / (2 * math.pi)

    def turned(self) -> "PointLoad":
        """The same with x and y exchanged."""
        return PointLoad(self.y, self.x)

    def _slopes(self, x: Floats, *, y: Floats) -> tuple[Floats, Floats, Floats, Floats, Floats, Floats]:
        """Distance, its direction, and three derivatives of −kei by distance (from K0' = −K1, K1' = −K0 − K1 / z)."""
        away = np.hypot(x - self.x, y - self.y)
        z = away * TURN
        zeroth, first = _bessel(away)
        slopes = (
            TURN * first,
            -(TURN**2) * (zeroth + first / z),
            TURN**3 * (first + zeroth / z + 2 * first / z**2),
        )
        one, two, three = (slope.imag for slope in slopes)
        return away, (x - self.x) / away, (y - self.y) / away, one, two, three


def _bessel(away: Floats) -> tuple[Complex, Complex]:
    """K0 and K1 of away · exp(iπ/4).

    K_n(z) = ∫ exp(−z · cosh t) · cosh(n · t) dt from 0 to ∞, where the trapezoidal rule converges
    exponentially.
    """
    end = math.acosh(max(FADED / float(away.min()), 2.0))
    t = np.arange(0.0, end + STEP, STEP)
    weight = np.full(len(t), STEP)
    weight[0] /= 2
    decay = np.exp(-(away[..., None] * TURN) * np.cosh(t)) * weight
    return decay.sum(-1), (decay * np.cosh(t)).sum(-1)
