"""What can be recorded of the plan, of parts to be had, and of money that is agreed."""

from gudgeon.bench.recordable_inputs import DUE, TASK, Recordable, may, must

_PART = must("part", "", "the part, by its name or its key in the data sheet", "Part")
_AMOUNT = may("amount", "--amount", "how much, like `42.50`", "How much", "figure")
_CURRENCY = must("currency", "", "its currency in three letters, like USD", "Currency, in three letters")
_ITS_CURRENCY = may(
    "currency", "--currency", "its currency in three letters, like USD", "Currency, in three letters"
)
_BASIS = must("basis", "--basis", "how you know, like `odometer and service book`", "How you know")

OF_THE_PLAN = (
    Recordable(
        "job", "job-chosen", "How far the job goes", "which of the jobs this is: how far it goes",
        (
            must("job", "", "the job, by its name", "Job"),
            may("why", "--why", "the reason", "Why", "long text", default=""),
        ),
    ),
    Recordable(
        "add-task", "task-added", "A task of your own", "a task of your own, with what comes before it",
        (
            must("title", "", "what is to be done", "What is to be done"),
            must("minutes", "--minutes", "minutes of hands", "Minutes of hands", "whole"),
            may("after", "--after", "a task that comes before it, by words of its title; may be said again",
                "Comes after", "several"),
            may("before", "--then", "a task that waits for it; may be said again", "What waits for it", "several"),
            may("two_people", "--two-people", "a second person is needed", "A second person is needed", "yes",
                default=False),
            may("needs", "--needs", "what has to lie on the bench; may be said again", "What has to lie on the bench",
                "several"),
            DUE,
            may("why", "--why", "the reason", "Why", "long text", default=""),
        ),
    ),
    Recordable(
        "drop-task", "task-dropped", "A task that you leave out", "a task that this job does without",
        (TASK, must("why", "--why", "the reason", "Why", "long text")),
    ),
    Recordable(
        "task-minutes", "task-minutes", "How long a task takes you", "how long a task takes you, as a rule and at most",
        (
            TASK,
            must("minutes", "--minutes", "minutes of hands as a rule", "Minutes as a rule", "whole"),
            may("low", "--at-best", "minutes when all goes well", "Minutes when all goes well", "whole"),
            may("high", "--at-worst", "minutes when it does not", "Minutes when it does not", "whole"),
            may("why", "--why", "the reason", "Why", "long text", default=""),
        ),
    ),
    Recordable(
        "task-order", "task-order", "An order of your own", "a task that you want to begin only after others",
        (
            TASK,
            may("after", "--after", "a task that comes before it; may be said again", "Comes after", "several"),
            may("why", "--why", "the reason", "Why", "long text", default=""),
        ),
    ),
    Recordable(
        "day", "day-planned", "Another day than usual", "a day with other hours than in other weeks",
        (
            must("day", "", "the day, like `2026-03-07`", "Day"),
            may("hours", "--hours", "from when to when, like `19:00-21:30`; may be said again; a day off without it",
                "From when to when; empty: a day off", "several"),
            may("whose", "--whose", "whose day it is", "Whose day it is", "choice", default="own",
                choices=("own", "second person")),
            may("why", "--why", "the reason", "Why", default=""),
        ),
    ),
    Recordable(
        "promised", "promised", "A promise", "the day on which the shop or a supplier promised something",
        (
            must("what", "", "what is promised: a part", "What is promised"),
            must("of", "", "who promised it", "Who promised it", "choice", choices=("shop", "delivery")),
            must("on", "--on", "the day, like `2026-03-07`", "On which day"),
            may("earliest", "--earliest", "the earliest day that is likely", "Earliest likely day"),
            may("latest", "--latest", "the latest day that is likely", "Latest likely day"),
            may("by", "--by", "who said so", "Who said so", default=""),
        ),
    ),
)  # fmt: skip

OF_BUYING = (
    Recordable(
        "ordered", "part-ordered", "A part ordered", "a part ordered, of whom and for when",
        (
            _PART,
            must("supplier", "--supplier", "of whom", "Of whom"),
            may("quantity", "--quantity", "how many", "How many", "whole"),
            may("expected", "--expected", "the day on which it should come, like `2026-03-07`", "Expected on"),
            _AMOUNT,
            _ITS_CURRENCY,
            may("note", "--note", "anything worth keeping, like the article number", "Note", default=""),
        ),
    ),
    Recordable(
        "price", "price-seen", "A price", "what a supplier asks for a part",
        (
            _PART,
            must("supplier", "", "the supplier, by the name or key in the kit", "Supplier"),
            must("price", "", "the price, like `38.50`", "Price", "figure"),
            _CURRENCY,
            may("pack", "--pack", "how many are in a pack, where it is more than one", "How many in a pack", "whole"),
            may("days", "--days", "how many days until it is there", "Days until it is there", "whole"),
            may("article", "--article", "its number or make", "Article number or make", default=""),
        ),
    ),
    Recordable(
        "age", "part-age", "How old a part is", "how long a part has been in the engine",
        (
            _PART,
            may("distance", "--distance", "how far it has run, like `84000`", "How far it has run", "figure"),
            may("unit", "--unit", "its unit", "Unit", "choice", choices=("km", "mi")),
            may("months", "--months", "how many months it is old", "How many months old", "whole"),
            _BASIS,
        ),
    ),
    Recordable(
        "life", "part-life", "How parts like it wear out", "how parts like this one wear out, and what a failure costs",
        (
            _PART,
            must("shape", "--shape", "shape of the Weibull distribution: above 1 where age wears it out",
                 "Shape (above 1 where age wears it out)", "figure"),
            must("life", "--life", "characteristic life: by then 63 of 100 have failed",
                 "Life by which 63 of 100 have failed", "figure"),
            must("unit", "--unit", "unit of its life", "Unit of its life", "choice", choices=("km", "mi", "months")),
            must("until", "--until", "how much it will run before the engine is open again, in that unit",
                 "How much more until the engine is open again", "figure"),
            must("cost", "--cost", "what a failure costs: opening again, and what else it breaks",
                 "What a failure costs", "figure"),
            must("currency", "--currency", "its currency in three letters, like USD", "Currency, in three letters"),
            _BASIS,
        ),
    ),
)  # fmt: skip

_POINTS = ("start", "diagnosis", "strip", "measuring")

OF_MONEY = (
    Recordable(
        "cost", "cost-expected", "What something will cost", "what something will cost, and how likely it comes at all",
        (
            must("what", "", "for what", "For what"),
            must("low", "--low", "at best, like `80`; of the machine shop in hours too, like `2 h`", "At best",
                "figure"),
            must("likely", "--likely", "as a rule", "As a rule", "figure"),
            must("high", "--high", "at worst", "At worst", "figure"),
            must("currency", "--currency", "its currency in three letters, like USD", "Currency, in three letters"),
            may("of", "--of", "what kind of cost", "What kind of cost", "choice", default="other",
                choices=("shop", "part", "tool", "supplies", "other")),
            may("chance", "--chance", "how likely it comes at all, like `0.3`; certain without it",
                "How likely, like 0.3; empty: certain", "figure"),
            may("due", "--known-after", "after which stop point it was known", "Known after", "choice",
                default="start", choices=_POINTS),
            may("basis", "--basis", "how you know", "How you know", default=""),
        ),
    ),
    Recordable(
        "estimate", "estimate-told", "An estimate told to the owner", "the range that was told to the owner",
        (
            must("at", "", "at which stop point", "At which point", "choice", choices=_POINTS),
            must("low", "--low", "in one case of ten it is less", "In one case of ten less than", "figure"),
            must("middle", "--middle", "as often more as less", "As often more as less than", "figure"),
            must("high", "--high", "in one case of ten it is more", "In one case of ten more than", "figure"),
            must("currency", "--currency", "its currency in three letters, like USD", "Currency, in three letters"),
            must("to", "--to", "to whom it was told", "Told to"),
            may("note", "--note", "anything worth keeping", "Note", default=""),
        ),
    ),
    Recordable(
        "ceiling", "ceiling-agreed", "The most that it may cost", "the most that the job may cost, as agreed",
        (
            must("amount", "", "how much", "How much", "figure"),
            _CURRENCY,
            must("by", "--by", "who agreed to it", "Who agreed to it"),
            may("until", "--until", "the point at which it is spoken of again", "Spoken of again after", "choice",
                default="closing", choices=(*_POINTS, "closing")),
            may("note", "--note", "anything worth keeping", "Note", default=""),
        ),
    ),
    Recordable(
        "approval", "approval", "A yes or a no", "a named person's yes or no to something that was found",
        (
            must("what", "", "to what", "To what"),
            must("answer", "", "yes or no", "Yes or no", "choice", choices=("yes", "no")),
            must("by", "--by", "who says so", "Who says so"),
            _AMOUNT,
            _ITS_CURRENCY,
            may("note", "--note", "anything worth keeping", "Note", default=""),
        ),
    ),
)  # fmt: skip
