"""Wheels by themselves: radii, two wheels and a belt, marks, offsets; lists of wheels; the calculators."""

import math

import pytest

from gudgeon.calc.calculator import run
from gudgeon.calc.engine.drive_errors import BeltTooShort
from gudgeon.calc.engine.drive_wheels import (
    belt_radius,
    center_distance,
    chain_radius,
    marks_realign,
    seen_offset,
    smooth_radius,
    two_wheel_length,
)
from gudgeon.calc.errors import Negative, NotPositive
from gudgeon.errors import InputError


def test_radii() -> None:
    """HAND: 40 teeth of 9.525 mm once around; a chain of six links lies on a hexagon, whose radius is its side."""
    assert 2 * math.pi * belt_radius(9.525, teeth=40) == pytest.approx(381)
    assert chain_radius(9.525, teeth=6) == pytest.approx(9.525)
    assert smooth_radius(60, rise_mm=1.5) == 31.5
    with pytest.raises(NotPositive, match=r"^Pitch 0 mm cannot be: it is above 0\."):
        belt_radius(0, teeth=20)
    with pytest.raises(Negative, match=r"^Rise -1 mm cannot be: it is 0 or more\."):
        smooth_radius(60, rise_mm=-1)


def test_a_belt_and_its_distance_belong_together() -> None:
    for apart in (91.0, 150.0, 1e4):
        length = two_wheel_length(apart, first_mm=30, second_mm=60)
        assert center_distance(length, first_mm=30, second_mm=60) == pytest.approx(apart, rel=1e-12)
        assert center_distance(length, first_mm=60, second_mm=30) == pytest.approx(apart, rel=1e-12)


def test_the_shortest_belt_is_the_one_around_wheels_that_touch() -> None:
    """HAND: equal wheels of 30 mm that touch: 2 · 60 + 2 · π · 30 = 308.4956 mm."""
    assert center_distance(120 + 60 * math.pi, first_mm=30, second_mm=30) == pytest.approx(60, rel=1e-9)
    with pytest.raises(BeltTooShort) as caught:
        center_distance(300, first_mm=30, second_mm=30)
    assert str(caught.value) == (
        "A belt 300 mm long does not go around these two wheels: where they touch, it takes 308.50 mm. "
        "Check the teeth of belt and wheels, and the pitch."
    )


def test_marks_come_around() -> None:
    """HAND: 120 is a multiple of 20, so one turn of the belt is 6 of the crankshaft; an odd number is doubled."""
    assert marks_realign(120, crank_teeth=20) == 6
    assert marks_realign(120, crank_teeth=20, with_cam=True) == 6
    assert marks_realign(100, crank_teeth=20) == 5
    assert marks_realign(100, crank_teeth=20, with_cam=True) == 10
    assert marks_realign(20, crank_teeth=20) == 1


def test_a_seen_offset() -> None:
    """HAND: one tooth of 40 is 9° of the camshaft and 18° of the crankshaft (decisions of the trade, 40 teeth)."""
    one = seen_offset(1, wheel_teeth=40)
    assert (one.wheel_deg, one.cam_deg, one.crank_deg) == (9, 9, 18)
    crank = seen_offset(-1, wheel_teeth=20, of_crank=True)
    assert (crank.wheel_deg, crank.cam_deg, crank.crank_deg) == (-18, -9, -18)


def test_the_calculator_takes_rollers_and_heads() -> None:
    """HAND: a head that carries camshaft and idler moves both: only the last span, idler to crankshaft, turns them."""
    given = {"pitch": "9.525", "crank_teeth": "20", "cam_teeth": "40", "center_distance": "400"}
    both = run(
        "engine.cam-shift",
        {**given, "lowering": "0.5", "idlers": "x=80 y=300 radius=28 head"},
    )
    # idler and camshaft keep their places to each other, so the shift is the belt of the last span alone:
    away, apart = math.atan2(80, 300), math.hypot(80, 300)
    lean = away - math.asin((30.319 - 28) / apart)
    assert both["cam_deg"] == pytest.approx(math.degrees(0.5 * math.cos(lean) / 60.638), rel=2e-3)
    back = run(
        "engine.cam-shift",
        {**given, "lowering": "0.5", "rise": "1.5", "idlers": "x=75 y=200 diameter=60 back"},
    )
    assert back["direction"] == "later: the camshaft is retarded"
    assert run("engine.cam-shift", {**given, "lowering": "-0.5"})["direction"] == (
        "earlier: the camshaft is advanced"
    )
    assert run("engine.cam-shift", {**given, "lowering": "0"})["direction"] == "as before"


def test_a_camshaft_beside_its_line_moves_less_of_the_belt() -> None:
    """HAND: equal wheels; the span leans as the line of centers does, 3-4-5: 0.5 mm · 0.8 on 50 mm."""
    found = run(
        "engine.cam-shift",
        {
            "crank_radius": "50",
            "cam_radius": "50",
            "center_distance": "500",
            "cam_beside": "300",
            "lowering": "0.005",
        },
    )
    assert found["cam_deg"] == pytest.approx(math.degrees(0.005 * 0.8 / 50), rel=1e-4)
    assert found.flags[0].startswith("The wheel of the camshaft is not twice that of the crankshaft")
    assert found["teeth"] is None


def test_rules_of_thumb_are_warned_of() -> None:
    found = run(
        "engine.cam-shift",
        {"crank_radius": "30", "cam_radius": "60", "center_distance": "400", "lowering": "0.2"},
    )
    assert found.flags == (
        "Rules of thumb in print often give camshaft degrees where crankshaft degrees are meant: they differ by two. "
        "1° of the crankshaft for each 0.508 mm (0.020 in) fits a camshaft wheel of 116 mm (4.6 in) pitch diameter.",
    )


def test_belts_over_many_wheels_in_either_direction() -> None:
    """HAND: three equal wheels at the corners of 300, 400 and 500 mm: the sides of the triangle and one whole circle."""
    want = 1200 + 20 * 8
    for centers in ("0 0; 0 300; 400 0", "400 0; 0 300; 0 0", "(0, 0); (0, 30 cm); (400 mm, 0)"):
        found = run("engine.belt-length", {"pitch": "8", "teeth": "20; 20; 20", "centers": centers})
        assert found["length_mm"] == pytest.approx(want)
        assert found["teeth"] == pytest.approx(170)
        assert found.flags == ()
    listed = run(
        "engine.belt-length",
        {"pitch": "8 mm", "wheels": "x=0 y=0 teeth=20; x=0, y=300 mm, teeth=20; x=40 cm y=0 teeth=20"},
    )
    assert listed["length_mm"] == pytest.approx(want)


def test_one_length_as_centers_is_how_far_two_wheels_lie_apart() -> None:
    """HAND: equal wheels of 20 teeth of 10 mm, 150 mm apart: two spans of 150 mm and once around, 200 mm."""
    wheels = {"pitch": "10 mm", "teeth": "20; 20"}
    for apart in (
        {"centers": "150"},
        {"centers": "15 cm"},
        {"center_distance": "150"},
        {"centers": "0 0; 0 150"},
    ):
        found = run("engine.belt-length", {**wheels, **apart})
        assert found["length_mm"] == pytest.approx(500)
        assert found["teeth"] == pytest.approx(50)
    assert run("engine.belt-length", {**wheels, "centers": "15 cm"}).inputs["centers"] == "0 0; 0 150 mm"


def test_a_chain_has_links() -> None:
    """HAND: equal sprockets 20 links apart: 20 + 40 links."""
    found = run(
        "engine.belt-length",
        {"pitch": "9.525", "drive": "chain", "teeth": "20 20", "center_distance": "190.5"},
    )
    assert found["teeth"] == pytest.approx(60)
    back = run(
        "engine.belt-length", {"pitch": "9.525", "drive": "chain", "teeth": "20 20", "belt_teeth": "60"}
    )
    assert back["center_distance_mm"] == pytest.approx(190.5)


SHIFT = {"lowering": "0.2", "center_distance": "400"}
BELT = {"pitch": "8"}


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        (
            "engine.cam-shift",
            {**SHIFT, "cam_teeth": "40", "pitch": "8"},
            "engine.cam-shift needs crank_teeth or crank_radius, which is not given. Add it, like crank_teeth=20.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_teeth": "20", "cam_teeth": "40"},
            "engine.cam-shift needs pitch, which is not given. Add it, like pitch='9.525 mm'.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_teeth": "20", "crank_radius": "25", "cam_teeth": "40", "pitch": "8"},
            "crank_radius and crank_teeth are both given, and each decides alone. Give one of them.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "far_lowering": "0.1"},
            "engine.cam-shift needs bank_angle with far_lowering, which is not given. Add it, like bank_angle='60°'.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "cam_beside": "-400"},
            "cam_beside -400 mm cannot be: it is less than the center distance, 400 mm, which is measured straight from "
            "center to center.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "idlers": "x=60 y=100 diameter=40 back"},
            "`x=60 y=100 diameter=40 back` is a smooth roller: where the pitch line runs on it follows from `rise`, from "
            "the surface of the roller to the cords of the belt. Add it, like rise='1.5 mm'.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "idlers": "x=60 y=100"},
            "`x=60 y=100` is no whole wheel: it takes x, y, and one of teeth, diameter (of a smooth roller) and radius "
            "(of the pitch line).",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "idlers": "70 180 28"},
            "`70 180 28` is no wheel that can be read. Write it like `x=70 y=180 teeth=22`, or "
            "`x=-58 y=72 diameter=60 back` where the back of the belt runs on it, and wheels apart with semicolons.",
        ),
        (
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "idlers": "x=70 y=180 teeth=22"},
            "`x=70 y=180 teeth=22` states teeth, which need the pitch of belt or chain. Add it, like pitch='9.525 mm'.",
        ),
        (  # HAND: 360° − asin(45 / 220) − asin(20 / 180)
            "engine.cam-shift",
            {**SHIFT, "crank_radius": "25", "cam_radius": "50", "idlers": "x=0 y=180 radius=5"},
            "The path cannot be: at wheel 1 the belt would turn through 342°. The order of the path, the running "
            "direction, a center, or the side of the belt that a wheel runs on is wrong.",
        ),
        (
            "engine.belt-length",
            BELT,
            "engine.belt-length needs center_distance, centers, wheels or belt_teeth, which is not given. Add it, like "
            "center_distance='150 mm'.",
        ),
        (
            "engine.belt-length",
            {**BELT, "center_distance": "150"},
            "engine.belt-length needs teeth, which is not given. Add it, like teeth='20; 40'.",
        ),
        (
            "engine.belt-length",
            {**BELT, "teeth": "20; 40; 22", "center_distance": "150"},
            "center_distance belongs to two wheels, and 3 are given. Give `centers` of all wheels instead.",
        ),
        (
            "engine.belt-length",
            {**BELT, "teeth": "20; 40", "centers": "0 0"},
            "2 wheels by their teeth and 1 center do not belong together. Give a center for each wheel, in one order.",
        ),
        (
            "engine.belt-length",
            {**BELT, "teeth": "20; 40", "centers": "150 mm; 20"},
            "`150 mm` is no center that can be read. Write x and y of each wheel in mm, and wheels apart with semicolons, "
            "like `0 0; 0 150`.",
        ),
        (
            "engine.belt-length",
            {**BELT, "teeth": "20; 4.5", "center_distance": "150"},
            "`4.5` is no number of teeth. Write whole numbers in the order of the wheels, like `20; 40`.",
        ),
        (
            "engine.belt-length",
            {**BELT, "teeth": "20; 40", "center_distance": "150", "belt_teeth": "100"},
            "center_distance and belt_teeth are both given, and each decides alone. Give one of them.",
        ),
        (
            "engine.belt-length",
            {**BELT, "teeth": "20; 40", "center_distance": "70"},
            "wheel 1 and wheel 2 stand 70.00 mm apart and would overlap: their pitch radii add up to 76.39 mm. Check "
            "centers, teeth and pitch.",
        ),
        (
            "engine.marks-realign",
            {"belt_teeth": "111", "crank_teeth": "0"},
            "crank_teeth: 0 is no count. Write a whole number of at least 1.",
        ),
    ],
)
def test_what_is_refused(name: str, inputs: dict[str, str], message: str) -> None:
    with pytest.raises(InputError) as caught:
        run(name, inputs)
    assert str(caught.value) == message
