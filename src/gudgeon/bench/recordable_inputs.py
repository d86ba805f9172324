"""What is said of an entry, one by one: how a terminal and how a page asks for it."""

from dataclasses import dataclass
from functools import partial
from typing import Literal

MILESTONES = ("crank", "fire", "drive", "handover")

Shape = Literal["text", "long text", "whole", "yes", "choice", "figure", "photo", "several"]


@dataclass(frozen=True, slots=True)
class Input:
    """One thing that is said of an entry: its field, how a terminal and how a page asks for it.

    Without a flag it is given by its place. `yes` is a tick: ticked it says `value_when_yes`, else the default.
    `photo` is a file with a picture, and `several` may be said more than once.
    """

    field: str
    flag: str
    text: str
    label: str
    shape: Shape = "text"
    required: bool = True
    default: str | bool | None = None
    choices: tuple[str, ...] = ()
    value_when_yes: str | bool = True

    @property
    def named(self) -> str:
        """How a form names it: `entry` there is the id of the entry to be written, `basis` what its page had seen."""
        return {"entry": "about_entry", "basis": "how_known"}.get(self.field, self.field)


@dataclass(frozen=True, slots=True)
class Recordable:
    """Something that can be recorded: its command, the kind of its entry, and what is said of it."""

    name: str
    kind: str
    title: str
    help: str
    inputs: tuple[Input, ...]


must = Input
"""Something that has to be said."""
may = partial(Input, required=False)
"""Something that may be said."""

ITEM = must("item", "", "its short name, its place number or bag, or words of its name alone", "Which one")
NEW_ITEM = must("item", "", "a short name for it", "Short name")
JOINT = must("joint", "", "the joint, by its key in the data sheet", "Joint")
TASK = must("task", "", "the task, by its title or words of it; `gudgeon now --all` names all", "Task")
WHY = must("why", "--why", "the reason", "Why", "long text")
DUE = may(
    "due_before", "--before", "due before: crank, fire, drive or handover", "Due", "choice",
    default="crank", choices=MILESTONES,
)  # fmt: skip
