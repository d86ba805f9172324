"""Critical paths, estimates, lives and replacement ages as published; the rows stand in data/planning.csv."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("planning"), ids=[case.id for case in cases("planning")])
def test_a_plan_or_a_life_as_published(case: Case) -> None:
    check(case)
