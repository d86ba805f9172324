"""Calculators of round forms: from what a person writes, and a file, to results, flags and refusals."""

import math
from pathlib import Path

import pytest

from gudgeon.calc.calculator import run
from gudgeon.calc.input_errors import InputNeeded, InputRefused
from gudgeon.calc.metrology.form_errors import TooFewPoints
from gudgeon.calc.metrology.round_errors import GapImpossible, LobesUnusual, NotSurrounded
from gudgeon.errors import InputError

# HAND: ends of two bars across a middle at (10, 20), 3 and 2 long, in mm
CROSS = "x,y\n13,20\n10,22\n7,20\n10,18\n"


def written(folder: Path, text: str) -> str:
    file = folder / "bore.csv"
    file.write_text(text, encoding="utf-8")
    return str(file)


@pytest.mark.parametrize(
    ("method", "deviation", "radius"),
    [
        ("minimum-zone", 1.0, 2.5),
        ("least-squares", 1.0, 2.5),
        ("circumscribed", 1.0, 3.0),
        ("inscribed", 5 / 3, 13 / 6),
    ],
)
def test_each_circle(tmp_path: Path, method: str, deviation: float, radius: float) -> None:
    found = run("metrology.roundness", {"file": written(tmp_path, CROSS), "method": method})
    assert found["deviation_mm"] == pytest.approx(deviation)
    assert found["radius_mm"] == pytest.approx(radius)
    assert found["center_y_mm"] == pytest.approx(20.0)
    assert found.flags == ()


def test_the_minimum_zone_is_what_is_asked_for_where_nothing_is_said(tmp_path: Path) -> None:
    found = run("metrology.roundness", {"file": written(tmp_path, CROSS)})
    assert found.inputs["method"] == "minimum-zone (default)"
    assert found["center_x_mm"] == pytest.approx(10.0)
    assert (found["farthest"], found["nearest"]) == ("2, 4", "3, 5")
    assert next(one.shown for one in found.results if one.name == "deviation_mm") == "1.00000 mm (0.0394 in)"


def test_inches_by_the_input_or_by_the_file(tmp_path: Path) -> None:
    said = run("metrology.roundness", {"file": written(tmp_path, CROSS), "unit": "in"})
    assert said["deviation_mm"] == pytest.approx(25.4)
    header = run("metrology.roundness", {"file": written(tmp_path, CROSS.replace("x,y", "x in,y in"))})
    assert header["deviation_mm"] == pytest.approx(25.4)
    with pytest.raises(InputError, match="mm"):
        run(
            "metrology.roundness",
            {"file": written(tmp_path, CROSS.replace("x,y", "x in,y in")), "unit": "mm"},
        )


def test_an_exact_circle_is_round_to_the_last_digit(tmp_path: Path) -> None:
    lines = [f"{43 * math.cos(k * math.pi / 18)!r},{43 * math.sin(k * math.pi / 18)!r}" for k in range(36)]
    found = run("metrology.roundness", {"file": written(tmp_path, "\n".join(["x,y", *lines]))})
    assert (found["deviation_mm"], found["center_x_mm"]) == (0.0, 0.0)
    assert found["farthest"] == "2, 3, 4, 5, 6, 7 and 30 more"


def test_what_an_arc_and_three_points_do_not_say(tmp_path: Path) -> None:
    found = run("metrology.roundness", {"file": written(tmp_path, "x,y\n43,0\n42,9\n39,17\n34,26\n")})
    (flag,) = found.flags
    assert flag.startswith("The points leave 3") and flag.endswith(
        "open: the deviation holds for this arc alone, and its center moves far with a small change of one reading."
    )
    three = run("metrology.roundness", {"file": written(tmp_path, "x,y\n5,0\n-3,4\n-3,-4\n")})
    assert three.flags == ("Three points always lie on a circle: they say nothing of roundness.",)


def test_files_that_do_not_do(tmp_path: Path) -> None:
    with pytest.raises(TooFewPoints):
        run("metrology.roundness", {"file": written(tmp_path, "x,y\n1,2\n3,4\n")})
    with pytest.raises(NotSurrounded):
        run("metrology.roundness",
            {"file": written(tmp_path, "x,y\n43,0\n42,9\n39,17\n34,26\n"), "method": "inscribed"})  # fmt: skip
    file = written(tmp_path, "x,y\n1,2\n3,nan\n5,5\n")
    with pytest.raises(InputError) as refusal:
        run("metrology.roundness", {"file": file})
    assert str(refusal.value) == (
        f"{file}, line 3, column 3: y is `nan`, which is no reading. "
        "Give the figure that was read, or leave the whole line out."
    )
    with pytest.raises(InputNeeded):
        run("metrology.roundness", {})


def test_a_v_block() -> None:
    found = run("metrology.v-block", {"lobes": "3", "angle": "60°"})
    assert found["magnification"] == pytest.approx(3.0)
    assert (
        found["blind"] == "An indicator over a V-block of 60° hardly sees these numbers of lobes: 2, 4, 5, 7."
    )
    with pytest.raises(LobesUnusual):
        run("metrology.v-block", {"lobes": "2.5", "angle": "60°"})


def test_a_v_block_that_hardly_sees_more_lobes_than_are_named_says_so() -> None:
    # HAND: 90°, nine lobes: 1 + cos(9 · 135°)/sin 45° = 1 + cos(135°)/sin 45° = 0; eight: 1 + cos(0)/sin 45° = 2.414.
    found = run("metrology.v-block", {"lobes": "9", "angle": "90°"})
    assert found.flags == ("This V-block hardly sees 9 lobes either.",)
    assert run("metrology.v-block", {"lobes": "8", "angle": "90°"}).flags == ()


def test_a_ring_in_a_worn_bore() -> None:
    # HAND: 0.04 π more
    found = run(
        "metrology.ring-gap-in-bore", {"gap": "0.35 mm", "bore": "86.02 mm", "other_bore": "86.06 mm"}
    )
    assert found["gap_mm"] == pytest.approx(0.35 + 0.04 * math.pi)
    assert found["gap_per_bore"] == pytest.approx((0.35 + 0.04 * math.pi) / 86.06)
    with pytest.raises(GapImpossible):
        run("metrology.ring-gap-in-bore", {"gap": "0.1 mm", "bore": "86.1 mm", "other_bore": "86 mm"})


def test_a_shaft_under_a_dial() -> None:
    # HAND: 0.02 sin φ about 0.02, read at 0, 90, 180, 270
    found = run("metrology.run-out", {"readings": "0.02; 0.04; 0.02; 0"})
    assert found["total_mm"] == pytest.approx(0.04)
    assert found["bend_mm"] == pytest.approx(0.02)
    assert found["eccentricity_mm"] == pytest.approx(0.02)
    assert found["high_deg"] == pytest.approx(90.0)
    assert (found["form_mm"], found.flags) == (0.0, ())
    turned = run("metrology.run-out", {"readings": "0.02 mm;0.04;0.02;0", "angles": "90;180;270;360"})
    assert turned["high_deg"] == pytest.approx(180.0)


def test_an_oval_journal_is_not_taken_for_a_bent_shaft() -> None:
    found = run("metrology.run-out", {"readings": "0.01; 0; -0.01; 0; 0.01; 0; -0.01; 0"})
    assert found["eccentricity_mm"] == 0.0
    assert found["high_deg"] is None
    assert found["form_mm"] == pytest.approx(0.02)
    assert found.flags == (
        "Most of the swing is form, not run-out: measure the roundness here before taking the shaft as bent.",
    )


def test_a_reading_of_the_dial_that_is_none() -> None:
    with pytest.raises(InputRefused) as refusal:
        run("metrology.run-out", {"readings": "0; 0.02; x"})
    assert str(refusal.value).startswith("readings: `x` cannot be read as a figure")


def test_a_rocked_valve() -> None:
    found = run("metrology.guide-clearance", {"rock": "0.2 mm", "guide_length": "40 mm", "height": "10 mm"})
    assert found["clearance_mm"] == pytest.approx(0.2 / 1.5)
