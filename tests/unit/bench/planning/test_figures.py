"""What a plan takes for granted is data: everything named in it exists, and every figure can be."""

from functools import cache

from gudgeon.bench.network import job
from gudgeon.bench.planning.figures import figures, mishaps


def test_every_task_that_may_show_something_is_one_of_the_job_and_comes_before_what_it_holds_up() -> None:
    tasks = job().tasks

    @cache
    def before_it(key: str) -> frozenset[str]:
        return frozenset(tasks[key].after).union(*(before_it(one) for one in tasks[key].after))

    for one in mishaps():
        for at, before in one.shows:
            assert at == before == "*" or at in before_it(before), (one.key, at, before)


def test_chances_minutes_and_waits_can_be() -> None:
    assert len(mishaps()) == 16
    for one in mishaps():
        assert 0 < one.chance <= 1
        assert 0 < one.minutes <= 8 * 60
        assert 0 <= one.wait <= 7 * 1440
        assert one.title[0].isupper() and not one.title.endswith(".")


def test_every_factor_is_in_order_and_is_said_to_have_no_source() -> None:
    known = figures()
    assert known.source == "common practice, no source"
    for points in (known.minutes, known.all_minutes, known.shop, known.delivery, known.answer):
        assert 0 < points[0] <= points[1] <= points[2]
        assert points[1] == 1
    assert 0 < known.least_left < 1 < known.most_ratio
    assert known.of_wait("clock") is None
