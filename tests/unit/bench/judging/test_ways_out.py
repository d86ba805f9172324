"""Every doubt has a way out, and before measuring it is said which gauge can decide. Figures are HAND, as derived."""

from dataclasses import replace
from types import MappingProxyType

import pytest

from gudgeon.bench.judging.deciding import can_decide
from gudgeon.book.state import Accepted
from tests.unit.bench.judging.judged import KIT, Read, bench_with, by_place

JOURNAL = """\
  journal: {name: Journal, part: crankshaft, places: [A], new_range: 59.98–60.00 mm, wear_limit: LIMIT,
    source: manual p. 5}
"""


def journal(
    value: str, *, gauge: str = "caliper", limit: str = "min 59.95 mm", kit: str = KIT, more: str = ""
) -> tuple[str, ...]:
    item = JOURNAL.replace("LIMIT", limit).replace("source", f"{more} source")
    row = by_place(bench_with(item, {("journal", "A"): value}, gauge=gauge, kit=kit), "journal")["A"]
    assert row.verdict == "in doubt"
    assert row.way_out == row.ways_out[0]
    return row.ways_out


def test_a_better_gauge_of_his_own_that_decides_at_this_distance() -> None:
    # 0.01 from the limit: the micrometer (± 0.005, 1.645 u = 0.0047) decides it, the caliper (± 0.05) did not.
    assert journal("59.96")[0] == "measure again with: micrometer 50–75"


def test_no_gauge_of_his_decides_then_one_is_borrowed_and_how_good_it_must_be() -> None:
    # 0.003 from the limit: a = 0.003/1.645·√3 = 0.00316 mm; an outside micrometer from 50 to 75 is usually ± 0.005.
    assert journal("59.953") == (
        "none of your gauges decides it, and an outside micrometer 50–75 mm, usually off by up to 0.005 mm (0.00020 in), "
        "would not either: so near the limit no gauge will decide it; accept it with a reason, or renew",
    )
    # 0.006 from it: a = 0.0063 mm; his own micrometer is taken out of the kit.
    kit = KIT.replace("micrometer:", "another:").replace("range: 50–75", "range: 25–50")
    assert journal("59.956", kit=kit) == (
        "none of your gauges decides it: borrow an outside micrometer 50–75 mm that is off by at most 0.0063 mm "
        "(0.00025 in) (usual: 0.005 mm (0.00020 in))",
    )


def test_on_the_limit_no_gauge_decides() -> None:
    assert journal("59.950") == (
        "it is on the limit: no gauge will decide it; accept it with a reason, or renew",
    )


def test_the_cheaper_way_of_the_maker_is_named() -> None:
    item = JOURNAL.replace("LIMIT", "min 59.95 mm").replace("source", "instead: proxy, source")
    item += "  proxy: {name: Strip width, part: crankshaft, method: gap, wear_limit: max 0.1 mm, source: manual p. 5}\n"
    row = by_place(bench_with(item, {("journal", "A"): "59.95"}, gauge="caliper"), "journal")["A"]
    assert "the manual takes “Strip width” for it: gudgeon record reading proxy" in row.ways_out


@pytest.mark.parametrize(
    ("repeats", "told"), [((59.955, 59.965, 59.972, 59.948), True), ((59.960, 59.961), False)]
)
def test_more_repeats_only_where_they_scatter_more_than_the_gauge_errs(
    repeats: tuple[float, ...], told: bool
) -> None:
    """The mean 59.96 keeps 0.01 from the limit; the micrometer alone (1.645 u = 0.0047) would decide it.

    Four repeats scatter by s = 0.0107, so that u = √(0.0029² + 0.0107²/4) = 0.0061: in doubt. Two that differ by 0.001
    leave the verdict to the gauge.
    """
    bench = bench_with(
        JOURNAL.replace("LIMIT", "min 59.95 mm"), {("journal", "A"): "59.96"}, gauge="micrometer"
    )
    (key, reading), *_ = bench.state.readings.items()
    repeated = replace(reading, repeats=tuple(f"{one:.3f}" for one in repeats))
    state = replace(bench.state, readings=MappingProxyType({key: repeated}))
    row = by_place(replace(bench, state=state), "journal")["A"]
    assert any("more at the same place" in way for way in row.ways_out) == told
    assert (row.verdict == "in doubt") == told


def repeated(*repeats: str) -> tuple[str, ...]:
    """The ways out of the mean of these, with a micrometer off by ± 0.005 mm: u = 0.00289."""
    mean = str(sum(map(float, repeats)) / len(repeats))
    bench = bench_with(JOURNAL.replace("LIMIT", "min 59.98 mm"), {("journal", "A"): mean}, gauge="micrometer")
    (key, reading), *_ = bench.state.readings.items()
    state = replace(bench.state, readings=MappingProxyType({key: replace(reading, repeats=repeats)}))
    row = by_place(replace(bench, state=state), "journal")["A"]
    assert row.verdict == "in doubt"
    return row.ways_out


def test_where_repeats_decide_it_their_number_is_said_and_nothing_is_borrowed() -> None:
    """OTHER TOOL: scipy.stats.t, P(T > −0.01/u) with u² = 0.00289² + s²/n and n − 1 degrees for the scatter's share.

    s = 0.02: 94.8 % at n = 15, 95.3 % at n = 16, which is 13 more than 3.
    """
    assert repeated("59.99", "59.97", "60.01") == (
        "the readings scatter more than the gauge errs: 13 more at the same place, if their mean stays where it is",
    )


def test_what_scatters_beyond_any_repeats_is_not_called_on_the_limit() -> None:
    """HAND: s = 0.03: even 25 repeats leave u = √(0.00289² + 0.006²) = 0.0067, and 0.01 is 1.5 u: less than 1.645."""
    assert repeated("59.99", "59.96", "60.02") == (
        "the readings scatter too much for any gauge: find out why (dirt, a burr, a loose set-up), and read it anew; "
        "or accept it with a reason",
    )


def test_what_the_temperature_leaves_in_doubt_is_no_matter_of_the_gauge() -> None:
    """HAND: aluminum, no temperature noted: 60 mm · 10 K · 10 µm/(m·K)/√3 = 3.5 µm; 1.645 times that is more than 5 µm."""
    item = JOURNAL.replace("LIMIT", "min 59.98 mm").replace("source", "material: aluminum 356, source")
    row = by_place(bench_with(item, {("journal", "A"): "59.985"}, gauge="micrometer"), "journal")["A"]
    assert row.ways_out == (
        "what is not known of the temperature leaves it in doubt with any gauge: let part and gauge lie in one room until "
        "both are as warm, and note it; or accept it with a reason",
    )


GAP = "  gap: {name: Ring gap, part: rings, method: gap, wear_limit: max 0.09 mm, source: manual p. 5}\n"


def test_the_blade_that_must_not_enter_is_one_of_his() -> None:
    # 0.09 − 0.0048 = 0.0852: of his blades 0.08 is the thickest below it; 0.085 is not his.
    row = by_place(bench_with(GAP, {("gap", ""): ("0.07", "0.10")}), "gap")[""]
    assert (row.verdict, row.ways_out[0]) == ("in doubt", "a blade of 0.08 mm (0.0031 in) must not enter")


def test_an_unknown_gauge_is_named_first() -> None:
    row = by_place(bench_with(GAP, {("gap", ""): "0.02"}, gauge=""), "gap")[""]
    assert (row.verdict, row.ways_out) == ("in doubt", ("name the gauge with --gauge",))


def test_the_reading_alone_decides_only_where_the_sheet_says_so_and_why() -> None:
    item = GAP.replace(
        "source", "accept: as read, accept_why: the manual reads its limit with this blade, source"
    )
    row = by_place(bench_with(item, {("gap", ""): (None, "0.09")}), "gap")[""]
    assert row.verdict == "inside"
    assert row.reason == (
        "inside the wear limit as read, as the sheet wants it (the manual reads its limit with this blade)"
    )
    assert row.decided_by == "as read: the manual reads its limit with this blade"
    plain = by_place(bench_with(GAP, {("gap", ""): (None, "0.09")}), "gap")[""]
    assert (plain.verdict, plain.decided_by) == ("in doubt", "with guard band")


def test_what_a_person_accepts_stays_in_doubt_and_visible() -> None:
    accepted = (Accepted("e", "gap", "Kim", "the ring is new", frozenset({"entry1"})),)
    row = by_place(bench_with(GAP, {("gap", ""): (None, "0.09")}, accepted=accepted), "gap")[""]
    assert (row.verdict, row.accepted) == ("in doubt", "accepted by Kim, because the ring is new")


LINES = """\
  flat: {name: Head face, part: head, method: straightedge lines, places: [a], wear_limit: max 0.05 mm, source: manual p. 4}
"""
EDGE = "  edge: {name: straightedge, kind: straightedge, length: 500 mm, error: 0.005 mm}\n"


@pytest.mark.parametrize(
    ("limit", "words", "enough"),
    [
        # √(0.005² + 0.005²)/√3 = 0.0041, 1.645 u = 0.0067: 0.05 less that is 0.0433, and 0.04 is his.
        ("0.05", "with your feeler blades and straightedge: the 0.04 mm (0.0016 in) blade must not enter on any line", True),
        # 0.03 − 0.0067 = 0.0233: 0.02 is his.
        ("0.03", "with your feeler blades and straightedge: the 0.02 mm (0.00079 in) blade must not enter on any line", True),
    ],
)  # fmt: skip
def test_before_measuring_the_blade_that_must_not_enter(limit: str, words: str, enough: bool) -> None:
    bench = bench_with(LINES.replace("0.05", limit), {}, kit=KIT + EDGE)
    found = can_decide(bench, "flat")
    assert (found.best, found.words, found.enough) == ("feelers", words, enough)
    assert by_place(bench, "flat")["a"].notes == (words,)


def test_before_measuring_each_direction_has_its_own_blade() -> None:
    # 0.05 and 0.03 less 0.0067, as above; 0.08 together is 0.04 on either face, less 0.0067: 0.03.
    limits = "limits: [{shape: by direction, lengthwise: max 0.05 mm, crosswise: max 0.03 mm}]"
    item = LINES.replace("wear_limit: max 0.05 mm", limits)
    found = can_decide(bench_with(item, {}, kit=KIT + EDGE), "flat")
    assert found.words == (
        "with your feeler blades and straightedge: the 0.04 mm (0.0016 in) blade must not enter on any line lengthwise "
        "and the 0.02 mm (0.00079 in) blade must not enter on any line crosswise"
    )
    item = LINES + LINES.replace("flat:", "deck:")
    both = item.replace(
        "wear_limit: max 0.05 mm", "limits: [{shape: two faces together, with: deck, limit: max 0.08 mm}]", 1
    )
    found = can_decide(bench_with(both, {}, kit=KIT + EDGE), "flat")
    assert found.words.endswith("the 0.03 mm (0.0012 in) blade must not enter on any line of either face")


def test_before_measuring_a_pressure_is_no_length() -> None:
    item = "  oil: {name: Oil pressure, part: engine, quantity: pressure_gauge, required: 300–340 kPa, source: manual p. 5}\n"
    found = can_decide(bench_with(item, {}), "oil")
    # ± 30 kPa: 1.645 u = 28.5 kPa, and the middle lies 20 kPa from either end.
    assert found.words == (
        "none of your gauges reads this well enough: your compression tester is off by up to 30 kPa (4.4 psi) "
        "(your kit), and from one limit to the other it is only 40 kPa (5.8 psi); borrow a better compression gauge, "
        "off by at most 21 kPa (3.1 psi)"
    )


def test_before_measuring_a_pressure_stands_in_the_units_of_its_limit() -> None:
    """1 bar is 100 kPa exactly (SI brochure, table 8): the same limit, in bar and psi."""
    item = (
        "  oil: {name: Oil pressure, part: engine, quantity: pressure_gauge, "
        "required: 3.0–3.4 bar (44–49 psi), source: manual p. 5}\n"
    )
    found = can_decide(bench_with(item, {}), "oil")
    assert "off by up to 0.30 bar (4.4 psi)" in found.words
    assert found.words.endswith(
        "it is only 0.40 bar (5.8 psi); borrow a better compression gauge, off by at most 0.21 bar (3.1 psi)"
    )


def test_before_measuring_a_pressure_without_a_gauge_says_so() -> None:
    item = "  oil: {name: Oil pressure, part: engine, quantity: pressure_gauge, required: min 9.5 bar (138 psi), source: manual p. 5}\n"
    found = can_decide(bench_with(item, {}, kit="gudgeon: kit 1\n"), "oil")
    assert found.words == (
        "none of your gauges reads this at all: min 9.5 bar (138 psi); borrow a compression gauge"
    )


def test_before_measuring_no_blade_is_thin_enough() -> None:
    # 0.02 − 0.0067 = 0.0133: he has none so thin.
    found = can_decide(bench_with(LINES.replace("0.05", "0.02"), {}, kit=KIT + EDGE), "flat")
    assert not found.enough
    assert found.words.startswith("your feeler blades cannot decide this: no blade of it is thin enough")


def test_before_measuring_a_whole_face_lines_are_not_enough() -> None:
    item = LINES.replace("wear_limit: max 0.05 mm", "limits: [{shape: whole face, limit: max 0.05 mm}]")
    found = can_decide(bench_with(item, {}), "flat")
    assert (found.best, found.enough) == ("", False)
    assert "Read heights over a surface plate" in found.words


def test_before_measuring_his_best_gauge_is_named() -> None:
    # From 59.98 to 59.95 there is 0.03: half of it, 0.015, is more than the micrometer's 0.0047.
    found = can_decide(bench_with(JOURNAL.replace("LIMIT", "min 59.95 mm"), {}), "journal")
    assert (found.best, found.words, found.enough) == (
        "micrometer",
        "your micrometer 50–75 can decide it",
        True,
    )


def test_before_measuring_a_caliper_cannot_decide_two_hundredths() -> None:
    item = "  pin: {name: Pin, part: crankshaft, required: 80.00–80.02 mm, source: manual p. 5}\n"
    found = can_decide(bench_with(item, {}), "pin")
    assert not found.enough
    assert found.words == (
        "none of your gauges reads this well enough: your caliper is off by up to 0.050 mm (0.0020 in) (your kit), and from one limit to "
        "the other it is only 0.02 mm (0.00079 in); borrow an outside micrometer 75–100 mm (± 0.005 mm (0.00020 in))"
    )


def test_before_measuring_the_gauge_that_the_sheet_names_comes_first() -> None:
    kit = (
        KIT
        + "  strip: {name: plastic strip, kind: plastic gauging strip, range: 0.025–0.175 mm, error: 0.005 mm}\n"
    )
    plain = GAP.replace("Ring gap", "Oil clearance")
    assert can_decide(bench_with(plain, {}, kit=kit), "gap").best == "feelers"
    named = plain.replace("method: gap", "method: gap, how: plastic gauging strip, dry")
    named = named.replace("how: plastic gauging strip, dry", "how: 'plastic gauging strip, dry'")
    assert can_decide(bench_with(named, {}, kit=kit), "gap").best == "strip"


def test_a_gauge_that_does_not_get_into_a_gap_is_no_way_out() -> None:
    # The dial (± 0.01, 1.645 u = 0.0095) would decide 0.11 against 0.09, but nothing says that it reads a ring gap.
    wide = KIT.replace("error: 0.005 mm\n    blades", "error: 0.02 mm\n    blades")
    read: Read = {("gap", ""): ("0.10", "0.11")}
    row = by_place(bench_with(GAP, read, kit=wide), "gap")[""]
    assert row.verdict == "in doubt"
    assert not any("dial" in way for way in row.ways_out)
    named = GAP.replace("method: gap", "method: gap, how: with a dial gauge")
    row = by_place(bench_with(named, read, kit=wide), "gap")[""]
    assert "measure again with: dial gauge" in row.ways_out


def test_before_measuring_a_limit_with_a_shape_has_its_units_too() -> None:
    """From no difference to 4 g: 1.645 u = 2 g, and a = √3 · u = 2.106 g, which is 0.00464 lb."""
    item = (
        "  mass: {name: Mass, part: pistons, quantity: mass, places: {cylinder: [1, 2]}, "
        "limits: [{shape: difference between places, limit: max 4 g}], source: manual p. 5}\n"
    )
    assert can_decide(bench_with(item, {}), "mass").words == (
        "none of your gauges reads this at all: max 4 g; borrow a scale, off by at most 2.1 g (0.0046 lb)"
    )


def test_before_measuring_nothing_reaches() -> None:
    item = "  pin: {name: Pin, part: crankshaft, required: 200.00–200.10 mm, source: manual p. 5}\n"
    found = can_decide(bench_with(item, {}), "pin")
    assert found.words.startswith("none of your gauges reads this at all: 200.10 mm (7.8780 in); ")
    assert "borrow an outside micrometer 200–225 mm" in found.words


FIT = """\
  bore: {name: Bore, part: block, places: [A], new_range: 60.04–60.06 mm, source: manual p. 5}
  journal: {name: Journal, part: crankshaft, places: [A], new_range: 60.00–60.02 mm, source: manual p. 5}
  fit: {name: Oil clearance, part: crankshaft, method: difference, of: [bore, journal], wear_limit: LIMIT, source: manual p. 5}
"""


@pytest.mark.parametrize(
    ("limit", "enough"),
    # Together u = 0.00408, 1.645 u = 0.0067: of 0.08 there is enough, of 0.01 not.
    [("max 0.08 mm", True), ("max 0.01 mm", False)],
)
def test_before_measuring_a_clearance_both_gauges_count(limit: str, enough: bool) -> None:
    found = can_decide(bench_with(FIT.replace("LIMIT", limit), {}), "fit")
    assert found.enough == enough
    assert "bore gauge (Bore) and micrometer 50–75 (Journal)" in found.words


@pytest.mark.parametrize(("bore", "told"), [("60.045", True), ("60.0485", False)])
def test_a_doubtful_clearance_names_his_own_gauges_that_would_decide_it(bore: str, told: bool) -> None:
    # Both read with the caliper (± 0.05, u = 0.029): in doubt. Bore gauge and micrometer together have to keep 0.0067 mm:
    # 0.035 keeps 0.015 from 0.05 mm, and 0.0385 only 0.0015 from 0.04 mm.
    limit = "max 0.05 mm" if told else "max 0.04 mm"
    read: Read = {("bore", "A"): bore, ("journal", "A"): "60.010"}
    row = by_place(bench_with(FIT.replace("LIMIT", limit), read, gauge="caliper"), "fit")["A"]
    assert row.verdict == "in doubt"
    lead = "measure both parts more finely: Bore and Journal, with "
    assert row.way_out == lead + (
        "your bore gauge (Bore) and micrometer 50–75 (Journal)"
        if told
        else "gauges borrowed for it: yours do not decide it"
    )


def test_before_measuring_nothing_is_said_where_nothing_limits() -> None:
    item = "  pin: {name: Pin, part: crankshaft, new_range: 80.00–80.02 mm, source: manual p. 5}\n"
    assert can_decide(bench_with(item, {}), "pin").words == ""


def test_out_of_round_says_once_what_two_points_do_not_see() -> None:
    item = """\
  bore: {name: Bore, part: block, places: {cylinder: [1], height: [top, low], direction: [across, along]}, source: manual p. 5}
  oval: {name: Out of round, part: block, method: out-of-round, of: [bore], wear_limit: max 0.05 mm, source: manual p. 5}
"""
    read: Read = {
        ("bore", f"cylinder 1, {height}, {way}"): "70.00"
        for height in ("top", "low")
        for way in ("across", "along")
    }
    found = by_place(bench_with(item, read, gauge="bore_gauge"), "oval")
    said = [note for row in found.values() for note in row.notes if "odd number of lobes" in note]
    assert len(said) == 1


def test_a_gauge_that_shows_nothing_by_itself_decides_nothing_until_it_is_said_what_sets_it() -> None:
    item = "  bore: {name: Bore, part: block, new_range: 81.60–81.62 mm, wear_limit: max 81.70 mm, source: manual p. 5}\n"
    kit = KIT.replace("range: 50–160 mm, error: 0.005 mm}", "range: 50–160 mm, step: 0.001 mm}")
    kit = kit.replace("  caliper: {name: caliper, kind: caliper, range: 0–150 mm, error: 0.05 mm}\n", "")
    said = "state its error in the kit, or what it is zeroed in"
    bench = bench_with(item, {("bore", ""): "81.61"}, gauge="bore_gauge", kit=kit)
    found = can_decide(bench, "bore")
    assert (found.best, found.enough) == ("", False)
    assert found.words == f"how far your bore gauge may be off is not known: {said}"
    row = by_place(bench, "bore")[""]
    assert (row.verdict, row.ways_out[0]) == ("in doubt", said)
