"""What of a book has a label, that its code stays, and that every code leads back."""

import re
from collections.abc import Iterator
from contextlib import ExitStack, closing
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from gudgeon.bench.begin import begin
from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.labels import things
from gudgeon.bench.labels.ask import LabelsSaid, labels
from gudgeon.bench.labels.errors import (
    CountOutOfRange,
    KindUnknown,
    LabelOfOtherBuild,
    MeasuresMissing,
    NoRoomForTheNote,
    NoSuchLabel,
    NotACode,
    NothingToLabel,
    NotTwoMeasures,
    PaperOutOfRange,
    SheetSaidTwice,
    SheetUnknown,
    StartUnreadable,
    TooManyLabels,
)
from gudgeon.bench.labels.find import find_label
from gudgeon.bench.labels.kinds import KINDS
from gudgeon.bench.labels.sheets import COMMON, SheetSaid, sheet_of
from gudgeon.bench.labels.things import labeled
from gudgeon.calc.labels.codes import code_of, holds
from gudgeon.cli.main import main
from gudgeon.quantity.format import first_system
from tests.unit.bench.benches import START, Job, make_job


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    bench = open_bench(folder / "book.gudgeon")
    yield bench
    bench.store.close()


@dataclass
class OpenJob(Job):
    """A job whose benches stay open, to be asked, until the test is over."""

    opened: ExitStack = field(default_factory=ExitStack)

    def bench(self) -> Bench:
        bench = open_bench(self.book, now=self.now)
        self.opened.callback(bench.store.close)
        return bench


@pytest.fixture
def job(tmp_path: Path) -> Iterator[Job]:
    made = OpenJob(make_job(tmp_path).book)
    with made.opened:
        _begun(made)
        yield made


def _begun(made: Job) -> None:
    made.read_code()
    made.record("taken-off", item="hose_top", group="hose", name="Top hose", place="H1", due_before="fire")
    made.record(
        "taken-off", item="bolts", group="bolt", name="Cover bolts", count=9, bag="B3", due_before="crank"
    )
    made.record("plugged", item="port", name="Plug in port 1", where="intake side", due_before="crank")


def by_key(job: Job) -> dict[str, things.Label]:
    return {one.key: one for one in labeled(job.bench()) if one.family != "joint"}


def test_every_label_of_the_invented_job_leads_back(demo: Bench) -> None:
    every = labeled(demo)
    assert {one.kind for one in every} == set(KINDS)
    assert len({one.code for one in every}) == len(every) > 70
    for one in every:
        assert holds(one.code)
        assert find_label(demo, f"{one.code[:3].lower()} {one.code[3:]}").label == one
    off = {one.key for one in every if one.family == "left over" and one.open}
    assert off == set(demo.state.left_over)
    assert {one.key for one in every if one.family == "plugged" and one.open} == set(demo.state.plugged)
    assert {one.key for one in every if one.family == "joint"} == set(demo.sheet.joints)


def test_what_stands_on_a_label(job: Job) -> None:
    hose, bolts, plug = (by_key(job)[key] for key in ("hose_top", "bolts", "port"))
    assert (hose.number, hose.what, hose.where, hose.open) == ("H1", "Top hose", "place H1", True)
    assert hose.state.startswith("off since Sat Mar 07") and hose.since == "Mar 07"
    assert (bolts.number, bolts.where) == ("B3", "9 in all, bag B3")
    assert (plug.kind, plug.number, plug.where) == ("plug", "", "intake side")
    assert plug.state.startswith("plugged since") and plug.close_with == "gudgeon record opened port"


def test_the_state_follows_the_book_and_the_code_stays(job: Job) -> None:
    before = by_key(job)
    job.record("refitted", item="bolts", count=4)
    job.record("refitted", item="hose_top", place="H1")
    job.record("opened", item="port")
    after = by_key(job)
    assert {key: one.code for key, one in after.items()} == {key: one.code for key, one in before.items()}
    assert after["bolts"].state.endswith("5 of 9 still off, bag B3") and after["bolts"].open
    assert after["hose_top"].state.startswith("back on since Sat Mar 07") and not after["hose_top"].open
    assert after["port"].state.startswith("open again since") and after["port"].close_with == ""


def test_a_struck_entry_gives_its_code_to_nothing_else(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """All are drawn alike, so that each takes the next number; the first one keeps its own though it is struck."""
    monkeypatch.setattr(things, "_drawn", lambda text: int(text.rpartition("\n")[2]))
    before = by_key(job)
    assert [one.code for one in before.values()] == [code_of(0), code_of(1), code_of(2)]
    entry = next(one for one in job.bench().state.left_over.values() if one.item == "hose_top").entry
    job.record("strike", entry=entry, why="it never came off")
    job.record("taken-off", item="hose_low", group="hose", name="Lower hose", due_before="fire")
    after = by_key(job)
    assert {key: after[key].code for key in before} == {key: one.code for key, one in before.items()}
    assert after["hose_low"].code == code_of(3)
    assert after["hose_top"].state == "the entry that named it was struck" and not after["hose_top"].open


def test_another_book_has_other_codes(tmp_path: Path) -> None:
    codes = []
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        made = OpenJob(make_job(tmp_path / name).book)
        with made.opened:
            codes.append({one.code for one in labeled(made.bench())})
    assert codes[0] and not codes[0] & codes[1]


def test_a_misread_code_is_told_in_words(job: Job) -> None:
    code = by_key(job)["hose_top"].code
    bench = job.bench()
    swapped = next(
        code[:at] + code[at + 1] + code[at] + code[at + 2 :] for at in range(5) if code[at] != code[at + 1]
    )
    shown = f"{code[:3]} {code[3:]}"
    with pytest.raises(NotACode) as refused:
        find_label(bench, swapped)
    assert str(refused.value) == (
        f"“{swapped}” is no code of a label: its last sign does not fit the others, so one was misread or two changed "
        f"places. It may be {shown}. Read it once more, sign by sign; no 0, O, 1, I or L is ever in one."
    )
    assert refused.value.near == (code,)
    with pytest.raises(NotACode, match=re.escape(f"it has 5 signs, and one has 6. It may be {shown}.")):
        find_label(bench, code[:5])
    with pytest.raises(NotACode, match=re.escape(f"O is in none. It may be {shown}.")):
        find_label(bench, f"O{code[1:]}")
    with pytest.raises(NotACode, match="it has 1 sign, and one has 6"):
        find_label(bench, "7")
    with pytest.raises(NoSuchLabel) as unknown:
        find_label(bench, "222223")
    assert str(unknown.value) == (
        "Nothing in the book of `mine` has the code 222 223: no sign of it is wrong by itself, so the label is of another "
        "engine or another book. What has a label here stands under “Labels”."
    )


def test_a_label_of_another_engine_of_the_book_is_told_whose_it_is(job: Job, tmp_path: Path) -> None:
    code = by_key(job)["hose_top"].code
    kit = tmp_path / "other-kit.yaml"
    kit.write_text((tmp_path / "kit.yaml").read_text("utf-8") + "units: inch\n", "utf-8")
    begin(job.book, build="the other", sheet=tmp_path / "sheet.yaml", kit=kit, at=START)
    other, mine = (open_bench(job.book, build=build) for build in ("the other", "mine"))
    head = next(one for one in labeled(other) if one.family == "joint")
    with closing(other.store), closing(mine.store):
        assert find_label(mine, code).label.what == "Top hose"
        with pytest.raises(LabelOfOtherBuild) as refused:
            find_label(other, code)
        assert str(refused.value) == (
            f"The code {code[:3]} {code[3:]} is not of `the other`, which is open: in this book it is of `mine`, Top hose. Do "
            f"not put it on this engine. What it is there: gudgeon label {code} --build mine"
        )
        with pytest.raises(
            LabelOfOtherBuild, match=re.escape(f"gudgeon label {head.code} --build 'the other'")
        ):
            find_label(mine, head.code)
        assert first_system() == "metric"


def test_signs_that_look_alike_are_taken_for_the_one_that_is_meant(job: Job) -> None:
    alike = str.maketrans({"8": "B", "6": "G", "5": "S", "2": "Z", "V": "U"})
    every = labeled(job.bench())
    said = [(one, one.code.translate(alike)) for one in every if one.code.translate(alike) != one.code]
    assert said
    for one, misread in said:
        assert find_label(job.bench(), f"Gudgeon {misread}").label == one


def test_which_are_printed(job: Job) -> None:
    bench = job.bench()
    assert [one.key for one in labels(bench).labels][:3] == ["hose_top", "bolts", "port"]
    assert [one.key for one in labels(bench, LabelsSaid(kinds=("plug",))).labels] == ["port"]
    code = by_key(job)["bolts"].code.lower()
    for said in ("B3", "bolts", code, "cover bolts"):
        assert [one.key for one in labels(bench, LabelsSaid(only=(said,))).labels] == ["bolts"]
    job.record("refitted", item="hose_top")
    assert "hose_top" not in {one.key for one in labels(job.bench()).labels}
    assert "hose_top" in {one.key for one in labels(job.bench(), LabelsSaid(everything=True)).labels}
    with pytest.raises(NothingToLabel) as none:
        labels(job.bench(), LabelsSaid(kinds=("hose",), only=("H9",)))
    assert str(none.value) == (
        "Nothing of hose named `H9` is off, plugged or apart, so there is no label to print. Ask for all to have those of "
        "what is back again too."
    )
    with pytest.raises(KindUnknown, match=r"“gear” is no kind of label\. Known: connector, hose, "):
        labels(bench, LabelsSaid(kinds=("gear",)))


def test_common_sheets_are_symmetrical_and_found_by_their_measures() -> None:
    for one in COMMON:
        made = one.sheet
        assert made.left_mm == pytest.approx(made.right_mm) and made.top_mm == pytest.approx(made.bottom_mm)
        for said in (one.key, one.name, one.name.upper(), one.key.removesuffix("mm").removesuffix("in")):
            assert sheet_of(SheetSaid(said), paper="a4") == made
    with pytest.raises(SheetUnknown) as refused:
        sheet_of(SheetSaid("the blue ones"), paper="a4")
    assert str(refused.value).startswith(
        "No sheet of labels is called “the blue ones” here. Known by their measures:\n"
        "  A4, 3 × 8, 63.5 × 33.9 mm  (a4-3x8-63.5x33.9mm)\n"
    )
    assert str(refused.value).endswith(
        "\nFor any other give its measures: rows, columns and the label, like 63.5 x 33.9 mm."
    )


def test_a_sheet_of_his_own() -> None:
    """HAND: 2 5/8 in = 66.675 mm; (215.9 − 3 · 66.675 − 2 · 3.175) / 2 = 4.7625."""
    said = SheetSaid(rows="10", columns="3", label="2 5/8 x 1 in", gaps="1/8 x 0 in")
    assert sheet_of(said, paper="letter").left_mm == pytest.approx(4.7625)
    given = sheet_of(
        SheetSaid(rows="2", columns="1", label="40×30", margins="5 x 6 mm", paper="50x100 mm"), paper="a4"
    )
    assert (given.width_mm, given.left_mm, given.top_mm, given.gap_down_mm) == (50, 5, 6, 28)
    with pytest.raises(MeasuresMissing) as missing:
        sheet_of(SheetSaid(rows="2"), paper="a4")
    assert str(missing.value) == (
        "A sheet of your own takes rows, columns and the size of a label; missing: columns, label. "
        "Measure a label with a rule, width × height."
    )
    for said in (
        SheetSaid(margins="10x20"),
        SheetSaid(gaps="1x1"),
        SheetSaid(paper="50x100"),
    ):
        with pytest.raises(MeasuresMissing, match="missing: rows, columns, label"):
            sheet_of(said, paper="a4")
    capital = sheet_of(SheetSaid(rows="2", columns="2", label="40 X 30 mm"), paper="a4")
    assert (capital.label_width_mm, capital.label_height_mm) == (40, 30)
    with pytest.raises(NotTwoMeasures) as two:
        sheet_of(SheetSaid(rows="2", columns="2", label="40 mm"), paper="a4")
    assert str(two.value) == (
        "Label: “40 mm” is not read as two measures. Write width x height with a unit, like 63.5 x 33.9 mm or "
        "2 5/8 x 1 in."
    )


@pytest.mark.parametrize("said", ["two", "-1", "0", "51", "100000", "2.5", "9" * 5000])
def test_rows_and_columns_that_no_sheet_has(said: str) -> None:
    for given in (
        SheetSaid(rows=said, columns="2", label="40x30"),
        SheetSaid(rows="2", columns=said, label="4x3"),
    ):
        with pytest.raises(CountOutOfRange, match="a sheet has a whole number of them, 1 to 50") as refused:
            sheet_of(given, paper="a4")
        assert str(refused.value).startswith(f"“{said[:50]}")


@pytest.mark.parametrize(
    "paper", ["1e6x1e6 mm", "210x1000.1 mm", "19.9x100 mm", "40 x 11 in", "0x0 mm", "-50x100 mm"]
)
def test_paper_that_no_printer_draws_in(paper: str) -> None:
    with pytest.raises(PaperOutOfRange, match="is not printed: each side is 20 to 1,000 mm long"):
        sheet_of(SheetSaid(rows="1", columns="1", label="15x10", paper=paper), paper="a4")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (SheetSaid("a4-3x8-63.5x33.9", paper="210x297 mm"), "You named the sheet “a4-3x8-63.5x33.9”, and measures of your "
         "own (paper): they exclude each other."),
        (SheetSaid("a4-3x8-63.5x33.9", rows="2", label="40x30"), "(rows, label): they exclude each other"),
        (SheetSaid("a4-3x8-63.5x33.9", size="letter"), "You named the sheet a4-3x8-63.5x33.9mm, and letter as its size"),
        (SheetSaid(rows="2", columns="2", label="40x30", paper="100x100 mm", size="letter"), "You named letter as its size, "
         "and a paper of 100x100 mm"),
    ],
)  # fmt: skip
def test_two_ways_to_say_the_sheet_exclude_each_other(said: SheetSaid, told: str) -> None:
    with pytest.raises(SheetSaidTwice) as refused:
        sheet_of(said, paper="letter")
    assert told in str(refused.value)


def test_a_size_beside_a_sheet_of_that_size_is_no_contradiction() -> None:
    for one in COMMON:
        assert sheet_of(SheetSaid(one.key, size=one.paper), paper="a4") == one.sheet


@pytest.mark.parametrize(
    ("said", "row", "column"), [("", 1, 1), ("3,2", 3, 2), (" 3 ; 2 ", 3, 2), ("8", 3, 2), ("1", 1, 1)]
)
def test_a_part_used_sheet(job: Job, said: str, row: int, column: int) -> None:
    """HAND: with three columns the eighth label is the second of the third row."""
    first = labels(job.bench(), LabelsSaid(start=said)).places[0]
    assert (first.sheet, first.row, first.column) == (1, row, column)


def test_a_start_that_is_none(job: Job) -> None:
    with pytest.raises(StartUnreadable) as refused:
        labels(job.bench(), LabelsSaid(start="last"))
    assert str(refused.value) == (
        "“last” is no place on a sheet. Write row and column of the first label that is still there, like 3,2; or one "
        "number, counted row by row from the top left."
    )


def test_a_sheet_without_a_margin_keeps_a_label_of_each_for_the_note(demo: Bench) -> None:
    full = SheetSaid("A4, 3 × 8, 70 × 37 mm")
    made = labels(demo, LabelsSaid(sheet=full, start="8,2"))
    taken = [(one.sheet, one.row, one.column) for one in (*made.places, *made.notes)]
    assert len(taken) == len(set(taken))
    assert [(one.sheet, one.row, one.column) for one in made.notes][:2] == [(1, 8, 2), (2, 1, 1)]
    assert [one.sheet for one in made.notes] == list(range(1, made.sheets + 1))
    assert len(made.places) == len(made.labels)
    with pytest.raises(NoRoomForTheNote) as refused:
        labels(demo, LabelsSaid(sheet=SheetSaid(rows="1", columns="1", label="205x290")))
    assert str(refused.value) == (
        "One label that fills its sheet leaves no room to say which engine and which book it is of. Leave a margin of "
        "5 mm at one side, or take smaller labels."
    )


def test_too_many(job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("gudgeon.bench.labels.ask.MOST_LABELS", 2)
    with pytest.raises(TooManyLabels) as refused:
        labels(job.bench())
    assert re.fullmatch(
        r"\d+ labels are too many for one print, the limit of this program is 2\. Print one kind after the other\.",
        str(refused.value),
    )
