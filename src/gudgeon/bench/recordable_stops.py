"""What can be recorded of a stop, and of what was in doubt after it."""

from gudgeon.bench.recordable_inputs import JOINT, Recordable, may, must

OF_STOPS = (
    Recordable(
        "pause", "paused", "A stop", "a stop: what is in the hand, and what comes next",
        (
            must("hand", "--hand", "what is in the hand, how it is set", "What is in your hand, and how it is set"),
            must("next_action", "--next", "the next action", "What comes next"),
            may("screen", "--screen", "the command to go on with (else the card of the joint in hand)",
                "The page to go on with", default=""),
        ),
    ),
    Recordable(
        "looked", "looked", "A look at the last pull",
        "after a stop: the last recorded pull was looked at, before the next one",
        (
            may("entry", "", "the entry, by its number (else the pull that waits to be looked at)",
                "Which entry, by its number", default=""),
            must("seen", "--seen", "what you saw, like `stroke at 3 o'clock`",
                 "What you saw, like where its mark stands"),
            must("as_recorded", "--as-recorded", "whether it is as it was recorded", "Is it as it was recorded?",
                 "choice", choices=("yes", "no")),
        ),
    ),
    Recordable(
        "new-bolt", "part-disposition", "A new bolt", "a new bolt is in hand for one that has to be renewed",
        (
            JOINT,
            must("bolt", "", "the bolt, as the sheet numbers it, or `all`", "Which one"),
            must("why", "--why", "what it is, like `from the bag, class 10.9`", "What it is", "long text"),
        ),
    ),
)  # fmt: skip
