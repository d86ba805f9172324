"""The closed book as an answer: nothing of the book is left out, and what is missing is said."""

import shutil
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from importlib import resources
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.closed.ask import SECTIONS, closed_book
from gudgeon.bench.closed.model import ClosedBook, Row, Section
from gudgeon.bench.closed.timed import ALONE
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.measured import reading_text
from gudgeon.bench.photos import Sent, record_photo
from gudgeon.bench.pins import PinSaid
from gudgeon.book.entries import Entry
from gudgeon.book.tell import Tell, silent
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.job_player import BELT, begun, play
from tests.unit.book import photos

FORMATS = Path(__file__).parents[2] / "formats" / "book-3"
DEMO = resources.files("gudgeon.demo")
NOW = datetime(2026, 11, 29, 12, tzinfo=UTC)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("closed") / "demo"
    open_demo(folder, now=NOW)
    bench = open_bench(folder / "book.gudgeon", now=NOW)
    yield bench
    bench.store.close()


@pytest.fixture(scope="module")
def book(demo: Bench) -> ClosedBook:
    return closed_book(demo)


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def book_of(job: Job, *, tell: Tell = silent) -> ClosedBook:
    """The closed book of a job as it stands."""
    bench = open_bench(job.book, now=job.now)
    try:
        return closed_book(bench, tell=tell)
    finally:
        bench.store.close()


def of(book: ClosedBook, key: str) -> Section:
    return next(one for one in book.sections if one.key == key)


def rows(one: Section) -> list[Row]:
    return [row for table in one.tables for row in table.rows]


def row_of(one: Section, number: int) -> Row:
    """The row of an entry in a section."""
    (found,) = (row for row in rows(one) if number in row.entries)
    return found


def test_every_entry_stands_in_a_section(demo: Bench, book: ClosedBook) -> None:
    shown = {number for one in book.sections for number in one.entries}
    assert sorted(set(range(1, demo.state.count + 1)) - shown) == []
    assert len(book.sections) == len(SECTIONS) + 1


def test_every_reading_stands_there_as_it_was_read(demo: Bench, book: ClosedBook) -> None:
    findings = of(book, "findings")
    lost = []
    for (item, place, condition), one in demo.state.readings.items():
        value = reading_text(one, demo.sheet.characteristics[item].kind)
        column = 1 if condition == "as found" else 2
        told = [row for row in rows(findings) if one.order in row.entries and row.cells[0] == place]
        if not any(row.cells[column].startswith(value) for row in told):
            lost.append((item, place, condition))
    assert len(demo.state.readings) > 100
    assert lost == []


def test_every_pull_stands_there_with_bolt_outcome_tool_and_hour(demo: Bench, book: ClosedBook) -> None:
    tightened = of(book, "tightened")
    pulls = [one for joint in demo.state.joints.values() for one in joint.pulls.values()]
    assert len(pulls) == 46  # HAND: 2·2 + 2·4 + 1 + 8 + 10 + 10 + 5
    for one in pulls:
        bolt, outcome, tool, hour, who, _ = row_of(tightened, one.order).cells
        assert bolt.endswith(one.bolt)
        assert outcome == one.outcome
        assert hour == datetime.fromisoformat(one.time).astimezone().strftime("%Y-%m-%d %H:%M")
        assert who == one.who
        assert not one.setting or tool.endswith(f"set to {one.setting}")
    stages = [row.cells[0] for row in rows(tightened) if row.mark == "group"]
    assert "Stage 3 of 5: torque 25 N·m (18.4 lbf·ft)" in stages


def test_what_has_no_receipt_is_named(book: ClosedBook) -> None:
    assert (
        "No receipt in the book for: Spark plugs; Exhaust manifold nuts; Drain plug washer; Oil filter."
        in (of(book, "parts").missing)
    )  # HAND: the payments of the story name all other parts, by their names or as gaskets and seals
    receipts = {
        row.cells[-1] for table in of(book, "parts").tables if table.name == "Receipts" for row in table.rows
    }
    assert receipts == {"104.60 EUR", "156.50 EUR", "44.00 EUR", "262.00 EUR", "26.60 EUR"}


def test_a_book_that_is_not_finished_says_what_is_open(book: ClosedBook) -> None:
    assert not book.closed
    fast = next(one for one in book.open if one.family == "made fast")
    assert any(one.startswith("Cylinder head bolts (stage 3 of 5") for one in fast.things)
    assert any("the starter never turned it" in one for one in of(book, "start").missing)
    assert "Taken off and fitted again: 51 of 53 are still open by the book." in of(book, "lists").missing


def test_a_job_that_is_done_is_closed(tmp_path: Path) -> None:
    job = begun(tmp_path, sheet=BELT, job="timing_belt")
    play(job)
    found = book_of(job)
    assert (found.closed, found.open) == (True, ())
    (left,) = of(found, "tightened").missing
    assert left.startswith("No part of this job, and never loosened by the book: The cylinder head; ")
    tasks = next(one for one in of(found, "rest").tables if one.name == "Tasks")
    assert len(tasks.rows) > 40
    start = of(found, "start")
    assert not any("the starter never turned it" in one for one in start.missing)
    (starter,) = (one for one in start.tables if one.name == "The starter")
    assert any(row.cells[-1].startswith("Task done: ") for row in starter.rows)


def test_a_job_that_leaves_the_timing_alone_does_not_call_it_not_proved(tmp_path: Path) -> None:
    job = begun(tmp_path, sheet=BELT, job="cover_reseal")
    play(job)
    timed = of(book_of(job), "timed")
    assert timed.said == (ALONE,)
    assert not any("turns of the crankshaft" in one for one in timed.missing)
    job.record("turned", by="hand", seen="one turn, free")
    timed = of(book_of(job), "timed")
    assert timed.said[0].startswith("The timing is not proved")
    assert any("turns of the crankshaft" in one for one in timed.missing)


def test_an_empty_book_says_everything_that_is_missing(tmp_path: Path) -> None:
    found = book_of(make_job(tmp_path))
    assert found.entries == 1
    said = " ".join(text for one in found.sections for text in one.missing)
    for words in (
        "Nobody has read the code off the engine", "No distance of the odometer", "No receipt in the book",
        "Nothing went to a machine shop", "the starter never turned it", "No ceiling is agreed",
        "Figures are locked",
    ):  # fmt: skip
        assert words in said
    assert found.photos_missing == ("No photo in the book.",)


def test_a_sheet_that_was_changed_in_the_middle_is_told_with_the_entries_made_against_each(job: Job) -> None:
    said = rows(of(book_of(job), "identity"))
    before = {row.cells[1] for row in said if row.cells[0] == "Data sheet, SHA-256 of its text"}
    sheet = job.book.parent / "sheet.yaml"
    sheet.write_text(sheet.read_text(encoding="utf-8") + "# read again\n", encoding="utf-8")
    told = [row.cells for row in rows(of(book_of(job), "identity")) if row.cells[0].startswith("Data sheet")]
    (old,) = before
    assert [cells[1].partition(",")[0] for cells in told][1:] == [
        f"{old}: 2 entries", "No entry was made against the one by which this print judges: the archive does not hold it.",
    ]  # fmt: skip
    assert not told[0][1].startswith(old)
    job.record("note", text="by the new sheet")
    told = [row.cells for row in rows(of(book_of(job), "identity")) if row.cells[0].startswith("Data sheet")]
    assert [cells[1].partition(": ")[2] for cells in told][1:] == [
        "2 entries, No. 1 to 2",
        "1 entry, No. 3 to 3",
    ]


def test_strikes_overrides_and_doubts_are_shown_as_such(job: Job) -> None:
    good = job.pull(1, "1")
    doubtful = job.pull(1, "3", "doubtful", why="the phone rang")
    job.record("strike", entry=good.entry, why="it was bolt 2")
    job.record("note", text="chassis number X")
    job.record("override", about="hold:figures_checked", by="Robin", why="read twice", shown="")
    found = book_of(job)
    numbers = {one.id: one.number for one in job_entries(job)}
    struck, doubt = (row_of(of(found, "tightened"), numbers[one.entry]) for one in (good, doubtful))
    assert (struck.mark, struck.cells[-1]) == (
        "struck",
        f"STRUCK by {job_entries(job)[0].who}: it was bolt 2",
    )
    assert (doubt.mark, doubt.cells[-1]) == ("doubt", "IN DOUBT: the phone rang")
    accepted = [row.cells for row in rows(of(found, "accepted"))]
    assert ("Every tightening figure has been compared with the page", "Robin", "read twice") in {
        cells[:3] for cells in accepted
    }
    assert any("Strike" in cells[-1] and "it was bolt 2" in cells[-1] for cells in accepted)


def job_entries(job: Job) -> tuple[Entry, ...]:
    """The entries of the build."""
    bench = open_bench(job.book, now=job.now)
    try:
        return bench.store.entries(bench.build)
    finally:
        bench.store.close()


def test_a_reading_that_was_taken_anew_stays_in_the_book(job: Job) -> None:
    for value in ("29.98", "29.99"):
        job.record("reading", item="journal", place="A", value=value, unit="mm", instrument="micrometer")
    findings = of(book_of(job), "findings")
    (earlier,) = (one for one in findings.tables if one.name == "Read before, or struck")
    assert "29.98" in earlier.rows[0].cells[-1]


def test_photos_come_with_words_pins_and_what_is_wrong_with_them(job: Job) -> None:
    bench = open_bench(job.book, now=job.now)
    pins = [PinSaid("1", "10", "90", "earth strap")]
    record_photo(bench, Sent("a.jpg", photos.JPEG), caption="the block", about=["joint:head"], pins=pins)
    record_photo(bench, Sent("b.png", photos.PNG), caption="the pan")
    bench.store.close()
    gone = sorted((job.book.parent / "book.gudgeon.photos").glob("*.png"))
    gone[0].unlink()
    first, second = book_of(job).photos
    assert (first.caption, first.wrong, [one.words for one in first.pins]) == (
        "the block", "", ["earth strap (bottom, left)"],
    )  # fmt: skip
    assert "shows: Head nuts" in first.said
    assert second.wrong


def test_how_far_it_is_is_told_and_can_be_counted(job: Job) -> None:
    told: list[str] = []
    book_of(job, tell=told.append)
    counted = [one for one in told if f"of {len(SECTIONS)}" in one]
    assert [one.partition("section ")[2] for one in counted] == [
        f"{number} of {len(SECTIONS)}" for number in range(1, len(SECTIONS) + 1)
    ]


OWN = (
    "note", "why", "why_not", "seen", "found", "how", "text", "words", "caption", "value", "repeats", "by", "to", "shop",
    "supplier", "ordered", "expected", "basis", "hand", "next_action", "place", "where", "bag", "setting", "amount",
)  # fmt: skip
"""The fields in which a person writes in words or figures of his own."""


def lost(book: ClosedBook, entries: Iterable[Entry]) -> list[tuple[int, str, str]]:
    """What a person wrote in an entry and no row of that entry says: number, field and words."""
    said: dict[int, str] = {one.number: " ".join((one.caption, *one.said)) for one in book.photos}
    for row in (row for one in book.sections for row in rows(one)):
        for number in row.entries:
            said[number] = f"{said.get(number, '')} {' '.join(row.cells)}"
    return [
        (one.number, field, text)
        for one in entries
        for field in OWN
        for text in _texts(one.body.get(field))
        if text not in said[one.number].replace(",", "") and text not in said[one.number]
    ]


def _texts(said: object) -> list[str]:
    return [str(one) for one in said] if isinstance(said, list) else [str(said)] if said else []


def test_whatever_a_person_wrote_stands_in_the_row_of_its_entry(demo: Bench, book: ClosedBook) -> None:
    entries = demo.store.entries(demo.build)
    assert sum(1 for one in entries for field in OWN if one.body.get(field)) > 400
    assert lost(book, entries) == []


def test_a_reading_tells_its_repeats_its_warmth_and_its_note(job: Job) -> None:
    said = {"item": "journal", "place": "A", "unit": "mm", "instrument": "micrometer"}
    job.record("reading", **said, repeats=["29.98", "29.99"], note="worn at one side")
    job.record(
        "reading", **said, value="29.97", condition="as left", part_temperature="5 °C", gauge_as_part=True
    )
    found = book_of(job)
    assert lost(found, job_entries(job)) == []
    _, before, after, _ = row_of(of(found, "findings"), 3).cells
    assert before.endswith("; the mean of 2: 29.98, 29.99; worn at one side")
    assert after.endswith("; part at 5 °C, gauge as warm")


def test_every_kind_of_entry_has_its_place(tmp_path: Path) -> None:
    """The book of `tests/formats` that holds every kind, against the papers of the invented engine."""
    shutil.copy(FORMATS / "every-kind.gudgeon", tmp_path / "book.gudgeon")
    for name in ("sheet.yaml", "kit.yaml"):
        (tmp_path / name).write_text((DEMO / name).read_text(encoding="utf-8"), encoding="utf-8")
    found = book_of(Job(tmp_path / "book.gudgeon", now=NOW))
    shown = {number for one in found.sections for number in one.entries} | {
        one.number for one in found.photos
    }
    assert sorted(set(range(1, found.entries + 1)) - shown) == []
    assert lost(found, job_entries(Job(tmp_path / "book.gudgeon", now=NOW))) == []
    assert {one.cells[-1] for one in rows(of(found, "lists")) if one.mark == "doubt"} == {
        "6 of them, 2026-06-13 14:00, owner; 1 NOT YET"
    }
    bore = row_of(of(found, "findings"), 3)
    assert bore.mark == "doubt" and bore.cells[1].startswith("Reading: Cylinder bore, 1 top, ")
    assert not any("off does" in one.name for one in of(found, "shop").tables), (
        "no cut was made by the heights"
    )
