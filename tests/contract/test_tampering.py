"""Whatever is changed behind the book's back is found, and said where."""

import pytest

from tests.contract.stores import Shelf, draft, pull


@pytest.fixture
def written(shelf: Shelf) -> Shelf:
    """A book with one build of five entries and another of two."""
    with shelf.open() as store:
        store.append(draft("build-opened"))
        for bolt in ("1", "2", "3", "4"):
            store.append(pull(1, bolt))
        store.append(draft("build-opened", build="boat"))
        store.append(draft(build="boat"))
    return shelf


def found(shelf: Shelf) -> list[str]:
    """The problems, without the letters of the ids, which are new in every run."""
    with shelf.open() as store:
        return [f"{problem.where.split(' (')[0]}: {problem.what}" for problem in store.verify()]


def test_untouched_there_is_none(written: Shelf) -> None:
    assert found(written) == []


def test_a_changed_body(written: Shelf) -> None:
    written.tamper(
        """UPDATE entry SET content = replace(content, '"bolt":"2"', '"bolt":"7"') WHERE build = 'van' AND number = 3"""
    )
    assert found(written) == ["build van, entry 3: its content does not match its hash"]


def test_a_changed_body_with_a_hash_made_to_match(written: Shelf) -> None:
    """Then the next entry tells: it is chained to the hash that was."""
    written.tamper(f"UPDATE entry SET hash = '{7:064d}' WHERE build = 'van' AND number = 3")
    assert found(written) == [
        "build van, entry 3: its content does not match its hash",
        "build van, entry 4: it is not chained to the entry before it",
    ]


def test_a_deleted_row(written: Shelf) -> None:
    written.tamper("DELETE FROM entry WHERE build = 'van' AND number = 3")
    assert found(written) == [
        "build van, entry 4: entry 3 before it is missing",
        "build van, entry 4: it is not chained to the entry before it",
        f"{written.whole}: 7 entries were written, 6 are there",
    ]


def test_several_deleted_rows_at_the_beginning(written: Shelf) -> None:
    written.tamper("DELETE FROM entry WHERE build = 'van' AND number < 3")
    assert found(written)[:3] == [
        "build van, entry 3: entry 1 to 2 before it is missing",
        "build van, entry 3: it is not chained to the entry before it",
        "build van, entry 3: a build begins with `build-opened`, once",
    ]


@pytest.mark.parametrize(
    "which", ["build = 'boat' AND number = 2", "build = 'boat'", "build = 'van' AND number = 5"]
)
def test_a_tail_or_a_build_cut_off(written: Shelf, which: str) -> None:
    """No chain shows it; the rows that the store had counted do."""
    written.tamper(f"DELETE FROM entry WHERE {which}")
    assert [problem.split(":")[0] for problem in found(written)] == [written.whole]


def test_swapped_rows(written: Shelf) -> None:
    written.tamper(
        """UPDATE entry SET number = 99 WHERE build = 'van' AND number = 3;
           UPDATE entry SET number = 3 WHERE build = 'van' AND number = 4;
           UPDATE entry SET number = 4 WHERE number = 99"""
    )
    assert found(written) == [
        "build van, entry 3: it stands in another place than it says",
        "build van, entry 3: it is not chained to the entry before it",
        "build van, entry 4: it stands in another place than it says",
        "build van, entry 4: it is not chained to the entry before it",
        "build van, entry 5: it is not chained to the entry before it",
    ]


def test_an_entry_moved_to_another_build(written: Shelf) -> None:
    written.tamper("UPDATE entry SET build = 'boat', number = 3 WHERE build = 'van' AND number = 5")
    assert found(written) == [
        "build boat, entry 3: it stands in another place than it says",
        "build boat, entry 3: it is not chained to the entry before it",
    ]


def test_a_text_that_is_no_entry(written: Shelf) -> None:
    written.tamper("UPDATE entry SET content = '{}' WHERE build = 'boat' AND number = 2")
    assert found(written) == [
        "build boat, entry 2: its content does not match its hash",
        "build boat, entry 2: its text cannot be read as an entry",
    ]


def test_a_changed_document_and_a_lost_one(shelf: Shelf) -> None:
    with shelf.open() as store:
        sha = store.put_document("gudgeon: kit 1\n", kind="kit")
    shelf.tamper("UPDATE document SET text = 'gudgeon: kit 2'")
    assert found(shelf) == [f"pinned text {sha[:8]}: it does not match its hash"]


def test_an_entry_made_against_a_text_that_is_not_there(shelf: Shelf) -> None:
    with shelf.open() as store:
        store.append(draft("build-opened"))
        one = draft()
        store.append(type(one)(**{name: getattr(one, name) for name in one.__slots__} | {"sheet": "a" * 64}))
    assert found(shelf) == ["build van, entry 2: the data sheet it was made against is not in the book"]
