"""The plan over real days as a picture: hands day by day, waits as stretches, and the days that have a mark.

Days are counted from the Monday on which the picture begins. The same bars come twice: over all weeks, and week by week
for a narrow screen.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from gudgeon.bench.pictures.bars_words import alternative, day_words, week_title
from gudgeon.bench.planning.answer import Mark, PlanAnswer, Span
from gudgeon.bench.planning.words import hours_words

WEEKS_MOST = 26
"""No more weeks are drawn; what lies beyond them is said."""
PAST_DAYS = 13
"""How far back the picture reaches, at most, before the week of today."""
SHORTEST_DAYS = 0.5
"""A wait that is shorter is not seen among days."""
STRETCHES_MOST = 4
"""So many waits of a kind have a line of their own in one week."""
KINDS = {"shop": "At the machine shop", "delivery": "On its way", "wait": "Runs by itself"}


@dataclass(frozen=True, slots=True)
class DayBar:
    """Hands on one day; `done` where none of them is still ahead."""

    day: int
    minutes: int
    done: bool = False


@dataclass(frozen=True, slots=True)
class Stretch:
    """A wait, from where to where in days."""

    first: float
    last: float
    words: str


@dataclass(frozen=True, slots=True)
class BarRow:
    """A phase with its hands, or a kind of wait with its stretches; `said` are its sums in words."""

    name: str
    said: str
    bars: tuple[DayBar, ...] = ()
    stretches: tuple[Stretch, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawnMark:
    """A day that has a mark; `words` begin with the day."""

    at: float
    kind: str
    words: str
    late: bool


@dataclass(frozen=True, slots=True)
class WeekOfBars:
    """One week: days from 0 to 6, and only what is in it."""

    title: str
    said: str
    days: tuple[str, ...]
    rows: tuple[BarRow, ...]
    marks: tuple[DrawnMark, ...]


@dataclass(frozen=True, slots=True)
class BarsPicture:
    """All of it. `longest` are the most minutes of one phase on one day: its bar is as large as a bar can be."""

    title: str
    words: str
    mondays: tuple[str, ...]
    rows: tuple[BarRow, ...]
    marks: tuple[DrawnMark, ...]
    weeks: tuple[WeekOfBars, ...]
    longest: int
    longest_words: str
    beyond: str

    @property
    def days(self) -> int:
        """How many days are drawn."""
        return 7 * len(self.weeks)


def bars_picture(answer: PlanAnswer) -> BarsPicture | None:
    """The bars of a plan; nothing where nothing is planned or done."""
    spans = [(phase.phase, span) for phase in answer.phases for span in phase.spans]
    if not spans:
        return None
    today = next((one.at for one in answer.marks if one.kind == "today"), None)
    now = (today or datetime.fromisoformat(answer.heading.asked)).astimezone()
    frame = _frame([span for _, span in spans], answer.marks, now)
    hands = [row for row in (_hands(frame, one.phase, one.spans) for one in answer.phases) if row.bars]
    hands.sort(key=lambda row: row.bars[0].day)
    waits = tuple(_waits(frame, kind, [span for _, span in spans]) for kind in KINDS)
    rows = (*hands, *(row for row in waits if row.stretches))
    marks = tuple(_mark(frame, one) for one in answer.marks if frame.holds(one.at))
    longest = max((bar.minutes for row in rows for bar in row.bars), default=0)
    weeks = tuple(_week(frame, at, rows, marks) for at in range(frame.weeks))
    return BarsPicture(
        "The plan over the days", alternative(rows, marks=marks, monday=frame.monday, days=frame.days),
        tuple(day_words(frame.monday + timedelta(days=7 * at)) for at in range(frame.weeks)), rows, marks, weeks,
        longest, hours_words(longest), _beyond(frame, answer),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Frame:
    """From which Monday on, over how many weeks; `now` is when it is asked, `over` where the plan itself ends."""

    monday: date
    weeks: int
    now: datetime
    over: date

    @property
    def days(self) -> int:
        return 7 * self.weeks

    def at(self, moment: datetime) -> float:
        """A moment in days since the first one."""
        local = moment.astimezone()
        return (local.date() - self.monday).days + (60 * local.hour + local.minute) / 1440

    def holds(self, moment: datetime) -> bool:
        return 0 <= self.at(moment) < self.days


def _frame(spans: Sequence[Span], marks: Sequence[Mark], now: datetime) -> _Frame:
    """From the week of what is oldest, but not from long ago, to the week in which the last of it is over."""
    today = now.date()
    oldest = max(min(one.begins.astimezone().date() for one in spans), today - timedelta(days=PAST_DAYS))
    monday = min(oldest, today)
    monday -= timedelta(days=monday.weekday())
    ends = [one.ends.astimezone().date() for one in spans]
    ends += [one.at.astimezone().date() for one in marks if one.kind != "recall"]
    over = max(*ends, today)
    weeks = min((over - monday).days // 7 + 1, WEEKS_MOST)
    return _Frame(monday, weeks, now, over)


def _hands(frame: _Frame, phase: str, spans: Iterable[Span]) -> BarRow:
    """The minutes of hands of a phase, day by day; a time over midnight belongs to both days."""
    days: dict[int, float] = {}
    planned: set[int] = set()
    for span in spans:
        if span.kind != "work":
            continue
        first, last = frame.at(span.begins), frame.at(span.ends)
        for day in range(max(int(first), 0), min(int(last) + 1, frame.days)):
            minutes = 1440 * (min(last, day + 1) - max(first, day))
            if minutes > 0:
                days[day] = days.get(day, 0.0) + minutes
                planned |= {day} if span.ends > frame.now else set()
    bars = tuple(DayBar(day, round(minutes), day not in planned) for day, minutes in sorted(days.items()))
    return BarRow(phase, hours_words(sum(bar.minutes for bar in bars)), bars)


def _waits(frame: _Frame, kind: str, spans: Iterable[Span]) -> BarRow:
    """The stretches of a kind of wait, each once, in the order in which they begin."""
    found: dict[tuple[float, float, str], Stretch] = {}
    for span in spans:
        first, last = max(frame.at(span.begins), 0.0), min(frame.at(span.ends), float(frame.days))
        if span.kind == kind and last - first >= SHORTEST_DAYS:
            words = f"{span.words[:1].upper()}{span.words[1:]}"
            found[first, last, words] = Stretch(first, last, words)
    stretches = tuple(found[key] for key in sorted(found))
    return BarRow(KINDS[kind], f"{len(stretches)}", stretches=stretches)


def _mark(frame: _Frame, one: Mark) -> DrawnMark:
    """A mark in words that name its day, where they do not yet."""
    day = one.at.astimezone().date()
    named = f"{day:%b %d}" in one.words or day_words(day) in one.words
    words = one.words if named else f"{day:%a} {day_words(day)}: {one.words}"
    return DrawnMark(frame.at(one.at), one.kind, f"{words[0].upper()}{words[1:]}", one.late)


def _week(frame: _Frame, at: int, rows: Iterable[BarRow], marks: Iterable[DrawnMark]) -> WeekOfBars:
    monday, start = frame.monday + timedelta(days=7 * at), 7 * at
    own = tuple(row for row in (_row_of_week(row, start) for row in rows) if row.bars or row.stretches)
    minutes = sum(bar.minutes for row in own for bar in row.bars)
    return WeekOfBars(
        week_title(monday, this_year=frame.now.year),
        f"{hours_words(minutes)} of hands" if minutes else "no hands",
        tuple(f"{day:%a} {day.day}" for day in (monday + timedelta(days=more) for more in range(7))),
        own,
        tuple(
            DrawnMark(one.at - start, one.kind, one.words, one.late)
            for one in marks
            if start <= one.at < start + 7
        ),
    )


def _row_of_week(row: BarRow, start: int) -> BarRow:
    bars = tuple(
        DayBar(bar.day - start, bar.minutes, bar.done) for bar in row.bars if start <= bar.day < start + 7
    )
    within = [
        Stretch(max(one.first - start, 0.0), min(one.last - start, 7.0), one.words)
        for one in row.stretches
        if one.first < start + 7 and one.last > start
    ]
    shown = tuple(within[:STRETCHES_MOST])
    more = len(within) - len(shown)
    said = hours_words(sum(bar.minutes for bar in bars)) if bars else f"and {more} more" if more else ""
    return BarRow(row.name, said, bars, shown)


def _beyond(frame: _Frame, answer: PlanAnswer) -> str:
    """What is not drawn because it lies too far ahead."""
    last = frame.monday + timedelta(days=frame.days - 1)
    if frame.over <= last:
        return ""
    start = f" The first start is planned for {answer.first_start_words}." if answer.first_start_words else ""
    return (
        f"Drawn are {frame.weeks} weeks, up to {day_words(last)}. The plan goes on to {day_words(frame.over)}, "
        f"{frame.over.year}.{start}"
    )
