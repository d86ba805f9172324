"""What do I set? The list of joints, the screen of each at the wrench, and a page with all of its pulls."""

from dataclasses import dataclass
from urllib.parse import urlsplit

from starlette.responses import Response

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.pattern import pattern
from gudgeon.bench.progress import OUTCOMES
from gudgeon.bench.pull_list import JointCard, all_joints, card, loosening_card
from gudgeon.bench.pull_words import bolt_words
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, sheet_name
from gudgeon.web.pull_screen import pull_page, pull_plan
from gudgeon.web.sketch import sketch

_CELLS = {
    "clicked while turning": "done",
    "angle reached": "done",
    "clicked at once": "done",
    "done": "done",
    "next": "next",
    "": "open",
}


@dataclass(frozen=True, slots=True)
class Column:
    """One stage, or one pass of it."""

    stage: int
    round: int
    words: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One bolt in one stage: the short word for its state, and the whole one."""

    word: str
    state: str


@dataclass(frozen=True, slots=True)
class Matrix:
    """Bolts against stages, in the order of the first stage."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, str, tuple[Cell | None, ...]], ...]


def what_do_i_set(desk: Desk, asked: Asked) -> Response:
    """Every joint, how far it is, and which tools it takes."""
    with desk.bench() as bench:
        answer, file = all_joints(bench), sheet_name(bench)
        return desk.page("joints.html", bench=bench, asked=asked, answer=answer, file=file)


def one_joint(desk: Desk, asked: Asked) -> Response:
    """One joint at the wrench: its next pull on a whole screen."""
    with desk.bench() as bench:
        return joint_page(desk, asked, bench, joint=asked.path["joint"])


def one_loosening(desk: Desk, asked: Asked) -> Response:
    """How one joint is taken apart: the next bolt to loosen, on a whole screen."""
    with desk.bench() as bench:
        return joint_page(desk, asked, bench, joint=asked.path["joint"], loosening=True)


def what_follows(desk: Desk, asked: Asked) -> Response:
    """The pulls of a joint that may be shown without asking again, for a device that loses the laptop."""
    with desk.bench() as bench:
        return pull_plan(desk, asked, bench, joint=asked.path["joint"], loosening=False)


def what_loosening_follows(desk: Desk, asked: Asked) -> Response:
    """The bolts of a joint that may be loosened one after the other without asking again."""
    with desk.bench() as bench:
        return pull_plan(desk, asked, bench, joint=asked.path["joint"], loosening=True)


def whole_joint(desk: Desk, asked: Asked) -> Response:
    """Every pull of a joint by stage, and what the sheet says of it."""
    with desk.bench() as bench:
        return _whole(desk, asked, bench, joint=asked.path["joint"])


def whole_loosening(desk: Desk, asked: Asked) -> Response:
    """Every step of taking a joint apart, and what the sheet says of it."""
    with desk.bench() as bench:
        return _whole(desk, asked, bench, joint=asked.path["joint"], loosening=True)


def joint_page(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    *,
    joint: str,
    error: GudgeonError | None = None,
    loosening: bool = False,
) -> Response:
    """The page on which a pull is recorded; a refusal stands where the form was that was sent."""
    if error is not None and urlsplit(asked.here).path.endswith("/whole"):
        return _whole(desk, asked, bench, joint=joint, error=error, loosening=loosening)
    return pull_page(desk, asked, bench, joint=joint, error=error, loosening=loosening)


def _whole(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    *,
    joint: str,
    error: GudgeonError | None = None,
    loosening: bool = False,
) -> Response:
    said = asked.form if asked.posted else asked.query
    bolts_are = said["bolts_are"] if said.get("bolts_are") in ("new", "used") else ""
    answer = loosening_card(bench, joint) if loosening else card(bench, joint, bolts_are=bolts_are)
    of = joint_of(bench.sheet, joint)
    bolts = dict.fromkeys(pull.bolt for pull in answer.pulls)
    outcomes = dict.fromkeys(word for stage in answer.stages for word in OUTCOMES[stage.kind])
    place = f"/set/{joint}{'/loosening' if loosening else ''}"
    return desk.page(
        "joint_whole.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        apart=loosening,
        kind="loosened" if loosening else "pull",
        next=f"{place}#next",
        whole=f"{place}/whole",
        bolts=[(name, bolt_words(of, name)) for name in bolts],
        stages=[(str(one.stage), f"stage {one.stage}: {one.words}") for one in answer.stages],
        outcomes=[(word, word) for word in outcomes],
        matrix=matrix(answer),
        sources=bench.sheet.sources,
        drawing=sketch(pattern(bench, joint, bolts_are=bolts_are, loosening=loosening)),
        error=error,
    )


def matrix(answer: JointCard) -> Matrix:
    """The pulls laid out by bolt and by stage."""
    words = {one.stage: one.words for one in answer.stages}
    columns = tuple(
        Column(stage, turn, words[stage])
        for stage, turn in dict.fromkeys((pull.stage, pull.round) for pull in answer.pulls)
    )
    places = {pull.bolt: pull.where for pull in answer.pulls}
    cells = {
        (pull.bolt, pull.stage, pull.round): Cell("in doubt", pull.state)
        if pull.state
        and any(said.startswith(f"bolt {pull.bolt}, stage {pull.stage}:") for said in answer.doubts)
        else _cell(pull.state)
        for pull in answer.pulls
    }
    rows = tuple(
        (bolt, where, tuple(cells.get((bolt, one.stage, one.round)) for one in columns))
        for bolt, where in places.items()
    )
    return Matrix(columns, rows)


def _cell(state: str) -> Cell:
    if state in _CELLS:
        return Cell(_CELLS[state], state or "open")
    if state.endswith("NEXT"):
        return Cell("next", state.removesuffix(", NEXT"))
    return Cell("in doubt" if state.startswith("doubtful") else "not done", state)


ADDRESSES = (
    Address("/set", what_do_i_set),
    Address("/set/{joint}", one_joint),
    Address("/set/{joint}/plan", what_follows),
    Address("/set/{joint}/whole", whole_joint),
    Address("/set/{joint}/loosening", one_loosening),
    Address("/set/{joint}/loosening/plan", what_loosening_follows),
    Address("/set/{joint}/loosening/whole", whole_loosening),
)
