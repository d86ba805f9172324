"""Before which task a part has to lie on the bench, by the words of its name."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from gudgeon.bench.network import Task


@dataclass(frozen=True, slots=True)
class Rule:
    """Words that stand in the name of a part, and the tasks that need it: the first that the build has counts."""

    words: tuple[str, ...]
    tasks: tuple[str, ...]

    def knows(self, name: str) -> bool:
        """Whether its words stand in a name."""
        plain = _plain(name)
        return any(f" {words} " in plain for words in self.words)


@lru_cache(maxsize=1)
def part_rules() -> tuple[tuple[Rule, ...], str]:
    """The rules in their order, and the phase before which any other part is needed."""
    file = resources.files("gudgeon.bench").joinpath("data/part_tasks.toml")
    read = tomllib.loads(file.read_text(encoding="utf-8"))
    rules = tuple(Rule(tuple(one["words"]), tuple(one["tasks"])) for one in read["part"])
    return rules, str(read["else_before"])


def task_for(name: str, *, tasks: Mapping[str, Task]) -> Task | None:
    """The task that needs a part of this name; of one that no rule knows, the first of the phase that builds up."""
    found = next((tasks[key] for key in tasks_by_name(name) if key in tasks), None)
    if found is not None:
        return found
    _, phase = part_rules()
    return next((task for task in tasks.values() if task.phase == phase), None)


def tasks_by_name(name: str) -> tuple[str, ...]:
    """The tasks that need a part of this name in any job, that of the first rule first; none where no rule knows it."""
    return tuple(key for rule in part_rules()[0] if rule.knows(name) for key in rule.tasks)


def _plain(name: str) -> str:
    """A name in small letters, each word in the singular, with a blank around each."""
    words = re.findall(r"[a-z]+", name.lower())
    return f" {' '.join(word if word.endswith('ss') else word.removesuffix('s') for word in words)} "
