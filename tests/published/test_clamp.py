"""A trade article on head gaskets: the clamp against the gas force."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("clamp"), ids=[case.id for case in cases("clamp")])
def test_a_clamp_as_printed(case: Case) -> None:
    check(case)
