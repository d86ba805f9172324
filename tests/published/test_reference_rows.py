"""Every verified row of the reference tables that a calculator covers is carried over as a case."""

import re

import pytest

from tests.published.cases import cases, subjects
from tests.reference import reference_rows

# Rows that no calculator covers, or that are held elsewhere; docs/validation.md says so.
ELSEWHERE = re.compile(
    r"^(SH-84-(NP|NL|N0)"  # factors of safety under a working load
    r"|AC43-|RELAX-"  # figures to look up, with no formula that gives them
    r"|TOOL-|HB-"  # rules on wrenches and on bolts used again
    r"|EI-"  # elastic interaction has tests of its own
    r"|ALPHA-|MU-)"  # two figures in one row: carried over with -low and -high
)


def known() -> dict[str, str]:
    return {case.id: case.printed for subject in subjects() for case in cases(subject)}


# Conformity, uncertainty, repeats, temperature and instruments; H.3 and H.5 are held by
# test_uncertainty_guide.py, RISK-, RP19- and CPK by test_global_risk.py.
UNCERTAIN = re.compile(r"^(GUM-H1|MIC-BUDGET|RES$|t-\d|PC-|REP-\d|NREP-|d2-|MPE-|TOL-|CTE-|T-corr)")


def test_every_row_of_uncertainty_is_carried_over() -> None:
    carried = known()
    rows = [row["id"] for row in reference_rows("metrology.csv") if UNCERTAIN.match(row["id"])]
    assert len(rows) > 40
    wanted = {"CTE-gray_iron_G1800/G3000/G4000": "CTE-gray_iron"}
    missing = [
        key
        for key in (wanted.get(row, row) for row in rows)
        if not any(own.startswith(key) for own in carried)
    ]
    assert missing == []


def test_every_row_of_joints_is_carried_over_as_printed() -> None:
    carried = known()
    rows = [row for row in reference_rows("joint.csv") if not ELSEWHERE.match(row["id"])]
    assert len(rows) > 200
    assert [row["id"] for row in rows if row["id"] not in carried] == []
    assert [row["id"] for row in rows if float(carried[row["id"]]) != float(row["expected"])] == []


def test_every_range_of_joints_is_carried_over_by_both_its_ends() -> None:
    carried = known()
    rows = [row for row in reference_rows("joint.csv") if re.match("ALPHA-|MU-", row["id"])]
    assert len(rows) >= 6
    for row in rows:
        ends = [float(text) for text in re.findall(r"\d+(?:\.\d+)?", row["expected"])]
        ours = [float(carried[key]) for key in (f"{row['id']}-low", f"{row['id']}-high") if key in carried]
        assert ours == ends, row["id"]


@pytest.mark.parametrize("family", ["S0", "S1", "K0"])
def test_every_row_of_an_engine_family_is_carried_over(family: str) -> None:
    carried = {key.rstrip("abc") for key in known()}
    rows = [row for row in reference_rows("engine.csv") if re.match(rf"{family}[1-8]$", row["id"])]
    # K07 and K08 are limits of two manuals, to be looked up
    missing = [row["id"] for row in rows if row["id"] not in carried | {"K07", "K08"}]
    assert rows
    assert missing == []
