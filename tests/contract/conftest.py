"""Every test of the contract runs on every store."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from gudgeon.book.store import Store
from tests.contract.stores import KINDS, Shelf, draft


@pytest.fixture(params=KINDS)
def shelf(request: pytest.FixtureRequest, tmp_path: Path) -> Shelf:
    """An empty book."""
    return Shelf(request.param, KINDS[request.param].make(tmp_path))


@pytest.fixture
def store(shelf: Shelf) -> Iterator[Store]:
    """A book with one build begun."""
    with shelf.open() as opened:
        opened.append(draft("build-opened"))
        yield opened
