"""The command line as a person types it: exit codes, messages in one or two lines, JSON with a stable shape."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from gudgeon.bench.recordable import RECORDABLES
from gudgeon.book.bodies import BODIES
from gudgeon.cli.main import build_parser, main
from tests.ctrl_c import heard
from tests.unit.bench.benches import KIT
from tests.unit.sheet.sheets import SMALL

NOTICE = "invented engine – not for any real one"


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "sheet.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(KIT, encoding="utf-8")
    book = tmp_path / "book.gudgeon"
    monkeypatch.setenv("GUDGEON_BOOK", str(book))
    assert (
        main(["begin", "mine", "--sheet", str(tmp_path / "sheet.yaml"), "--kit", str(tmp_path / "kit.yaml")])
        == 0
    )
    assert main(["record", "identity", "L1-A", "--read-from", "pad"]) == 0
    return book


@pytest.fixture(scope="session")
def demo_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    return folder / "book.gudgeon"


QUESTIONS = (
    ["now"],
    ["judge"],
    ["tighten"],
    ["tighten", "head"],
    ["cut"],
    ["ready"],
    ["open"],
    ["book", "show"],
)


def test_the_book_may_be_named_before_the_command(
    demo_book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    answers = []
    for said in (["--book", str(demo_book), "open"], ["open", "--book", str(demo_book)]):
        capsys.readouterr()
        assert main([*said, "--json"]) == 0
        answers.append({**json.loads(capsys.readouterr().out), "asked": ""})
    assert answers[0] == answers[1]
    assert main(["--book", str(demo_book), "open", "--book", str(demo_book)]) == 0


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (
            ["open", "--book", "b"],
            "--book names one book before the command and another behind it; name one",
        ),
        (["calc"], "--book: this command works with no book; leave it out"),
    ],
    ids=["two books", "no book"],
)
def test_a_book_before_the_command_that_is_not_the_one_of_the_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], typed: list[str], told: str
) -> None:
    with pytest.raises(SystemExit) as refused:
        main(["--book", str(tmp_path / "a"), *typed])
    assert refused.value.code == 2
    assert capsys.readouterr().err.endswith(f"gudgeon: error: {told}\n")


@pytest.mark.parametrize("question", QUESTIONS, ids=" ".join)
def test_every_answer_says_that_the_engine_is_invented(
    demo_book: Path, capsys: pytest.CaptureFixture[str], question: list[str]
) -> None:
    capsys.readouterr()
    code = main([*question, "--book", str(demo_book)])
    assert code in (0, 1)
    assert " ".join(capsys.readouterr().out.split()).count(NOTICE) >= 2
    main([*question, "--book", str(demo_book), "--json"])
    answer = json.loads(capsys.readouterr().out)
    assert answer["heading"]["notice"] == NOTICE
    assert answer["heading"]["build"] == "demo"


def test_ready_answers_with_its_exit_code(demo_book: Path) -> None:
    assert main(["ready", "--for", "crank", "--book", str(demo_book)]) == 1


def test_a_session_from_reading_to_strike(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["record", "reading", "head_face", "along", "--stops", "0.03 mm", "--gauge", "feelers"]) == 0
    assert main(["record", "reading", "journal", "A", "29.985 mm", "--gauge", "micrometer"]) == 0
    for _ in range(4):
        assert main(["record", "pull", "head", "done"]) == 0
    assert main(["record", "pull", "head", "doubtful", "--why", "creaked"]) == 0
    assert main(["record", "pause", "--hand", "the wrench", "--next", "bolt 1 again"]) == 0
    capsys.readouterr()
    main(["book", "show", "--json"])
    lines = json.loads(capsys.readouterr().out)["lines"]
    doubtful = next(line for line in lines if "creaked" in line["what"])
    assert main(["strike", doubtful["id"][:8], "--why", "it was the ratchet"]) == 0
    capsys.readouterr()
    main(["tighten", "head", "--json"])
    card = json.loads(capsys.readouterr().out)
    assert (card["next_pull"], card["doubts"]) == (5, [])
    main(["book", "show"])
    shown = capsys.readouterr().out
    assert "creaked" in shown
    assert "struck: it was the ratchet" in " ".join(shown.split())
    assert main(["book", "verify"]) == 0


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["record", "reading", "journal", "A", "29.985"], "`29.985` has no unit."),
        (["record", "reading", "journal"], "No value was given for journal."),
        (["record", "reading", "jurnal", "A", "29.985 mm"], "`jurnal` is no characteristic here. Known: head_face, journal."),
        (["record", "reading", "journal", "A", "29.985 mm", "--gauge", "laser"], "`laser` is no gauge of the kit here."),
        (["record", "pull", "head", "done", "--bolt", "1"], "Name both --bolt and --stage, or neither for the next pull of the list."),
        (["record", "pull", "head", "stopped", "--stage", "4", "--bolt", "1"], "the angle at which it stopped is missing"),
        (["record", "hold", "timing_proved", "ok"], "is a bare tick; write the value that was seen"),
        (["record", "hold", "timing", "2 turns"], "`timing` is no hold here."),
        (["record", "refitted", "c9"], "`c9` is not on the list of what is off the engine. On it: none."),
        (["strike", "zzz", "--why", "no"], "`zzz` is no entry"),
        (["strike", "1", "--why", "not this one"], "it begins the build"),
        (["now", "--build", "other"], "There is no build `other` in this book. It holds: mine."),
        (["tighten", "heed"], "`heed` is no joint here. Known: head."),
        (["calc", "joint.thred"], "Did you mean `joint.thread`?"),
        (["calc", "joint.thread", "M10"], "`M10` is not an input. Write key=value"),
        (["calc", "joint.thread", "designation=M10", "designation=M12"], "`designation` is given twice. Give it once."),
        (["sheet", "check", "none.yaml"], "none.yaml: there is no such file. Check the name; `gudgeon sheet blank` makes one."),
        (["kit", "check", "none.yaml"], "none.yaml: there is no such file. Check the name; `gudgeon kit blank` makes one."),
        (["trace", "none.jpg", "--joint", "head"], "none.jpg: there is no such file. Check the name, and the folder it is sought from."),
    ],
)  # fmt: skip
def test_refusals_are_short_and_write_nothing(
    book: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], message: str
) -> None:
    main(["book", "show", "--json"])
    before = json.loads(capsys.readouterr().out)["head"]
    assert main(arguments) == 2
    said = capsys.readouterr()
    assert message in said.err
    assert "Traceback" not in said.err
    assert len(said.err.strip().splitlines()) <= 2
    assert said.out == ""
    main(["book", "show", "--json"])
    assert json.loads(capsys.readouterr().out)["head"] == before


@pytest.mark.parametrize(
    "content", [b"", b"hello", b"SQLite format 3\x00" + b"\x00" * 200], ids=["empty", "text", "sqlite"]
)
def test_a_book_that_is_not_a_book_is_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes
) -> None:
    file = tmp_path / "not.gudgeon"
    file.write_bytes(content)
    for arguments in (["now"], ["record", "note", "hello"], ["book", "verify"]):
        assert main([*arguments, "--book", str(file)]) == 2
    assert "is not a book" in capsys.readouterr().err
    assert file.read_bytes() == content
    assert [one.name for one in tmp_path.iterdir()] == ["not.gudgeon"]


def test_no_book_yet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["now", "--book", str(tmp_path / "none.gudgeon")]) == 2
    assert "Begin one with `gudgeon begin NAME --sheet FILE --kit FILE`" in capsys.readouterr().err


def test_a_build_is_not_begun_twice(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = book.parent
    assert (
        main(["begin", "mine", "--sheet", str(folder / "sheet.yaml"), "--kit", str(folder / "kit.yaml")]) == 2
    )
    assert "The build `mine` is in this book already." in capsys.readouterr().err
    assert (
        main(["begin", "other", "--sheet", str(folder / "sheet.yaml"), "--kit", str(folder / "kit.yaml")])
        == 0
    )
    assert main(["now"]) == 2
    assert "Say which with --build NAME." in capsys.readouterr().err
    assert main(["now", "--build", "other"]) == 0
    assert main(["book", "verify"]) == 0
    assert "Head of the chain of other" in capsys.readouterr().out


def test_a_changed_sheet_is_said_and_a_lost_one_is_not_a_loss(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = book.parent / "sheet.yaml"
    sheet.write_text(
        sheet.read_text(encoding="utf-8").replace("torque: 10 N·m", "torque: 12 N·m"), encoding="utf-8"
    )
    capsys.readouterr()
    assert main(["tighten", "head"]) == 0
    shown = capsys.readouterr().out
    assert "The data sheet has changed since the last entry" in " ".join(shown.split())
    assert "12 N·m" in shown
    sheet.unlink()
    assert main(["tighten", "head"]) == 0
    shown = capsys.readouterr().out
    assert "is gone; the copy pinned in the book is used." in " ".join(shown.split())
    assert "10 N·m" in shown


def test_sheet_add_asks_critical_figures_twice(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = str(book.parent / "sheet.yaml")
    path = ["sheet", "add", sheet, "characteristics.journal.wear_limit", "--source", "manual p. 5"]
    assert main([*path, "--value", "min 29.950 mm", "--again", "min 29.590 mm"]) == 2
    assert "are not the same. Nothing was written: look at the page again." in capsys.readouterr().err
    assert "wear_limit: {value" not in Path(sheet).read_text(encoding="utf-8")
    assert main([*path, "--value", "min 29.950 mm", "--again", "min 29.950 mm"]) == 0
    assert "wear_limit: {value: min 29.950 mm, source: manual p. 5}" in Path(sheet).read_text(
        encoding="utf-8"
    )


def test_sheet_add_holds_a_second_writing_against_the_first_and_says_what_was_there(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = str(book.parent / "sheet.yaml")
    path = ["sheet", "add", sheet, "cylinder.bore", "--source", "manual p. 3", "--value", "70.01 mm"]
    assert main([*path, "--again", "70.10 mm"]) == 2
    capsys.readouterr()
    assert main(path) == 0
    assert capsys.readouterr().out == "Written: cylinder.bore = 70.01 mm (manual p. 3); it was 70.00 mm\n"
    assert main(["sheet", "add", sheet, "joints.head.torque", "--value", "20 N·m"]) == 2
    assert "`joints.head.torque` leads to no figure" in capsys.readouterr().err


def test_a_joint_in_doubt_is_offered_no_next_pull(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["record", "pull", "head", "doubtful", "--why", "creaked"]) == 0
    capsys.readouterr()
    assert main(["record", "pull", "head", "done"]) == 2
    assert "in doubt (bolt 1, stage 1: creaked), so no next pull is offered." in capsys.readouterr().err
    assert main(["now"]) == 0
    assert "in doubt" in capsys.readouterr().out


def test_a_blank_is_never_written_over_something(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "sheet.yaml"
    assert main(["sheet", "blank", str(file), "--layout", "single"]) == 0
    assert (tmp_path / "data-sheet.schema.json").exists()
    assert main(["sheet", "blank", str(file)]) == 2
    assert "exists already and is left as it is" in capsys.readouterr().err
    assert main(["sheet", "blank", str(tmp_path / "b.yaml"), "--layout", "single", "--cylinders", "4"]) == 2


def test_a_folder_of_ones_own_is_never_taken_for_a_demo(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "notes.txt").write_text("months of work")
    assert main(["demo", "--folder", str(mine)]) == 2
    assert (mine / "notes.txt").read_text() == "months of work"
    fresh = tmp_path / "fresh"
    assert main(["demo", "--folder", str(fresh)]) == 0
    assert main(["demo", "--folder", str(fresh)]) == 0
    assert sorted(one.name for one in tmp_path.iterdir()) == ["fresh", "mine"]


def test_what_was_recorded_in_a_demo_is_kept_beside_the_next_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    fresh = tmp_path / "fresh"
    assert main(["demo", "--folder", str(fresh)]) == 0
    assert main(["record", "note", "mine", "--book", str(fresh / "book.gudgeon")]) == 0
    assert main(["demo", "--folder", str(fresh)]) == 0
    (kept,) = (one for one in tmp_path.iterdir() if one.name.startswith("fresh-kept-"))
    assert f"is kept in {kept}" in capsys.readouterr().out
    assert main(["book", "show", "--last", "1", "--book", str(kept / "book.gudgeon")]) == 0
    assert "mine" in capsys.readouterr().out


def test_every_entry_kind_can_be_recorded_from_the_terminal() -> None:
    own_commands = {"strike", "build-opened", "face-scanned"}  # strike, begin, measure
    assert {one.kind for one in RECORDABLES} | own_commands == set(BODIES)


def test_help_of_every_command_prints(capsys: pytest.CaptureFixture[str]) -> None:
    for command in (["record", "reading"], ["sheet", "blank"], ["ready"], ["calc"]):
        with pytest.raises(SystemExit) as caught:
            build_parser().parse_args([*command, "--help"])
        assert caught.value.code == 0
    assert "--for" in capsys.readouterr().out


@pytest.mark.skipif(os.name == "nt", reason="sends a signal as a Unix terminal does")
def test_ctrl_c_is_a_message_and_loses_nothing(book: Path) -> None:
    sheet = book.parent / "sheet.yaml"
    before = sheet.read_bytes()
    child = subprocess.Popen(
        [sys.executable, "-m", "gudgeon.cli.main", "sheet", "add", str(sheet), "cylinder.bore"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, preexec_fn=heard,
    )  # fmt: skip
    assert child.stderr is not None
    question = child.stderr.read(12)
    time.sleep(0.1)
    child.send_signal(signal.SIGINT)
    out, err = child.communicate(timeout=20)
    assert child.returncode == 2
    assert b"Stopped." in err
    assert b"Traceback" not in question + out + err
    assert sheet.read_bytes() == before


def test_a_joint_is_shown_and_recorded_as_it_is_taken_apart(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = book.parent / "sheet.yaml"
    said = sheet.read_text(encoding="utf-8")
    program = "    loosening:\n      - loosen: 90°\n      - loosen: fully\n    loosening_cold: yes\n    total_turn: 90°\n"
    sheet.write_text(said.replace("    total_turn: 90°\n", program), encoding="utf-8")
    assert main(["tighten", "head", "--loosening"]) == 0
    shown = capsys.readouterr().out
    assert "to be loosened: 0 of 8 steps done, cold only" in shown
    assert "caution: Loosen it with the engine cold" in shown
    assert "Record pull 1: gudgeon record loosened head done|doubtful" in shown
    assert main(["record", "loosened", "head", "done"]) == 0
    assert "bolt loosened: Head nuts, bolt 4, stage 1 of 2, loosen 90°, done, breaker bar" in " ".join(
        capsys.readouterr().out.split()
    )
    assert main(["tighten", "head", "--loosening", "--from", "7"]) == 0
    assert "7/8" in capsys.readouterr().out


def test_a_pull_with_a_wrench_is_refused_until_its_scale_was_read(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for _ in range(4):
        assert main(["record", "pull", "head", "done"]) == 0
    for _ in range(4):
        assert main(["record", "pull", "head", "clicked", "--tool", "three", "--setting", "10 N·m"]) == 0
    capsys.readouterr()
    assert main(["tighten", "head"]) == 0
    assert "gudgeon record pull head clicked|at-once|done|doubtful --setting" in capsys.readouterr().out
    assert main(["record", "pull", "head", "clicked"]) == 2
    refused = capsys.readouterr().err
    assert (
        "has to be read for stage 3: nobody has said yet what it shows. The list asks for 24.0 N·m."
        in refused
    )
    assert main(["record", "pull", "head", "clicked", "--setting", "24 N·m"]) == 0
    assert main(["record", "pull", "head", "clicked"]) == 0
    capsys.readouterr()
    assert main(["tighten", "head"]) == 0
    assert "Its wrench was read to be set to 24 N·m" in capsys.readouterr().out
