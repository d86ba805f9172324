"""Camshafts after a cut, belts and center distances, marks that come around: each derived on paper beforehand."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("engine_drive"), ids=[case.id for case in cases("engine_drive")])
def test_a_drive_as_derived(case: Case) -> None:
    check(case)
