"""The bolts drawn in letters."""

from gudgeon.bench.pull_list import BoltPlace
from gudgeon.cli.pattern import drawn


def places(*spots: tuple[str, float, float]) -> list[BoltPlace]:
    return [BoltPlace(bolt, "", "", x, y) for bolt, x, y in spots]


def test_every_bolt_stands_where_it_is_and_the_next_one_in_brackets() -> None:
    lines = drawn(places(("1", 0, 40), ("2", 0, -40), ("3", 90, 40), ("4", 90, -40)), following="3", width=40)
    assert lines[0].split() == ["1", "[3]"]
    assert lines[-1].split() == ["2", "4"]
    assert len(lines) <= 8
    assert lines[0].index("3") == lines[-1].index("4")


def test_nothing_is_drawn_where_the_sheet_places_nothing_or_letters_would_meet() -> None:
    assert drawn([BoltPlace("1", "", "", None, None), *places(("2", 0, 0))], following="", width=40) == []
    assert drawn(places(("1", 0, 0)), following="", width=40) == []
    assert drawn(places(("I1a", 0, 0), ("I1b", 1, 0), ("I2a", 300, 0)), following="", width=40) == []


def test_a_single_row_takes_one_line() -> None:
    assert len(drawn(places(("1", 0, 0), ("2", 50, 0), ("3", 100, 0)), following="1", width=60)) == 1
