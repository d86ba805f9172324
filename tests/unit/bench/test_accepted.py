"""What a person lets be stands for what was read when he said so: a later reading is judged anew, and says so.

Verdicts are HAND: blades that may be off by ± 0.005 mm are uncertain by 0.005/√3 = 0.0029 mm, and 1.645 u = 0.0048 mm; a
gap of 0.07 mm or more is beyond a limit of 0.05 mm, one of at most 0.04 mm within it.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import copytree

import pytest

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.record import Recorded
from gudgeon.errors import InputError
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.test_ready import finish
from tests.unit.sheet.sheets import SMALL

BEFORE = "“head_face along” was accepted before this reading by Robin, because local dip: it is judged anew"
LET_BE = "accepted by Robin, because local dip"
LISTED = "head_face along: accepted by Robin, because local dip"
PAST = f"{LISTED}; what it stood for has been read anew, or struck"


@pytest.fixture(scope="module")
def finished(tmp_path_factory: pytest.TempPathFactory) -> Job:
    made = make_job(tmp_path_factory.mktemp("finished"))
    finish(made)
    return made


@pytest.fixture
def job(finished: Job, tmp_path: Path) -> Job:
    """A copy of the finished engine: what is read of it is all that is open."""
    copytree(finished.book.parent, tmp_path, dirs_exist_ok=True)
    return Job(tmp_path / finished.book.name, finished.now)


def read(job: Job, low: str, high: str, *, condition: str = "as found", place: str = "along") -> Recorded:
    return job.record(
        "reading", item="head_face", place=place, low=f"{low} mm", high=f"{high} mm", instrument="feelers",
        condition=condition,
    )  # fmt: skip


def accept(job: Job, what: str = "head_face along") -> None:
    job.record("accepted", what=what, by="Robin", why="local dip")


def strike(job: Job, recorded: Recorded) -> None:
    job.record("strike", entry=recorded.entry, why="read on the wrong line")


@contextmanager
def opened(job: Job) -> Iterator[Bench]:
    bench = open_bench(job.book, now=job.now)
    try:
        yield bench
    finally:
        bench.store.close()


def row(job: Job, place: str = "along") -> Row:
    (found,) = [one for one in inspect(job.bench(), only="head_face").rows if one.place == place]
    return found


def ask(job: Job) -> Readiness:
    return ready(job.bench(), milestone="crank")


def test_it_stands_while_nothing_is_read_after_it(job: Job) -> None:
    read(job, "0.07", "0.08")
    accept(job)
    read(job, "0.03", "0.04", place="across")
    assert (row(job).verdict, row(job).accepted) == ("outside", LET_BE)
    assert BEFORE not in row(job).notes
    answer = ask(job)
    assert (answer.answer, answer.accepted, answer.earlier) == ("yes, with what was accepted", (LISTED,), ())


@pytest.mark.parametrize("condition", ["as found", "as left"])
def test_a_later_reading_is_judged_anew_and_the_acceptance_stays_visible(job: Job, condition: str) -> None:
    read(job, "0.07", "0.08")
    accept(job)
    read(job, "0.15", "0.20", condition=condition)
    assert (row(job).verdict, row(job).accepted) == ("outside", "")
    assert BEFORE in row(job).notes
    answer = ask(job)
    assert (answer.answer, answer.accepted, answer.earlier) == ("no", (), (PAST,))
    assert [one.about for one in answer.reasons] == ["reading:head_face along"]
    accept(job)
    assert (ask(job).answer, row(job).accepted) == ("yes, with what was accepted", LET_BE)


def test_a_later_reading_that_is_inside_needs_nobody_any_more(job: Job) -> None:
    read(job, "0.07", "0.08")
    accept(job)
    read(job, "0.03", "0.04", condition="as left")
    answer = ask(job)
    assert (answer.answer, answer.accepted, answer.earlier) == ("yes", (), (PAST,))


def test_it_stands_again_when_the_later_reading_is_struck(job: Job) -> None:
    read(job, "0.07", "0.08")
    accept(job)
    later = read(job, "0.15", "0.20")
    assert ask(job).answer == "no"
    strike(job, later)
    assert (ask(job).answer, row(job).accepted) == ("yes, with what was accepted", LET_BE)


@pytest.mark.parametrize("condition", ["as found", "as left"])
def test_when_what_it_stood_for_is_struck_it_does_not_pass_to_what_was_read_before(
    job: Job, condition: str
) -> None:
    read(job, "0.15", "0.20")
    accepted = read(job, "0.07", "0.08", condition=condition)
    accept(job)
    assert row(job).accepted == LET_BE
    strike(job, accepted)
    assert (row(job).verdict, row(job).accepted) == ("outside", "")
    assert (ask(job).answer, ask(job).earlier) == ("no", (PAST,))


def test_what_was_struck_before_it_changes_nothing(job: Job) -> None:
    read(job, "0.07", "0.08")
    strike(job, read(job, "0.15", "0.20"))
    accept(job)
    assert (ask(job).answer, row(job).accepted) == ("yes, with what was accepted", LET_BE)


def test_of_a_whole_characteristic_every_place_stands_by_itself(job: Job) -> None:
    read(job, "0.07", "0.08")
    read(job, "0.07", "0.08", place="across")
    accept(job, "head_face")
    assert (row(job).accepted, row(job, "across").accepted) == (LET_BE, LET_BE)
    read(job, "0.15", "0.20", place="across")
    assert (row(job).accepted, row(job, "across").accepted) == (LET_BE, "")
    answer = ask(job)
    assert (answer.answer, answer.accepted) == ("no", ("head_face: accepted by Robin, because local dip",))


DIFFERENCE = SMALL.replace("    places: [A, B]\n", "").replace(
    "joints:\n",
    """\
  hole: {name: Hole, part: block, source: manual p. 5}
  wear: {name: Play, part: block, method: difference, of: [hole, journal], wear_limit: max 0.05 mm, source: manual p. 5}
joints:
""",
    1,
)


def test_of_what_is_worked_out_a_later_reading_of_either_part_is_one(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=DIFFERENCE)
    job.read_code()
    job.record("reading", item="hole", value="30.08 mm", instrument="micrometer")
    job.record("reading", item="journal", value="29.985 mm", instrument="micrometer")
    accept(job, "wear")

    def play() -> Row:
        (found,) = inspect(job.bench(), only="wear").rows
        return found

    assert (play().verdict, play().accepted) == ("outside", LET_BE)
    job.record("reading", item="journal", value="29.980 mm", instrument="micrometer")
    assert (play().verdict, play().accepted) == ("outside", "")
    assert "reading:wear" in [one.about for one in ask(job).reasons]


def test_a_part_that_is_let_be_is_so_as_it_was_read_then(job: Job) -> None:
    read(job, "0.07", "0.08")
    job.record("part-disposition", part="cylinder head", decision="accept", why="it seals")
    assert ask(job).answer == "yes"
    read(job, "0.15", "0.20")
    assert ask(job).answer == "no"


def test_a_new_part_that_is_outside_is_not_excused_by_having_been_renewed(job: Job) -> None:
    read(job, "0.07", "0.08")
    job.record("part-disposition", part="cylinder head", decision="renew", why="warped")
    read(job, "0.15", "0.20")
    assert not [one for one in ask(job).reasons if one.family == "measured"], "still the old one"
    job.record("part-received", part="cylinder head", compared=True)
    assert not [one for one in ask(job).reasons if one.family == "measured"]
    read(job, "0.07", "0.08")
    assert [one.about for one in ask(job).reasons if one.family == "measured"] == ["reading:head_face along"]


RODS = "  rod_bolts: {name: Rod bolts, part: rods, source: manual p. 8, limits: [{shape: replace always}]}\n"


@pytest.fixture
def rods(tmp_path: Path) -> Job:
    listed = "parts:\n  rod_set: {name: Rod bolts, one_time: yes, source: manual p. 8}\n"
    text = SMALL.replace("joints:\n", f"{RODS}{listed}joints:\n", 1)
    made = make_job(tmp_path, sheet=text)
    made.read_code()
    return made


@pytest.mark.parametrize("said", ["rods", "Rod bolts", "rod bolts", "rod_bolts", "rod_set"])
def test_what_is_replaced_always_is_closed_by_any_name_of_its_part(rods: Job, said: str) -> None:
    with opened(rods) as bench:
        (row,) = inspect(bench, only="rod_bolts").rows
    assert (row.verdict, row.way_out) == ("outside", 'gudgeon record part "Rod bolts" renew --why …')
    done = rods.record("part-disposition", part=said, decision="renew", why="new set")
    assert done.remarks == ("It settles what is outside until now of: Rod bolts.",)
    with opened(rods) as bench:
        (row,) = inspect(bench, only="rod_bolts").rows
        number = next(one.number for one in bench.store.entries(bench.build) if one.id == done.entry)
    assert (row.verdict, row.reason) == (
        "inside", f"renewed, entry {number}: the manual has it renewed every time, whatever it measures",
    )  # fmt: skip
    rods.record("part-disposition", part=said, decision="reuse", why="none to be had")
    with opened(rods) as bench:
        (row,) = inspect(bench, only="rod_bolts").rows
    assert row.verdict == "outside"


def test_a_part_that_the_sheet_does_not_know_settles_nothing_and_says_so(rods: Job) -> None:
    done = rods.record("part-disposition", part="rod nuts", decision="renew", why="new set")
    (remark,) = done.remarks
    assert remark.startswith(
        "The sheet has no part called “rod nuts”, so no limit is settled by it. Its parts: "
    )
    assert "“rods”" in remark
    assert "“Rod bolts”" in remark
    with opened(rods) as bench:
        (row,) = inspect(bench, only="rod_bolts").rows
    assert row.verdict == "outside"


PLACED = """\
  bore:
    name: Cylinder bore
    part: block
    places: {cylinder: [1, 2], height: [top, bottom], direction: [across, along]}
    wear_limit: max 70.10 mm
    source: manual p. 6
  oval: {name: Bore out of round, part: block, method: out-of-round, of: [bore], wear_limit: max 0.05 mm,
    source: manual p. 6}
joints:
"""


@pytest.fixture
def bored(tmp_path: Path) -> Job:
    made = make_job(tmp_path, sheet=SMALL.replace("joints:\n", PLACED))
    made.read_code()
    for place, value in (("2 top across", "70.20"), ("2 top along", "70.08")):
        made.record("reading", item="bore", place=place, value=f"{value} mm")
    return made


def said_of(job: Job, item: str, place: str) -> str:
    return next(
        one.accepted for one in inspect(job.bench(), only=item).rows if (one.item, one.place) == (item, place)
    )


@pytest.mark.parametrize(
    ("what", "kept"),
    [
        ("bore 2 top across", "bore cylinder 2, top, across"),
        ("bore cylinder 2, top, across", "bore cylinder 2, top, across"),
        (" bore  2 top across ", "bore cylinder 2, top, across"),
        ("oval 2 top", "oval cylinder 2, top"),
        ("bore", "bore"),
        ("head", "head"),
        ("head_face across", "head_face across"),
    ],
)
def test_what_is_accepted_is_kept_in_the_words_in_which_it_is_judged(
    bored: Job, what: str, kept: str
) -> None:
    accept(bored, what)
    assert [one.what for one in bored.bench().state.accepted] == [kept]


def test_a_place_said_in_short_lets_the_reading_be(bored: Job) -> None:
    assert said_of(bored, "bore", "cylinder 2, top, across") == ""
    accept(bored, "bore 2 top across")
    assert said_of(bored, "bore", "cylinder 2, top, across") == LET_BE
    accept(bored, "oval 2 top")
    assert said_of(bored, "oval", "cylinder 2, top") == LET_BE


@pytest.mark.parametrize(
    ("what", "words"),
    [
        (
            "bore 77 nowhere",
            "`77 nowhere` is no place of “Cylinder bore” here. Known: “cylinder 1, top, across”, ",
        ),
        (
            "bore 2 top",
            "`2 top` is no place of “Cylinder bore” here. Known: “cylinder 2, top, across”, “cylinder 2, top",
        ),
        ("oval 1 top", "`1 top` is no place of “Bore out of round” here. Known: “cylinder 2, top”."),
        (
            "head xyz",
            "`xyz` is no place of the joint `head`: a joint is accepted as a whole, by its key alone. ",
        ),
        (
            "",
            "`` is no characteristic (with its place) or joint here. Known: head_face, journal, bore, oval, head.",
        ),
    ],
)
def test_a_place_that_the_sheet_does_not_know_is_not_accepted(bored: Job, what: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        accept(bored, what)
    assert str(refused.value).startswith(words)
    assert bored.bench().state.accepted == ()
