"""What do I set? The list of joints, and one page for each with its next pull."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from starlette.responses import Response

from gudgeon.bench.asking import choices
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.doubt_rules import DOUBT_WORDS
from gudgeon.bench.pattern import pattern
from gudgeon.bench.progress import OUTCOMES
from gudgeon.bench.pull_list import JointCard, Pull, all_joints, card, loosening_card
from gudgeon.bench.pull_words import bolt_words
from gudgeon.book.state import JointState
from gudgeon.errors import GudgeonError
from gudgeon.sheet.joints import Joint
from gudgeon.web.desk import Address, Asked, Desk, sheet_name
from gudgeon.web.sketch import sketch

_SITTING = timedelta(minutes=10)
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
    """One joint: the next pull, what was done, what is in doubt."""
    with desk.bench() as bench:
        return joint_page(desk, asked, bench, joint=asked.path["joint"])


def one_loosening(desk: Desk, asked: Asked) -> Response:
    """How one joint is taken apart: the next bolt to loosen, and what was loosened."""
    with desk.bench() as bench:
        return joint_page(desk, asked, bench, joint=asked.path["joint"], loosening=True)


def joint_page(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    *,
    joint: str,
    error: GudgeonError | None = None,
    loosening: bool = False,
) -> Response:
    """The page of a joint; with what was refused, and what was said kept in its form."""
    said = asked.form if asked.posted else asked.query
    bolts_are = said["bolts_are"] if said.get("bolts_are") in ("new", "used") else ""
    answer = loosening_card(bench, joint) if loosening else card(bench, joint, bolts_are=bolts_are)
    of = joint_of(bench.sheet, joint)
    go_on = not answer.go_on_when or said.get("go_on") == "yes" or error is not None
    awaited = answer.next_pull if go_on and answer.look is None else None
    following = next((pull for pull in answer.pulls if pull.number == awaited), None)
    bolts = dict.fromkeys(pull.bolt for pull in answer.pulls)
    outcomes = dict.fromkeys(word for stage in answer.stages for word in OUTCOMES[stage.kind])
    return desk.page(
        "joint.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        pull=following,
        stage=next((one for one in answer.stages if following and one.stage == following.stage), None),
        bolt=bolt_words(of, following.bolt) if following else "",
        doubt_reasons=DOUBT_WORDS,
        bolts=[(name, bolt_words(of, name)) for name in bolts],
        stages=[(str(one.stage), f"stage {one.stage}: {one.words}") for one in answer.stages],
        outcomes=[(word, word) for word in outcomes],
        tools=choices(bench, kind="pull", field="tool"),
        pause=_pause(answer, following, bolt_words(of, following.bolt)) if following else "",
        matrix=matrix(answer),
        drawing=sketch(pattern(bench, joint, bolts_are=bolts_are, loosening=loosening, go_on=go_on)),
        pulled=_pulled(desk, asked, of, bench.state.joints.get(joint)),
        same_sitting=error is not None or _same_sitting(desk, asked, bench, joint=joint),
        error=error,
    )


def _pulled(desk: Desk, asked: Asked, of: Joint, state: JointState | None) -> str:
    """The pull that was just recorded, as short as it can be said; empty where it was none of this joint."""
    said = desk.said.of(asked.query.get("recorded", ""))
    done = [*state.pulls.items(), *state.loosened.items()] if state is not None else []
    for (stage, _, bolt), pull in done:
        if said is not None and pull.entry == said.entry:
            name = bolt_words(of, bolt)
            angle = f" {pull.angle_deg}°" if pull.angle_deg else ""
            return f"{name[0].upper()}{name[1:]}, stage {stage}: {pull.outcome}{angle}."
    return ""


def _same_sitting(desk: Desk, asked: Asked, bench: Bench, *, joint: str) -> bool:
    """Whether he recorded a pull of this joint a moment ago, or looked at it: he need not look for it again."""
    said, state = desk.said.of(asked.query.get("recorded", "")), bench.state.joints.get(joint)
    last = state.last_pull if state is not None else None
    looked = state.looked if state is not None else None
    if last is not None and looked is not None and looked.entry == last.entry:
        return bench.now - datetime.fromisoformat(looked.time) < _SITTING
    if said is None or last is None or said.entry != last.entry:
        return False
    return bench.now - datetime.fromisoformat(last.time) < _SITTING


def _pause(answer: JointCard, pull: Pull, bolt: str) -> str:
    """What comes next, as a person would say it to himself when he stops."""
    where = f" ({pull.where})" if pull.where else ""
    return f"{answer.name}: {bolt}{where}, stage {pull.stage}, {pull.action}"


def matrix(answer: JointCard) -> Matrix:
    """The pulls laid out by bolt and by stage."""
    words = {one.stage: one.words for one in answer.stages}
    columns = tuple(
        Column(stage, turn, words[stage])
        for stage, turn in dict.fromkeys((pull.stage, pull.round) for pull in answer.pulls)
    )
    places = {pull.bolt: pull.where for pull in answer.pulls}
    cells = {(pull.bolt, pull.stage, pull.round): _cell(pull.state) for pull in answer.pulls}
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
    Address("/set/{joint}/loosening", one_loosening),
)
