"""Machinery's Handbook, 31st edition, page 1658; NASA; VDI 2230:1986 and 2003: scatter and friction."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("scatter"), ids=[case.id for case in cases("scatter")])
def test_a_band_as_printed(case: Case) -> None:
    check(case)
