"""The shape of a job that is written by hand as YAML: a whole one, and one that is based on another."""

from typing import Any, Literal

from pydantic import Field

from gudgeon.book.gates import Act
from gudgeon.sheet.inspections import Milestone
from gudgeon.written.fields import Duration, Key, Section, Text, Whole, YesNo

LATE = "late"
"""The caution against work by tired people: a task that carries it is planned for no late hour."""


class WaitSection(Section):
    """A wait that begins when the hands are done: a clock, or an estimate of somebody else's time."""

    time: Duration | None = None
    about: Duration | None = None
    what: Text = Field(alias="for")


class CautionSection(Section):
    """What can hurt, and where it is said."""

    text: Text
    basis: Text


class ShopSection(Section):
    """The task is done by a part going to the machine shop, or coming back."""

    part: Text
    when: Literal["sent", "back"]


class Wording(Section):
    """What is said otherwise for an engine that lacks something."""

    title: Text | None = None
    minutes: Whole | None = Field(default=None, ge=1, le=10_000)
    two_people: YesNo | None = None
    on_the_bench: tuple[Text, ...] | None = None
    cautions: tuple[Key, ...] | None = None


class MadeSection(Section):
    """What a finished task makes of the engine."""

    crank: Literal["near the top", "half-way", "moved"] | None = None
    cams: Literal["in", "out"] | None = None
    belt: Literal["on", "off"] | None = None
    followers: Literal["bled down", "pumped up"] | None = None


class TaskSection(Section):
    """One task; `acts` are those that a gate asks for, `makes` is what is so of the engine when it is done."""

    title: Text
    after: tuple[Key, ...] = ()
    engine_has: tuple[Text, ...] = ()
    minutes: Whole = Field(ge=0, le=10_000)
    wait: WaitSection | None = None
    on_the_bench: tuple[Text, ...] = ()
    in_one_go: YesNo = False
    two_people: YesNo = False
    after_hold: tuple[Key, ...] = ()
    proves: tuple[Key, ...] = ()
    joint: Text | None = None
    shop: ShopSection | None = None
    gate: Milestone | None = None
    no_timer: YesNo = False
    due_before: Milestone | None = None
    acts: tuple[Act, ...] = ()
    makes: MadeSection | None = None
    cautions: tuple[Key, ...] = ()
    without: dict[Text, Wording] = Field(default_factory=dict)


class PhaseSection(Section):
    """A stretch of the job; its tasks are due before a milestone unless they say another."""

    phase: Text
    due_before: Milestone
    tasks: dict[Key, TaskSection] = Field(min_length=1)


class JobFile(Section):
    """The whole job, in the order of the work; `engine_has` is what an engine must have for the job to make sense."""

    gudgeon: Literal["job 1"]
    name: Text
    engine_has: tuple[Text, ...] = ()
    cautions: dict[Key, CautionSection] = Field(default_factory=dict)
    # A list: a tuple would be called too short as well whenever one of its members is refused.
    phases: list[PhaseSection] = Field(min_length=1)


class Change(Section):
    """What is otherwise of a task of the job that another is based on; what is not said stays as it is there."""

    title: Text | None = None
    after: tuple[Key, ...] | None = None
    engine_has: tuple[Text, ...] | None = None
    minutes: Whole | None = Field(default=None, ge=0, le=10_000)
    wait: WaitSection | None = None
    on_the_bench: tuple[Text, ...] | None = None
    in_one_go: YesNo | None = None
    two_people: YesNo | None = None
    after_hold: tuple[Key, ...] | None = None
    proves: tuple[Key, ...] | None = None
    due_before: Milestone | None = None
    acts: tuple[Act, ...] | None = None
    cautions: tuple[Key, ...] | None = None
    without: dict[Text, Wording] | None = None

    def of(self, task: TaskSection) -> TaskSection:
        """The task with what is otherwise."""
        said: dict[str, Any] = {name: getattr(self, name) for name in self.model_fields_set}
        return task.model_copy(update=said)


class OwnPhase(PhaseSection):
    """A stretch of its own, or tasks for one that the other job has; a new one comes behind the one that it names."""

    behind: Text | None = None


class BasedFile(Section):
    """A job that is another one with tasks left out, changed and added."""

    gudgeon: Literal["job 1"]
    name: Text
    based_on: Key
    engine_has: tuple[Text, ...] = ()
    leave_out: tuple[Key, ...] = ()
    changes: dict[Key, Change] = Field(default_factory=dict)
    cautions: dict[Key, CautionSection] = Field(default_factory=dict)
    phases: list[OwnPhase] = Field(default_factory=list)
