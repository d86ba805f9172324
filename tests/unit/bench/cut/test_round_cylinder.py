"""The cut on a cylinder of round numbers. HAND: every expected number is worked out in the comment above it."""

import math
from pathlib import Path

import pytest

from gudgeon.bench.cut.consequences import consequences
from gudgeon.bench.errors import CannotWorkOut, Unknown
from gudgeon.calc.errors import Negative
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.cut.cylinders import ROUND, heights, line, middle, surely, value
from tests.unit.sheet.sheets import SMALL

CALIPER_U = math.hypot(0.03 / math.sqrt(3), 0.01 / math.sqrt(12))
"""One reading of the caliper of the tests: ± 0.03 mm and a step of 0.01 mm, both rectangular."""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return of(tmp_path, ROUND)


def of(folder: Path, sheet: str) -> Job:
    made = make_job(folder, sheet=sheet)
    made.read_code()
    return made


def test_a_cut_that_is_asked_about(job: Job) -> None:
    # 0.5 mm over 9 000 mm² takes 4.5 cm³: 1 + 900 / 85.5 = 11.5263. Squish 1.0 + max(0.2 − 0.5, 0) = 1.0.
    answer = consequences(job.bench(), off="0.5 mm")
    ratio, squish = line(answer, "Compression ratio"), line(answer, "Squish")
    assert ratio.before == "11.00"
    assert value(answer, "Compression ratio") == pytest.approx(11.5263, abs=2e-4)
    assert value(answer, "Volume that goes from a chamber") == pytest.approx(4.5, abs=1e-6)
    assert squish.before == "1.200 mm (0.0472 in)"
    assert value(answer, "Squish") == pytest.approx(1.0, abs=1e-9)
    assert (squish.limit, squish.verdict) == ("at least 0.90 mm", "inside")


def test_the_printed_tolerance_is_propagated(tmp_path: Path) -> None:
    # Chamber 80 ± 2 cm³, rectangular: u = 2/√3 = 1.1547 cm³. Slope over ± u: 900 / (90² − u²) = 0.11113 per cm³;
    # U = 2 · 1.1547 · 0.11113 = 0.25664; the other figures are exact to 1e-4.
    answer = consequences(of(tmp_path, ROUND.replace("80.0000 cm³", "80.0 ± 2.0 cm³")).bench(), off="0 mm")
    assert line(answer, "Compression ratio").expanded == pytest.approx(0.25664, abs=5e-5)
    assert line(answer, "Compression ratio").after == "11.00 ± 0.26"


def test_the_cut_that_was_made(job: Job) -> None:
    heights(job, "as found", "100.00", "100.02")
    before = consequences(job.bench())
    assert before.missing[-2] == (
        "the cut that was made: missing: the height of the head as left; it can be asked about without them"
    )
    # 100.00 less 99.70, less 2 u of a reading.
    assert surely(before, "height") == pytest.approx(0.30 - 2 * CALIPER_U, abs=1e-6)
    assert middle(before, "height") == pytest.approx(0.30, abs=1e-6)
    assert before.most.binds == "height"
    heights(job, "as left", "99.86", "99.86")
    answer = consequences(job.bench())
    # Mean 100.01 − 99.86 = 0.15 mm; 1.35 cm³ gone: 1 + 900 / 88.65 = 11.1523
    assert value(answer, "Compression ratio") == pytest.approx(11.1523, abs=2e-4)
    # Half of the variance of the gauge's error is the same in all four readings and cancels; the other half and the
    # step are there four times, each with the factor 1/2.
    u = math.hypot(0.03 / math.sqrt(3) / math.sqrt(2), 0.01 / math.sqrt(12))
    assert answer.tables[0].cut == f"0.15 ± {2 * u:.2f} mm (0.0059 ± {2 * u / 25.4:.4f} in)"
    left = line(answer, "Head height, least place")
    assert left.verdict == "inside: 0.16 mm (0.0063 in) may still come off"
    assert left.expanded == pytest.approx(2 * CALIPER_U, abs=1e-6)


def test_what_was_measured_after_the_cut_is_not_cut_again(tmp_path: Path) -> None:
    sheet = ROUND.replace(
        "  least_squish: min 0.90 mm\n",
        "  least_squish: min 0.90 mm\n  measured_as: {chamber_volume: poured}\n",
    )
    poured = """\
  poured:
    name: Chamber volume
    part: cylinder head
    quantity: volume
    places: [one, two]
    new_range: 79–81 cm³
    source: manual p. 8
"""
    job = of(tmp_path, sheet.replace("  head_height:\n    name", f"{poured}  head_height:\n    name"))
    heights(job, "as found", "100.00", "100.00")
    heights(job, "as left", "99.80", "99.80")
    # From the sheet: 0.20 mm over 9 000 mm² takes 1.8 cm³: 1 + 900 / 88.2 = 11.2041.
    assert value(consequences(job.bench()), "Compression ratio") == pytest.approx(11.2041, abs=2e-4)
    # Poured before the cut, the least of both: 79 cm³, less 1.8: 1 + 900 / 87.2 = 11.3211.
    for place, volume in (("one", "79.0"), ("two", "79.5")):
        job.record("reading", item="poured", place=place, value=f"{volume} cm³", condition="as found")
    assert value(consequences(job.bench()), "Compression ratio") == pytest.approx(11.3211, abs=2e-4)
    # Poured after it: 78.0 cm³ as it is: 1 + 900 / 88 = 11.2273; asked about 0.30 mm, 0.10 mm more: 1 + 900 / 87.1.
    for place, volume in (("one", "78.2"), ("two", "78.0")):
        job.record("reading", item="poured", place=place, value=f"{volume} cm³", condition="as left")
    made = consequences(job.bench())
    assert value(made, "Compression ratio") == pytest.approx(11.2273, abs=2e-4)
    assert (
        "measured in the book: 2 places, as left; least of 2, two" in line(made, "Compression ratio").source
    )
    asked = consequences(job.bench(), off="0.30 mm")
    assert value(asked, "Compression ratio") == pytest.approx(1 + 900 / 87.1, abs=2e-4)


def test_what_came_off_before_is_counted_where_the_figures_are_of_a_new_head(tmp_path: Path) -> None:
    # 0.10 mm came off before: 0.9 cm³; with 0.20 mm more 2.7 cm³: 1 + 900 / 87.3 = 11.3093. Of 0.25 mm in all 0.15
    # mm are left; the recess of 0.2 mm is used up with 0.10 mm more.
    stated = "  taken_off_before: 0.1000 mm\n  most_off: max 0.25 mm\n"
    job = of(tmp_path, ROUND.replace("  least_height: min 99.70 mm\n", stated))
    answer = consequences(job.bench(), off="0.20 mm")
    assert line(answer, "Compression ratio").before == "11.10"  # 1 + 900 / 89.1 = 11.1010
    assert value(answer, "Compression ratio") == pytest.approx(11.3093, abs=2e-4)
    assert value(answer, "Squish") == pytest.approx(1.0, abs=1e-4)
    assert middle(answer, "most off in all") == pytest.approx(0.15, abs=1e-6)
    assert value(answer, "Taken off in all") == pytest.approx(0.30, abs=1e-9)
    assert line(answer, "Taken off in all").verdict == "outside"


def test_a_head_lower_than_a_new_one_was_cut_before(job: Job) -> None:
    # New 100.00 ± 0.05, found 99.80: 0.20 mm came off before, and 99.80 − 99.70 = 0.10 mm are left by the height.
    heights(job, "as found", "99.80", "99.80")
    answer = consequences(job.bench(), off="0.05 mm")
    (before,) = [one for one in answer.inputs if one.name.startswith("taken off before")]
    assert before.text.startswith("0.2 mm (0.0079 in), U ")
    assert before.source == "height of a new head, manual p. 8, less its height as found"
    # 0.25 mm over 9 000 mm² in all: 1 + 900 / 87.75 = 11.2564.
    assert value(answer, "Compression ratio") == pytest.approx(11.2564, abs=2e-4)
    assert middle(answer, "height") == pytest.approx(0.10, abs=1e-6)


def test_a_head_that_is_as_high_as_a_new_one_was_never_cut(job: Job) -> None:
    heights(job, "as found", "99.97", "99.97")
    answer = consequences(job.bench(), off="0 mm")
    assert answer.notes == (
        "The head is as high as a new one (99.970 mm (3.9358 in); new 100.00 mm ± 0.05 mm): taken as never cut before.",
    )
    assert value(answer, "Compression ratio") == pytest.approx(11.0, abs=2e-4)


def test_one_missing_figure_takes_only_what_rests_on_it(tmp_path: Path) -> None:
    sheet = ROUND.replace("  crown_volume: 0.0000 cm³\n", "")
    answer = consequences(of(tmp_path, sheet).bench(), off="0.1 mm")
    lines = sheet.splitlines()
    top = lines.index("cylinder:") + 1
    number = top + 1 + next(at for at, one in enumerate(lines[top:]) if not one.strip().startswith("#"))
    (table,) = answer.tables
    assert table.missing[0] == (
        f"compression ratio: missing: crown volume (cylinder.crown_volume, line {number} of the data sheet, not stated)"
    )
    assert "Squish" in {one.what for one in table.lines}
    assert any(one.startswith("cam timing: ") for one in table.missing)


def test_nothing_at_all_is_refused(tmp_path: Path) -> None:
    job = of(tmp_path, SMALL)
    with pytest.raises(CannotWorkOut) as caught:
        consequences(job.bench())
    assert str(caught.value).startswith(
        "What a cut does cannot be worked out. Missing: height of the head as found ("
    )
    # Of a cut that is asked about at least is said what is missing, figure by figure.
    with pytest.raises(CannotWorkOut):
        consequences(job.bench(), off="0.1 mm")


def test_a_figure_that_contradicts_is_named_with_its_line(tmp_path: Path) -> None:
    sheet = ROUND.replace("gasket_bore: 112.8379 mm", "gasket_bore: 100.0000 mm").replace(
        "least_height: min 99.70 mm", "least_height: min 101.00 mm"
    )
    answer = consequences(of(tmp_path, sheet).bench(), off="0.1 mm")
    lines = sheet.splitlines()
    gasket, least = (
        lines.index(one) + 1 for one in ("  gasket_bore: 100.0000 mm", "  least_height: min 101.00 mm")
    )
    assert answer.contradictions == (
        f"cylinder.gasket_bore, line {gasket} of the data sheet: the opening of the gasket (100.0000 mm) is smaller than "
        "the bore (112.8379 mm, manual p. 3): the gasket would stand in the gas",
        f"head.least_height, line {least} of the data sheet: the least height (min 101.00 mm) is more than that of a new "
        "head (100.00 mm ± 0.05 mm)",
    )
    assert line(answer, "Squish").value == pytest.approx(1.1, abs=1e-6)


def test_a_volume_that_cannot_be_is_said_with_the_lines_it_rests_on(tmp_path: Path) -> None:
    sheet = ROUND.replace("crown_volume: 0.0000 cm³", "crown_volume: -95.0000 cm³")
    (table,) = consequences(of(tmp_path, sheet).bench(), off="0.1 mm").tables
    first = sheet.splitlines().index("  bore: 112.8379 mm") + 1
    assert table.missing[0].startswith(
        "compression ratio: Clearance volume -5.9 cm³ cannot be: it is above 0. "
    )
    assert f"(lines {first}, {first + 1}, " in table.missing[0]
    assert "Squish" in {one.what for one in table.lines}


def test_more_than_ordered_is_said(job: Job) -> None:
    job.record(
        "shop-out", part="head", shop="the shop", ordered="the least that cleans up", most_off="0.10 mm"
    )
    heights(job, "as found", "100.00", "100.00")
    heights(job, "as left", "99.80", "99.80")
    taken = line(consequences(job.bench()), "Taken off")
    # 0.20 − 0.10 = 0.10 mm more; U of the cut is 0.025 mm, so it is sure.
    assert taken.verdict == "more than ordered by 0.10 mm (0.0039 in); all below follows what was taken"
    assert taken.limit == "ordered: at most 0.10 mm"


def test_what_is_asked_wrongly_is_refused(job: Job) -> None:
    with pytest.raises(Unknown) as unknown:
        consequences(job.bench(), gasket="thick")
    assert str(unknown.value) == "`thick` is no gasket here. Known: none."
    with pytest.raises(Negative) as negative:
        consequences(job.bench(), off="-0.1 mm")
    assert "Cut" in str(negative.value)
