"""Published figures of lives that no calculator gives by itself, from the kernels."""

from collections.abc import Callable, Mapping

from gudgeon.calc.planning.life import (
    Weibull,
    age_at,
    hazard,
    life_deviation,
    mean_residual_life,
    reliability,
)
from gudgeon.calc.planning.wear_out import cost_rate_of


def _life(inputs: Mapping[str, str]) -> Weibull:
    return Weibull(float(inputs["shape"]), float(inputs["scale"]), float(inputs.get("start", "0")))


def _cost_rate_even(inputs: Mapping[str, str]) -> float:
    given = {name: float(text) for name, text in inputs.items()}
    return cost_rate_of(
        lambda age: 1 - age / given["ends"],
        age=given["age"],
        planned=given["planned"],
        failed=given["failed"],
    )


def _hazard_at(inputs: Mapping[str, str]) -> float:
    life = _life(inputs)
    return hazard(life, age=age_at(life, percent=float(inputs["percent"])))


PLANNING_WAYS: Mapping[str, Callable[[Mapping[str, str]], float]] = {
    "cost_rate_even": _cost_rate_even,
    "reliability": lambda given: reliability(_life(given), age=float(given["age"])),
    "life_deviation": lambda given: life_deviation(_life(given)),
    "age_at": lambda given: age_at(_life(given), percent=float(given["percent"])),
    "hazard_at": _hazard_at,
    "mean_residual_life": lambda given: mean_residual_life(_life(given), age=float(given["age"])),
}
