"""JCGM 106:2012 (conformity), JCGM 100:2008 (uncertainty), errors of instruments, expansions, repeats."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("metrology"), ids=[case.id for case in cases("metrology")])
def test_a_figure_as_printed(case: Case) -> None:
    check(case)
