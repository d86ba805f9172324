"""What stands first in the answer about a cut. HAND: every expected number is worked out in the comment above it."""

from pathlib import Path

import pytest

from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.cut.errors import MoreThanTheHead
from gudgeon.bench.pictures.cut import cut_picture
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.cut.cylinders import ROUND, heights, line

ONLY_HEIGHTS = "\n  height: 100.00 mm ± 0.05 mm\n  least_height: min 99.70 mm"
GASKETS = ROUND.replace(
    "  squish_pad_recess",
    "  gaskets:\n"
    "    thin: {thickness: 1.0000 mm, for_cut: max 0.20 mm, source: manual p. 4}\n"
    "    thick: {thickness: 1.2000 mm, for_cut: max 0.28 mm, source: manual p. 4}\n"
    "  squish_pad_recess",
)


def of(folder: Path, sheet: str) -> Job:
    made = make_job(folder, sheet=sheet)
    made.read_code()
    return made


def test_once_a_cut_is_made_it_stands_first_with_what_is_left(tmp_path: Path) -> None:
    # 100.00 − 99.88 = 0.12 came off; of the 0.20 that the thin gasket is meant for 0.08 is left, 0.0031 in. Of the
    # height 99.88 − 99.70 = 0.18 less U 0.035 is left, more than that.
    job = of(tmp_path, GASKETS)
    heights(job, "as found", "100.00", "100.00")
    heights(job, "as left", "99.88", "99.88")
    answer = consequences(job.bench())
    said = "0.12 mm (0.0047 in) came off; 0.08 mm (0.0031 in) may surely still come off; the gasket binds."
    assert answer.verdict == said
    assert answer.ways_out == ()
    assert cut_picture(job.bench()).words == said


@pytest.mark.parametrize(
    ("left", "said"),
    [
        # All of the 0.20 of the thin gasket.
        ("99.80", "0.20 mm (0.0079 in) came off; nothing more may surely come off; the gasket binds."),
        # The thick gasket is meant for 0.25, up to 0.28; of the height 99.75 − 99.70 = 0.05, less U 0.035 (two places,
        # one of them the least: u = √(0.03²/3 + 0.01²/12) = 0.0176), is 0.01 to the safe side.
        (
            "99.75",
            "0.25 mm (0.0098 in) came off; 0.01 mm (0.00039 in) may surely still come off; the height binds, with the "
            "gasket thick.",
        ),
    ],
)
def test_what_binds_after_the_cut_follows_the_gasket_meant_for_it(
    tmp_path: Path, left: str, said: str
) -> None:
    job = of(tmp_path, GASKETS)
    heights(job, "as found", "100.00", "100.00")
    heights(job, "as left", left, left)
    assert consequences(job.bench()).verdict == said


def test_nothing_left_is_nothing(tmp_path: Path) -> None:
    # The gasket is meant for 0.20, 0.20 came off: what is left of the sum in the computer is no length.
    job = of(tmp_path, GASKETS)
    heights(job, "as found", "100.00", "100.00")
    heights(job, "as left", "99.80", "99.80")
    still = line(consequences(job.bench(), gasket="thin"), "May still come off, surely")
    assert (still.after, still.verdict) == ("nothing", "inside")


def test_more_than_the_height_lets_come_off_is_said_first(tmp_path: Path) -> None:
    # 100.00 less 99.70 is 0.30 mm, 0.0118 in; 0.50 / 25.4 = 0.0197.
    job = of(tmp_path, ROUND)
    heights(job, "as found", "100.00", "100.00")
    assert consequences(job.bench(), off="0.5 mm").verdict.startswith(
        "0.50 mm (0.0197 in) cannot come off: as found the head is 100.00 mm (3.9370 in) high at its least place and has "
        "to stay at least 99.70 mm, so it can lose 0.30 mm (0.0118 in) (manual p. 8). "
    )


@pytest.mark.parametrize(
    ("sheet", "off", "limit"),
    [
        # 80 cm³ over 90 cm² are gone at 8.9 mm: nobody gets so far.
        (ROUND.replace(ONLY_HEIGHTS, ""), "50 mm", "nobody takes more than 5.00 mm (0.1969 in) off a head (common practice)"),
        # 18 cm³ over 90 cm² are gone at 2.00 mm, 0.0787 in.
        (
            ROUND.replace(ONLY_HEIGHTS, "").replace("chamber_volume: 80.0000", "chamber_volume: 18.0000"),
            "3 mm", "the chamber of 18.0000 cm³ would be gone at 2.00 mm (0.0787 in) (manual p. 3)",
        ),
    ],
)  # fmt: skip
def test_a_cut_that_no_head_has_room_for_is_refused(tmp_path: Path, sheet: str, off: str, limit: str) -> None:
    with pytest.raises(MoreThanTheHead) as refused:
        consequences(of(tmp_path, sheet).bench(), off=off)
    assert (
        refused.value.message.split(" cannot come off: ")[1]
        == f"{limit}. Ask about less, and check the unit."
    )


def test_many_teeth_are_no_part_of_one() -> None:
    from gudgeon.bench.cut.table import _teeth

    assert _teeth(0.01) == "0.01 of a tooth: it explains no whole one"
    assert _teeth(5.96) == "5.96 teeth: marks that stand off may come from the cut"


def test_where_the_head_itself_has_no_limit_that_is_said_first(tmp_path: Path) -> None:
    answer = consequences(of(tmp_path, GASKETS.replace("  least_height: min 99.70 mm\n", "")).bench())
    assert answer.verdict.startswith("At most ")
    assert answer.verdict.endswith(
        "the sheet does not say how much the head itself may lose, neither its least height nor the most that may come "
        "off. Cut nothing before that is looked up."
    )


def test_where_the_head_has_a_limit_nothing_is_said_of_it(tmp_path: Path) -> None:
    assert "neither its least height" not in consequences(of(tmp_path, GASKETS).bench()).verdict
