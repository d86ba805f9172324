"""Valve events, dead centers and lobe centers as published: public pages of the trade, a technical manual, by hand."""

import pytest

from tests.published.cases import Case, cases, check


@pytest.mark.parametrize("case", cases("engine_events"), ids=[case.id for case in cases("engine_events")])
def test_an_event_as_published(case: Case) -> None:
    check(case)
