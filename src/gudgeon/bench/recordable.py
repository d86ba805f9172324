"""Everything that can be recorded, in one table: the terminal makes its arguments of it, the pages their forms."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from gudgeon.bench.errors import Unknown

MILESTONES = ("crank", "fire", "drive", "handover")
GROUPS = ("connector", "hose", "strap", "bracket", "bolt", "cover", "part")
DECISIONS = ("reuse", "rework", "renew", "accept")
OUTCOMES: Mapping[str, str] = {
    "clicked": "clicked while turning",
    "at-once": "clicked at once",
    "angle-reached": "angle reached",
    "stopped": "stopped at",
    "done": "done",
    "doubtful": "doubtful",
}
"""Outcomes of a pull as they are typed, and as they stand in the book."""
DOUBTS = ("it made a noise", "it turned softly", "the tool slipped", "I lost count")
"""What usually makes a pull doubtful, in words to choose from."""

Shape = Literal["text", "long text", "whole", "yes", "choice", "figure"]


@dataclass(frozen=True, slots=True)
class Input:
    """One thing that is said of an entry: its field, how a terminal and how a page asks for it.

    Without a flag it is given by its place. `yes` is a tick: ticked it says `value_when_yes`, else the default.
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


@dataclass(frozen=True, slots=True)
class Recordable:
    """Something that can be recorded: its command, the kind of its entry, and what is said of it."""

    name: str
    kind: str
    title: str
    help: str
    inputs: tuple[Input, ...]


def recordable(name: str) -> Recordable:
    """Something that can be recorded, by the name of its command."""
    found = next((one for one in RECORDABLES if one.name == name), None)
    if found is None:
        raise Unknown("thing that can be recorded", name, (one.name for one in RECORDABLES))
    return found


def _must(field: str, flag: str, text: str, label: str, shape: Shape = "text", **more: Any) -> Input:
    return Input(field, flag, text, label, shape, True, **more)


def _may(field: str, flag: str, text: str, label: str, shape: Shape = "text", **more: Any) -> Input:
    return Input(field, flag, text, label, shape, False, **more)


_ITEM = _must("item", "", "its short name or number on the list", "Which one")
_NEW_ITEM = _must("item", "", "a short name for it", "Short name")
_JOINT = _must("joint", "", "the joint, by its key in the data sheet", "Joint")
_TASK = _must("task", "", "the task, by its title or words of it; `gudgeon now --all` names all", "Task")
_WHY = _must("why", "--why", "the reason", "Why", "long text")
_DUE = _may(
    "due_before", "--before", "due before: crank, fire, drive or handover", "Due", "choice",
    default="crank", choices=MILESTONES,
)  # fmt: skip

_ENGINE = (
    Recordable(
        "identity", "identity-read", "The engine code", "the engine code as read off the engine",
        (
            _must("code", "", "the code, as stamped", "Code"),
            _may("read_from", "--read-from", "where it was read", "Where it was read", default=""),
            _may("why_not", "--why", "why this sheet serves, when the code is another one",
                 "Why this sheet serves all the same", "long text"),
        ),
    ),
    Recordable(
        "reading", "reading", "A reading", "a measured value, with its unit",
        (
            _must("item", "", "the characteristic, by its key in the data sheet", "What was measured"),
            _may("place", "", "where, like `1 top across`; leave out when there is only one place", "Where",
                 default=""),
            _may("value", "", "the value with its unit, like `81.65 mm`", "The value", "figure"),
            _may("low", "--enters", "the blade that enters, like `0.05 mm`", "The thickest that enters", "figure"),
            _may("high", "--stops", "the blade that does not enter, like `0.06 mm`",
                 "The thinnest that does not", "figure"),
            _may("instrument", "--gauge", "the gauge, by its key in the kit", "Gauge", default=""),
            _may("condition", "--as-left", "measured after the work (else: as found)", "As left", "yes",
                 default="as found", value_when_yes="as left"),
            _may("note", "--note", "anything worth keeping", "Note", default=""),
            _may("sure", "--sure", "keep it although it is far from what the sheet says",
                 "It is what the gauge says: keep it although it is far from what the sheet says", "yes",
                 default=False),
        ),
    ),
    Recordable(
        "pull", "pull", "A pull", "one action on one bolt; where none is named, the next one of the list",
        (
            _JOINT,
            _must("outcome", "", "what happened", "What happened", "choice", choices=tuple(OUTCOMES)),
            _may("bolt", "--bolt", "the bolt, when it is not the next one", "Which one"),
            _may("stage", "--stage", "the stage, when it is not the next one", "Stage", "whole"),
            _may("round", "--pass", "which pass of a repeated stage", "Pass", "whole"),
            _may("angle_deg", "--angle", "degrees reached, when it stopped on the way",
                 "How far did it turn, in degrees?"),
            _may("tool", "--tool", "the wrench, when it is not the one of the list", "Tool"),
            _may("setting", "--setting", "what its scale was seen to show; said once a stage, "
                 "again after a pause or a change of wrench", "What does its scale show?", "figure"),
            _may("why", "--why", "what was odd about it", "What is doubtful about it?", "long text", default=""),
        ),
    ),
    Recordable(
        "loosened", "bolt-loosened", "A bolt loosened",
        "one bolt loosened by the loosening program; where none is named, the next one of its list",
        (
            _JOINT,
            _must("outcome", "", "what happened", "What happened", "choice", choices=("done", "doubtful")),
            _may("bolt", "--bolt", "the bolt, when it is not the next one", "Which one"),
            _may("stage", "--stage", "the stage, when it is not the next one", "Stage", "whole"),
            _may("round", "--pass", "which pass of a repeated stage", "Pass", "whole"),
            _may("tool", "--tool", "the tool, when it is not the one of the list", "Tool"),
            _may("why", "--why", "what was odd about it", "What is doubtful about it?", "long text", default=""),
        ),
    ),
    Recordable(
        "marked", "joint-marked", "A joint marked", "a joint marked as finished, bolt by bolt",
        (_JOINT, _may("how", "--how", "how it is marked", "How it is marked", default="paint line on every bolt")),
    ),
    Recordable(
        "disturbed", "joint-disturbed", "A joint slackened", "a joint slackened or taken apart again: it starts anew",
        (_JOINT, _WHY),
    ),
)  # fmt: skip

_LISTS = (
    Recordable(
        "provisional", "provisional-made", "Something left loose", "something left loose on purpose",
        (
            _NEW_ITEM,
            _must("name", "--name", "what it is", "What it is"),
            _may("joint", "--joint", "the joint it belongs to", "Joint it belongs to"),
            _WHY,
            _must("due_task", "--due", "the work at which it becomes final", "The work at which it becomes final"),
            _DUE,
        ),
    ),
    Recordable(
        "cleared", "provisional-cleared", "Something made final", "something provisional made final",
        (_ITEM, _must("how", "--how", "how", "How it was made final")),
    ),
    Recordable(
        "left-in", "left-in", "Something put in for a while", "a temporary thing put in: pin, lock, rag",
        (
            _NEW_ITEM,
            _must("name", "--name", "what it is", "What it is"),
            _must("where", "--where", "where it is", "Where it is"),
            _DUE,
        ),
    ),
    Recordable(
        "taken-out", "taken-out", "Something taken out", "a temporary thing taken out again", (_ITEM,),
    ),
    Recordable(
        "plugged", "plugged", "An opening closed", "an opening closed",
        (
            _NEW_ITEM,
            _must("name", "--name", "which opening", "Which opening, and with what"),
            _must("where", "--where", "where it is", "Where it is"),
            _DUE,
        ),
    ),
    Recordable(
        "opened", "opened", "An opening opened again", "a closed opening opened again", (_ITEM,),
    ),
    Recordable(
        "off", "taken-off", "Something taken off", "something taken off that has to go back",
        (
            _must("group", "", "what kind of thing", "What kind of thing", "choice", choices=GROUPS),
            _NEW_ITEM,
            _must("name", "--name", "what it is", "What it is"),
            _may("place", "--place", "its place number", "Its place number"),
            _DUE,
        ),
    ),
    Recordable(
        "refitted", "refitted", "Something back in its place", "something back in its place",
        (_ITEM, _may("place", "--place", "the place number read there", "The place number read there")),
    ),
)  # fmt: skip

_WORK = (
    Recordable(
        "hold", "hold-proved", "A hold proved", "a hold proved with the value seen",
        (
            _must("hold", "", "the hold, as `gudgeon ready` names it", "What was looked at"),
            _must("value", "", "the value seen, never a bare `ok`", "The value seen", "long text"),
        ),
    ),
    Recordable(
        "void", "hold-voided", "A hold that no longer stands", "a hold that no longer stands",
        (_must("hold", "", "the hold", "Which one"), _WHY),
    ),
    Recordable(
        "timer", "timer-started", "A wait begun", "a wait that runs: sealant, cool-down, bleed-down",
        (
            _must("timer", "", "its short name", "Short name"),
            _must("minutes", "", "how long, in minutes", "How long, in minutes", "whole"),
            _must("name", "--name", "what waits", "What waits"),
            _must("task", "--task", "the work that has to wait", "The work that has to wait"),
            _DUE,
            _may("why", "--why", "what the time rests on", "What the time rests on", default=""),
        ),
    ),
    Recordable(
        "timer-ended", "timer-ended", "A wait ended", "a wait ended before its time",
        (
            _must("timer", "", "its short name", "Which wait"),
            _must("how", "--how", "why it is over", "Why it is over"),
        ),
    ),
    Recordable(
        "task-started", "task-started", "A task begun", "a task of the job begun, or taken up again", (_TASK,),
    ),
    Recordable(
        "task-paused", "task-paused", "A task left standing", "a task left standing, with the reason",
        (_TASK, _WHY),
    ),
    Recordable(
        "task-done", "task-done", "A task finished", "a task of the job is finished",
        (
            _TASK,
            _may("minutes", "--minutes", "minutes of hands, where you looked at the clock", "Minutes of hands",
                 "whole"),
            _may("note", "--note", "anything worth keeping", "Note", default=""),
        ),
    ),
    Recordable(
        "pause", "paused", "A stop", "a stop: what is in the hand, and what comes next",
        (
            _must("hand", "--hand", "what is in the hand, how it is set", "What is in your hand, and how it is set"),
            _must("next_action", "--next", "the next action", "What comes next"),
        ),
    ),
    Recordable(
        "note", "note", "A note", "anything else worth keeping", (_must("text", "", "the note", "Note", "long text"),),
    ),
)  # fmt: skip

_PARTS = (
    Recordable(
        "part", "part-disposition", "What becomes of a part", "what becomes of a part",
        (
            _must("part", "", "the part", "Part"),
            _must("decision", "", "what becomes of it", "What becomes of it", "choice", choices=DECISIONS),
            _WHY,
        ),
    ),
    Recordable(
        "received", "part-received", "A part that came", "a part that came, compared with the old one or not",
        (
            _must("part", "", "the part", "Part"),
            _may("compared", "--compared", "laid against the old one", "Laid against the old one", "yes",
                 default=False),
            _may("note", "--note", "what was seen", "What was seen", default=""),
        ),
    ),
    Recordable(
        "shop-out", "shop-out", "A part to the machine shop", "a part given to the machine shop",
        (
            _must("part", "", "the part", "Part"),
            _must("shop", "--shop", "which shop", "Which shop"),
            _must("ordered", "--ordered", "what was ordered", "What was ordered", "long text"),
            _may("most_off", "--most-off", "the most that may be cut off, like `0.10 mm`",
                 "The most that may be cut off", "figure"),
        ),
    ),
    Recordable(
        "shop-back", "shop-back", "A part back from the shop", "a part back from the machine shop",
        (
            _must("part", "", "the part", "Part"),
            _must("found", "--found", "what was found", "What was found", "long text"),
        ),
    ),
    Recordable(
        "accepted", "accepted", "Something accepted outside its limit",
        "something outside its limit accepted by a named person",
        (
            _must("what", "", "what is accepted", "What is accepted"),
            _must("by", "--by", "who accepts it", "Who accepts it"),
            _WHY,
        ),
    ),
)  # fmt: skip

RECORDABLES: tuple[Recordable, ...] = (*_ENGINE, *_LISTS, *_WORK, *_PARTS)
