"""The tools that the job needs and the kit lacks: torque wrenches, gauges that can decide, special tools."""

import re
from collections.abc import Iterator, Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.network import Task, tasks_of
from gudgeon.bench.standing import Network
from gudgeon.bench.supplies.model import Lacking
from gudgeon.bench.supplies.tool_rules import ToolRule, owned, tool_rules, words_of
from gudgeon.bench.to_measure import to_measure
from gudgeon.bench.wrench_gap import wrench_gap

_BORROW = re.compile(r"borrow (?P<what>.+?)(?: \(|, off by|$)")
_SHOP = "machine shop"
MEASURING = "Measure"


def lacking_tools(bench: Bench) -> tuple[Lacking, ...]:
    """What the work ahead needs and the kit lacks, in the order of the work; figures, so the code is read first."""
    bench.unlock()
    tasks = _ahead(bench)
    found = (*_wrenches(bench, tasks), *_gauges(bench, tasks), *_special(bench, tasks))
    order = {task.key: at for at, task in enumerate(tasks)}
    return tuple(sorted(found, key=lambda one: min((order[key] for key in one.tasks), default=len(order))))


def _ahead(bench: Bench) -> tuple[Task, ...]:
    """The tasks that are not done yet."""
    tasks = tasks_of(bench.sheet, bench.state)
    network = Network(bench, tasks)
    return tuple(task for task in tasks if network.stand(task.key).where != "done")


def _special(bench: Bench, tasks: Sequence[Task]) -> Iterator[Lacking]:
    """Tools by the words of the tasks; everyday things are not asked about."""
    rules, have = tool_rules(), owned(bench.kit)
    wanted: dict[str, tuple[ToolRule, dict[str, Task]]] = {}
    for task in tasks:
        for need in task.needs:
            rule = rules.of(need)
            if rule is not None and rule.name not in have:
                wanted.setdefault(rule.name, (rule, {}))[1][task.key] = task
    for name, (rule, users) in wanted.items():
        sort = "wrench" if rule.wrench else "gauge" if rule.gauges else "tool"
        count = len(users)
        why = f"needed for {count} task{'' if count == 1 else 's'}, and the kit names none"
        yield _lacking(name, sort, why, rule.get, rule.how, tuple(users.values()))


def _lacking(
    name: str, sort: str, why: str, get: tuple[str, ...], how: str, users: Sequence[Task]
) -> Lacking:
    before = users[0].title if users else ""
    return Lacking(name, sort, why, get, how, before, tuple(task.key for task in users))


def _wrenches(bench: Bench, tasks: Sequence[Task]) -> Iterator[Lacking]:
    """The one torque wrench that closes most of what none measures; nothing where the kit has none at all."""
    if not bench.kit.wrenches:
        return
    gap = wrench_gap(bench.kit, bench.sheet, today=bench.now.astimezone().date())
    roles = {bench.sheet.joints[one.joint].role for one in gap.stages}
    users = [task for task in tasks if task.joint and task.joint in roles]
    if not gap.stages or not users:
        return
    names = ", ".join(gap.joints_in_gap)
    if gap.closing is None:
        yield _lacking(
            "a way to measure a torque", "wrench", f"no wrench of yours measures: {names}", ("borrow",),
            "no torque wrench as usually sold does: look at the ways out of each joint", users,
        )  # fmt: skip
        return
    yield _lacking(
        f"torque wrench {gap.closing.range}", "wrench", f"no wrench of yours measures: {names}", ("buy", "borrow"),
        f"so would any that {gap.closing.any_that}", users,
    )  # fmt: skip


def _gauges(bench: Bench, tasks: Sequence[Task]) -> Iterator[Lacking]:
    """Gauges that could decide what none of his decides, for what is still to be read."""
    wanted: dict[str, list[tuple[str, str]]] = {}
    for key, item in bench.sheet.characteristics.items():
        deciding = can_decide(bench, key)
        if deciding.enough or item.computed or to_measure(bench, key).next_place is None:
            continue
        found = _BORROW.search(deciding.words)
        if found is not None or _SHOP in deciding.words:
            what = _named(bench, found["what"]) if found is not None else f"a {_SHOP} that measures it"
            wanted.setdefault(what, []).append((key, deciding.words))
    told = {rule.name for rule in tool_rules().tools}
    for what, asking in wanted.items():
        if what in told:  # he has one that the kit does not describe, or the tasks ask for it by its name
            continue
        names = [bench.sheet.characteristics[key].name for key, _ in asking]
        users = [task for task in tasks if any(_measures(bench, task, key) for key, _ in asking)]
        at_shop = _SHOP in what
        yield _lacking(
            what, "gauge", f"none of yours decides: {', '.join(names)}",
            ("hire",) if at_shop else ("borrow", "buy"), "; ".join(dict.fromkeys(words for _, words in asking)), users,
        )  # fmt: skip


def _named(bench: Bench, what: str) -> str:
    """What to borrow, without its article; nothing is better than a gauge that is not there."""
    plain = re.sub(r"^an? ", "", what)
    kind = plain.removeprefix("better ")
    return kind if all(one.kind != kind for one in bench.kit.gauges.values()) else plain


def _measures(bench: Bench, task: Task, key: str) -> bool:
    """Whether a task is the one that reads a characteristic: a word of its part stands in the title."""
    item = bench.sheet.characteristics[key]
    if task.phase != MEASURING:
        return False
    told = words_of(f"{item.part or ''} {item.name}") - _EVERYWHERE
    return bool(told & words_of(task.title))


_EVERYWHERE = frozenset(
    ("cylinder", "face", "height", "clearance", "measure", "two", "bearing", "run", "out")
)
"""Words that stand in the titles of too many tasks to tell one from another."""
