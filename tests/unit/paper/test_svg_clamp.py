"""The clamp of a joint as a drawing: each bolt's band on one scale, the same words as the answer."""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from gudgeon.bench.pictures.clamp import ClampBar, ClampPicture, NoClampToDraw, clamp_picture
from gudgeon.paper.svg_clamp import clamp_svg
from tests.unit.bench.test_clamp import TURN, asked, sheet
from tests.unit.sheet.sheets import SMALL

SVG = "{http://www.w3.org/2000/svg}"


def bars(of: ClampPicture) -> list[ElementTree.Element]:
    drawn = ElementTree.fromstring(clamp_svg(of))
    return [one for one in drawn.findall(f".//{SVG}rect") if one.get("fill-opacity")]


def test_a_bar_reaches_from_end_to_end_of_its_band() -> None:
    one = ClampBar("1", "front", 20_000, 25_000, 30_000, "25.0 kN", "20.0–30.0 kN", "70–80 %")
    of = ClampPicture("head", "Head", "bolt", "After stage 1", (one,), 40_000, "40.0 kN", (), "", "words")
    (bar,) = bars(of)
    # HAND: the scale runs from 44 to 348 over 40 kN, 7.6 to the kN: 20 kN at 196, ten of them 76 wide.
    assert (float(bar.get("x", "0")), float(bar.get("width", "0"))) == (196.0, 76.0)
    words = "".join(ElementTree.fromstring(clamp_svg(of)).itertext())
    assert "25.0 kN, 70–80 % of yield, front" in " ".join(words.split())


def test_it_draws_what_the_answer_says(tmp_path: Path) -> None:
    answer = asked(tmp_path, sheet(*TURN))
    of = clamp_picture(answer)
    last = answer.stages[-1]
    assert [(one.bolt, one.low_n, one.high_n) for one in of.bars] == [
        (one.bolt, one.low_n, one.high_n) for one in last.bolts
    ]
    assert all(0 < one.low_n < one.middle_n < one.high_n <= of.most_n for one in of.bars)
    assert len(bars(of)) == 4
    assert last.families[0].every_bolt in of.least[0]
    assert all(one.clamp in of.words for one in of.bars)


def test_what_cannot_be_said_is_not_drawn(tmp_path: Path) -> None:
    answer = asked(tmp_path, SMALL)
    with pytest.raises(NoClampToDraw) as refused:
        clamp_picture(answer)
    assert str(refused.value) == f"No clamp is drawn. {answer.said}"
