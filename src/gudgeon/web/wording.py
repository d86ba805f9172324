"""Words of the pages where those of the terminal would not do: milestones, outcomes, flags."""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from gudgeon.bench.good import Row
from gudgeon.bench.recordable import RECORDABLES, recordable

_MILESTONES = {
    "crank": "the starter turns it",
    "fire": "it fires",
    "drive": "it is driven",
    "handover": "it is handed over",
    "recall": "the recall",
}
_OUTCOMES = {
    "clicked while turning": "It clicked while turning",
    "clicked at once": "It clicked at once",
    "angle reached": "The mark is where it must go",
    "done": "Done",
}
_FLAG = re.compile(r"(add )?(--[a-z]+(?:-[a-z]+)*)")
_ELSEWHERE = {"--off": "How much comes off", "--stage": "Stage", "--bolt": "Which one"}


@dataclass(frozen=True, slots=True)
class Closing:
    """What closes an item of an open list, what adds one, and whether a tap is enough."""

    name: str
    words: str
    adds: str
    at_once: bool

    @property
    def kinds(self) -> tuple[str, str]:
        """The kinds of the entries that close one and add one."""
        return recordable(self.name).kind, recordable(self.adds).kind


CLOSINGS = {
    "provisional": Closing("cleared", "Make it final", "provisional", False),
    "left in": Closing("taken-out", "Take it out", "left-in", True),
    "plugged": Closing("opened", "Take the plug out", "plugged", True),
    "left over": Closing("refitted", "Put it back", "off", False),
}


_MOST_LETTERS = 200
_SMALL = frozenset(
    ("a", "an", "the", "of", "is", "was", "to", "on", "in", "its", "it", "given", "job", "machine", "reason")
)


def shortened(text: str) -> str:
    """A text for a confirmation: what is longer stands whole in the book."""
    return text if len(text) <= _MOST_LETTERS else f"{text[:_MOST_LETTERS].rstrip()}…"


def adds(title: str, *, text: str) -> bool:
    """Whether a line below a title says anything that the title does not."""
    said, more = (set(re.findall(r"[a-z]+", one.lower())) for one in (title, text))
    return bool(more - said - _SMALL)


def hint_of(label: str, *, text: str, choices: Iterable[str] = ()) -> str:
    """The line below a label, as it is said on paper; none where it lists choices that the page has in words."""
    if not adds(label, text=text) or any(choice_words(one) != one for one in choices):
        return ""
    return quoted(text)


def quoted(text: str) -> str:
    """A text of the terminal with what is to be typed in quotation marks."""
    return re.sub(r"`([^`]*)`", "“\\1”", text)


def shared_notes(rows: Iterable[Row]) -> tuple[str, ...]:
    """Notes that several rows have in common: they are told once, below them."""
    counts = Counter(note for row in rows for note in row.notes)
    return tuple(note for note, count in counts.items() if count > 1)


def milestone(key: str) -> str:
    """A milestone as what happens at it: `it fires`."""
    return _MILESTONES.get(key, key)


_TIMERS = {
    "running": ("running", "Running"),
    "over": ("done", "Over"),
    "late": ("in doubt", "Too late"),
    "unknown": ("open", "Not running"),
    "due": ("next", "Due now"),
}


def timer_state(mark: str) -> tuple[str, str]:
    """How a wait stands: the state whose shape it has, and the word on the page."""
    return _TIMERS[mark]


def due_words(due: str) -> str:
    """When something is due: the milestone in words, and the work it belongs to."""
    key, colon, task = due.partition(": ")
    return f"{milestone(key)}{colon}{task}"


def choice_words(word: str) -> str:
    """A choice of a form in words."""
    return f"before {milestone(word)}" if word in _MILESTONES else word


def outcome_words(outcome: str, *, kind: str) -> str:
    """An outcome as the person at the wrench would say it."""
    if kind == "torque" and outcome == "done":
        return "The scale showed it (no click)"
    if kind == "torque" and outcome == "clicked at once":
        return "It clicked at once, nothing moved"
    if kind == "verify":
        return {
            "clicked at once": "It clicked, the bolt did not move",
            "clicked while turning": "The bolt moved",
        }.get(outcome, outcome)
    return _OUTCOMES.get(outcome, outcome)


def label_of(name: str, *, field: str) -> str:
    """The label of a field of a form."""
    return next(one.label for one in recordable(name).inputs if one.field == field)


_NOT_COMPLETE = re.compile(r"^This (?P<kind>[a-z ]+) is not complete: ", re.MULTILINE)


def _not_complete(text: str) -> str:
    """What a book does not take of an entry, with the names of the form and of its fields."""
    found = _NOT_COMPLETE.search(text)
    own = [one for one in RECORDABLES if found and one.kind.replace("-", " ") == found["kind"]]
    if found is None or not own:
        return text
    rest = text[found.end() :]
    for one in own[0].inputs:
        rest = re.sub(rf"(^|; ){one.field}: ", rf"\g<1>“{one.label}”: ", rest)
    return f"{text[: found.start()]}“{own[0].title}” cannot be taken so: {rest}"


def worded(text: str, *, name: str) -> str:
    """A text of the terminal with its flags named as the fields of the form are."""
    text = _not_complete(text)
    own = [one for one in RECORDABLES if one.name == name]
    labels = {one.flag: one for of in own for one in of.inputs if one.flag}

    def field(match: re.Match[str]) -> str:
        one = labels.get(match[2])
        label = one.label if one is not None else _ELSEWHERE.get(match[2])
        if label is None:
            return match[0]
        add = ("tick " if one is not None and one.shape == "yes" else "fill in ") if match[1] else ""
        return f"{add}“{label}”"

    # What follows `gudgeon` is a command, and becomes a link as a whole.
    parts = re.split(r"(`?gudgeon [^;()`]*`?)", text)
    return "".join(part if "gudgeon " in part else _FLAG.sub(field, part) for part in parts)
