"""Pairs of units as technical manuals print them: TM 10-3930-653-14&P and others."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("units"), ids=[case.id for case in cases("units")])
def test_a_pair_of_units_as_printed(case: Case) -> None:
    check(case)
