"""Floats against what they mean: a task is made longer, and the whole worked out again; and against every path."""

import random
from collections.abc import Iterator

import pytest

from gudgeon.calc.planning.network import critical_path

Network = tuple[dict[str, float], dict[str, list[str]]]


def some_network(seed: int) -> Network:
    chance = random.Random(seed)
    names = [f"t{at}" for at in range(chance.randint(1, 12))]
    after = {name: chance.sample(names[:at], chance.randint(0, min(at, 3))) for at, name in enumerate(names)}
    return {name: chance.choice((0.0, 1.0, 2.5, chance.uniform(0, 9))) for name in names}, after


def every_path(after: dict[str, list[str]]) -> Iterator[list[str]]:
    def back(path: list[str]) -> Iterator[list[str]]:
        yield path
        for one in after[path[0]]:
            yield from back([one, *path])

    for name in after:
        yield from back([name])


@pytest.mark.parametrize("seed", range(40))
def test_the_longest_of_all_paths_is_the_duration(seed: int) -> None:
    durations, after = some_network(seed)
    longest = max(sum(durations[name] for name in path) for path in every_path(after))
    found = critical_path(durations, after=after)
    assert found.duration == pytest.approx(longest, abs=1e-9)
    for name, times in found.times.items():
        through = max(sum(durations[one] for one in path) for path in every_path(after) if name in path)
        assert times.total_float == pytest.approx(longest - through, abs=1e-8)


@pytest.mark.parametrize("seed", range(40))
def test_a_float_may_be_used_up_and_not_more(seed: int) -> None:
    durations, after = some_network(seed)
    found = critical_path(durations, after=after)
    more = 0.01
    for name, times in found.times.items():
        within = critical_path({**durations, name: durations[name] + times.total_float}, after=after)
        beyond = critical_path({**durations, name: durations[name] + times.total_float + more}, after=after)
        assert within.duration == pytest.approx(found.duration, abs=1e-8)
        assert beyond.duration == pytest.approx(found.duration + more, abs=1e-8)
        others = [one for one in durations if one != name]
        freely = critical_path({**durations, name: durations[name] + times.free_float}, after=after)
        moved = critical_path({**durations, name: durations[name] + times.free_float + more}, after=after)
        assert [freely.times[one].earliest_start for one in others] == pytest.approx(
            [found.times[one].earliest_start for one in others], abs=1e-8
        )
        assert moved.duration > found.duration or any(
            moved.times[one].earliest_start > found.times[one].earliest_start for one in others
        )
