"""ISO 898-1:2013, proof and breaking loads; Shigley, 9th edition, chapter 8."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("bolt_loads"), ids=[case.id for case in cases("bolt_loads")])
def test_a_load_as_printed(case: Case) -> None:
    check(case)
