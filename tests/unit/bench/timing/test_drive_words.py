"""A chain is called a chain, gears are called gears."""

from pathlib import Path

import pytest

from gudgeon.bench.pictures.drive import drive_picture
from gudgeon.bench.timing.drive import DriveModel, drive_of
from gudgeon.bench.timing.drive_words import worded
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.timing.engines import BELT, asked, job

# HAND: the same engine with 113 links; one of the counts, 70 and 70, is far from the path of the two wheels.
CHAIN = (
    BELT.replace("kind: timing belt", "kind: timing chain")
    .replace("does_not_have: [", "does_not_have: [timing belt, ")
    .replace(", timing chain", "")
    .replace("belt_teeth: 114", "belt_teeth: 110")
    .replace(
        "  path: [crank, cam]\n",
        "  path: [crank, cam]\n  teeth_between_marks:\n    - {from: crank, to: cam, teeth: 70}\n",
    )
    .replace("mark_at: 180°", "mark_at: 0°")
)


def chain() -> DriveModel:
    loaded = parse_sheet(CHAIN, file="chain.yaml")
    found = drive_of(loaded.sheet, written=loaded.written)
    assert found is not None
    return found


def test_no_remark_and_no_picture_of_a_chain_speaks_of_a_belt() -> None:
    found = chain()
    said = [one.text for one in found.remarks]
    assert any("stands where no chain lies: the chain lies on it" in one for one in said)
    assert any(one.startswith("110 links are printed") for one in said)
    drawn = drive_picture(found)
    told = " ".join([*said, drawn.title, drawn.tight_said, drawn.words, *drawn.not_drawn])
    assert "belt" not in told.replace("`belt_teeth`", "").lower()


def test_the_cautions_of_a_belt_are_those_of_a_belt(tmp_path: Path) -> None:
    assert any("the belt may jump a tooth" in one for one in asked(job(tmp_path)).cautions)


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("timing belt", "never backward: the belt may jump a tooth at the slack side; `belt` on"),
        ("timing chain", "never backward: the chain may jump a tooth at the slack side; `belt` on"),
        (
            "timing gears",
            "never backward: the play between the gears would show the marks off; `belt` on",
        ),
    ],
)
def test_words_for_a_belt_are_put_into_those_of_the_drive(kind: str, said: str) -> None:
    text = "never backward: the belt may jump a tooth at the slack side; `belt` on"
    assert worded(text, kind=kind) == said
