"""What a sheet does not state of a cut is listed, and nothing of what it has or need not have."""

from importlib import resources

from gudgeon.bench.gaps import gaps
from gudgeon.bench.gaps_cut import cut_gaps
from gudgeon.sheet.load import parse_sheet
from tests.unit.sheet.sheets import SMALL

DEMO = (resources.files("gudgeon.demo") / "sheet.yaml").read_text(encoding="utf-8")


def paths(text: str) -> set[str]:
    return {one[3] for one in cut_gaps(parse_sheet(text, file="s.yaml").sheet)}


def test_the_invented_engine_states_all_of_it() -> None:
    assert paths(DEMO) == set()


def test_each_field_that_is_taken_away_is_a_gap() -> None:
    for field, path in (
        ("  most_ratio: {value: max 10.3:1, source: bulletin p. 4, note: with pump gasoline}\n", "cylinder.most_ratio"),
        ("  least_squish: {value: min 0.90 mm (0.0354 in), source: bulletin p. 4}\n", "cylinder.least_squish"),
        ("      hole_depth: 36.0 mm\n", "joints.head.fastener.hole_depth"),
        ("    piston_margin: {value: 1.90 mm (0.0748 in), source: bulletin p. 4, note: new engine}\n",
         "valve_gear.intake.piston_margin"),
        ("  measured_as: head_height\n", "head.measured_as"),
    ):  # fmt: skip
        assert DEMO.count(field) == 1
        assert paths(DEMO.replace(field, "")) == {path}


def test_an_engine_without_a_head_that_comes_off_asks_for_nothing() -> None:
    assert paths(SMALL)
    assert paths(SMALL.replace("does_not_have: [", "does_not_have: [removable head, ", 1)) == set()


def test_a_ratio_that_the_sheet_states_is_not_said_to_be_missing() -> None:
    """What a volume is lacking for is working the ratio out: the printed one stands in the sheet all the same."""
    text = SMALL.replace("\ncylinder:\n", "\ncylinder:\n  compression_ratio: 9.8:1\n", 1)
    assert "compression_ratio" in text
    told = {one.path: one.therefore for one in gaps(parse_sheet(text, file="s.yaml").sheet)}
    assert told["cylinder.chamber_volume"] == "the compression ratio cannot be worked out"
    assert "no compression ratio" not in " ".join(told.values())
