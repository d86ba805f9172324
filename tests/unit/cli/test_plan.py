"""`gudgeon plan` on the invented job, as a person types it."""

import json
from pathlib import Path

import pytest
from icalendar import Calendar

from gudgeon.cli.main import main
from tests.unit.bench.planning.planned import kit


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    return folder / "book.gudgeon"


def run(book: Path, *more: str) -> int:
    return main(["plan", "--quick", *more, "--book", str(book)])


def test_it_is_told_when_it_will_run_and_what_to_do_next(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(book) == 0
    out = capsys.readouterr().out
    assert out.startswith("When will it run?   Tarnwick 18 D4 (invented) · demo\n")
    assert "The first start is planned for " in " ".join(out.split())
    for title in ("\nNext: ", "\nWhat drives the date\n", "\nHours\n", "On the bench: "):
        assert title in out
    assert "Tighten the head bolts, stage by stage, each bolt ticked and marked, 22 min" in out
    assert "tighten_head" not in out
    assert "\nDone\n" not in out


def test_all_of_it_names_every_time_and_what_is_done(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(book, "--all") == 0
    out = capsys.readouterr().out
    for title in (
        "\nEvery time at the engine\n",
        "\nIn hand\n",
        "\nDone\n",
        "\nTaken for granted\n",
        "\nSources\n",
    ):
        assert title in out
    assert "Cylinder head bolts: 25 of 50 pulls done; about 22 min left" in " ".join(out.split())


def test_the_answer_as_json_has_its_stable_shape(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(book, "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["dated"] is True
    assert answer["distribution"] is None
    assert answer["next_slot"]["tasks"][0]["minutes"] > 0
    assert {one["kind"] for one in answer["marks"]} >= {"today", "timer", "start planned"}


def test_a_calendar_is_written_and_its_own_older_file_replaced(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "engine.ics"
    assert run(book, "--ics", str(file)) == 0
    first = file.read_bytes()
    assert Calendar.from_ical(first).walk("VEVENT")
    assert f"Written: {file}" in capsys.readouterr().out
    assert run(book, "--ics", str(file)) == 0
    assert file.read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")
    assert [one.name for one in tmp_path.iterdir()] == ["engine.ics"]


def test_no_other_file_is_written_over(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    letter = tmp_path / "letter.ics"
    letter.write_text("Dear aunt", encoding="utf-8")
    missing = tmp_path / "nowhere" / "engine.ics"
    for name, said in (
        (
            letter,
            f"{letter} exists already, is no calendar of this program and is left as it is. Name another file, or take "
            "it away first.",
        ),
        (
            tmp_path / "engine.txt",
            f"{tmp_path / 'engine.txt'} does not end in .ics, and what is written is a calendar. Name the file so.",
        ),
        (
            missing,
            f"The folder {missing.parent} is not there, so no calendar is written. Make it, or name another.",
        ),
    ):
        assert run(book, "--ics", str(name)) == 2
        assert said in " ".join(capsys.readouterr().err.split())
    assert letter.read_text(encoding="utf-8") == "Dear aunt"


def test_without_hours_there_is_no_date_and_the_exit_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    (folder / "kit.yaml").write_text(kit("hours:\n  evenings: two a week\n"), encoding="utf-8")
    capsys.readouterr()
    assert run(folder / "book.gudgeon") == 1
    out = " ".join(capsys.readouterr().out.split())
    assert "There is no date for the first start: the kit says “two a week” of your hours" in out
    assert (
        "! The kit says “two a week” of your hours, and words cannot be planned with. Write them into the kit"
        in out
    )
    assert "Tighten the head bolts, stage by stage, each bolt ticked and marked, 22 min" in out


def test_with_its_date_as_a_distribution_chances_and_mishaps_are_told(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", "--book", str(book)]) == 0
    out = capsys.readouterr().out
    assert "\nHow likely\n" in out
    assert " % (as planned)" in out
    assert "\nWhat may still go wrong\n" in out
    assert "in nine of ten." in " ".join(out.split())


def test_a_calendar_without_a_day_is_not_written_and_that_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    (folder / "kit.yaml").write_text(kit("hours:\n  evenings: two a week\n"), encoding="utf-8")
    capsys.readouterr()
    file = tmp_path / "engine.ics"
    assert run(folder / "book.gudgeon", "--ics", str(file)) == 1
    assert f"Not written: {file}. Nothing is planned on any day." in capsys.readouterr().out
    assert not file.exists()
