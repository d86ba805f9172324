"""`gudgeon measure`: lines piped in as a gauge types them, each reading in the book before the next prompt."""

import io
import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.bench.test_budget import GAUGES, SHEET


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(
        tmp_path, sheet=SHEET, kit=KIT[: KIT.index("gauges:")] + GAUGES + KIT[KIT.index("turning:") :]
    )
    made.read_code()
    return made


class Terminal(io.StringIO):
    """Lines as a person types them."""

    def isatty(self) -> bool:
        return True


def typed(
    monkeypatch: pytest.MonkeyPatch, job: Job, lines: str, *arguments: str, person: bool = False
) -> int:
    monkeypatch.setattr(sys, "stdin", Terminal(lines) if person else io.StringIO(lines))
    return main(["measure", *arguments, "--book", str(job.book)])


def test_places_are_prompted_one_after_the_other_and_judged_at_once(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = "70.01\n\n70.02 mm\n.\n"
    assert (
        typed(
            monkeypatch,
            job,
            lines,
            "bore",
            "--gauge",
            "bore_gauge",
            "--part-temp",
            "20 °C",
            "--gauge-temp",
            "same as part",
        )
        == 0
    )
    said = capsys.readouterr().out
    assert "cylinder 1, top, across: " in said
    assert "cylinder 1, bottom, across: " in said
    assert "a figure without a unit is in mm" in said
    assert said.count("No limit given: within the new range") == 1, "of 70.01"
    assert said.count("No limit given: in doubt whether it is within the new range") == 1, "70.02 is its end"
    assert said.endswith("2 readings are in the book. All verdicts: gudgeon judge\n")
    readings = job.bench().state.readings
    assert {place: one.value for (_, place, _), one in readings.items()} == {
        "cylinder 1, top, across": "70.01", "cylinder 1, bottom, across": "70.02",
    }  # fmt: skip
    assert all(
        (one.part_temperature, one.gauge_as_part, one.unit) == ("20", True, "mm") for one in readings.values()
    )


def test_back_goes_back_and_the_later_reading_counts(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    assert typed(monkeypatch, job, "70.01\nb\n70.02\n", "bore", "--gauge", "bore_gauge", "--as-left") == 0
    readings = job.bench().state.readings
    assert {(place, condition): one.value for (_, place, condition), one in readings.items()} == {
        ("cylinder 1, top, across", "as left"): "70.02"
    }


def test_what_is_refused_rings_and_its_place_is_asked_again(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = "2.757\n2.757 !\n.\n"
    arguments = ("piston", "--gauge", "micrometer", "--part-temp", "20 °C")
    assert typed(monkeypatch, job, lines, *arguments, person=True) == 0
    raw = capsys.readouterr().out
    said = " ".join(raw.split())
    assert raw.count("\a") == 1
    assert raw.index("\a") < raw.index("! Not recorded")
    assert (
        "! Not recorded: 2.757 mm is far from the range of the micrometer (50–75 mm). As mm it is 2.757 mm"
        in said
    )
    assert "as inches it would be 70.03 mm. Was it read in inches?" in said  # HAND: 2.757 × 25.4 = 70.0278
    assert "If it is what the gauge says, end the line with !." in said
    assert "! Asked again: cylinder 1 cylinder 1: " in said
    (one,) = job.bench().state.readings.values()
    assert (one.place, one.value) == ("cylinder 1", "2.757")


def test_piped_lines_stop_at_the_first_that_is_refused_and_nothing_shifts(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The third line, meant for the third place, never counts for the second."""
    lines = "70.01\n2.757\n70.02\n"
    assert typed(monkeypatch, job, lines, "bore", "--gauge", "bore_gauge") == 1
    raw = capsys.readouterr().out
    assert "\a" not in raw
    assert (
        "Stopped at cylinder 1, top, along: its line was refused, and no line after it was taken, so that no reading "
        "moves to another place. 1 reading is in the book, the last one of cylinder 1, top, across. Go on at cylinder 1, "
        "top, along: gudgeon measure bore --rest (only the places without a reading)"
    ) in " ".join(raw.split())
    assert [(one.place, one.value) for one in job.bench().state.readings.values()] == [
        ("cylinder 1, top, across", "70.01")
    ]
    assert typed(monkeypatch, job, "70.02\n", "bore", "--gauge", "bore_gauge", "--rest") == 0
    assert job.bench().state.readings["bore", "cylinder 1, top, along", "as found"].value == "70.02"


def test_a_refusal_of_piped_lines_as_json_leaves_the_answer_alone(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A place that has a reading already is not one that --rest would ask."""
    typed(monkeypatch, job, "69.95\n69.95\n", "piston", "--gauge", "micrometer", "--as-left")
    capsys.readouterr()
    lines = "69.96\nabout 70\n"
    assert typed(monkeypatch, job, lines, "piston", "--gauge", "micrometer", "--as-left", "--json") == 1
    told = capsys.readouterr()
    assert [one["kind"] for one in json.loads(told.out)] == ["reading"]
    assert "Go on at cylinder 2: gudgeon measure piston --as-left" in " ".join(told.err.split())


def test_blades_and_repeats_on_a_line(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    assert typed(monkeypatch, job, "0.03/0.04\n<0.05\n", "deck", "--gauge", "feelers") == 0
    assert typed(monkeypatch, job, "69.95 69.96\n", "piston", "--gauge", "micrometer") == 0
    readings = job.bench().state.readings
    assert (readings["deck", "along", "as found"].low, readings["deck", "along", "as found"].high) == (
        "0.03",
        "0.04",
    )
    assert (readings["deck", "across", "as found"].low, readings["deck", "across", "as found"].high) == (
        None,
        "0.05",
    )
    assert readings["piston", "cylinder 1", "as found"].repeats == ("69.95", "69.96")


def test_a_person_is_asked_once_for_temperatures_and_gauge(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = "75 °C\nsame as part\n24 °C\nsame as part\nlaser\nmicrometer\n69.95\n69.96\n"
    assert typed(monkeypatch, job, lines, "piston", person=True) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Was it read in °F?" in said
    assert "`laser` is no gauge of the kit." in said
    readings = job.bench().state.readings
    assert {(one.instrument, one.part_temperature, one.gauge_as_part) for one in readings.values()} == {
        ("micrometer", "24", True)
    }
    assert len(readings) == 2


def test_with_rest_only_what_is_not_read_is_asked(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    typed(monkeypatch, job, "69.95\n", "piston", "--gauge", "micrometer")
    typed(monkeypatch, job, "69.96\n", "piston", "--rest")
    readings = job.bench().state.readings
    assert readings["piston", "cylinder 2", "as found"].value == "69.96"
    assert readings["piston", "cylinder 2", "as found"].instrument == "micrometer"  # as it was used last


def test_a_table_and_a_face_by_their_files(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = job.book.parent
    assert typed(monkeypatch, job, "", "piston", "--blank-table", str(folder / "blank.csv")) == 0
    text = (folder / "blank.csv").read_text(encoding="utf-8").replace("cylinder 2,,", "cylinder 2,69.95,")
    (folder / "filled.csv").write_text(text, encoding="utf-8")
    assert (
        typed(monkeypatch, job, "", "piston", "--table", str(folder / "filled.csv"), "--gauge", "micrometer")
        == 0
    )
    assert (
        "In the book, all of them: 1 reading; without a value and left out: 1 row." in capsys.readouterr().out
    )
    assert (
        typed(monkeypatch, job, "", "piston", "--blank-table", str(folder / "blank.csv")) == 2
    )  # never over a file
    (folder / "deck.csv").write_text("x,y,z\n0,0,0\n100,0,0.02\n0,100,0\n100,100,0\n", encoding="utf-8")
    assert typed(monkeypatch, job, "", "deck", "--face", str(folder / "deck.csv")) == 2
    assert (
        typed(
            monkeypatch,
            job,
            "",
            "deck",
            "--face",
            str(folder / "deck.csv"),
            "--unit",
            "mm",
            "--gauge",
            "clock",
        )
        == 0
    )
    assert [len(one.points) for one in job.bench().state.scans.values()] == [4]


def test_as_json_the_answer_alone_is_printed(
    job: Job, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert typed(monkeypatch, job, "69.95\n", "piston", "--gauge", "micrometer", "--json") == 0
    (one,) = json.loads(capsys.readouterr().out)
    assert one["kind"] == "reading"


def test_repeats_and_temperatures_by_record_reading(job: Job) -> None:
    assert main([
        "record", "reading", "piston", "1", "69.95 mm", "--repeat", "69.96", "--repeat", "69.94", "--gauge", "micrometer",
        "--part-temp", "24 °C", "--gauge-temp", "same as part", "--book", str(job.book),
    ]) == 0  # fmt: skip
    assert (
        main(["record", "reading", "piston", "2", "--repeats", "69.95 69.96 mm", "--book", str(job.book)])
        == 0
    )
    first, second = job.bench().state.readings.values()
    assert (first.value, first.repeats, first.gauge_as_part) == ("69.9500", ("69.95", "69.96", "69.94"), True)
    assert (second.value, second.repeats) == ("69.9550", ("69.95", "69.96"))


def test_a_killed_program_loses_no_reading_that_was_followed_by_a_prompt(job: Job) -> None:
    """The prompt of the next place is the acknowledgement of the one before: the process is killed right there."""
    process = subprocess.Popen(
        [sys.executable, "-m", "gudgeon.cli.main", "measure", "piston", "--gauge", "micrometer", "--book", str(job.book)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8",
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.write("69.95\n")
    process.stdin.flush()
    said = ""
    while "cylinder 2: " not in said:
        mark = process.stdout.read(1)
        assert mark, said
        said += mark
    process.send_signal(signal.SIGKILL)
    process.wait()
    process.stdin.close()
    process.stdout.close()
    (one,) = job.bench().state.readings.values()
    assert (one.place, one.value) == ("cylinder 1", "69.95")
