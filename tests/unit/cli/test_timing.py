"""`gudgeon timing` as a person types it."""

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import make_job
from tests.unit.bench.timing.engines import cut, job
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def book(tmp_path: Path) -> str:
    of = job(tmp_path)
    cut(of)
    return str(of.book)


def shown(capsys: pytest.CaptureFixture[str]) -> str:
    return " ".join(capsys.readouterr().out.split())


def test_it_answers_the_question(book: str, capsys: pytest.CaptureFixture[str]) -> None:
    """HAND: half a tooth of 40 is 4.5° of the camshaft; 0.2 mm on 60.638 mm at cos β = 0.99711 are 0.19°."""
    assert (
        main(["timing", "--book", book, "--seen", "cam: half a tooth", "--seen", "crank 1 tooth left"]) == 1
    )
    said = shown(capsys)
    assert "Is it timed? NOT PROVED" in said
    assert (
        "Half a tooth at Cam wheel: 4.5° at the camshaft, 9° at the crankshaft; the cut explains 0.19° of it at the "
        "camshaft, if it stands late."
    ) in said
    assert "1 tooth at Crank wheel: 9° at the camshaft, 18° at the crankshaft, the valves come late" in said
    assert "Late: the wheel turns clockwise, and its mark stands ahead of its place." in said
    assert "only after 57 turns" in said
    assert "12° → 11.6°" in said
    assert "gudgeon record hold timing_proved VALUE" in said
    assert "Battery off and spark plugs out" in said


def test_json(book: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["timing", "--book", book, "--seen", "cam 1 tooth late", "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["seen"][0]["cam_deg"] == 9.0
    assert answer["seen"][0]["timing"] == "late"
    assert answer["events"]["lines"][0]["after_opens_deg"] == pytest.approx(11.6231, abs=1e-4)
    assert [one["state"] for one in answer["proof"]["parts"]] == ["not yet"] * 5


@pytest.mark.parametrize(
    ("more", "title"), [((), "The timing belt"), (("--of", "events"), "Valve events, Little one")]
)
def test_pictures(
    book: str, tmp_path: Path, more: tuple[str, ...], title: str, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "drawn.svg"
    assert main(["timing", "--book", book, "--picture", str(file), *more]) == 1
    assert f"Picture: {file}" in capsys.readouterr().out
    root = ElementTree.fromstring(file.read_text(encoding="utf-8"))
    assert next(one.text for one in root.iter() if one.tag.endswith("title")) == title
    assert main(["timing", "--book", book, "--picture", str(file), *more]) == 2
    assert capsys.readouterr().err.strip() == (
        f"{file} exists already and is left as it is. Name another file, or take it away first."
    )


def test_what_it_refuses(book: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["timing", "--book", book, "--seen", "cam: far off"]) == 2
    assert capsys.readouterr().err.strip() == (
        "`cam: far off` cannot be read as a mark that is off. Write a wheel and how far, like "
        "`intake: half a tooth late`, `exhaust 4 deg` or `crank 3 mm right`. Wheels with a mark: crank, cam."
    )
    bare = tmp_path / "bare"
    bare.mkdir()
    of = make_job(bare, sheet=SMALL)
    of.read_code()
    assert main(["timing", "--book", str(of.book), "--picture", str(bare / "a.svg")]) == 2
    assert "The data sheet states no drive" in capsys.readouterr().err
    assert main(["timing", "--book", str(of.book), "--picture", str(bare / "a.svg"), "--of", "events"]) == 2
    assert capsys.readouterr().err.strip() == (
        "The data sheet does not say when the valves open and close, so nothing is drawn. Write two of `opens`, "
        "`closes`, `duration` and `centerline` below `valve_gear: intake:` and `exhaust:`."
    )
    assert not (bare / "a.svg").exists()


def test_no_table_is_wider_than_a_hundred_letters(book: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(["timing", "--book", book])
    rules = [line for line in capsys.readouterr().out.splitlines() if set(line) == {"─"}]
    assert len(rules) >= 3
    assert max(map(len, rules)) <= 100


def test_what_the_proof_rests_on_is_listed_with_its_commands(
    book: str, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["timing", "--book", book])
    said = shown(capsys)
    assert "It rests on these, and they are not proved. First, in this order:" in said
    assert "Tensioner pin in the hand not proved yet gudgeon record hold tensioner_pin_out VALUE" in said
    last = (
        "When all of the proof is so, and what it rests on is proved: gudgeon record hold timing_proved VALUE"
    )
    assert last in said
    main(["timing", "--book", book, "--json"])
    first = json.loads(capsys.readouterr().out)["proof"]["first"]
    assert {"name": "Tensioner pin in the hand", "why": "not proved yet",
            "command": "gudgeon record hold tensioner_pin_out VALUE"} in first  # fmt: skip
