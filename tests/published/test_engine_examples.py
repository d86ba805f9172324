"""Worked examples: Ganesan 1.1, technical manuals of the US Army, slider-crank and cut by hand."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("engine"), ids=[case.id for case in cases("engine")])
def test_an_engine_as_worked(case: Case) -> None:
    check(case)
