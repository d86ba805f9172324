"""The bench set from the pages: each part is handed over from the page that it belongs to."""

from pathlib import Path

import pytest

from gudgeon.bench.answer import Heading
from gudgeon.web.paper_files import saved_name
from tests.paired import paired
from tests.unit.bench.benches import make_job
from tests.unit.paper.reading import words


@pytest.mark.parametrize(
    ("page", "address", "name", "said"),
    [
        ("/good", "/paper/measuring.pdf", "mine-measuring-sheets", "Measuringsheets"),
        ("/open", "/paper/lists.pdf", "mine-lists", "Whatisopen"),
        ("/start", "/paper/holds.pdf", "mine-hold-points", "Holdpoints"),
        ("/sheet", "/paper/set.pdf", "mine-bench-set", "Benchset"),
        ("/", "/paper/set.pdf", "mine-bench-set", "Benchset"),
    ],
)
def test_a_page_hands_over_its_part(tmp_path: Path, page: str, address: str, name: str, said: str) -> None:
    job = make_job(tmp_path)
    job.read_code()
    with paired(job.book) as client:
        assert f'href="{address}?size=letter"' in client.get(page).text
        answer = client.get(f"{address}?size=letter")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == f'attachment; filename="{name}.pdf"'
    assert words(answer.content).startswith(said)


def test_the_name_of_a_long_build_leaves_room_for_what_is_saved() -> None:
    heading = Heading("", "", "my engine " * 21, "", "", "", "", ())
    name = saved_name(heading, "bench-set")
    assert name.startswith("my-engine-my-engine-") and name.endswith("-bench-set.pdf")
    assert len(name) < 100
    assert saved_name(Heading("", "", "漢" * 203, "", "", "", "", ()), "lists") == "lists.pdf"
