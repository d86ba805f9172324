"""The sketch of a joint: bolts on the right side of each other, and words where a sketch would not serve."""

from dataclasses import replace
from itertools import combinations
from math import cos, dist, hypot, pi, sin

import pytest

from gudgeon.bench.pull_list import BoltPlace
from gudgeon.paper.pattern import ACROSS_MM, AROUND_MM, BESIDE_MM, edges, sketch


def places(*points: tuple[float, float] | None) -> list[BoltPlace]:
    return [
        BoltPlace(str(number), "", "", point[0] if point else None, point[1] if point else None)
        for number, point in enumerate(points, start=1)
    ]


def test_up_is_up_and_right_is_right() -> None:
    drawn = sketch(places((0, 50), (100, 50), (0, -50), (100, -50)), viewed_from="above")
    assert drawn is not None
    spots = {spot["bolt"]: (spot["x"], spot["y"]) for spot in drawn["spots"]}
    assert spots["1"] == (0, 0)
    assert spots["2"][0] > spots["1"][0] and spots["2"][1] == 0
    assert spots["3"][1] > spots["1"][1] and spots["3"][0] == 0
    assert spots["4"] == (drawn["width"], drawn["height"])


@pytest.mark.parametrize(
    "points", [[(0, 0), (1000, 0), (500, 3)], [(0, 0), (0, 1), (0, 2)], [(-5, 2), (9e4, 7e3)]]
)
def test_a_sketch_stays_in_its_room_and_its_rings_apart(points: list[tuple[float, float]]) -> None:
    drawn = sketch(places(*points), viewed_from="")
    assert drawn is not None and not drawn["across"]
    assert drawn["width"] <= BESIDE_MM[0] + 0.001 and drawn["height"] <= BESIDE_MM[1] + 0.001
    at = [(spot["x"], spot["y"]) for spot in drawn["spots"]]
    apart = min(
        ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for n, a in enumerate(at) for b in at[n + 1 :]
    )
    assert 2 * drawn["ring"] < apart


@pytest.mark.parametrize(
    "points",
    [[(0.0, 0.0)], [(0.0, 0.0), None], [(0.0, 0.0), (0.0, 0.0)], [(0.0, 0.0), (1.0, 0.0), (1000.0, 0.0)]],
    ids=["one bolt", "a place missing", "two in one place", "too close to draw"],
)
def test_words_serve_better(points: list[tuple[float, float] | None]) -> None:
    assert sketch(places(*points), viewed_from="above") is None


def ellipse(count: int, wide: float, high: float) -> list[tuple[float, float]]:
    """Bolts around a pan, evenly by their angle."""
    return [
        (wide / 2 * cos(2 * pi * one / count), high / 2 * sin(2 * pi * one / count)) for one in range(count)
    ]


Corners = tuple[float, float, float, float]


def off_each_other(boxes: list[Corners]) -> bool:
    return not any(
        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for a, b in combinations(boxes, 2)
    )


def off_round(box: Corners, at: tuple[float, float], radius: float) -> bool:
    return hypot(
        at[0] - min(max(at[0], box[0]), box[2]), at[1] - min(max(at[1], box[1]), box[3])
    ) > radius  # fmt: skip


@pytest.mark.parametrize(("count", "across"), [(8, False), (20, False), (40, True)])
def test_the_place_in_the_order_stands_at_its_own_ring_alone(count: int, across: bool) -> None:
    """A digit of 8 points is 1.4 mm wide and 1.8 mm high in the letters that are printed."""
    drawn = sketch(places(*ellipse(count, 600, 400)), viewed_from="")
    assert drawn is not None
    assert (drawn["form"], drawn["across"]) == ("rings", across)
    assert drawn["width"] <= ACROSS_MM[0] + 0.001 and drawn["height"] <= ACROSS_MM[1] + 0.001
    boxes = []
    for one in drawn["spots"]:
        left, top = one["x"] + one["turn_at"][0], one["y"] + one["turn_at"][1]
        boxes.append((left, top, left + 1.4 * len(one["turn"]), top + 1.8))
    assert off_each_other(boxes)
    rings = [(one["x"], one["y"]) for one in drawn["spots"]]
    assert all(off_round(box, at, drawn["ring"]) for box in boxes for at in rings)
    offsets = {tuple(one["turn_at"]) for one in drawn["spots"]}
    for (left, top, right, bottom), own in zip(boxes, rings, strict=True):
        middle = (left + right) / 2, (top + bottom) / 2
        assert len(offsets) == 1 or min(rings, key=lambda at: dist(at, middle)) == own


def test_long_names_stand_beside_dots_as_well() -> None:
    """Twelve letters in a ring of 5 mm would be 4 points high."""
    long = [
        replace(one, bolt=f"intake cap {one.bolt}")
        for one in places(*((x, y) for x in range(0, 300, 90) for y in (0, 80)))
    ]
    drawn = sketch(long, viewed_from="")
    assert drawn is not None
    assert drawn["form"] == "dots"
    assert {one["point"] for one in drawn["labels"]} == {9.0}
    assert drawn["width"] <= ACROSS_MM[0] + 2 * AROUND_MM


@pytest.mark.parametrize("free", [False, True], ids=["in order", "free order"])
def test_where_rings_would_be_too_small_names_stand_beside_dots(free: bool) -> None:
    drawn = sketch(places(*ellipse(60, 500, 300)), viewed_from="above", free_order=free)
    assert drawn is not None
    assert (drawn["form"], drawn["across"]) == ("dots", True)
    assert drawn["width"] <= ACROSS_MM[0] + 2 * AROUND_MM and drawn["height"] <= ACROSS_MM[1] + 2 * AROUND_MM
    labels = drawn["labels"]
    assert [one["name"] for one in labels] == [str(number) for number in range(1, 61)]
    assert [one["lines"] for one in labels] == [[] if free else [str(turn)] for turn in range(1, 61)]
    boxes = [
        (one["at"][0], one["at"][1], one["at"][0] + one["width"], one["at"][1] + one["height"])
        for one in labels
    ]
    assert off_each_other(boxes)
    assert all(off_round(box, at, drawn["dot"]) for box in boxes for at in drawn["spots"])
    assert all(
        box[0] >= 0 and box[1] >= 0 and box[2] <= drawn["width"] + 0.01 and box[3] <= drawn["height"] + 0.01
        for box in boxes
    )


@pytest.mark.parametrize(
    ("said", "found"),
    [
        (
            "above, timing end at the left, intake side at the top",
            {"left": "timing end", "top": "intake side"},
        ),
        ("from below, flywheel end at the right", {"right": "flywheel end"}),
        ("above with timing end at the left", {"left": "timing end"}),
        ("timing end", {}),
        ("", {}),
    ],
)
def test_edges_are_named_out_of_the_words_of_the_sheet(said: str, found: dict[str, str]) -> None:
    assert edges(said) == found
