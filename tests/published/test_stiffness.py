"""Shigley, 9th edition, chapter 8, examples; solutions to its 8th edition, problems 8-20 to 8-27."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("stiffness"), ids=[case.id for case in cases("stiffness")])
def test_a_stiffness_as_printed(case: Case) -> None:
    check(case)
