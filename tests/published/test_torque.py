"""TM 10-4320-316-14, appendix G (general dry torque); Shigley, 9th edition, table 8-15; torques worked by hand."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("torque"), ids=[case.id for case in cases("torque")])
def test_a_torque_as_printed(case: Case) -> None:
    check(case)
