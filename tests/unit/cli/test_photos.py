"""Photos from the terminal: recorded, proving a hold, listed with what is wrong."""

import json
from pathlib import Path

import pytest

from gudgeon.book.pictures import clean_picture
from gudgeon.cli.main import main
from tests.unit.bench.benches import Job, make_job
from tests.unit.book.photos import HEIC, JPEG, with_place


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    monkeypatch.setenv("GUDGEON_BOOK", str(made.book))
    (tmp_path / "IMG 1.jpg").write_bytes(with_place("JPEG"))
    return made


def kept(job: Job) -> list[Path]:
    folder = job.book.with_name("book.gudgeon.photos")
    return sorted(folder.iterdir()) if folder.exists() else []


def test_a_photo_is_recorded_listed_and_found_missing(
    job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = str(tmp_path / "IMG 1.jpg")
    said = ["--caption", "the deck, cleaned", "--about", "joint:head", "--about", "hold:bolt_holes_dry"]
    assert main(["record", "photo", file, *said]) == 0
    assert capsys.readouterr().out.endswith("photo: the deck, cleaned\n")
    assert [one.stem for one in kept(job)] == [clean_picture(with_place("JPEG")).sha]
    assert main(["photos"]) == 0
    listed = capsys.readouterr().out
    for words in ("the deck, cleaned", "Head nuts;", "2026-03-07 09:15:30", "64 × 48", "in order"):
        assert words in listed
    assert f"1 photo(s), 0 missing or altered, in {job.book}.photos" in listed
    kept(job)[0].unlink()
    assert main(["photos"]) == 1
    told = capsys.readouterr().out
    assert "it is missing" in told
    assert "1 photo(s), 1 missing or altered" in told
    assert "Put the files back from a backup (gudgeon book restore), or prove anew what they proved." in told


def test_the_list_as_json(job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["record", "photo", str(tmp_path / "IMG 1.jpg"), "--caption", "the deck"]) == 0
    kept(job)[0].write_bytes(JPEG)
    (job.book.with_name("book.gudgeon.photos") / "notes.txt").write_text("x")
    capsys.readouterr()
    assert main(["photos", "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert (answer["wrong"], answer["strangers"]) == (1, ["notes.txt"])
    line = answer["photos"][0]
    assert (line["caption"], line["wrong"], line["about"]) == ("the deck", "it was altered", [])


def test_a_hold_is_proved_by_a_photo_with_and_without_a_value(
    job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = str(tmp_path / "IMG 1.jpg")
    assert main(["record", "hold", "bolt_holes_dry", "--photo", file]) == 0
    assert f"with photo {kept(job)[0].stem[:8]}" in capsys.readouterr().out
    assert main(["record", "hold", "bolt_holes_dry", "dry to the bottom", "--photo", file]) == 0
    assert "dry to the bottom" in capsys.readouterr().out
    assert main(["book", "verify"]) == 0
    assert len(kept(job)) == 1
    assert main(["record", "hold", "bolt_holes_dry"]) == 2
    assert capsys.readouterr().err == (
        "Nothing proves it yet: write the value that was seen, or add a photo of it with --photo. Nothing was written.\n"
    )


def test_files_that_are_none_are_refused(
    job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = job.bench().state.count
    (tmp_path / "phone.heic").write_bytes(HEIC)
    (tmp_path / "text.jpg").write_text("I am a text and no photo.")
    (tmp_path / "empty.jpg").write_bytes(b"")
    for name, said in (
        ("phone.heic", "Let the phone save JPEG"),
        ("text.jpg", "`text.jpg` is not taken"),
        ("empty.jpg", "`empty.jpg` is empty"),
        ("none.jpg", "none.jpg: No such file or directory. Nothing was written"),
    ):
        assert main(["record", "photo", str(tmp_path / name), "--caption", "x"]) == 2
        assert said in capsys.readouterr().err
    assert job.bench().state.count == before
    assert kept(job) == []


def test_what_nobody_knows_is_refused(job: Job, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = str(tmp_path / "IMG 1.jpg")
    assert main(["record", "photo", file, "--caption", "x", "--about", "hold:bolt_holes_dri"]) == 2
    assert "`hold:bolt_holes_dri` is no thing that a photo can be about" in capsys.readouterr().err
    assert kept(job) == []
