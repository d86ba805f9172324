"""The calculators of estimates and networks: tasks as they are written in one text, and back to results."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.input_errors import InputRefused
from gudgeon.calc.planning.estimate import (
    USUAL_PERCENTS,
    Form,
    SimulatedFinish,
    ThreePoint,
    beta_moments,
    chance_by,
    classical_finish,
    moments,
    percentiles,
    simulated_finish,
)
from gudgeon.calc.planning.estimate_exact import chance_within, done_by
from gudgeon.calc.planning.measure_forms import AND, OF_WORK, Scale, percent, read_alike
from gudgeon.calc.planning.network import CriticalPath, TaskTimes
from gudgeon.calc.planning.network_errors import (
    CommaInTask,
    DurationImpossible,
    FinishNegative,
    NoTasks,
    TaskTwice,
    TaskUnreadable,
    TrialsTooMany,
)
from gudgeon.calc.reading import count, text
from gudgeon.errors import InputError

SEED = 1
"""The same network gives the same answer every time."""
MOST_TRIALS = 100_000
MOST_DRAWN = 10_000_000  # durations in memory at once
_AFTER = re.compile(r"\s+after\s+", re.IGNORECASE)
_FIGURE = r"\d*\.?\d+(?:/\d+)?"
_UNIT = r"(?:\s*[A-Za-z]+)?"
_TASK = re.compile(
    rf"^(?P<name>\S.*?)\s*[:=\s]\s*(?P<figures>[-−]?{_FIGURE}{_UNIT}(?:\s*[-–]\s*{_FIGURE}{_UNIT}){{0,2}})$"
)
ONLY_ONE = (
    "Each task has one duration, so nothing scatters: write three estimates, like `3-5-7 h`, for the chances."
)
LATER = (
    "Where paths meet the latest counts: on the average it ends {later} later than the classical sum says."
)


@dataclass(frozen=True, slots=True)
class _Tasks:
    """The tasks of a list, with the unit of all durations."""

    estimates: Mapping[str, ThreePoint]
    after: Mapping[str, Sequence[str]]
    scale: Scale
    by: float | None

    @property
    def scatters(self) -> bool:
        """Whether any of them may take more or less."""
        return any(one.optimistic < one.pessimistic for one in self.estimates.values())


def three_point(values: Mapping[str, Value]) -> Worked:
    """Works out planning.three-point."""
    names = ("optimistic", "likely", "pessimistic")
    texts = {key: text(values, key) for key in (*names, "by") if values[key] is not None}
    scale, found = read_alike(texts, kinds=OF_WORK)
    if found.get("by", 0) < 0:
        raise FinishNegative(texts["by"])
    estimate = ThreePoint(*(found[key] for key in names))
    classical, beta = moments(estimate), beta_moments(estimate)
    form = _form(values)
    ends = [done_by(estimate, percent=one, form=form) for one in USUAL_PERCENTS]
    results: dict[str, Found] = {
        "mean": classical.mean, "deviation": classical.deviation, "beta_deviation": beta.deviation,
        "p10": ends[0], "p50": ends[1], "p90": ends[2],
    }  # fmt: skip
    shown = {key: scale.shown(value) for key, value in results.items() if isinstance(value, float)}
    if "by" in found:
        normal = chance_by(found["by"], mean=classical.mean, deviation=classical.deviation)
        chances = {"chance": chance_within(estimate, limit=found["by"], form=form), "chance_normal": normal}
        results |= chances
        shown |= {key: percent(value) for key, value in chances.items()}
    return Worked(results, shown=shown, units=_units(results, scale), understood=_understood(found, scale))


def network(values: Mapping[str, Value]) -> Worked:
    """Works out planning.critical-path."""
    tasks = _read(text(values, "network"), by=values["by"])
    classical = classical_finish(tasks.estimates, after=tasks.after)
    results: dict[str, Found] = {
        "duration": classical.mean,
        "critical": _chain(classical.network.critical),
        "times": _table(classical.network, tasks.scale),
    }
    shown = {"duration": tasks.scale.shown(classical.mean)}
    flags = [ONLY_ONE]
    if tasks.scatters:
        trials = _trials(count(values, "trials"), len(tasks.estimates))
        found = _simulated(tasks.estimates, tasks.after, trials=trials, form=_form(values))
        flags = []
        if found.merge_bias:
            flags.append(LATER.format(later=tasks.scale.shown(found.merge_bias)))
        lasts = _lasts(found) | {"deviation": classical.deviation, "merge_bias": found.merge_bias}
        chances: dict[str, float] = {}
        if tasks.by is not None:
            chances = {
                "chance_normal": chance_by(tasks.by, mean=classical.mean, deviation=classical.deviation),
                "chance": found.chance_by(tasks.by),
            }
        results |= lasts | chances | {"decides": _shares(found)}
        shown |= {key: tasks.scale.shown(value) for key, value in lasts.items()}
        shown |= {key: percent(value) for key, value in chances.items()}
    understood = {"network": f"{len(tasks.estimates)} task{'' if len(tasks.estimates) == 1 else 's'}"}
    if tasks.by is not None:
        understood["by"] = tasks.scale.shown(tasks.by)
    return Worked(
        results, tuple(flags), shown=shown, units=_units(results, tasks.scale), understood=understood
    )


def _read(written: str, *, by: Value) -> _Tasks:
    """The tasks of a list such as "A 3 h; B 2 h; C 3-5-7 h after A, B"."""
    figures: dict[str, list[str]] = {}
    waits: dict[str, str] = {}
    for item in (part.strip() for part in re.split(r"[;\n]", written)):
        if not item:
            continue
        task, *later = _AFTER.split(item)
        found = _TASK.match(task)
        if found is None or len(later) > 1:
            raise TaskUnreadable(item)
        name = " ".join(found["name"].rstrip(":=").split())
        if "," in name:
            raise CommaInTask(item, name)
        if name in figures:
            raise TaskTwice(name)
        figures[name] = _three(found["figures"], item)
        waits[name] = later[0] if later else ""
    if not figures:
        raise NoTasks
    texts = {f"{name}{AND}{at}": one for name, three in figures.items() for at, one in enumerate(three)}
    if isinstance(by, str):
        texts["by"] = by
    scale, values = read_alike(texts, kinds=OF_WORK)
    if values.get("by", 0) < 0:
        raise FinishNegative(str(by))
    estimates = {name: _estimate(name, *(values[f"{name}{AND}{at}"] for at in range(3))) for name in figures}
    after = {name: _names(listed, estimates) for name, listed in waits.items()}
    return _Tasks(estimates, after, scale, values.get("by"))


def _three(written: str, item: str) -> list[str]:
    """One duration three times, or three; the unit of the last is that of those without."""
    sign, rest = ("-", written[1:]) if written[0] in "-−" else ("", written)
    parts = [part.strip() for part in re.split(r"[-–]", rest)]
    if len(parts) == 2:
        raise TaskUnreadable(item)
    unit = re.sub(r"^[\d./\s]+", "", parts[-1])
    parts = [part if re.search(r"[A-Za-z]", part) else f"{part} {unit}".strip() for part in parts]
    parts[0] = sign + parts[0]
    return parts if len(parts) == 3 else parts * 3


def _estimate(name: str, optimistic: float, likely: float, pessimistic: float) -> ThreePoint:
    """The estimate of a task; what is wrong with it is said with its name."""
    if optimistic == pessimistic < 0:
        raise DurationImpossible(name, optimistic)
    try:
        return ThreePoint(optimistic, likely, pessimistic)
    except InputError as error:
        raise InputRefused(name, error) from None


def _names(listed: str, known: Mapping[str, ThreePoint]) -> list[str]:
    """What a task comes after: names apart with commas, or with `and` where that stands in none of them."""
    found: list[str] = []
    for part in (" ".join(one.split()) for one in listed.split(",")):
        if part in known or not part:
            found += [part] if part else []
        else:
            found += [one.strip() for one in re.split(r"(?:^|\s)and\s", part) if one.strip()]
    return found


def _simulated(
    estimates: Mapping[str, ThreePoint], after: Mapping[str, Sequence[str]], *, trials: int, form: Form
) -> SimulatedFinish:
    import numpy as np

    return simulated_finish(
        estimates, after=after, random=np.random.default_rng(SEED), trials=trials, form=form
    )


def _trials(trials: int, tasks: int) -> int:
    most = min(MOST_TRIALS, MOST_DRAWN // tasks)
    if trials > most:
        raise TrialsTooMany(trials, tasks, most)
    return trials


def _lasts(found: SimulatedFinish) -> dict[str, float]:
    ends = dict(zip(("p10", "p50", "p90"), percentiles(found.finishes, percents=USUAL_PERCENTS), strict=True))
    return {"simulated_mean": found.mean, "simulated_deviation": found.deviation, **ends}


def _form(values: Mapping[str, Value]) -> Form:
    return "triangular" if text(values, "form") == "triangular" else "beta"


def _chain(tasks: Sequence[str]) -> str:
    return ", ".join(tasks)


def _table(found: CriticalPath, scale: Scale) -> str:
    return "; ".join(_line(name, times, scale) for name, times in found.times.items())


def _line(name: str, times: TaskTimes, scale: Scale) -> str:
    """When a task begins and ends, and how long it may wait."""

    def said(value: float) -> str:
        return f"{round(value, 2):g}"

    unit = f" {scale.symbol}".rstrip()
    whole = f"{name}: from {said(times.earliest_start)} to {said(times.earliest_finish)}{unit}"
    if times.critical:
        return f"{whole}, no float"
    return (
        f"{whole}, at the latest from {said(times.latest_start)} to {said(times.latest_finish)}{unit}, "
        f"float {said(times.total_float)}{unit}, free {said(times.free_float)}{unit}"
    )


def _shares(found: SimulatedFinish) -> str:
    """In what share of the trials each task decided the end; what never did is left out."""
    named = sorted(found.critical_share.items(), key=lambda one: -one[1])
    return "; ".join(f"{name} {percent(share)}" for name, share in named if share > 0)


def _units(results: Mapping[str, Found], scale: Scale) -> dict[str, str]:
    plain = ("chance", "chance_normal")
    return {
        key: scale.symbol or "1"
        for key, value in results.items()
        if isinstance(value, float) and key not in plain
    }


def _understood(found: Mapping[str, float], scale: Scale) -> dict[str, str]:
    return {key: scale.shown(value) for key, value in found.items()}
