"""ISO 898-1 (stress areas); Shigley, 9th edition, table 8-2; waists of a bolt gauge manual, p. 31."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("threads"), ids=[case.id for case in cases("threads")])
def test_a_thread_as_printed(case: Case) -> None:
    check(case)
