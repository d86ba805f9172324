"""A blank kit is empty as it stands, and becomes a kit when its `#` are taken away."""

import pytest

from gudgeon.kit.gauges import kinds_of_gauge
from gudgeon.kit.load import parse_kit
from gudgeon.kit.schema import blank_kit
from gudgeon.sheet.load import parse_sheet
from gudgeon.written.errors import NotAMapping, OtherFile


def test_a_blank_kit_holds_nothing_and_is_no_error() -> None:
    kit = parse_kit(blank_kit(), file="kit.yaml").kit
    assert not kit.wrenches
    assert not kit.gauges
    assert not kit.turning


def test_every_example_of_the_blank_kit_loads() -> None:
    text = "\n".join(" " + line[1:] if line.startswith("#  ") else line for line in blank_kit().splitlines())
    kit = parse_kit(text, file="kit.yaml").kit
    assert kit.wrenches["half_inch"].range.text == "40–200 N·m"
    assert kit.gauges["compression"].reads == "pressure_gauge"
    assert kit.gauges["bore_gauge"].zeroed_in == "micrometer_100"
    kinds = {gauge.kind for gauge in kit.gauges.values()}
    assert all(
        kind in kinds or f"{kind}," in blank_kit() or f"{kind}\n" in blank_kit() for kind in kinds_of_gauge()
    )
    assert set(kit.turning) == {"angle_gauge", "bar"}
    assert kit.suppliers["north"].sells["exhaust_nuts"].pack == 10
    assert kit.hours is not None


@pytest.mark.parametrize("written", ["A4", "a4", "Letter", "LETTER"])
def test_a_size_of_paper_is_taken_as_it_stands_on_the_packet(written: str) -> None:
    kit = parse_kit(f"gudgeon: kit 1\npaper: {written}\n", file="kit.yaml").kit
    assert kit.paper == written.lower()


def test_an_empty_file_is_told_what_a_kit_looks_like() -> None:
    with pytest.raises(NotAMapping) as caught:
        parse_kit("", file="kit.yaml")
    assert str(caught.value) == (
        "kit.yaml, line 1, column 1: A file of `key: value` lines was expected, an empty file was found. See "
        "`gudgeon kit blank`."
    )


def test_a_sheet_in_the_place_of_a_kit_is_one_line_and_the_other_way_round() -> None:
    with pytest.raises(OtherFile) as caught:
        parse_kit("gudgeon: data sheet 1\nengine: {}\nsources: {}\n", file="engine.yaml")
    assert str(caught.value) == (
        "engine.yaml, line 1, column 10: This is a data sheet (`gudgeon: data sheet 1`), not a kit. Give the file of the "
        "kit; `gudgeon kit blank` makes one."
    )
    with pytest.raises(OtherFile) as caught:
        parse_sheet("gudgeon: kit 1\nwrenches: {}\n", file="kit.yaml")
    assert str(caught.value) == (
        "kit.yaml, line 1, column 10: This is a kit (`gudgeon: kit 1`), not a data sheet. Give the file of the data sheet; "
        "`gudgeon sheet blank` makes one."
    )
