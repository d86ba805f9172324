"""Proof-reading of limits with shapes and of faces. Figures are invented; what they contradict is HAND, as said."""

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.write import is_figure, parse_path
from tests.unit.bench.proof.test_checks import HEAD

OUTLINE = "[{x: 0 mm, y: 0 mm}, {x: 400 mm, y: 0 mm}, {x: 400 mm, y: 150 mm}, {x: 0 mm, y: 150 mm}]"
LONG = "long: {along: lengthwise, from: {x: 0 mm, y: 75 mm}, to: {x: 400 mm, y: 75 mm}}"


def proof(item: str, face: str = "", more: str = "") -> tuple[Finding, ...]:
    body = f"characteristics:\n  deck: {{name: Deck, part: Block, source: manual p. 3, {item}}}\n{more}{face}"
    loaded = parse_sheet(HEAD + body, file="sheet.yaml")
    return proofread(loaded.sheet, written=loaded.written)


def deck(*limits: str, plain: str = "") -> str:
    shapes = ", ".join(f"{{shape: {one}}}" for one in limits)
    return f"method: straightedge lines, {plain}limits: [{shapes}]"


def faced(*, lines: str = LONG, more: str = "") -> str:
    return f"faces:\n  deck: {{name: Deck face, source: manual p. 3, outline: {OUTLINE}, lines: {{{lines}}}{more}}}\n"


SAID_PARTS = "is larger than that of the whole face, so that it never decides: the two are exchanged, or a digit slipped."


@pytest.mark.parametrize(
    ("item", "check", "path", "printed", "agrees"),
    [
        (deck("whole face and per length, total: max 0.05 mm, limit: max 0.10 mm, over: 100 mm"),
         "limit-parts", "limits.1.limit",
         "whole max 0.05 mm (wear limit); over 100 mm max 0.10 mm (wear limit)", "at most 0.05 mm"),
        (deck("by direction, lengthwise: max 0.05 mm, crosswise: max 0.3 mm, overall: max 0.10 mm"),
         "limit-parts", "limits.1.crosswise",
         "whole max 0.10 mm (wear limit); crosswise max 0.3 mm (wear limit)", "at most 0.10 mm"),
        # 0.05 mm is 0.00197 in; 0.004 in is 0.1016 mm, and with half its last digit off still 0.089 mm
        (deck("per length, limit: max 0.004 in, over: 4 in", plain="wear_limit: max 0.05 mm, "),
         "limit-parts", "limits.1.limit",
         "whole max 0.05 mm (wear limit); over 4 in max 0.004 in (wear limit)", "at most 0.05 mm"),
        (deck("whole face, limit: max 0.02 mm", plain="new_range: max 0.03 mm, "),
         "wear-limit", "limits.1.limit",
         "whole max 0.03 mm (new range); whole max 0.02 mm (wear limit)", "at least 0.03 mm"),
        (deck("per length, limit: max 0.02 mm, over: 100 mm",
              "per length, stands_for: new range, limit: max 0.03 mm, over: 100 mm"),
         "wear-limit", "limits.1.limit",
         "over 100 mm max 0.03 mm (new range); over 100 mm max 0.02 mm (wear limit)", "at least 0.03 mm"),
    ],
)  # fmt: skip
def test_limits_that_contradict_each_other(
    item: str, check: str, path: str, printed: str, agrees: str
) -> None:
    (found,) = proof(item)
    assert (found.check, found.grade, found.path) == (check, "error", f"characteristics.deck.{path}")
    assert (found.printed, found.agrees, found.source) == (printed, agrees, "manual p. 3")
    assert found.line == 5
    assert SAID_PARTS in found.why or found.why == (
        "The wear limit lies inside the new range: some new parts would count as worn out."
    )
    assert is_figure(parse_path(found.path))


@pytest.mark.parametrize(
    "item",
    [
        deck(
            "whole face and per length, total: max 0.10 mm (0.0039 in), limit: max 0.05 mm (0.0020 in), over: 150 mm"
        ),
        deck("by direction, lengthwise: max 0.10 mm, crosswise: max 0.03 mm, overall: max 0.10 mm"),
        deck(
            "per length, limit: max 0.002 in, over: 6 in", plain="wear_limit: max 0.05 mm, "
        ),  # 0.0508 rounds to 0.05
        deck("whole face, limit: max 0.05 mm", plain="new_range: max 0.05 mm, "),
        deck(
            "per length, limit: max 0.08 mm, over: 100 mm", plain="new_range: max 0.05 mm, "
        ),  # of another thing
        deck("difference between cylinders, percent_of_highest: min 75 %"),
        deck("difference between cylinders, percent_of_highest: max 25 %"),
        deck("difference between cylinders, percent_of_highest: 25 %"),
        deck("difference between cylinders, percent_below_mean: max 10 %"),
    ],
)
def test_limits_that_agree_raise_nothing(item: str) -> None:
    assert proof(item) == ()


@pytest.mark.parametrize(
    ("limit", "agrees", "word"),
    [("percent_of_highest: min 25 %", "75 %", "fall to 25 %"), ("percent_of_highest: max 75 %", "25 %", "lack 75 %"),
     ("percent_below_mean: max 90 %", "10 %", "lack 90 %"), ("percent_below_mean: 90 %", "10 %", "lack 90 %")],
)  # fmt: skip
def test_a_share_that_is_told_the_other_way_round(limit: str, agrees: str, word: str) -> None:
    (found,) = proof(deck(f"difference between cylinders, {limit}"))
    assert (found.check, found.grade, found.agrees) == ("share", "doubt", agrees)
    assert found.why == f"A cylinder that may {word} does not run: it is told the other way round."


def test_a_pair_of_units_in_a_limit_is_read_like_any_other() -> None:
    """0.05 mm is 0.0020 in; 0.020 in is ten times that."""
    (found,) = proof(deck("whole face, limit: max 0.05 mm (0.020 in)"))
    assert (found.check, found.grade, found.name) == ("pair", "error", "Deck, limit, whole face, limit")
    assert "ten-fold" in found.digit


def test_a_limit_for_each_inch_makes_too_much_of_the_whole_length() -> None:
    """0.075 in for each inch over 400 mm: 0.075 · 400 = 30 mm; with 0.00075 it is 0.30 mm."""
    (found,) = proof(deck("per unit of span, limit: max 0.075 in, per: 1 in") + ", face: deck", faced())
    assert (found.check, found.path) == ("limit-span", "characteristics.deck.limits.1.limit")
    assert found.why == "Over 400 mm it makes 30.00 mm; no face may be out by more than 1 mm."
    assert proof(deck("per unit of span, limit: max 0.00075 in, per: 1 in") + ", face: deck", faced()) == ()


def test_a_limit_over_more_than_the_face_is_long() -> None:
    (found,) = proof(deck("per length, limit: max 0.05 mm, over: 500 mm") + ", face: deck", faced())
    assert (found.check, found.grade, found.path) == (
        "limit-over",
        "doubt",
        "characteristics.deck.limits.1.over",
    )
    assert found.printed == "over 500 mm; longest line 400 mm"
    assert proof(deck("per length, limit: max 0.05 mm, over: 400 mm") + ", face: deck", faced()) == ()


@pytest.mark.parametrize(("together", "found"), [("max 0.10 mm", 1), ("max 0.08 mm", 0)])
def test_two_faces_that_may_both_be_out_alone(together: str, found: int) -> None:
    """Each alone may be out by 0.05 mm; together 0.10 mm says nothing more."""
    head = "  head: {name: Head face, part: Head, source: manual p. 3, method: straightedge lines, "
    head += "wear_limit: max 0.05 mm}\n"
    item = deck(f"two faces together, with: head, limit: {together}", plain="wear_limit: max 0.05 mm, ")
    notes = proof(item, more=head)
    assert [(one.check, one.grade) for one in notes] == [("limit-faces", "note")] * found


@pytest.mark.parametrize(
    ("lines", "more", "path", "why"),
    [
        (LONG.replace("}}", "}, length: 440 mm}"), "", "lines.long.length",
         "The stated length is not the one between its ends."),
        (LONG.replace("lengthwise", "crosswise"), "", "lines.long.along",
         "The face is longer the other way: the line runs lengthwise."),
        (LONG.replace("x: 400", "x: 440"), "", "lines.long.to",
         "It lies beside the outline of the face: another zero, another side, or a sign that slipped."),
        (LONG, ", openings: [{x: 50 mm, y: -75 mm, diameter: 80 mm}]", "openings.1",
         "It lies beside the outline of the face: another zero, another side, or a sign that slipped."),
        (LONG, ", points: {a: {x: 50 mm, y: 175 mm}}", "points.a",
         "It lies beside the outline of the face: another zero, another side, or a sign that slipped."),
    ],
)  # fmt: skip
def test_faces_that_contradict_themselves(lines: str, more: str, path: str, why: str) -> None:
    (found,) = proof(deck(plain="wear_limit: max 0.05 mm, "), faced(lines=lines, more=more))
    assert (found.grade, found.path, found.why) == ("doubt", f"faces.deck.{path}", why)
    assert found.line == 7


def test_bolts_beside_their_face_have_another_zero() -> None:
    bolts = "{1: {x: 20 mm, y: 20 mm}, 2: {x: 20 mm, y: -20 mm}}"
    joint = (
        f"joints:\n  head: {{name: Head, source: manual p. 2, bolts: {bolts}, order: [1, 2], thread_state: dry, "
        "fastener: {thread: M8x1.25}, program: [hand-run]}\n"
    )
    (found,) = proof(deck(plain="wear_limit: max 0.05 mm, "), faced(more=", bolts_of: head") + joint)
    assert (found.path, found.printed) == ("joints.head.bolts.2", "x 20 mm, y -20 mm")
    assert found.agrees == "x 0 to 400 mm, y 0 to 150 mm"


def test_a_finding_of_a_limit_is_settled_like_any_other() -> None:
    item = deck("whole face and per length, total: max 0.05 mm, limit: max 0.10 mm, over: 100 mm")
    (open_one,) = proof(item)
    settled = f"settled:\n  - {{finding: {open_one.key}, decision: kept, why: the page prints it}}\n"
    (found,) = proof(item, settled)
    assert not found.counts
