"""Shims: examples of repair manuals, and one by hand."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("engine_shims"), ids=[case.id for case in cases("engine_shims")])
def test_a_shim_as_printed(case: Case) -> None:
    check(case)
