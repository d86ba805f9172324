"""What lies on the bench, sorted: everyday things, what is used up, and tools that a small garage may lack."""

import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from gudgeon.kit.model import Kit

_SMALL = frozenset(("a", "an", "the", "for", "of", "to", "with", "and", "or", "its", "two"))


@dataclass(frozen=True, slots=True)
class ToolRule:
    """A tool: the texts of tasks that ask for it, what of a kit is one, and the ways to come by it."""

    name: str
    needs: tuple[str, ...]
    gauges: frozenset[str]
    turning: frozenset[str]
    wrench: bool
    words: tuple[frozenset[str], ...]
    get: tuple[str, ...]
    how: str


@dataclass(frozen=True, slots=True)
class ToolRules:
    """Every text that a shipped job lays on the bench, sorted."""

    everyday: frozenset[str]
    other: frozenset[str]
    tools: tuple[ToolRule, ...]

    def of(self, need: str) -> ToolRule | None:
        """The tool that a text asks for; none for everyday things, what is used up, and words of his own."""
        return next((one for one in self.tools if need in one.needs), None)


@lru_cache(maxsize=1)
def tool_rules() -> ToolRules:
    """The rules, as they are shipped."""
    file = resources.files("gudgeon.bench").joinpath("data/tools.toml")
    read = tomllib.loads(file.read_text(encoding="utf-8"))
    return ToolRules(
        frozenset(read["everyday"]),
        frozenset(read["of_the_engine_or_used_up"]),
        tuple(
            ToolRule(
                one["name"],
                tuple(one["needs"]),
                frozenset(one.get("gauges", ())),
                frozenset(one.get("turning", ())),
                one.get("wrench", False),
                tuple(words_of(text) for text in (one["name"], *one["needs"], *one.get("words", ()))),
                tuple(one["get"]),
                one["how"],
            )
            for one in read["tool"]
        ),
    )


def words_of(text: str) -> frozenset[str]:
    """The words of a name, small and in the singular, without those that name nothing.

    Example:
        >>> sorted(words_of("Seal drivers with sleeves"))
        ['driver', 'seal', 'sleeve']
    """
    return frozenset(_singular(word) for word in re.findall(r"[^\W\d_]+", text.lower()) if word not in _SMALL)


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def owned(kit: Kit) -> frozenset[str]:
    """The names of the tools that a kit has: by kind, or by all words of a name.

    Words that a longer name of another tool has as well do not count: a spring compressor is no air compressor.
    """
    rules = tool_rules().tools
    kinds = {one.kind for one in kit.gauges.values()}
    turning = {one.kind for one in kit.turning.values()}
    found = {
        rule.name
        for rule in rules
        if rule.gauges & kinds or rule.turning & turning or (rule.wrench and kit.wrenches)
    }
    for name in _names(kit):
        said = words_of(name)
        hits = [(rule.name, words) for rule in rules for words in rule.words if words and words <= said]
        found |= {tool for tool, words in hits if not any(words < other for _, other in hits)}
    return frozenset(found)


def _names(kit: Kit) -> Iterable[str]:
    yield from kit.other_tools
    for group in (kit.gauges, kit.turning, kit.adapters, kit.spring_scales):
        yield from (one.name for one in group.values())
