"""The sketch of a joint: bolts on the right side of each other, and words where a sketch would not serve."""

import pytest

from gudgeon.bench.pull_list import BoltPlace
from gudgeon.paper.pattern import HEIGHT_MM, WIDTH_MM, edges, sketch


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
    assert drawn is not None
    assert drawn["width"] <= WIDTH_MM + 0.001 and drawn["height"] <= HEIGHT_MM + 0.001
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
