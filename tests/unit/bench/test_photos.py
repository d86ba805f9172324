"""Photos in the book: kept before the entry, about something, proving holds, told when they are missing or altered."""

import signal
import subprocess
import sys
import uuid
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench import photos as bench_photos
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.errors import Unknown
from gudgeon.bench.holds import standings
from gudgeon.bench.now import now
from gudgeon.bench.photos import (
    BareTick,
    NoCaption,
    NoPhotoSent,
    NothingSeen,
    Photos,
    Sent,
    photo_shown,
    photos_report,
    record_with_photo,
)
from gudgeon.bench.ready import ready
from gudgeon.bench.record import Recorded
from gudgeon.bench.sent_before import SENT_BEFORE
from gudgeon.bench.things import find_thing, thing_words
from gudgeon.bench.verifying import verified
from gudgeon.book.entries import Entry
from gudgeon.book.picture_errors import NotAPhoto, PhotoNotKept
from gudgeon.book.pictures import clean_picture
from tests.unit.bench.benches import Job, make_job
from tests.unit.book.photos import JPEG, PNG, drawn, exif, saved

HOLD = "bolt_holes_dry"
"""A hold of any engine with a cylinder head; nothing comes before it but the engine code."""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def folder(job: Job) -> Path:
    return job.book.with_name("book.gudgeon.photos")


def send(
    job: Job,
    kind: str,
    content: bytes | None,
    *,
    name: str = "IMG_1.jpg",
    entry_id: str = "",
    basis: str = "",
    **said: Any,
) -> Recorded:
    job.now += timedelta(minutes=1)
    bench = open_bench(job.book, now=job.now)
    try:
        sent = Sent(name, content) if content is not None else None
        return record_with_photo(bench, kind, said, sent=sent, entry_id=entry_id or None, basis=basis or None)
    finally:
        bench.store.close()


def ask(job: Job, question: Callable[[Bench], Any]) -> Any:
    bench = open_bench(job.book, now=job.now)
    try:
        return question(bench)
    finally:
        bench.store.close()


def entries(job: Job) -> list[Entry]:
    return list(ask(job, lambda bench: bench.store.entries("mine")))


def report(job: Job) -> Photos:
    found: Photos = ask(job, photos_report)
    return found


def stands(job: Job, hold: str) -> str:
    """Why a hold does not stand; empty where it does."""
    bench = job.bench()
    return next(one.why_not for one in standings(bench.sheet, bench.state) if one.hold.id == hold)


def test_a_photo_is_in_the_book_and_its_picture_beside_it(job: Job) -> None:
    taken = saved(drawn((80, 60)), "JPEG", exif=exif(taken="2026:03:07 09:15:30", orientation=6))
    done = send(
        job, "photo", taken, caption=" the deck, cleaned ", about=["joint:head", "crankshaft", "head_face"]
    )
    assert done.said == "photo: the deck, cleaned"
    picture = clean_picture(taken)
    assert entries(job)[-1].body == {
        "sha": picture.sha, "type": "jpeg", "width": 60, "height": 80, "taken": "2026-03-07T09:15:30",
        "caption": "the deck, cleaned", "about": ["joint:head", "part:crankshaft", "reading:head_face"], "pins": [],
    }  # fmt: skip
    assert (folder(job) / f"{picture.sha}.jpg").read_bytes() == picture.content
    line = report(job).photos[0]
    assert line.about == ("Head nuts", "crankshaft", "Head face, flatness")
    assert (line.wrong, line.struck, line.proves) == ("", "", ())
    assert verified(job.book).problems == ()
    shown = ask(job, lambda bench: photo_shown(bench, picture.sha))
    assert (shown.content_type, shown.content) == ("image/jpeg", picture.content)


def test_the_picture_is_on_disk_before_its_entry(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stop between the two leaves a file that nothing rests on; it is told, and the next time it is the same one."""
    before = len(entries(job))

    def stop(*_: object, **__: object) -> Recorded:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(bench_photos, "record", stop)
        with pytest.raises(KeyboardInterrupt):
            send(job, "photo", JPEG, caption="the deck")
    assert len(entries(job)) == before
    name = f"{clean_picture(JPEG).sha}.jpg"
    assert report(job).strangers == (name,)
    assert report(job).wrong == 0
    notes = [one for one in verified(job.book).notes if "photo" in one]
    assert notes == [f"photo {name[:8]} lies beside the book and no entry names it"]
    send(job, "photo", JPEG, caption="the deck")
    assert report(job).strangers == ()
    assert [one.name for one in folder(job).iterdir()] == [name]


def test_the_same_photo_of_two_things_is_two_entries_and_one_file(job: Job) -> None:
    send(job, "photo", JPEG, caption="the deck")
    send(job, "photo", JPEG, caption="the deck, again")
    assert [one.caption for one in report(job).photos] == ["the deck", "the deck, again"]
    assert len(list(folder(job).iterdir())) == 1


def test_a_form_sent_twice_counts_once(job: Job) -> None:
    entry = uuid.uuid4().hex
    send(job, "photo", JPEG, caption="the deck", entry_id=entry)
    count = len(entries(job))
    assert send(job, "photo", JPEG, caption="the deck", entry_id=entry).remarks == (SENT_BEFORE,)
    proof = uuid.uuid4().hex
    send(job, "hold-proved", PNG, hold=HOLD, entry_id=proof)
    assert send(job, "hold-proved", PNG, hold=HOLD, entry_id=proof).remarks == (SENT_BEFORE,)
    assert len(entries(job)) == count + 2


@pytest.mark.parametrize(
    ("kind", "content", "said", "error", "words"),
    [
        ("photo", b"I am a text", {"caption": "x"}, NotAPhoto, "`IMG_1.jpg` is not taken"),
        (
            "photo",
            JPEG,
            {"caption": "  "},
            NoCaption,
            "The photo has no caption: say in a few words what it shows",
        ),
        ("photo", None, {"caption": "x"}, NoPhotoSent, "No photo was chosen. Choose its file"),
        ("photo", JPEG, {"caption": "x", "about": ["joint:nothing"]}, Unknown, "Known: `joint:head`."),
        (
            "hold-proved",
            None,
            {"hold": HOLD},
            NothingSeen,
            "Nothing proves it yet: write the value that was seen",
        ),
        ("hold-proved", None, {"hold": HOLD, "value": " "}, NothingSeen, "Nothing proves it yet"),
        (
            "hold-proved",
            JPEG,
            {"hold": "no_hold"},
            Unknown,
            "`no_hold` is no hold here. Known: right_engine,",
        ),
        (
            "hold-proved",
            JPEG,
            {"hold": HOLD, "value": "ok"},
            BareTick,
            "`ok` is a bare tick; write the value that was seen, or leave it out",
        ),
    ],
)
def test_what_is_refused_leaves_no_entry_and_no_file(
    job: Job, kind: str, content: bytes | None, said: dict[str, Any], error: type[Exception], words: str
) -> None:
    before = entries(job)
    with pytest.raises(error) as refused:
        send(job, kind, content, **said)
    assert words in str(refused.value)
    assert entries(job) == before
    assert not folder(job).exists()


def test_a_folder_that_takes_nothing_leaves_the_book_as_it_is(job: Job) -> None:
    before = entries(job)
    folder(job).write_text("in the way")
    for kind, said in (("photo", {"caption": "x"}), ("hold-proved", {"hold": HOLD})):
        with pytest.raises(PhotoNotKept, match="Nothing was written, neither there nor into the book"):
            send(job, kind, JPEG, **said)
    assert entries(job) == before


@pytest.mark.parametrize(
    ("said", "about"),
    [
        ("joint:head", "joint:head"),
        ("head nuts", "joint:head"),
        ("hold:bolt_holes_dry", "hold:bolt_holes_dry"),
        ("journal", "reading:journal"),
        ("reading:journal A", "reading:journal A"),
        ("part:Cylinder head", "part:cylinder head"),
        ("engine:crank", "engine:crank"),
        ("item:left in:rag", "item:left in:rag"),
        ("blue rag", "item:left in:rag"),
    ],
)
def test_what_a_photo_is_about_is_found_by_key_and_by_words(job: Job, said: str, about: str) -> None:
    job.record("left-in", item="rag", name="a blue rag", where="intake port 1", due_before="crank")
    assert ask(job, lambda bench: find_thing(bench, said)) == about


def test_an_entry_is_found_by_its_number(job: Job) -> None:
    wanted = entries(job)[1]
    about = ask(job, lambda bench: find_thing(bench, "entry:2"))
    assert about == f"entry:{wanted.id}"
    assert ask(job, lambda bench: thing_words(bench, about)) == "entry 2"


@pytest.mark.parametrize("said", ["joint:", "something else", "nuts", "wheel:front", "reading:journal C"])
def test_what_nobody_knows_is_refused_with_what_is_known(job: Job, said: str) -> None:
    with pytest.raises(Unknown, match=r"Known: .+\."):
        ask(job, lambda bench: find_thing(bench, said))


def test_a_hold_is_proved_by_a_photo_in_one_step(job: Job) -> None:
    before = len(entries(job))
    done = send(job, "hold-proved", JPEG, hold=HOLD)
    photo, proof = entries(job)[before:]
    assert (photo.kind, proof.kind) == ("photo", "hold-proved")
    assert photo.body["about"] == [f"hold:{HOLD}"]
    assert photo.body["sha"] == proof.body["photo"]
    assert proof.body["value"] == ""
    assert done.entry == proof.id
    assert done.said.endswith(f"with photo {photo.body['sha'][:8]}")
    assert stands(job, HOLD) == ""
    assert report(job).photos[0].proves == (photo.body["caption"],)


def test_a_value_beside_the_photo_is_kept_and_is_its_caption(job: Job) -> None:
    send(job, "hold-proved", JPEG, hold=HOLD, value="dry, no coolant in any of the ten")
    photo, proof = entries(job)[-2:]
    assert proof.body["value"] == photo.body["caption"] == "dry, no coolant in any of the ten"


def _gone(file: Path) -> None:
    file.unlink()


def _altered(file: Path) -> None:
    file.write_bytes(clean_picture(PNG).content)


@pytest.mark.parametrize(("harm", "why"), [(_gone, "it is missing"), (_altered, "it was altered")])
def test_a_proof_whose_photo_is_not_as_it_was_does_not_stand(
    job: Job, harm: Callable[[Path], None], why: str
) -> None:
    send(job, "hold-proved", JPEG, hold=HOLD, value="dry")
    assert stands(job, HOLD) == ""
    assert not [one for one in ready(job.bench(), milestone="crank").reasons if one.family == "in doubt"]
    file = folder(job) / f"{clean_picture(JPEG).sha}.jpg"
    kept = file.read_bytes()
    harm(file)
    assert stands(job, HOLD) == f"the photo that proves it is in doubt: {why}"
    bench = job.bench()
    told = [one for one in ready(bench, milestone="crank").reasons if one.family == "in doubt"]
    name = next(one.hold.name for one in standings(bench.sheet, bench.state) if one.hold.id == HOLD)
    assert [(one.what, one.why, one.about) for one in told] == [
        ("Photo “dry”", f"{why}, and it proves “{name}”", f"hold:{HOLD}")
    ]
    remark = "A photo of the book is missing or altered: gudgeon photos"
    assert remark in now(bench).heading.remarks
    found = report(job)
    assert (found.wrong, found.photos[0].wrong) == (1, why)
    assert [one.endswith(f": {why}") for one in verified(job.book).problems] == [True]
    assert ask(job, lambda bench: photo_shown(bench, clean_picture(JPEG).sha)) is None
    file.write_bytes(kept)
    assert stands(job, HOLD) == ""


def test_what_rests_on_such_a_proof_does_not_stand_either(job: Job) -> None:
    bench = job.bench()
    above = next(one.hold for one in standings(bench.sheet, bench.state) if HOLD in one.hold.rests_on)
    send(job, "hold-proved", JPEG, hold=HOLD, value="dry")
    under = [other for other in above.rests_on if other != HOLD and ":" not in other]
    for other in under:
        job.record("hold-proved", hold=other, value="seen and written down")
    job.record("hold-proved", hold=above.id, value="seen and written down")
    (folder(job) / f"{clean_picture(JPEG).sha}.jpg").unlink()
    name = next(one.hold.name for one in standings(bench.sheet, bench.state) if one.hold.id == HOLD)
    assert stands(job, above.id) == f"it rests on “{name}”, which does not stand"


def test_a_photo_that_proves_nothing_is_missed_all_the_same(job: Job) -> None:
    send(job, "photo", JPEG, caption="the deck")
    for file in folder(job).iterdir():
        file.unlink()
    assert "A photo of the book is missing or altered: gudgeon photos" in now(job.bench()).heading.remarks
    assert not [one for one in ready(job.bench(), milestone="handover").reasons if one.family == "in doubt"]
    assert report(job).wrong == 1


def test_a_struck_photo_proves_nothing_and_stays_to_be_seen(job: Job) -> None:
    send(job, "hold-proved", JPEG, hold=HOLD, value="dry")
    photo = entries(job)[-2]
    job.record("strike", entry=photo.id, why="another engine")
    assert stands(job, HOLD) == "the photo that proves it is in doubt: its entry was struck"
    line = report(job).photos[0]
    assert (line.struck, line.wrong) == ("another engine", "")
    assert ask(job, lambda bench: photo_shown(bench, photo.body["sha"])) is not None


def test_a_proof_by_photo_on_an_outdated_page_is_void(job: Job) -> None:
    """The page was opened, then somebody voided the hold, then the photo is sent: its sender had not seen that."""
    seen = job.bench().state.head
    job.record("hold-voided", hold=HOLD, why="oil ran back into them")
    done = send(job, "hold-proved", JPEG, hold=HOLD, value="dry", basis=seen)
    assert "void: proved when it was recorded on an older state" in stands(job, HOLD)
    assert [one for one in done.remarks if one.startswith("Meanwhile")]
    assert not [one for one in done.remarks if "photo" in one]


def test_other_files_in_the_folder_are_told_and_left(job: Job) -> None:
    send(job, "photo", JPEG, caption="the deck")
    for name in ("notes.txt", f"{'0' * 64}.jpg"):
        (folder(job) / name).write_text("x")
    assert report(job).strangers == (f"{'0' * 64}.jpg", "notes.txt")
    assert (folder(job) / "notes.txt").exists()


def test_only_a_photo_of_this_build_is_shown(job: Job) -> None:
    send(job, "photo", JPEG, caption="the deck")
    other = clean_picture(PNG)
    (folder(job) / f"{other.sha}.png").write_bytes(other.content)
    for sha in (other.sha, "../book.gudgeon", "", "0" * 64):
        assert ask(job, lambda bench, sha=sha: photo_shown(bench, sha)) is None  # type: ignore[misc]


def test_an_override_lets_the_proof_pass_by_name(job: Job) -> None:
    """What is told of a photo names the hold, so that somebody may answer for it."""
    send(job, "hold-proved", JPEG, hold=HOLD, value="dry")
    bench = job.bench()
    wrong = replace(
        bench, state=replace(bench.state, photos_wrong={clean_picture(JPEG).sha: "it is missing"})
    )
    told = [one for one in ready(wrong, milestone="crank").reasons if one.about == f"hold:{HOLD}"]
    assert {one.family for one in told} >= {"in doubt"}


KILLED = """
import os, signal, sys
from gudgeon.bench import photos
from gudgeon.bench.context import open_bench
from pathlib import Path

def die(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

if sys.argv[2] == "before the entry":
    photos.record = die
else:
    os.link = die
photos.record_photo(open_bench(Path(sys.argv[1])), photos.Sent("a.jpg", Path(sys.argv[3]).read_bytes()), caption="the deck")
"""


@pytest.mark.parametrize("moment", ["before the name", "before the entry"])
def test_a_killed_program_leaves_a_file_that_nothing_rests_on(job: Job, tmp_path: Path, moment: str) -> None:
    before = len(entries(job))
    (tmp_path / "a.jpg").write_bytes(JPEG)
    command = [sys.executable, "-c", KILLED, str(job.book), moment, str(tmp_path / "a.jpg")]
    assert subprocess.run(command, check=False).returncode == -signal.SIGKILL
    assert len(entries(job)) == before
    name = f"{clean_picture(JPEG).sha}.jpg"
    left = report(job).strangers
    assert len(left) == 1
    assert (left[0] == name) == (moment == "before the entry")
    assert report(job).wrong == 0
    assert verified(job.book).problems == ()
    send(job, "photo", JPEG, caption="the deck")
    assert (report(job).wrong, len(report(job).photos)) == (0, 1)
    assert (folder(job) / name).read_bytes() == clean_picture(JPEG).content
