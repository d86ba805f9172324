"""Faces of 450 × 180 mm for tests: what a gauge brings, and what a method may stumble over."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
KINDS = (
    "noisy", "rounded", "coarse", "dome", "twist", "noisy twist", "spiked", "tilted", "bow", "twice", "rim", "flat",
)  # fmt: skip


def face(kind: str, *, count: int, seed: int = 0) -> Floats:
    """So many points, the same for the same seed; grids have about as many."""
    random = np.random.default_rng([seed, count])
    side = max(2, int(np.sqrt(count)))
    grid = np.meshgrid(np.linspace(0, 450, side), np.linspace(0, 180, max(2, count // side)))
    x, y = (axis.ravel() for axis in grid)
    u, v = x / 225 - 1, y / 90 - 1
    noise = 0.01 * random.standard_normal(len(x))
    if kind in ("noisy", "spiked", "tilted", "rim"):
        x, y = random.uniform(0, 450, len(x)), random.uniform(0, 180, len(x))
    heights = {
        "rounded": noise.round(3),
        "coarse": noise.round(2),
        "dome": 0.05 * (1 - u**2 - v**2),
        "twist": 0.05 * u * v,
        "noisy twist": 0.05 * u * v + 0.3 * noise,
        "bow": 0.05 * u**2,
        "flat": 0.001 * x - 0.002 * y + 3,
        "twice": noise.round(3),
        "rim": 0.01 * np.cos(2 * x),
    }
    z = heights.get(kind, noise)
    if kind == "spiked":
        z = z.copy()
        z[random.integers(0, len(z), 2)] += (0.5, -0.3)
    if kind == "rim":
        x, y = 100 * np.cos(x), 100 * np.sin(x)
    points = np.column_stack([x, y, z])
    if kind == "twice":
        points = np.repeat(points, 2, axis=0)
    return points @ turn((0.5, 0.3, 0.2)).T + (1e4, -5e3, 2e3) if kind == "tilted" else points


def turn(angles: tuple[float, float, float]) -> Floats:
    """A rotation about x, then y, then z."""
    whole = np.eye(3)
    for axis, angle in enumerate(angles):
        a, b = [k for k in range(3) if k != axis]
        one = np.eye(3)
        one[a, a] = one[b, b] = np.cos(angle)
        one[a, b], one[b, a] = -np.sin(angle), np.sin(angle)
        whole = one @ whole
    return whole
