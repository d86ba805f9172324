"""What is decided about a finding is kept in the sheet, and holds as long as the figure stands."""

from datetime import date

import pytest

from gudgeon.bench.proof.findings import open_errors
from gudgeon.bench.proof.run import proofread
from gudgeon.bench.proof.settle import outdated, settle
from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet

TEXT = """gudgeon: data sheet 1
# my own remark
engine: {name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front}
sources: {manual: {title: Manual, edition: first}}
characteristics:
  lash: {name: Run-out, part: Crankshaft, method: run-out, source: manual p. 1, required: 0.011 in (0.028 mm)}  # seen
"""


def key_in(text: str) -> str:
    loaded = parse_sheet(text, file="sheet.yaml")
    return proofread(loaded.sheet)[0].key


def settled(text: str, decision: str, why: str = "both pages print it", key: str = "") -> str:
    return settle(
        text, file="sheet.yaml", finding=key or key_in(text), decision=decision, why=why, who="Ada",
        on=date(2026, 11, 25),
    )  # fmt: skip


@pytest.mark.parametrize(("decision", "errors"), [("kept", 0), ("asked", 0), ("corrected", 1)])
def test_a_decision_is_kept_with_its_reason(decision: str, errors: int) -> None:
    sheet = parse_sheet(settled(TEXT, decision), file="sheet.yaml").sheet
    (found,) = proofread(sheet)
    assert open_errors([found]) == errors
    assert found.settled is not None
    assert (found.settled.decision, found.settled.why, found.settled.who) == (
        decision,
        "both pages print it",
        "Ada",
    )


def test_comments_stay_and_a_second_decision_replaces_the_first() -> None:
    text = settled(settled(TEXT, "kept"), "asked", "the supplier")
    assert "# my own remark" in text
    assert "# seen" in text
    assert [one.decision for one in parse_sheet(text, file="s").sheet.settled] == ["asked"]


def test_a_figure_that_changes_is_proof_read_anew() -> None:
    text = settled(TEXT, "kept").replace("required: 0.011 in (0.028 mm)", "required: 0.011 in (0.38 mm)")
    sheet = parse_sheet(text, file="s").sheet
    found = proofread(sheet)
    assert [(one.grade, one.settled) for one in found] == [("error", None)]
    assert outdated(sheet, found) == 1


@pytest.mark.parametrize(
    ("decision", "why", "key", "message"),
    [
        ("kept", "  ", "", "The reason is empty."),
        ("kept", "so", "pair-00000000", "`pair-00000000` is no finding here. Known: pair-"),
        ("ignored", "so", "", "`ignored` is no decision here."),
    ],
)
def test_what_is_not_taken(decision: str, why: str, key: str, message: str) -> None:
    with pytest.raises(InputError) as refused:
        settled(TEXT, decision, why, key)
    assert str(refused.value).startswith(message)
