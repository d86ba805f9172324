"""What can be recorded of waits, beads of sealant, distances, counts, money and signatures."""

from gudgeon.bench.recordable_inputs import JOINT, MILESTONES, WHY, Recordable, may, must

TIMER_KINDS = (
    "cool-down", "drain", "open time", "cure", "bleed-down", "battery", "cold morning", "recall", "other",
)  # fmt: skip
COUNT_GROUPS = ("connector", "hose", "strap", "bracket", "bolt", "cover", "part")

WAITS = (
    Recordable(
        "timer", "timer-started", "A wait begun",
        "a wait that runs: cool-down, drain, bleed-down, battery, a cold morning, a recall by distance",
        (
            must("timer", "", "its short name", "Short name"),
            may("minutes", "", "how long, in minutes; left out where the sheet, the morning or the distance says it",
                "How long, in minutes", "whole"),
            must("name", "--name", "what waits", "What waits"),
            must("task", "--task", "the work that has to wait, by its title or words of it",
                 "The work that has to wait"),
            may("wait", "--kind", "what kind of wait", "What kind of wait", "choice", default="other",
                choices=TIMER_KINDS),
            may("temperature", "--temperature", "for a bleed-down: the temperature, like `12 °C`",
                "For a bleed-down: the temperature", "figure"),
            may("distance", "--distance", "for a recall: how far from now, like `1000 km`",
                "For a recall: how far from now", "figure"),
            may("odometer", "--odometer", "what the odometer shows now, like `84120 km` (else the last in the book)",
                "What the odometer shows now", "figure"),
            may("joint", "--joint", "the joint, for an open time or a cure by hand", "Joint it belongs to"),
            may("due_before", "--before", "due before: crank, fire, drive, handover, or recall, which stops nothing",
                "Due", "choice", choices=(*MILESTONES, "recall")),
            may("why", "--why", "what the time rests on", "What the time rests on", default=""),
        ),
    ),
    Recordable(
        "sealant", "sealant-laid", "A bead of sealant laid",
        "a bead of sealant laid: be together before its open time ends, fill after its cure, both by the sheet",
        (
            must("sealant", "", "the sealant, by its key in the data sheet", "Sealant"),
            must("joint", "--joint", "the joint it seals, by its key in the data sheet", "Joint it seals"),
            may("minutes_ago", "--ago", "laid so many minutes ago (else now)", "Laid how many minutes ago", "whole"),
            may("open", "--open", "an open time by hand, like `10 min`, with the reason", "An open time by hand",
                "figure"),
            may("cure", "--cure", "a cure by hand, like `24 h`, with the reason", "A cure by hand", "figure"),
            may("why", "--why", "what a time by hand rests on", "What a time by hand rests on", default=""),
            may("task", "--task", "the work that has to wait (else the look at every sealed joint)",
                "The work that has to wait"),
            may("due_before", "--before", "due before: crank, fire, drive or handover", "Due", "choice",
                default="crank", choices=MILESTONES),
        ),
    ),
    Recordable(
        "timer-ended", "timer-ended", "A wait ended",
        "a wait ended before its time, or what was due done",
        (
            must("timer", "", "its short name", "Which wait"),
            must("how", "--how", "why it is over", "Why it is over"),
        ),
    ),
    Recordable(
        "odometer", "odometer-read", "The odometer", "what the odometer shows, like `84 120 km`",
        (must("value", "", "what it shows, with its unit", "What it shows, with its unit", "figure"),),
    ),
    Recordable(
        "tightened-again", "tightened-again", "A joint tightened again",
        "a finished joint tightened again, where its sheet asks for it after the first heat",
        (JOINT, must("seen", "", "what was seen, and with which wrench", "What was seen, and with which wrench",
                     "long text")),
    ),
)  # fmt: skip

COUNTS = (
    Recordable(
        "counted", "counted", "So many counted", "how many of a kind were counted, as they came off or went back",
        (
            must("group", "", "what kind of thing", "What kind of thing", "choice", choices=COUNT_GROUPS),
            must("when", "", "off: as they came off; back: as they went back", "When they were counted", "choice",
                 choices=("off", "back")),
            must("count", "", "how many", "How many", "whole"),
            may("note", "--note", "anything worth keeping", "Note", default=""),
        ),
    ),
    Recordable(
        "explained", "explained", "A piece too few or too many explained",
        "one piece that was counted back too few or too many: where it is, or whence it came",
        (
            must("group", "", "what kind of thing", "What kind of thing", "choice", choices=COUNT_GROUPS),
            must("way", "", "missing: one too few; over: one too many", "Too few or too many", "choice",
                 choices=("missing", "over")),
            must("what", "", "which piece", "Which piece"),
            WHY,
        ),
    ),
)  # fmt: skip

BY_NAME = (
    Recordable(
        "money", "money", "Money spent or got back", "money spent on the job, or got back",
        (
            must("what", "", "for what", "For what"),
            must("amount", "", "how much, like `42.50`", "How much", "figure"),
            must("currency", "", "its currency in three letters, like USD", "Currency, in three letters"),
            may("way", "--way", "which way it went", "Which way it went", "choice", default="spent",
                choices=("spent", "got back")),
            may("part", "--part", "the part it was for", "The part it was for"),
            may("to", "--to", "to whom, or from whom", "To whom, or from whom", default=""),
        ),
    ),
    Recordable(
        "signed-off", "signed-off", "A signature", "a named person stands for the engine as it is, before a milestone",
        (
            must("milestone", "", "before which milestone", "Before which milestone", "choice", choices=MILESTONES),
            must("by", "--by", "who signs", "Who signs"),
            must("words", "--words", "what is signed, in words", "What is signed, in words", "long text"),
        ),
    ),
)  # fmt: skip
