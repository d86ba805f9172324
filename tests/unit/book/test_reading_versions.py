"""Readings as they are kept today, as they were kept first, and faces that were scanned."""

import csv
import io
from dataclasses import replace
from typing import Any

import pytest

from gudgeon.book.bodies import problems, validated
from gudgeon.book.bodies_measuring import mean_of
from gudgeon.book.errors import BodyRefused
from gudgeon.book.fold import fold
from gudgeon.book.tables import tables
from tests.unit.book.chains import begun

READING: dict[str, Any] = {"item": "bore", "place": "1 top", "unit": "mm", "condition": "as found"}
FIRST = READING | {"value": "81.65", "low": None, "high": None, "instrument": "", "shown": {}, "note": ""}
"""A reading of version 1 as it stands in a book: the fields that it had then."""
SCAN: dict[str, Any] = {
    "item": "deck", "unit": "mm", "points": [["0", "0", "0.01"], ["300", "0", "0.02"], ["0", "150", "-0.01"]],
    "condition": "as found", "file": "deck.csv", "sha": "a" * 64,
}  # fmt: skip


@pytest.mark.parametrize(
    ("repeats", "mean"),
    [
        (("81.65", "81.66", "81.65"), "81.6533"),  # HAND: 81.65 + 0.01 / 3
        (("81.65", "81.66"), "81.6550"),  # HAND
        (("1", "2"), "1.50"),  # HAND
        (("0.1", "0.2", "0.3", "0.4"), "0.250"),  # HAND
        (("-0.02", "0.020"), "0.00000"),  # HAND: three digits and two more
        (("1.5", "1.5", "1.5"), "1.500"),  # HAND
        (("10000000000", "10000000000.01"), "10000000000.0050"),  # HAND: no binary rounding
    ],
)
def test_a_mean_has_two_digits_more_than_the_finest_repeat(repeats: tuple[str, ...], mean: str) -> None:
    assert mean_of(repeats) == mean


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ({"value": "81.65", "repeats": ["81.65"]}, "one repeat is none: at least two were expected"),
        ({"low": "0.05", "high": "0.06", "repeats": ["0.05", "0.06"]}, "repeats belong to a value, not to an interval"),
        ({"value": "81.66", "repeats": ["81.65", "81.66"]}, "the value 81.66 is not the mean of its repeats, 81.6550"),
        ({"value": "81.65", "part_temperature": "24"}, "a temperature and its unit belong together"),
        ({"value": "81.65", "temperature_unit": "°C"}, "a temperature and its unit belong together"),
        ({"value": "81.65", "gauge_as_part": True},
         "a gauge as warm as the part has the temperature of the part and none of its own"),
        ({"value": "81.65", "gauge_as_part": True, "part_temperature": "24", "gauge_temperature": "20",
          "temperature_unit": "°C"},
         "a gauge as warm as the part has the temperature of the part and none of its own"),
        ({"value": "81.65", "part_temperature": "warm", "temperature_unit": "°C"},
         "part_temperature: a decimal number was expected, like 0.05"),
        ({"value": "81.65", "part_temperature": "24", "temperature_unit": "C"},
         "temperature_unit: Input should be '°C', '°F' or 'K'"),
        ({"value": "81.65", "repeats": ["nan", "81.65"]}, "repeats.0: a decimal number was expected, like 0.05"),
    ],
)  # fmt: skip
def test_a_reading_refused_and_why(body: dict[str, Any], said: str) -> None:
    with pytest.raises(BodyRefused) as refused:
        validated("reading", READING | body)
    assert str(refused.value) == f"This reading is not complete: {said}. Nothing was recorded."


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"points": []}, "points: List should have at least 1 item after validation, not 0"),
        ({"points": [["0", "0"]]}, "points.0: List should have at least 3 items after validation, not 2"),
        ({"points": [["0", "0", "inf"]]}, "points.0.2: a decimal number was expected, like 0.05"),
        ({"unit": "kg"}, "unit: Input should be 'mm', 'in', 'µm', 'thou', 'cm' or 'm'"),
        ({"sha": "a"}, "sha: String should match pattern '^[0-9a-f]{64}$'"),
    ],
)
def test_a_face_refused_and_why(change: dict[str, Any], said: str) -> None:
    with pytest.raises(BodyRefused) as refused:
        validated("face-scanned", SCAN | change)
    assert str(refused.value) == f"This face scanned is not complete: {said}. Nothing was recorded."


def test_today_version_two_is_written_and_version_one_is_in_order_for_ever() -> None:
    version, body = validated("reading", READING | {"value": "81.65"})
    assert version == 2
    assert problems(kind="reading", version=1, body=FIRST) == []
    assert problems(kind="reading", version=2, body=body) == []
    assert problems(kind="reading", version=1, body=body) == [
        f"{name}: Extra inputs are not permitted"
        for name in ("repeats", "part_temperature", "gauge_temperature", "temperature_unit", "gauge_as_part")
    ]
    assert problems(kind="reading", version=2, body=FIRST) == ["its body is not as it is written today"]
    assert problems(kind="reading", version=3, body=body) == [
        "this program does not know version 3 of `reading`"
    ]


def test_both_versions_add_up_to_the_same_kind_of_state() -> None:
    chain = begun()
    new = chain.add(
        "reading", **READING, value="81.6550", repeats=["81.65", "81.66"], part_temperature="24.5",
        temperature_unit="°C", gauge_as_part=True,
    )  # fmt: skip
    state = fold(
        [*chain.entries, replace(new, number=3, id="9" * 32, version=1, body=FIRST | {"place": "2 top"})]
    )
    found = state.readings["bore", "1 top", "as found"]
    assert (found.value, found.repeats) == ("81.6550", ("81.65", "81.66"))
    assert (found.part_temperature, found.gauge_temperature, found.temperature_unit) == ("24.5", None, "°C")
    assert found.gauge_as_part
    before = state.readings["bore", "2 top", "as found"]
    assert (before.value, before.repeats, before.part_temperature, before.gauge_as_part) == (
        "81.65",
        (),
        None,
        False,
    )


def test_the_latest_scan_of_a_face_counts_and_a_strike_gives_back_the_one_before() -> None:
    chain = begun()
    chain.add("face-scanned", **SCAN)
    later = chain.add("face-scanned", **SCAN | {"file": "again.csv", "points": [["1", "2", "3"]]})
    found = chain.state.scans["deck", "as found"]
    assert (found.file, found.points, found.unit) == ("again.csv", (("1", "2", "3"),), "mm")
    chain.strike(later, "wrong face")
    assert chain.state.scans["deck", "as found"].file == "deck.csv"


def test_a_table_has_the_columns_of_a_later_version_only_where_an_entry_has_them() -> None:
    chain = begun()
    new = chain.add("reading", **READING, value="81.65")
    old = replace(new, version=1, body=FIRST)
    added = ["repeats", "part_temperature", "gauge_temperature", "temperature_unit", "gauge_as_part"]

    def header(*entries: Any) -> list[str]:
        text = dict(tables(entries))["readings"].decode()
        return next(csv.reader(io.StringIO(text)))

    first = header(chain.entries[0], old)
    assert not set(added) & set(first)
    assert header(*chain.entries) == [*first, *added]


def test_the_table_of_faces_says_how_many_points_there_are() -> None:
    chain = begun()
    chain.add("face-scanned", **SCAN)
    (row,) = csv.DictReader(io.StringIO(dict(tables(chain.entries))["faces"].decode()))
    assert (row["item"], row["points"], row["file"]) == ("deck", "3", "deck.csv")
