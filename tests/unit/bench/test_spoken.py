"""The next pull read aloud. Expected words are HAND: as a person would say the figure."""

import pytest

from gudgeon.bench.pull_figure import BigFigure
from gudgeon.bench.spoken import pull_speech, spoken


@pytest.mark.parametrize(("written", "said"), [
    ("25.0 N·m", "25 newton meters"),
    ("122.5 N·m", "122.5 newton meters"),
    ("1 N·m", "1 newton meter"),
    ("1,234 N·m", "1234 newton meters"),
    ("19.0 lbf·ft", "19 pound-feet"),
    ("1 lbf·ft", "1 pound-foot"),
    ("80 lbf·in", "80 pound-inches"),
    ("2.5 kgf·m", "2.5 kilogram-force meters"),
    ("24–28 N·m", "24 to 28 newton meters"),
    ("90° ± 5°", "90 degrees plus or minus 5 degrees"),
    ("1°", "1 degree"),
    ("½ flat", "one half flat"),
    ("1½ flats", "1 and a half flats"),
    ("2¼ turns", "2 and a quarter turns"),
    ("10 min", "10 minutes"),
    ("0.12 mm", "0.12 millimeters"),
    ("6 in", "6 inches"),
    ("from 12 o'clock to 3:30 o'clock", "from 12 o'clock to 3:30 o'clock"),
    ("click wrench 20–100", "click wrench 20 to 100"),
    ("15 mm crow-foot, straight out", "15 millimeters crow-foot, straight out"),
    ("100 innings", "100 innings"),
])  # fmt: skip
def test_as_it_is_said(written: str, said: str) -> None:
    assert spoken(written) == said


def test_a_torque_is_said_twice_with_its_place_and_its_adapter() -> None:
    figure = BigFigure("19.0", "lbf·ft", other="25.8 N·m")
    said = pull_speech(
        place="nut 3, flywheel end", doing="Torque", figure=figure, through="crow-foot", mark=""
    )
    assert said == "Nut 3, flywheel end. Torque: 19 pound-feet. Again: 19 pound-feet. With crow-foot."


def test_a_turn_says_where_the_mark_goes() -> None:
    figure = BigFigure("90°", more="± 5°")
    said = pull_speech(
        place="bolt 4", doing="Turn by", figure=figure, through="", mark="from 12 o'clock to 3 o'clock"
    )
    assert said == (
        "Bolt 4. Turn by: 90 degrees. Again: 90 degrees. The paint mark goes from 12 o'clock to 3 o'clock."
    )


def test_a_stage_without_a_figure_is_said_in_words() -> None:
    figure = BigFigure("By hand", word=True)
    assert (
        pull_speech(place="bolt 1", doing="run in to contact", figure=figure, through="", mark="")
        == "Bolt 1. Run in to contact."
    )
