"""TM 9-2350-261-20-1, page 2-29: setting of a torque wrench with an adapter."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("wrench"), ids=[case.id for case in cases("wrench")])
def test_a_setting_as_printed(case: Case) -> None:
    check(case)
