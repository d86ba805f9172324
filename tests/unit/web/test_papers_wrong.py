"""A sheet or a kit with a mistake in it: every page says which of the two, where, and that the book is not touched."""

import re
from html import unescape
from pathlib import Path

import pytest

from tests.paired import paired
from tests.unit.bench.benches import make_job


@pytest.mark.parametrize(("file", "name"), [("kit.yaml", "kit"), ("sheet.yaml", "data sheet")])
@pytest.mark.parametrize("line", ["gauges: [", "no_such_key: 3"])
def test_a_paper_that_cannot_be_read_is_named(tmp_path: Path, file: str, name: str, line: str) -> None:
    job = make_job(tmp_path)
    job.read_code()
    head = job.bench().state.head
    paper = tmp_path / file
    whole = paper.read_text(encoding="utf-8")
    paper.write_text(f"{whole}\n{line}\n", encoding="utf-8")
    with paired(job.book) as pages:
        for address in ("/", "/good", "/done", "/record/note"):
            page = pages.get(address)
            text = " ".join(unescape(re.sub(r"<[^>]+>", " ", page.text)).split())
            assert page.status_code == 422
            assert f"The {name} cannot be read" in text
            assert "The book is as it was: nothing in it was touched." in text
            # Line and column of the mistake: HAND, the line stands below a line of nothing at the end of the file.
            place = re.search(rf"{re.escape(file)}, line (\d+), column (\d+): ", text)
            assert place is not None
            assert int(place[1]) >= len(whole.splitlines())
            assert "No book to read from" not in text
        paper.write_text(whole, encoding="utf-8")
        assert pages.get("/").status_code == 200
    assert job.bench().state.head == head
