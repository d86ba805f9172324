"""The valve events of the sheet: as printed, after the cut, contradictions with field and line, and their wheel."""

import re
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gudgeon.bench.pictures.events import EventsPicture, events_picture
from gudgeon.bench.timing.events import Events, sided
from gudgeon.paper.svg_events import events_svg
from tests.unit.bench.timing.engines import asked, cut, job

INTAKE = "opens: 12°, closes: 48°, duration: 240°, centerline: 105–111°, lobe: intake_lobe"
EXHAUST = "opens: 46°, closes: 10°, duration: 236°, centerline: 105–111°, lobe: exhaust_lobe"


def found(folder: Path, *changes: tuple[str, str], with_cut: bool = False) -> Events:
    of = job(folder, *changes)
    if with_cut:
        cut(of)
    return asked(of).events


def picture(of: Events) -> EventsPicture:
    return events_picture(of, engine="Little one")


def test_events_as_printed(tmp_path: Path) -> None:
    events = found(tmp_path)
    intake, exhaust = events.lines
    assert (intake.opens, intake.closes) == ("12° before top dead center", "48° after bottom dead center")
    assert (exhaust.opens, exhaust.closes) == ("46° before bottom dead center", "10° after top dead center")
    assert (intake.duration, intake.centerline) == ("240° open", "108° after top dead center")
    assert (intake.after_opens_deg, intake.shift_crank_deg) == (None, None)
    assert (events.overlap, events.separation, events.remarks) == ("22°", "108° at the camshaft", ())
    assert intake.source == "manual p. 22"


def test_the_cut_makes_them_later(tmp_path: Path) -> None:
    """HAND: 0.2 mm · 0.99711 / 60.638 mm = 0.1884° of the camshaft, 0.3769° of the crankshaft: 12° → 11.6°, as the rule
    of the trade (0.38°) has it."""
    intake, exhaust = found(tmp_path, with_cut=True).lines
    assert intake.shift_crank_deg == pytest.approx(0.3769, abs=1e-4)
    assert intake.opens == "12° → 11.6° before top dead center"
    assert intake.closes == "48° → 48.4° after bottom dead center"
    assert intake.centerline == "108° → 108.4° after top dead center"
    assert exhaust.opens == "46° → 45.6° before bottom dead center"
    assert exhaust.closes == "10° → 10.4° after top dead center"
    assert exhaust.centerline == "108° → 107.6° before top dead center"


def test_an_event_on_the_other_side_is_told_there(tmp_path: Path) -> None:
    """HAND: −0.2° before top less 0.38° is 0.6° after it."""
    changed = "opens: -0.2°, closes: 48°, centerline: 105–111°, lobe: intake_lobe"
    intake = found(tmp_path, (INTAKE, changed), with_cut=True).lines[0]
    assert intake.opens == "0.2° → 0.6° after top dead center"
    crossing = "opens: 0.2°, closes: 48°, centerline: 105–111°, lobe: intake_lobe"
    again = tmp_path / "again"
    again.mkdir()
    crossed = found(again, (INTAKE, crossing), with_cut=True).lines[0]
    assert crossed.opens == "0.2° before top dead center → 0.2° after top dead center"


def test_a_contradiction_names_field_and_line_and_the_rest_is_answered(tmp_path: Path) -> None:
    events = found(tmp_path, (INTAKE, INTAKE.replace("240°", "250°")))
    assert [one.valve for one in events.lines] == ["exhaust"]
    error = events.remarks[0]
    assert (error.grade, error.path) == ("error", "valve_gear.intake.duration")
    text = (tmp_path / "sheet.yaml").read_text(encoding="utf-8").splitlines()
    line = next(number for number, one in enumerate(text, start=1) if "duration: 250°" in one)
    assert f"sheet.yaml, line {line}, " in error.place
    assert error.text == (
        "The intake events contradict each other: opening 12° + 180° + 48° to closing is 240°, and the duration given "
        "is 250°. Check the three, and the sign of an event on the other side of its dead center."
    )
    assert (events.overlap, events.separation) == ("", "")


@pytest.mark.parametrize(("duration", "fits"), [("241°", True), ("242°", False), ("240.0°", True)])
def test_a_difference_that_rounding_makes_is_none(tmp_path: Path, duration: str, fits: bool) -> None:
    """HAND: three whole degrees, each off by half of one at most: 1.5° together."""
    changed = f"opens: 12°, closes: 48°, duration: {duration}, lobe: intake_lobe"
    events = found(tmp_path, (INTAKE, changed))
    assert len(events.lines) == (2 if fits else 1)


def test_what_is_missing_is_named(tmp_path: Path) -> None:
    events = found(tmp_path, (INTAKE, "opens: 12°, lobe: intake_lobe"))
    missing = events.remarks[0]
    assert (missing.grade, missing.path) == ("missing", "valve_gear.intake")
    assert missing.text == (
        "When the intake valves open and close is left open: two of opening, closing, duration and centerline are needed."
    )


def test_a_minus_is_told_on_the_side_where_it_is() -> None:
    assert sided(12.0, "before top") == "12° before top dead center"
    assert sided(-5.0, "before top") == "5° after top dead center"
    assert sided(-5.0, "after bottom") == "5° before bottom dead center"


def test_the_arcs_of_the_wheel(tmp_path: Path) -> None:
    """HAND: clockwise from the top: intake from −12° to 180° + 48°, exhaust from 180° − 46° to 360° + 10°."""
    drawn = picture(found(tmp_path, with_cut=True))
    assert [(one.valve, one.opens_deg, one.closes_deg) for one in drawn.arcs] == [
        ("intake", -12.0, 228.0),
        ("exhaust", 134.0, 370.0),
    ]
    assert drawn.overlap_deg == (-12.0, 10.0)
    assert drawn.overlap == "both open, 22°"
    assert [one.late for one in drawn.arcs] == ["0.4° later", "0.4° later"]
    assert drawn.words == (
        "intake: opens 12°, closes 48°, 240° open; exhaust: opens 46°, closes 10°, 236° open; "
        "both open together for 22° about top dead center"
    )


def test_a_pause_has_no_overlap_to_mark(tmp_path: Path) -> None:
    changed = "opens: -15°, closes: 48°, centerline: 105–111°, lobe: intake_lobe"
    events = found(tmp_path, (INTAKE, changed))
    assert events.overlap == "none, a pause of 5°"
    drawn = picture(events)
    assert (drawn.overlap, drawn.overlap_deg) == ("", None)
    assert "both open" not in events_svg(drawn)


def test_the_drawing_tells_valves_by_words_and_strokes(tmp_path: Path) -> None:
    drawing = events_svg(picture(found(tmp_path, with_cut=True)))
    root = ElementTree.fromstring(drawing)
    said = " ".join("".join(one.itertext()) for one in root.iter() if one.tag.endswith("text"))
    for words in ("TDC", "BDC", "12°", "48°", "46°", "10°", "both open, 22°", "strokes across the arc",
                  "lines along the arc", "dashed, after the cut: 0.4° later"):  # fmt: skip
        assert words in said
    assert drawing.count("stroke-dasharray") == 2
    assert not re.search(r"<style|<script|href", drawing)
    plain = events_svg(picture(found_without_cut(tmp_path)))
    assert "stroke-dasharray" not in plain


def found_without_cut(folder: Path) -> Events:
    other = folder / "uncut"
    other.mkdir()
    return found(other)


def test_everything_stays_on_the_drawing(tmp_path: Path) -> None:
    root = ElementTree.fromstring(events_svg(picture(found(tmp_path, with_cut=True))))
    width, height = (float(root.attrib[name]) for name in ("width", "height"))
    for one in root.iter():
        if one.tag.endswith("text"):
            assert 0 <= float(one.attrib["x"]) <= width
            assert 0 <= float(one.attrib["y"]) <= height
        for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", one.attrib.get("d", "")):
            assert 0 <= float(x) <= width
            assert 0 <= float(y) <= height


def test_the_names_of_the_valves_stand_clear_of_the_arcs(tmp_path: Path) -> None:
    """HAND: bands from 78 to 98 and 106 to 126 around the middle; letters 13 high are about 0.56 of it wide."""
    root = ElementTree.fromstring(events_svg(picture(found(tmp_path, with_cut=True))))
    texts = {"".join(one.itertext()): one for one in root.iter() if one.tag.endswith("text")}
    middle = (float(texts["TDC"].attrib["y"]) + 158 + float(texts["BDC"].attrib["y"]) - 168) / 2
    for name, inner, outer in (("intake", 106, 126), ("exhaust", 78, 98)):
        x, y = (float(texts[name].attrib[key]) for key in ("x", "y"))
        wide = 0.56 * 13 * len(name)
        corners = [hypot(x + across - 180, y - up - middle) for across in (0, wide) for up in (0, 10)]
        assert max(corners) < inner - 4 or min(corners) > outer + 4, name
        assert x + wide <= 360
        assert y - 10 > middle or y < middle, "off the line across"


def test_a_minus_is_explained_only_where_one_is_shown(tmp_path: Path) -> None:
    words = "A minus is the other side of that dead center."
    assert words not in events_svg(picture(found(tmp_path)))
    other = tmp_path / "minus"
    other.mkdir()
    # HAND: opening + 180° + closing: −5 + 180 + 65 = 240.
    said = picture(
        found(
            other,
            ("opens: 12°, closes: 48°", "opens: -5°, closes: 65°"),
            ("centerline: 105–111°, lobe: intake", "centerline: 125°, lobe: intake"),
        )
    )
    assert words in events_svg(said)
