"""Texts made fit for paper: nothing to type, no place in a file that nobody has open beside it."""

import pytest

from gudgeon.paper.words import NAME_BYTES, for_paper, in_file_name, plain, without_keys, without_places


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("height as found (head.measured_as, line 55 of the data sheet, measure it: gudgeon record reading h)",
         "height as found (measure it)"),
        ("the sheet has no place for it (cylinder: measured_as: chamber_volume)", "the sheet has no place for it"),
        ("the datum (head: datum): agree with the shop", "the datum: agree with the shop"),
        ('No order is in the book: gudgeon record shop-out "Cylinder head"', "No order is in the book"),
        ('It is at the mill. When it is back: gudgeon record shop-back head --found … 1 reading is older.',
         "It is at the mill. 1 reading is older."),
        ("wait until it is over (gudgeon now)", "wait until it is over"),
        ("0.03 mm (manual p. 8), 0.05 mm (limit: 0.06 mm)", "0.03 mm (manual p. 8), 0.05 mm (limit: 0.06 mm)"),
    ],
)  # fmt: skip
def test_what_is_printed_of_a_text(text: str, printed: str) -> None:
    assert plain(text) == printed


def test_paper_counts_nothing_down() -> None:
    """What still runs is told by the hour when it is over; the way to go of an odometer stands beside what it shows."""
    said = "Sealant: until Mon Nov 30, 08:25, 18 h 44 min to go; cure (9 min to go); 84,000 km shown, 120 km to go"
    assert for_paper(said) == "Sealant: until Mon Nov 30, 08:25; cure; 84,000 km shown, 120 km to go"


@pytest.mark.parametrize("build", ["x" * 203, "漢" * 203, "é" * 203, "a" + "漢字" * 100])
def test_a_long_name_of_a_build_leaves_room_in_the_name_of_a_file(build: str) -> None:
    short = in_file_name(build)
    assert NAME_BYTES - 4 < len(short.encode()) <= NAME_BYTES
    assert build.startswith(short)
    assert in_file_name("my engine 2") == "my engine 2"


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("`valve_gear.intake` in the sheet: the intake valves are not answered for",
         "valve gear, intake in the sheet: the intake valves are not answered for"),
        ("the required clearance of `exhaust_clearance`, with both ends", "the required clearance of exhaust clearance, with both ends"),
        ("the mark `A 1` on the block", "the mark `A 1` on the block"),
    ],
)  # fmt: skip
def test_a_key_of_the_sheet_is_said_in_words(text: str, printed: str) -> None:
    assert without_keys(text) == printed


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("missing: chamber volume (cylinder.chamber_volume, line 16 of the data sheet, not stated); angle (valve_gear.intake.angle, line 252 of the data sheet, not stated)",
         "missing: chamber volume (not stated); angle (not stated)"),
        ("the sheet lists none that can be had (cylinder.gaskets)", "the sheet lists none that can be had"),
        ("none can bind: cylinder.most_ratio, valve_gear.exhaust.least_piston_margin", "none can bind: most ratio, exhaust least piston margin"),
        ("accepted by owner, because (head: cracked, welded) it holds", "accepted by owner, because (head: cracked, welded) it holds"),
        ("of the cylinder. Then 0.14 mm", "of the cylinder. Then 0.14 mm"),
    ],
)  # fmt: skip
def test_a_place_in_the_sheet_is_left_out_of_the_closed_book(text: str, printed: str) -> None:
    assert without_places(text) == printed
