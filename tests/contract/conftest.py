"""Every test of the contract runs on every store."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from gudgeon.book.store import Store
from tests.contract.stores import KINDS, Shelf, draft


@pytest.fixture(params=KINDS)
def shelf(request: pytest.FixtureRequest, tmp_path: Path) -> Shelf:
    """An empty book."""
    in_database = request.param == "PostgreSQL"
    address = request.getfixturevalue("database") if in_database else str(tmp_path / "book.gudgeon")
    empty = Shelf(request.param, address)
    empty.open(create=True).close()
    return empty


@pytest.fixture
def store(shelf: Shelf) -> Iterator[Store]:
    """A book with one build begun."""
    with shelf.open() as opened:
        opened.append(draft("build-opened"))
        yield opened
