"""Everything that can be recorded, in one table: the terminal makes its arguments of it, the pages their forms."""

from collections.abc import Mapping

from gudgeon.bench.errors import Unknown
from gudgeon.bench.recordable_engine import OF_THE_ENGINE
from gudgeon.bench.recordable_inputs import (
    DUE,
    ITEM,
    JOINT,
    NEW_ITEM,
    TASK,
    WHY,
    Recordable,
    may,
    must,
)
from gudgeon.bench.recordable_plan import OF_BUYING, OF_MONEY, OF_THE_PLAN
from gudgeon.bench.recordable_stops import OF_STOPS
from gudgeon.bench.recordable_waits import BY_NAME, COUNT_GROUPS, COUNTS, WAITS

GROUPS = COUNT_GROUPS
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
DOUBTS: Mapping[str, str] = {
    "noise": "noise",
    "soft": "soft",
    "angle-lost": "angle lost",
    "interrupted": "interrupted",
    "slipped": "slipped",
    "other": "other",
}
"""Kinds of doubt as they are typed, and as they stand in the book."""
HOLDS = ("nothing", "timing", "torque")
"""What a thing that is left in holds."""


def recordable(name: str) -> Recordable:
    """Something that can be recorded, by the name of its command."""
    found = next((one for one in RECORDABLES if one.name == name), None)
    if found is None:
        raise Unknown("thing that can be recorded", name, (one.name for one in RECORDABLES))
    return found


_ENGINE = (
    Recordable(
        "identity", "identity-read", "The engine code", "the engine code as read off the engine",
        (
            must("code", "", "the code, as stamped", "Code"),
            may("read_from", "--read-from", "where it was read", "Where it was read", default=""),
            may("why_not", "--why", "why this sheet serves, when the code is another one",
                 "Why this sheet serves all the same", "long text"),
        ),
    ),
    Recordable(
        "reading", "reading", "A reading", "a measured value, with its unit",
        (
            must("item", "", "the characteristic, by its key in the data sheet", "What was measured"),
            may("place", "", "where, like `1 top across`; leave out when there is only one place", "Where",
                 default=""),
            may("value", "", "the value with its unit, like `81.65 mm`", "The value", "figure"),
            may("low", "--enters", "the blade that enters, like `0.05 mm`", "The thickest that enters", "figure"),
            may("high", "--stops", "the blade that does not enter, like `0.06 mm`",
                 "The thinnest that does not", "figure"),
            may("repeats", "--repeats", "the same place read again, like `81.66 mm`, or several at once, like "
                "`81.65 81.66 81.65 mm`; may be said again", "The same place, read again", "several"),
            may("instrument", "--gauge", "the gauge, by its key in the kit", "Gauge", default=""),
            may("part_temperature", "--part-temp", "how warm the part is, like `24 °C`", "How warm is the part?",
                "figure"),
            may("gauge_temperature", "--gauge-temp", "how warm the gauge is, like `21 °C` or `same as part`",
                "How warm is the gauge? Or: same as part", "figure"),
            may("condition", "--as-left", "measured after the work (else: as found)", "As left", "yes",
                 default="as found", value_when_yes="as left"),
            may("note", "--note", "anything worth keeping", "Note", default=""),
            may("sure", "--sure", "keep it although it is far from what the sheet says",
                 "It is what the gauge says: keep it although it is far from what the sheet says", "yes",
                 default=False),
        ),
    ),
    Recordable(
        "pull", "pull", "A pull", "one action on one bolt; where none is named, the next one of the list",
        (
            JOINT,
            must("outcome", "", "what happened", "What happened", "choice", choices=tuple(OUTCOMES)),
            may("bolt", "--bolt", "the bolt, when it is not the next one", "Which one"),
            may("stage", "--stage", "the stage, when it is not the next one", "Stage", "whole"),
            may("round", "--pass", "which pass of a repeated stage", "Pass", "whole"),
            may("angle_deg", "--angle", "degrees reached, when it stopped on the way",
                 "How far did it turn, in degrees?"),
            may("tool", "--tool", "the wrench, when it is not the one of the list", "Tool"),
            may("setting", "--setting", "what its scale was seen to show; said once a stage, "
                 "again after a pause or a change of wrench", "What does its scale show?", "figure"),
            may("doubt", "--doubt", "of a doubtful one: what kind of doubt", "What is doubtful about it?", "choice",
                 choices=tuple(DOUBTS)),
            may("why", "--why", "what was odd about it", "What else is doubtful about it?", "long text", default=""),
        ),
    ),
    Recordable(
        "loosened", "bolt-loosened", "A bolt loosened",
        "one bolt loosened by the loosening program; where none is named, the next one of its list",
        (
            JOINT,
            must("outcome", "", "what happened", "What happened", "choice", choices=("done", "doubtful")),
            may("bolt", "--bolt", "the bolt, when it is not the next one", "Which one"),
            may("stage", "--stage", "the stage, when it is not the next one", "Stage", "whole"),
            may("round", "--pass", "which pass of a repeated stage", "Pass", "whole"),
            may("tool", "--tool", "the tool, when it is not the one of the list", "Tool"),
            may("why", "--why", "what was odd about it", "What is doubtful about it?", "long text", default=""),
        ),
    ),
    Recordable(
        "marked", "joint-marked", "A joint marked", "a joint marked as finished, bolt by bolt",
        (JOINT, must("how", "--how", "the marks as seen on every bolt: line, dots, punch", "How it is marked")),
    ),
    Recordable(
        "disturbed", "joint-disturbed", "A joint slackened", "a joint slackened or taken apart again: it starts anew",
        (JOINT, WHY),
    ),
)  # fmt: skip

_LISTS = (
    Recordable(
        "provisional", "provisional-made", "Something left loose", "something left loose on purpose",
        (
            NEW_ITEM,
            must("name", "--name", "what it is", "What it is"),
            may("joint", "--joint", "the joint it belongs to", "Joint it belongs to"),
            WHY,
            must("due_task", "--due", "the work at which it becomes final", "The work at which it becomes final"),
            DUE,
        ),
    ),
    Recordable(
        "cleared", "provisional-cleared", "Something made final", "something provisional made final",
        (ITEM, must("how", "--how", "how", "How it was made final")),
    ),
    Recordable(
        "left-in", "left-in", "Something put in for a while", "a temporary thing put in: pin, lock, rag",
        (
            NEW_ITEM,
            must("name", "--name", "what it is", "What it is"),
            must("where", "--where", "where it is", "Where it is"),
            may("holds", "--holds", "timing: a pin or lock that holds the timing and takes no torque; torque: a holder "
                "that takes torque (else by its name)", "Does it hold the engine?", "choice", default="",
                choices=HOLDS),
            DUE,
        ),
    ),
    Recordable(
        "taken-out", "taken-out", "Something taken out", "a temporary thing taken out again", (ITEM,),
    ),
    Recordable(
        "plugged", "plugged", "An opening closed", "an opening closed",
        (
            NEW_ITEM,
            must("name", "--name", "which opening", "Which opening, and with what"),
            must("where", "--where", "where it is", "Where it is"),
            DUE,
        ),
    ),
    Recordable(
        "opened", "opened", "An opening opened again", "a closed opening opened again", (ITEM,),
    ),
    Recordable(
        "off", "taken-off", "Something taken off", "something taken off that has to go back",
        (
            must("group", "", "what kind of thing", "What kind of thing", "choice", choices=GROUPS),
            NEW_ITEM,
            must("name", "--name", "what it is", "What it is"),
            may("place", "--place", "its place number", "Its place number"),
            may("count", "--count", "how many, where several lie in one bag (else one)", "How many of it", "whole"),
            may("bag", "--bag", "the bag they lie in, like B3", "The bag they lie in"),
            DUE,
        ),
    ),
    Recordable(
        "refitted", "refitted", "Something back in its place", "something back in its place",
        (
            ITEM,
            may("place", "--place", "the place number read there", "The place number read there"),
            may("count", "--count", "how many of several went back (else all that were off)", "How many went back",
                "whole"),
        ),
    ),
)  # fmt: skip

_WORK = (
    Recordable(
        "hold", "hold-proved", "A hold proved", "a hold proved with the value seen, or with a photo of it",
        (
            must("hold", "", "the hold, as `gudgeon ready` names it", "What was looked at"),
            may("value", "", "the value seen, never a bare `ok`; a photo may stand for it", "The value seen",
                "long text"),
            may("photo", "--photo", "a photo that proves it", "A photo that proves it", "photo"),
        ),
    ),
    Recordable(
        "void", "hold-voided", "A hold that no longer stands", "a hold that no longer stands",
        (must("hold", "", "the hold", "Which one"), WHY),
    ),
    Recordable(
        "task-started", "task-started", "A task begun", "a task of the job begun, or taken up again", (TASK,),
    ),
    Recordable(
        "task-paused", "task-paused", "A task left standing", "a task left standing, with the reason",
        (TASK, WHY),
    ),
    Recordable(
        "task-done", "task-done", "A task finished", "a task of the job is finished",
        (
            TASK,
            may("minutes", "--minutes", "minutes of hands, where you looked at the clock", "Minutes of hands",
                 "whole"),
            may("note", "--note", "anything worth keeping", "Note", default=""),
        ),
    ),
    Recordable(
        "photo", "photo", "A photo", "a photo kept beside the book, with what it shows",
        (
            must("file", "", "the picture: JPEG, PNG or WebP of at most 30 MB", "Photo", "photo"),
            must("caption", "--caption", "what it shows, in a few words", "What it shows, in a few words"),
            may("about", "--about", "what it is about, like `joint:head`, or words of a name; may be said again",
                "What it is about", "several"),
        ),
    ),
    Recordable(
        "note", "note", "A note", "anything else worth keeping", (must("text", "", "the note", "Note", "long text"),),
    ),
)  # fmt: skip

_PARTS = (
    Recordable(
        "part", "part-disposition", "What becomes of a part", "what becomes of a part",
        (
            must("part", "", "the part", "Part"),
            must("decision", "", "what becomes of it", "What becomes of it", "choice", choices=DECISIONS),
            WHY,
        ),
    ),
    Recordable(
        "received", "part-received", "A part that came", "a part that came, compared with the old one or not",
        (
            must("part", "", "the part", "Part"),
            may("compared", "--compared", "laid against the old one", "Laid against the old one", "yes",
                 default=False),
            may("note", "--note", "what was seen", "What was seen", default=""),
        ),
    ),
    Recordable(
        "shop-out", "shop-out", "A part to the machine shop", "a part given to the machine shop",
        (
            must("part", "", "the part", "Part"),
            must("shop", "--shop", "which shop", "Which shop"),
            must("ordered", "--ordered", "what was ordered", "What was ordered", "long text"),
            may("most_off", "--most-off", "the most that may be cut off, like `0.10 mm`",
                 "The most that may be cut off", "figure"),
        ),
    ),
    Recordable(
        "shop-back", "shop-back", "A part back from the shop", "a part back from the machine shop",
        (
            must("part", "", "the part", "Part"),
            must("found", "--found", "what was found", "What was found", "long text"),
        ),
    ),
    Recordable(
        "accepted", "accepted", "Something accepted outside its limit",
        "something outside its limit accepted by a named person",
        (
            must("what", "", "a characteristic with its place, like `bore 1 top across`, or a joint",
                 "What is accepted"),
            must("by", "--by", "who accepts it", "Who accepts it"),
            WHY,
        ),
    ),
)  # fmt: skip

RECORDABLES: tuple[Recordable, ...] = (
    *_ENGINE, *OF_THE_ENGINE, *_LISTS, *COUNTS, *WAITS, *_WORK, *OF_STOPS, *_PARTS, *BY_NAME, *OF_THE_PLAN, *OF_BUYING,
    *OF_MONEY,
)  # fmt: skip
