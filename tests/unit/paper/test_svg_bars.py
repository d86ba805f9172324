"""The plan over real days as drawings: bars where they belong, nothing beyond the frame, no words over others.

Expected places are HAND: the picture begins on Monday, March 2, 2026; a phone's day is 50 units wide from 5 on, a bar of
the longest hands takes 46 of them; side by side the days begin at 214, and 21 of them share what is left of 900.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import combinations
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.bench.pictures.bars import BarsPicture, bars_picture
from gudgeon.bench.pictures.bars_weeks import WeekBar, weeks_picture
from gudgeon.bench.pictures.bars_words import week_title
from gudgeon.bench.planning.answer import Mark, MarkKind, PhaseBar, PlanAnswer, Span, SpanKind
from gudgeon.paper.svg import SIZE, wide
from gudgeon.paper.svg_bars import bars_svg, bars_wide_svg
from gudgeon.paper.svg_bars_weeks import weeks_svg
from tests.plan_answers import answer, at, distribution, large, phase, span, weeks, without_date

SVG = "{http://www.w3.org/2000/svg}"
INK, BOLD = "#17140f", 1.08


@dataclass(frozen=True, slots=True)
class Box:
    """What something takes of a drawing; `bar` are rectangles, the rest is words."""

    left: float
    top: float
    right: float
    bottom: float
    said: str = ""
    fill: str = ""

    def meets(self, other: "Box") -> bool:
        return (
            min(self.right, other.right) - max(self.left, other.left) > 0.5
            and min(self.bottom, other.bottom) - max(self.top, other.top) > 0.5
        )


def picture(of: PlanAnswer) -> BarsPicture:
    found = bars_picture(of)
    assert found is not None
    return found


def drawn(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def rects(svg: str) -> list[Box]:
    found = []
    for one in drawn(svg).iter(f"{SVG}rect"):
        x, y, width, height = (float(one.get(name, "0")) for name in ("x", "y", "width", "height"))
        found.append(Box(x, y, x + width, y + height, fill=one.get("fill", "")))
    return found


def texts(svg: str) -> list[Box]:
    """The words of a drawing, as wide as letters usually are: bold ones are a little wider."""
    found = []
    for one in drawn(svg).iter(f"{SVG}text"):
        size, said = float(one.get("font-size", "0")), one.text or ""
        width = wide(said, size=size) * (BOLD if one.get("font-weight") else 1)
        x, y = float(one.get("x", "0")), float(one.get("y", "0"))
        left = x - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[one.get("text-anchor", "")]
        found.append(Box(left, y - 0.75 * size, left + width, y + 0.2 * size, said=said))
    return found


def corners(svg: str) -> Iterator[tuple[float, float]]:
    for one in drawn(svg).iter(f"{SVG}path"):
        for pair in one.get("d", "").replace("Z", "").replace("M", "L").split("L")[1:]:
            x, y = pair.split(" ")
            yield float(x), float(y)


def faults(svg: str) -> list[str]:
    """What reaches beyond the frame, words that lie over words, and letters that are too small."""
    top = drawn(svg)
    width, height = float(top.get("width", "0")), float(top.get("height", "0"))
    found = [
        f"beyond the frame: {one}"
        for one in (*rects(svg), *texts(svg))
        if one.left < -0.5 or one.right > width + 0.5 or one.top < -0.5 or one.bottom > height + 0.5
    ]
    found += [
        f"a line beyond the frame: {x}, {y}"
        for x, y in corners(svg)
        if not (-0.5 <= x <= width + 0.5 and -0.5 <= y <= height + 0.5)
    ]
    found += [
        f"over each other: {one.said} / {two.said}"
        for one, two in combinations(texts(svg), 2)
        if one.meets(two)
    ]
    sizes = [float(one.get("font-size", "0")) for one in top.iter(f"{SVG}text")]
    return found + [f"small letters: {size}" for size in sizes if size < SIZE]


def test_the_days_of_a_phone() -> None:
    svg = bars_svg(picture(answer()))
    own = rects(svg)[3:]  # three explain the fills
    filled = [(one.left, round(one.right - one.left, 2)) for one in own if one.fill == INK]
    # Thu 5, 60 of at most 180 min; Thu 5, 90; Sat 7, all 180; in the third week Sat 21, 120.
    assert filled == [(157.0, 15.33), (157.0, 23.0), (257.0, 46.0), (257.0, 30.67)]
    lines = [(one.left, round(one.right - one.left, 2)) for one in own if one.fill == "none"]
    # Tue 3, 120 min, done: drawn within its edge. The head is away from Thu 5, 20:00 to Thu 12, 8:00.
    assert lines == [(57.75, 29.17), (196.67, 158.33), (5.0, 166.67)]


def test_today_has_a_line_and_its_word() -> None:
    svg = bars_svg(picture(answer()))
    today = next(one for one in texts(svg) if one.said == "today")
    # Wed 4 at noon: 5 + 2.5 · 50.
    assert (today.left + today.right) / 2 == 130.0
    assert {130.0} <= {x for x, _ in corners(svg)}
    assert sum(one.said == "today" for one in texts(svg)) == 1


def test_the_weeks_side_by_side() -> None:
    svg = bars_wide_svg(picture(answer()))
    day = (900 - 214 - 8) / 21
    own = rects(svg)[3:]
    filled = [(round(one.left, 1), round(one.bottom - one.top, 1)) for one in own if one.fill == INK]
    # As high as the day is long: 22 units for 180 min.
    assert filled == [
        (round(214 + 3 * day + 1, 1), 7.3),
        (round(214 + 3 * day + 1, 1), 11.0),
        (round(214 + 5 * day + 1, 1), 22.0),
        (round(214 + 19 * day + 1, 1), 14.7),
    ]
    away = next(one for one in own if one.fill == "none" and one.right - one.left > 100)
    assert (away.left, away.right) == pytest.approx(
        (214 + day * (3 + 20 / 24), 214 + day * (10 + 8 / 24)), abs=0.02
    )
    across = [x for x, _ in corners(svg)]
    assert round(214 + day * 2.5, 2) in across  # today
    assert round(214 + day * 19.5, 2) in across  # the first start
    assert [one.said for one in texts(svg) if one.said.startswith("Mar ")] == ["Mar 2", "Mar 9", "Mar 16"]


def test_what_is_late_is_said() -> None:
    for svg in (bars_svg(picture(answer())), bars_wide_svg(picture(answer()))):
        assert "Mon Mar 2: gasket set, 2 days late" in [one.said for one in texts(svg)]


@pytest.mark.parametrize(
    "of", [answer(), large(), large(tasks=60, number_of_weeks=40)], ids=["three", "twelve", "forty"]
)
@pytest.mark.parametrize("draw", [bars_svg, bars_wide_svg], ids=["phone", "wide"])
def test_nothing_lies_over_something_else(of: PlanAnswer, draw: object) -> None:
    assert callable(draw)
    assert faults(draw(picture(of))) == []


def test_such_a_fault_is_found() -> None:
    """The checks can fail: two words are laid over each other, one of them beyond the frame, in small letters."""
    svg = bars_svg(picture(answer()))
    worse = svg.replace("</svg>", "".join(
        f'<text x="{x}" y="60" font-size="9" text-anchor="start">words</text>' for x in (340, 342)
    ) + "</svg>")  # fmt: skip
    assert {one.split(":")[0] for one in faults(worse)} == {
        "beyond the frame",
        "over each other",
        "small letters",
    }


WORDS = st.text("abcdefgh ", min_size=1, max_size=90).map(lambda text: text.strip() or "a")
HOURS = st.integers(-24 * 20, 24 * 120)


@given(
    works=st.lists(st.tuples(HOURS, st.integers(1, 9)), min_size=1, max_size=12),
    waits=st.lists(st.tuples(HOURS, st.integers(1, 900), st.sampled_from(("wait", "shop", "delivery")), WORDS),
                   max_size=9),
    marks=st.lists(st.tuples(HOURS, st.sampled_from(("promise", "timer", "start planned")), WORDS), max_size=5),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_whatever_is_planned_stays_in_its_place(
    works: list[tuple[int, int]],
    waits: list[tuple[int, int, SpanKind, str]],
    marks: list[tuple[int, MarkKind, str]],
) -> None:
    now = at("03-04 12:00")

    def hours(number: int) -> datetime:
        return now + timedelta(hours=number)

    spans = [Span("work", hours(first), hours(first + long), "") for first, long in works]
    spans += [Span(kind, hours(first), hours(first + long), said) for first, long, kind, said in waits]
    starts = [one for one in marks if one[1] == "start planned"][:1]
    some = [one for one in marks if one[1] != "start planned"] + starts
    of = answer(
        phases=(PhaseBar("Decide and order", tuple(spans), 1, 0, 0, ""),),
        marks=(
            Mark("today", now, "today"),
            *(Mark(kind, hours(number), said) for number, kind, said in some),
        ),
    )
    for svg in (bars_svg(picture(of)), bars_wide_svg(picture(of))):
        assert faults(svg) == []


def test_a_time_over_midnight_belongs_to_both_days() -> None:
    of = answer(phases=(phase("Timing", span("03-05 22:30", "03-06 00:45")),))
    (row,) = picture(of).rows
    assert [(bar.day, bar.minutes) for bar in row.bars] == [(3, 90), (4, 45)]
    assert row.said == "2 h 15 min"


def test_what_lies_far_ahead_is_said_and_not_drawn() -> None:
    late = phase(
        "Hand over",
        Span("work", at("03-05 19:00") + timedelta(weeks=60), at("03-05 20:00") + timedelta(weeks=60), ""),
    )
    of = picture(answer(phases=(*answer().phases, late)))
    assert of.days == 26 * 7
    # HAND: 26 weeks from March 2 end on August 30; 60 weeks after March 5, 2026 is April 29, 2027.
    assert of.beyond == (
        "Drawn are 26 weeks, up to Aug 30. The plan goes on to Apr 29, 2027. The first start is planned for Sat Mar "
        "21, 12:00."
    )
    assert faults(bars_svg(of)) == []
    assert faults(bars_wide_svg(of)) == []


def test_many_waits_in_a_week_are_counted() -> None:
    cures = [span(f"03-0{day} 0{hour}:00", f"03-0{day + 1} 0{hour}:00", kind="wait", words=f"Cure {day}{hour}")
             for day in (3, 4, 5) for hour in (1, 2)]  # fmt: skip
    week = picture(answer(phases=(phase("Head on", span("03-03 00:00", "03-03 01:00"), *cures),))).weeks[0]
    assert len(week.rows[1].stretches) == 4
    assert week.rows[1].said == "and 2 more"


def test_the_words_say_what_the_bars_show() -> None:
    words = picture(answer()).words
    assert "Take apart: 3 h of hands, Mar 3 to Mar 5." in words
    assert "At the machine shop: Head at the machine shop, Mar 5 to Mar 12." in words
    assert "Sat Mar 21: first start, as planned" in words
    assert bars_picture(without_date()) is None


def test_a_week_of_another_year_says_so() -> None:
    assert week_title(date(2026, 12, 28), this_year=2026) == "Dec 28 – Jan 3, 2027"


def test_the_weeks_of_the_date() -> None:
    of = weeks_picture(distribution())
    assert [(one.said, one.middle) for one in of.bars] == [
        ("20 of 100", False), ("45 of 100", True), ("30 of 100", False), ("5 of 100", False),
    ]  # fmt: skip
    svg = weeks_svg(of)
    widths = [one.right - one.left for one in rects(svg)]
    # HAND: 45 of 100 has the room of 360 less 128, 10 and eighteen letters of 0.56 · 13; 20 is 20/45 of that.
    assert widths == pytest.approx(
        [room * share / 45 for room in (90.96,) for share in (20, 45, 30, 5)], abs=0.02
    )
    assert faults(svg) == []


def test_weeks_far_apart_are_counted_together() -> None:
    few = distribution(weeks=weeks(date(2026, 3, 2), 0.1, 0.6, *[5.0] * 19, 4.0, 0.3), beyond=3.0)
    of = weeks_picture(few)
    assert len(of.bars) == 14 + 2
    # HAND: 0.1 before the first bar is too little to be told; 14 bars hold 0.6 and 13 of 5; 6 of 5 and 4 come later.
    assert of.bars[-2:] == (
        WeekBar("Later", 34.0, "34 of 100"),
        WeekBar("Not in these days", 3.0, "3 of 100"),
    )
    assert faults(weeks_svg(of)) == []
    assert weeks_picture(replace(few, weeks=(), beyond=100.0)).bars == (
        WeekBar("Not in these days", 100.0, "100 of 100"),
    )
