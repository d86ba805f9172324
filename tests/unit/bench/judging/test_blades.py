"""Blades that can still decide a gap, by what is known of it already. Figures are HAND.

A blade errs by ± 0.005 mm: 1.645 · 0.005/√3 = 0.0047 mm; two together √2 times as much, 0.0067 mm.
"""

import pytest

from gudgeon.bench.judging.deciding import can_decide
from tests.unit.bench.judging.judged import KIT, Said, bench_with, by_place

GAP = "  gap: {name: Ring gap, part: rings, method: gap, wear_limit: LIMIT, source: manual p. 5}\n"
START, END = KIT.index("    blades: ["), KIT.index("  micrometer:")


def first_way(limit: str, read: Said, *blades: str) -> str:
    listed = ", ".join(f"{one} mm" for one in blades)
    kit = f"{KIT[:START]}    blades: [{listed}]\n{KIT[END:]}"
    row = by_place(bench_with(GAP.replace("LIMIT", limit), {("gap", ""): read}, kit=kit), "gap")[""]
    assert row.verdict == "in doubt"
    return row.ways_out[0]


@pytest.mark.parametrize(
    ("limit", "read", "blades", "way"),
    [
        # What entered already cannot be asked not to: 0.6 entered where 0.8 did.
        (
            "max 0.80 mm", ("0.80", None), ("0.60", "0.80", "1.00"),
            "it is on the limit, and no blade proves it inside; if a blade of 1 mm (0.039 in) enters, it is outside; "
            "accept it with a reason, or renew",
        ),
        # Between 0.08 and 0.20: 0.15 is the thickest at least 0.0047 under 0.16.
        ("max 0.16 mm", ("0.08", "0.20"), ("0.08", "0.15", "0.20"), "a blade of 0.15 mm (0.0059 in) must not enter"),
        # No single one lies between: 0.05 and 0.08 together are 0.13, and 0.13 + 0.0067 < 0.14.
        (
            "max 0.14 mm", ("0.08", "0.20"), ("0.05", "0.08", "0.20"),
            "blades of 0.05 mm (0.0020 in) and 0.08 mm (0.0031 in) together must not enter",
        ),
        ("min 0.12 mm", ("0.08", "0.20"), ("0.08", "0.15", "0.20"), "a blade of 0.15 mm (0.0059 in) must enter"),
    ],
)  # fmt: skip
def test_only_blades_that_can_still_decide_are_named(
    limit: str, read: Said, blades: tuple[str, ...], way: str
) -> None:
    assert first_way(limit, read, *blades) == way


def before(limits: str, *blades: str) -> tuple[str, bool]:
    listed = ", ".join(f"{one} mm" for one in blades)
    kit = f"{KIT[:START]}    blades: [{listed}]\n{KIT[END:]}".replace("  dial:", "  probe:").replace(
        "dial gauge", "other"
    )
    found = can_decide(bench_with(GAP.replace("wear_limit: LIMIT", limits), {}, kit=kit), "gap")
    return found.words, found.enough


def test_before_measuring_blades_that_are_all_too_thick_cannot_decide() -> None:
    assert before("wear_limit: max 0.08 mm", "0.10", "0.20", "0.30") == (
        "no blade of your feeler blades, nor two together, lies between what a good part has and max 0.08 mm", False,
    )  # fmt: skip


def test_before_measuring_no_blade_is_asked_for_that_enters_a_good_gap() -> None:
    limits = "new_range: 0.25–0.40 mm, wear_limit: max 0.80 mm"
    # 0.30 must not enter: a good ring of 0.35 would fail. 0.30 and 0.20 make 0.50, over 0.40 and under 0.7933.
    assert before(limits, "0.20", "0.30") == (
        "your feeler blades can decide it: blades of 0.2 mm (0.0079 in) and 0.3 mm (0.012 in) together must not enter",
        True,
    )
    assert before(limits, "0.10", "0.20")[1] is False


SET = ("0.03", "0.04", "0.13", "0.18", "0.20", "0.23", "0.30")


def test_one_blade_is_taken_where_two_together_decide_hardly_more() -> None:
    # 0.03 and 0.13 make 0.16, over 0.15 and 0.0067; 0.18 lies only 0.02 above that. 0.04 and 0.20 make 0.24: 0.23.
    assert before("required: 0.15–0.25 mm", *SET)[0] == (
        "your feeler blades can decide it: the blade of 0.18 mm (0.0071 in) must enter and the blade of 0.23 mm "
        "(0.0091 in) must not enter"
    )


def test_two_together_are_taken_where_one_blade_leaves_too_little_between() -> None:
    # Of 0.06 that lie between the limits a quarter is 0.015: 0.18 would take 0.02 of it.
    assert before("required: 0.15–0.21 mm", "0.03", "0.13", "0.18", "0.20")[0] == (
        "your feeler blades can decide it: blades of 0.03 mm (0.0012 in) and 0.13 mm (0.0051 in) together must enter "
        "and the blade of 0.2 mm (0.0079 in) must not enter"
    )


STRIPS = (
    "  strip: {name: plastic strip, kind: plastic gauging strip, range: 0.025–0.175 mm, error: 0.005 mm}\n"
)


def test_a_strip_is_named_where_a_blade_cannot_get_in_and_speaks_of_no_blades() -> None:
    clearance = GAP.replace("Ring gap", "Oil clearance").replace("LIMIT", "max 0.09 mm")
    found = can_decide(bench_with(clearance, {}, kit=KIT + STRIPS), "gap")
    assert found.words.endswith("must not enter; where a blade cannot get in: your plastic strip")
    row = by_place(
        bench_with(clearance, {("gap", ""): ("0.076", "0.102")}, kit=KIT + STRIPS, gauge="strip"), "gap"
    )[""]
    assert row.verdict == "in doubt"
    assert not any("blade" in way for way in row.ways_out)
    assert row.ways_out[-1] == (
        "the strip is too coarse so near the limit: measure both parts, and take the difference; or accept it with a "
        "reason"
    )
