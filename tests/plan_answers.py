"""Answers to “When will it run?” made by hand, so that pages and drawings are tried without planning.

The days are days of a calendar: March 2, 2026 is a Monday.
"""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from typing import Any

from gudgeon.bench.answer import Heading
from gudgeon.bench.planning.answer import (
    Bar,
    Chance,
    Distribution,
    Doable,
    Done,
    Driver,
    First,
    Gap,
    InHand,
    Late,
    Mark,
    Meanwhile,
    PhaseBar,
    PlanAnswer,
    Setback,
    Share,
    Slot,
    SlotTask,
    Span,
    SpanKind,
    Taken,
    Week,
)

PHASES = (
    "Find out", "Get ready", "Take apart", "Clean", "Measure", "Decide and order", "Machine shop", "Check what came",
    "Build the top", "Head on", "Timing", "Put back", "Fill", "First start", "Prove it", "Hand over",
)  # fmt: skip
ASKED = "2026-03-04T12:00:00"


def at(text: str) -> datetime:
    """An hour of these days, like `03-05 19:00`, where the machine is."""
    return datetime.fromisoformat(f"2026-{text}").astimezone()


def span(begins: str, ends: str, *, kind: SpanKind = "work", words: str = "") -> Span:
    """A stretch of a bar."""
    return Span(kind, at(begins), at(ends), words)


def phase(name: str, *spans: Span) -> PhaseBar:
    """A phase with the minutes of its hands."""
    minutes = sum(round((one.ends - one.begins).total_seconds() / 60) for one in spans if one.kind == "work")
    return PhaseBar(name, spans, 1, 0, minutes, "")


def slot(begins: str, ends: str, *tasks: SlotTask, **more: Any) -> Slot:
    """A time at the engine."""
    first, last = at(begins), at(ends)
    said: dict[str, Any] = {"needs": (), "cautions": (), "two_people": False, **more}
    return Slot(
        first, last, f"{first:%a %b %d, %H:%M} to {last:%H:%M}", round((last - first).total_seconds() / 60), tasks,
        **said,
    )  # fmt: skip


def slot_task(title: str, minutes: int, *, of: int = 0, rest: str = "", late: bool = False) -> SlotTask:
    """A task in a slot."""
    begins = at("03-05 19:00")
    return SlotTask(
        "clean_head", title, "Clean", minutes, of or minutes, begins, begins + timedelta(minutes=minutes), False, rest,
        (), late,
    )  # fmt: skip


def weeks(first: date, *percents: float) -> tuple[Week, ...]:
    """Weeks one after the other."""
    found, up_to = [], 0.0
    for index, percent in enumerate(percents):
        monday = first + timedelta(days=7 * index)
        sunday, up_to = monday + timedelta(days=6), up_to + percent
        found.append(Week(monday, sunday, f"{monday:%b %d} to {sunday:%b %d}", percent, up_to))
    return tuple(found)


def distribution(**changed: Any) -> Distribution:
    """A date as a distribution: one case of ten before March 19, nine of ten before April 4."""
    said: dict[str, Any] = {
        "trials": 2000, "early": at("03-19 20:00"), "middle": at("03-26 20:30"), "late": at("04-04 13:00"),
        "early_words": "Thu Mar 19, 20:00", "middle_words": "Thu Mar 26, 20:30", "late_words": "Sat Apr 04, 13:00",
        "chances": (Chance(date(2026, 3, 21), "Sat Mar 21", 24.0, "as planned"),),
        "weeks": weeks(date(2026, 3, 16), 20.0, 45.0, 30.0, 5.0),
        "setbacks": (
            Setback("stud", "A stud breaks off", 8.0, 7.6, "1 h 30 min", "3 days", ("extractor",), "common practice"),
        ),
        "beyond": 0.0, "said": "Of 2,000 simulated plans 8 of 10 reach the first start between these days.",
    }  # fmt: skip
    return Distribution(**{**said, **changed})


def answer(**changed: Any) -> PlanAnswer:
    """A plan of three weeks, with something of everything; `changed` are fields that are otherwise."""
    head = phase(
        "Take apart",
        span("03-03 19:00", "03-03 21:00"),
        span("03-05 19:00", "03-05 20:00"),
        span("03-05 20:00", "03-12 08:00", kind="shop", words="Head at the machine shop"),
    )
    clean = phase("Clean", span("03-05 20:00", "03-05 21:30"), span("03-07 09:00", "03-07 12:00"))
    first = phase("First start", span("03-21 10:00", "03-21 12:00"))
    said: dict[str, Any] = {
        "heading": Heading("When will it run?", "Demo", "demo", "", ASKED, "0" * 64, "1" * 64, ()),
        "dated": True,
        "said": "The first start is planned for Sat Mar 21, 12:00.",
        "cannot": (),
        "goal": "first start",
        "first_start": at("03-21 12:00"),
        "first_start_words": "Sat Mar 21, 12:00",
        "finish": at("03-28 12:00"),
        "finish_words": "Sat Mar 28, 12:00",
        "gap_days": 1.5,
        "gap_words": "At most 1.5 days later than the best plan that is possible; that is proved.",
        "distribution": distribution(),
        "next_slot": slot(
            "03-05 19:00", "03-05 21:30",
            slot_task("Take the head to the machine shop", 60),
            slot_task("Clean the deck and the pistons in place", 90, of=270, rest="goes on Sat Mar 07"),
            needs=("plastic scraper", "rags"), cautions=("Head: lift with two people.",),
            late="Torque and timing work after 21:00: check every figure twice.", runs_on=("Sealant cures, 24 h",),
            two_people=True,
        ),
        "slots": (
            slot("03-05 19:00", "03-05 21:30", slot_task("Take the head to the machine shop", 60)),
            slot("03-07 09:00", "03-07 12:00", slot_task("Clean the deck", 180)),
            slot("03-21 10:00", "03-21 12:00", slot_task("First start", 120)),
        ),
        "next_tasks": (Doable("clean_head", "Clean the head", 90, "Thu Mar 05"),),
        "hands": "9 h 30 min",
        "longest": "6 h 15 min",
        "drives": (
            Driver("hands", "strip", "Take the head off", at("03-03 19:00"), at("03-05 20:00"), 2.0),
            Driver("shop", "", "Head at the machine shop", at("03-05 20:00"), at("03-12 08:00"), 6.5),
        ),
        "shares": (Share("machine shop", 6.5, 38.0, "The machine shop takes 6.5 of 17 days."),),
        "meanwhile": (
            Meanwhile("Head at the machine shop", at("03-05 20:00"), at("03-12 08:00"), "Mar 05 to Mar 12", 270,
                      (Doable("clean_deck", "Clean the deck", 180, "Sat Mar 07"),)),
        ),
        "first": (
            First("head", at("03-05 20:00"), "Thu Mar 05, 20:00",
                  (Doable("flat", "Measure the face of the head", 20, "Thu Mar 05"),), ("no slack",), 2.0,
                  "Measure the face of the head first: the head can leave 2 days earlier."),
        ),
        "late": (Late("gasket set", "Mon Mar 02", 2, "The gasket set was promised for Mon Mar 02; it is not here."),),
        "running": (InHand("strip", "Take the head off", "Tue Mar 03", 60, "since Tue Mar 03, about 60 min left"),),
        "done": (Done("diagnose", "Find what failed", "Sun Mar 01", 45, True),
                 Done("photos", "Take photos", "Sun Mar 01", None, False)),
        "bars": (),
        "phases": (head, clean, first),
        "marks": (
            Mark("today", at("03-04 12:00"), "today"),
            Mark("promise", at("03-12 08:00"), "head from the machine shop"),
            Mark("delivery", at("03-02 12:00"), "gasket set, 2 days late", late=True),
            Mark("start planned", at("03-21 12:00"), "first start, as planned"),
        ),
        "taken": (Taken("Take apart", 3, 120, 150, 1.25, 1.1, "150 min for 120 min planned"),),
        "hours": ("Tue and Thu 19:00 to 21:30", "Sat 9:00 to 15:00"),
        "assumed": ("No promise of the machine shop is in the book: 7 days are taken.",),
        "sources": ("minutes of the job: common practice, no source",),
        "remarks": (),
        "tries": 400,
        "seed": 1,
    }  # fmt: skip
    return PlanAnswer(**{**said, **changed})


def without_date(**changed: Any) -> PlanAnswer:
    """No hours in the kit: nothing can be dated."""
    gap = Gap(
        "No hours are written in the kit.", "Write when there is time for the engine, like `Tue 19:00-21:30`."
    )
    nothing: dict[str, Any] = {
        "dated": False, "said": "There is no date.", "cannot": (gap,), "first_start": None, "first_start_words": "",
        "finish": None, "finish_words": "", "gap_days": None, "gap_words": "", "distribution": None,
        "next_slot": None, "slots": (), "drives": (), "shares": (), "meanwhile": (), "first": (), "bars": (),
        "phases": (), "marks": (Mark("today", at("03-04 12:00"), "today"),), "hours": (),
    }  # fmt: skip
    return answer(**{**nothing, **changed})


def large(*, tasks: int = 140, number_of_weeks: int = 12) -> PlanAnswer:
    """Many tasks over many weeks: two evenings and a Saturday each, the head away for three weeks."""
    days = [
        datetime(2026, 3, 3, hour).astimezone() + timedelta(days=7 * week + more)
        for week in range(number_of_weeks)
        for more, hour in ((0, 19), (2, 19), (4, 9))
    ]
    each = tasks / len(days)
    bars, slots = [], []
    for index, begins in enumerate(days):
        some = range(round(index * each), round((index + 1) * each))
        long = 360 if begins.hour == 9 else 150
        own = list(_bars(some, begins, long // max(len(some), 1), tasks))
        bars += own
        slots.append(_slot_of(begins, long, own))
    shop = Span("shop", days[8], days[8] + timedelta(days=21), "Head at the machine shop")
    parts = Span("delivery", days[6], days[6] + timedelta(days=9), "Gasket set and bolts on their way")
    cures = [Span("wait", day, day + timedelta(days=1), "Sealant cures") for day in days[20::5]]
    phases = tuple(_phase(name, bars, (shop, parts, *cures)) for name in PHASES)
    start = days[-4] + timedelta(hours=2)
    marks = (
        Mark("today", datetime(2026, 3, 11, 12).astimezone(), "today"),
        Mark("promise", shop.ends, "head from the machine shop"),
        Mark("promise", parts.ends, "gasket set and bolts", late=True),
        Mark("start planned", start, "first start, as planned"),
        Mark("start likely", start + timedelta(days=9), "first start, in 9 cases of 10 by then"),
        Mark("recall", start + timedelta(days=60), "head bolts again after the first heat"),
    )
    return answer(
        phases=phases, bars=tuple(bars), slots=tuple(slots), marks=marks, first_start=start, next_slot=slots[3],
        first_start_words=f"{start:%a %b %d, %H:%M}",
        distribution=distribution(weeks=weeks(date(2026, 5, 4), 0.2, 4, 12, 21, 23, 18, 11, 6, 3, 1.5, 0.3)),
    )  # fmt: skip


def _bars(some: Iterable[int], begins: datetime, minutes: int, tasks: int) -> Iterable[Bar]:
    for place, number in enumerate(some):
        first = begins + timedelta(minutes=place * minutes)
        one = Span("work", first, first + timedelta(minutes=minutes), "")
        name = PHASES[number * len(PHASES) // tasks]
        yield Bar(
            f"task_{number}", f"Task {number} with some words about what is done on the engine", name, "planned",
            (one,), number % 3 == 0, minutes, f"{first:%a %b %d}, {minutes} min",
        )  # fmt: skip


def _slot_of(begins: datetime, minutes: int, own: Sequence[Bar]) -> Slot:
    tasks = tuple(
        SlotTask(one.task, one.title, one.phase, one.minutes, one.minutes, one.spans[0].begins, one.spans[0].ends, False,
                 "", (), False)
        for one in own
    )  # fmt: skip
    ends = begins + timedelta(minutes=minutes)
    return Slot(
        begins,
        ends,
        f"{begins:%a %b %d, %H:%M} to {ends:%H:%M}",
        minutes,
        tasks,
        ("rags", "torque wrench"),
        (),
        False,
    )


def _phase(name: str, bars: Sequence[Bar], waits: Sequence[Span]) -> PhaseBar:
    own = [one for one in bars if one.phase == name]
    spans = [one for bar in own for one in bar.spans]
    if name in ("Machine shop", "Head on"):
        spans += [one for one in waits if (one.kind == "wait") == (name == "Head on")]
    return PhaseBar(name, tuple(spans), len(own), 0, sum(one.minutes for one in own), "")
