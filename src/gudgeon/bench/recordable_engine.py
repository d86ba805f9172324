"""What can be recorded of the engine as a whole: its state, that it was turned, acts against a gate, overrides."""

from gudgeon.bench.recordable_inputs import JOINT, WHY, Recordable, may, must
from gudgeon.book.gates import GATES

OF_THE_ENGINE = (
    Recordable(
        "engine", "engine-state", "How the engine stands",
        "how the engine stands, as you see it: only what you looked at",
        (
            must("seen", "--seen", "what you saw, and where", "What you saw, and where", "long text"),
            may("crank", "--crank", "where the pistons stand", "Where the pistons stand", "choice",
                choices=("near the top", "half-way", "moved")),
            may("cams", "--cams", "the camshafts", "The camshafts", "choice", choices=("in", "out")),
            may("belt", "--belt", "what drives the camshafts: belt, chain or gears", "The timing drive", "choice",
                choices=("on", "off")),
            may("pins", "--pins", "timing pins and locks", "Timing pins and locks", "choice", choices=("in", "out")),
            may("holder", "--holder", "a tool that holds the engine and takes torque", "A holder that takes torque",
                "choice", choices=("fitted", "off")),
            may("followers", "--followers", "hydraulic lifters", "Hydraulic lifters", "choice",
                choices=("bled down", "pumped up")),
        ),
    ),
    Recordable(
        "turned", "turned", "The engine was turned", "the engine was turned, by hand or by the starter",
        (
            must("by", "", "by what", "By what", "choice", choices=("hand", "starter")),
            must("seen", "--seen", "how far, and what was felt", "How far, and what you felt", "long text"),
        ),
    ),
    Recordable(
        "inspected", "inspected", "An act against a gate was looked into",
        "what an act against a gate has done was looked for, and what was found",
        (
            must("entry", "", "the act, by the number of its entry", "Which act"),
            may("gate", "--gate", "which gate, where the act broke several", "Which gate", "choice", choices=GATES),
            must("found", "--found", "what was looked at and found", "What you looked at, and found", "long text"),
            must("by", "--by", "who looked", "Who looked"),
        ),
    ),
    Recordable(
        "override", "override", "Something let pass by a name",
        "something open or refused, let pass by a named person who says why; it is shown for ever",
        (
            must("about", "", "what, as `gudgeon ready` names it, like `hold:walk_round`", "What"),
            must("by", "--by", "who answers for it", "Who answers for it"),
            WHY,
        ),
    ),
    Recordable(
        "witnessed", "joint-witnessed", "A second look at a joint",
        "a second look at a marked joint: by another person, or on another day",
        (
            JOINT,
            must("by", "--by", "who looked", "Who looked"),
            must("seen", "--seen", "what was seen, like `10 of 10 marks in line`", "What was seen"),
        ),
    ),
)  # fmt: skip
