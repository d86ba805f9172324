"""What a body may hold: text, whole numbers and decimals as text; a reason where one is owed; nothing unknown."""

from typing import Any

import pytest

from gudgeon.book.bodies import BODIES, problems, validated, validated_draft
from gudgeon.book.entries import Draft
from gudgeon.book.errors import BodyRefused, UnknownKind

READING = {"item": "bore", "place": "1 top", "unit": "mm", "condition": "as found"}
PULL = {"joint": "head", "stage": 1, "round": 1, "bolt": "1", "outcome": "done"}
NOTE = {"text": "cold"}
DRAFT: dict[str, Any] = {
    "id": "0" * 32, "kind": "note", "body": NOTE, "build": "van", "who": "Ada", "device": "bench",
    "device_time": "2026-03-07T10:00:00+01:00",
}  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "body", "said"),
    [
        ("note", {"text": "  "}, "text: it is empty"),
        ("note", {}, "text: Field required"),
        ("note", {"text": "cold", "mood": "good"}, "mood: Extra inputs are not permitted"),
        ("note", {"text": 5}, "text: Input should be a valid string"),
        ("note", {"text": "\ud800"}, "text: it is not readable text"),
        ("joint-disturbed", {"joint": "head", "why": ""}, "why: it is empty"),
        ("strike", {"entry": "0" * 32, "why": " "}, "why: it is empty"),
        ("strike", {"entry": "12", "why": "wrong"}, "entry: String should match pattern '^[0-9a-f]{32}$'"),
        ("pull", PULL | {"stage": 1.0}, "stage: Input should be a valid integer"),
        ("pull", PULL | {"stage": "1"}, "stage: Input should be a valid integer"),
        ("pull", PULL | {"stage": True}, "stage: Input should be a valid integer"),
        ("pull", PULL | {"stage": 0}, "stage: 0 is too small; a book takes 1 or more"),
        ("pull", PULL | {"outcome": "stopped at"}, "the angle at which it stopped is missing"),
        ("pull", PULL | {"outcome": "doubtful"}, "what is doubtful about it is missing"),
        ("reading", READING, "one value or an interval was expected"),
        ("reading", READING | {"value": "1", "low": "1"}, "one value or an interval was expected"),
        ("reading", READING | {"low": "0.06", "high": "0.05"}, "the blade that enters is thicker than the one that does not"),
        ("reading", READING | {"value": 81.0}, "value: Input should be a valid string"),
        ("reading", READING | {"value": "nan"}, "value: a decimal number was expected, like 0.05"),
        ("reading", READING | {"value": "1_0"}, "value: a decimal number was expected, like 0.05"),
        ("reading", READING | {"value": "0,05"}, "value: a decimal number was expected, like 0.05"),
        ("reading", READING | {"value": "٣"}, "value: a decimal number was expected, like 0.05"),
        ("hold-proved", {"hold": "timing", "value": "OK!"}, "`OK!` is a bare tick; write the value that was seen"),
        *(
            ("hold-proved", {"hold": "timing", "value": said},
             f"`{said}` proves nothing; write what was seen")
            for said in ("no", "Nope.", "none", "not yet", "n/a", "N/A!", "na", "unknown", "later", "nothing", "none seen",
                         "not done", "not done yet", "no, not yet", "it was not looked at", "didn’t")
        ),
        ("inspected", {"entry": "0" * 32, "gate": "pins in", "found": "nope", "by": "Ada"},
         "found: `nope` proves nothing; write what was seen"),
        ("timer-ended", {"timer": "cure", "how": "not yet"}, "how: `not yet` is no reason; write why in words"),
        ("hold-proved", {"hold": "timing", "value": "."}, "`.` is a bare tick; write the value that was seen"),
        ("hold-proved", {"hold": "timing", "value": "all good"}, "`all good` is a bare tick; write the value that was seen"),
        ("strike", {"entry": "0" * 32, "why": "-"}, "why: `-` is no reason; write why in words"),
        ("timer-ended", {"timer": "t", "how": "OK"}, "how: `OK` is no reason; write why in words"),
        ("hold-proved", {"hold": "timing", "value": "2 turns", "rests_on": ["head"]},
         "rests_on.0: String should match pattern '^(joint|hold|state|part|under):\\S.*$'"),
        ("timer-started", {"timer": "t", "name": "bead", "minutes": 0, "task": "oil", "due_before": "fire"},
         "minutes: 0 is too small; a book takes 1 or more"),
        ("task-started", {"task": " "}, "task: it is empty"),
        ("task-started", {"task": "x" * 301},
         "task: it has 301 letters; a book takes at most 300 of it. Shorten it"),
        ("task-paused", {"task": "lift_head", "why": ""}, "why: it is empty"),
        ("task-done", {"task": "lift_head", "minutes": -1}, "minutes: -1 is too small; a book takes 0 or more"),
        ("task-done", {"task": "lift_head", "minutes": "25"}, "minutes: Input should be a valid integer"),
        ("plugged", {"item": "p", "name": "port", "where": "head", "due_before": "never"},
         "due_before: Input should be 'crank', 'fire', 'drive' or 'handover'"),
    ],
)  # fmt: skip
def test_refused_and_why(kind: str, body: dict[str, Any], said: str) -> None:
    with pytest.raises(BodyRefused) as refused:
        validated(kind, body)
    assert (
        str(refused.value) == f"This {kind.replace('-', ' ')} is not complete: {said}. Nothing was recorded."
    )


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("0.050", "0.050"),
        ("-0.05", "-0.05"),
        ("5E-7", "0.0000005"),
        ("1.5e+2", "150"),
        ("+3", "3"),
        ("81", "81"),
    ],
)
def test_a_decimal_is_kept_plain_with_its_last_digit(written: str, kept: str) -> None:
    assert validated("reading", READING | {"value": written})[1]["value"] == kept


def test_blanks_around_a_name_are_no_part_of_it() -> None:
    assert validated("note", {"text": " cold "}) == (1, {"text": "cold"})


def test_an_unknown_kind_lists_the_known() -> None:
    with pytest.raises(UnknownKind) as refused:
        validated("smell", {})
    assert str(refused.value).startswith(
        "`smell` is no kind of entry. Nothing was recorded; the kinds are build-opened, "
    )


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("id", "12", "id: String should match pattern '^[0-9a-f]{32}$'"),
        ("build", " ", "build: it is empty"),
        ("who", "", "who: it is empty"),
        ("device_time", "2026-03-07T10:00:00", "device_time: the time has no offset from UTC"),
        ("device_time", "yesterday", "device_time: a time as ISO 8601 was expected, like 2026-03-07T10:00:00+01:00"),
        ("device_time", "0001-01-01T00:00:00+14:00", "device_time: the year is not between 1970 and 2999; set the clock of the device"),
        ("basis", "abc", "basis: String should match pattern '^([0-9a-f]{64})?$'"),
        ("body", {"text": ""}, "text: it is empty"),
    ],
)  # fmt: skip
def test_a_draft_refused_and_why(field: str, value: Any, said: str) -> None:
    with pytest.raises(BodyRefused) as refused:
        validated_draft(Draft(**DRAFT | {field: value}))
    assert str(refused.value) == f"This note is not complete: {said}. Nothing was recorded."


def test_a_draft_in_order() -> None:
    assert validated_draft(Draft(**DRAFT)) == DRAFT | {"version": 1, "basis": "", "sheet": "", "kit": ""}


def test_no_body_has_a_float_or_takes_what_it_does_not_know() -> None:
    for kind, (_, model) in BODIES.items():
        assert (model.model_config.get("extra"), model.model_config.get("strict")) == ("forbid", True), kind
        assert "'type': 'number'" not in str(model.model_json_schema()), kind


def test_a_body_that_stands_in_a_book() -> None:
    assert problems(kind="note", version=1, body=NOTE) == []
    assert problems(kind="note", version=2, body=NOTE) == ["this program does not know version 2 of `note`"]
    assert problems(kind="note", version=1, body={"text": " "}) == ["text: it is empty"]
    assert problems(kind="reading", version=1, body=READING | {"value": "1"}) == [
        "its body is not as it is written today"
    ]
