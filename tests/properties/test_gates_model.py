"""The state machine of the engine, enumerated: nothing forbidden is ever offered, and every breach blocks.

What is forbidden stands in `gate_table.py`, written by hand from what the trade knows; the rules of the program are
held against it, and so is what a person is offered: the tasks that may be begun, and the next pull of a card.
"""

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from gudgeon.bench.gates import refusals, timing_proved
from gudgeon.bench.holds import all_holds, basis_of, holds_of
from gudgeon.bench.network import job
from gudgeon.bench.pull_list import JointCard, card, loosening_card
from gudgeon.bench.ready import Readiness, ready
from gudgeon.bench.standing import Network
from gudgeon.bench.start import held_back
from gudgeon.book import gates
from gudgeon.book.gates import GATES, RULES, broken, refused
from gudgeon.book.state import EngineState, HoldState, Overridden, State
from gudgeon.sheet.model import DataSheet
from tests.properties.gate_engines import Book, bench, engine, tasks_of, worked_up_to
from tests.properties.gate_table import EVERY_ACT, TABLE, every_engine, is_broken, is_refused

ENGINES: Mapping[str, DataSheet] = {
    "hydraulic lifters, keyless pulley": engine("one", hydraulic=True, keyless=True),
    "screw adjusters, keyed pulley": engine("other", hydraulic=False, keyless=False),
}
JOINTED = engine("one with joints", hydraulic=True, keyless=True, joints=True)
MILESTONES = ("crank", "fire", "drive", "handover")


# The rules


def rules_against_the_table() -> Iterator[str]:
    """Every state of the engine in which the program and the table say different things of an act."""
    for state, proved, act in product(every_engine(), (False, True), EVERY_ACT):
        as_fact = set(broken(act, state, timing_proved=proved))  # type: ignore[arg-type]
        asked = set(refused(act, state, timing_proved=proved))  # type: ignore[arg-type]
        if as_fact != is_broken(act, state, proved=proved):
            yield f"fact: {act}, {state}, timing proved: {proved}: {as_fact}"
        if asked != is_refused(act, state, proved=proved):
            yield f"asked: {act}, {state}, timing proved: {proved}: {asked}"


def test_every_act_in_every_state_is_refused_and_broken_as_the_table_says() -> None:
    assert set(GATES) == set(TABLE)
    assert list(rules_against_the_table()) == []


def test_what_is_broken_as_a_fact_is_refused_when_asked() -> None:
    for state, proved, act in product(every_engine(), (False, True), EVERY_ACT):
        facts = broken(act, state, timing_proved=proved)  # type: ignore[arg-type]
        asked = refused(act, state, timing_proved=proved)  # type: ignore[arg-type]
        assert set(facts) <= set(asked)


def test_the_table_forbids_and_allows_every_act_somewhere() -> None:
    for act in EVERY_ACT:
        seen = {bool(is_refused(act, state, proved=True)) for state in every_engine()}
        assert seen == {False, True}, act


def _acts(gate: str, acts: Iterable[str]) -> Mapping[str, Any]:
    rules: dict[str, Any] = {str(name): rule for name, rule in RULES.items()}
    rules[gate] = replace(rules[gate], acts=tuple(acts))
    return rules


MUTATED: Mapping[str, Mapping[str, Any]] = {
    **{f"no gate “{gate}”": {name: rule for name, rule in RULES.items() if name != gate} for gate in GATES},
    **{
        f"“{gate}” not for {act}": _acts(gate, (one for one in RULES[gate].acts if one != act))
        for gate in GATES
        for act in RULES[gate].acts
    },
    **{
        f"“{gate}” also for {act}": _acts(gate, (*RULES[gate].acts, act))
        for gate in GATES
        for act in EVERY_ACT
        if act not in RULES[gate].acts
    },
}


@pytest.mark.parametrize("rules", MUTATED.values(), ids=MUTATED.keys())
def test_the_check_sees_every_rule_that_is_taken_out_or_put_to_a_wrong_act(
    rules: Mapping[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(gates, "RULES", rules)
    assert next(rules_against_the_table(), None) is not None


@pytest.mark.parametrize("gate", GATES)
@pytest.mark.parametrize("name", ["_against", "_unknown"])
def test_the_check_sees_a_gate_that_is_never_or_always_shut(
    gate: str, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: Callable[..., bool] = getattr(gates, name)
    for says in (False, True):
        if (
            name == "_unknown"
            and not says
            and gate not in ("piston near the top", "starter before hand turns")
        ):
            continue  # this gate asks for nothing that has to be known

        def mutated(one: str, state: EngineState, *, timing_proved: bool, says: bool = says) -> bool:
            return says if one == gate else asked(one, state, timing_proved=timing_proved)

        monkeypatch.setattr(gates, name, mutated)
        assert next(rules_against_the_table(), None) is not None


# Sheets that overrule a gate, and names that let one pass


def _known(sheet: DataSheet, *, proved: bool) -> State:
    """With every hold of the engine proved, and so the timing; or with none."""
    book = Book(sheet)
    book.record("identity-read", code="L1-A")
    at = "2026-03-07T10:00:00+00:00"
    holds = {one.id: HoldState(one.id, "proved", "seen", "", (), time=at) for one in holds_of(sheet)}
    state = replace(book.state, holds=holds if proved else {})
    assert timing_proved(bench(sheet, state)) is proved
    return state


def _let_pass(state: State, gate: str) -> State:
    over = Overridden("e", 9, f"gate:{gate}", "Sam", "it is a fixture", "", "2026-03-07T10:00:00+00:00", True)
    return replace(state, overrides=(over,) if gate else ())


@pytest.mark.parametrize("overruled", ["", *GATES])
def test_a_gate_opens_for_the_sheet_and_for_a_name_and_no_other_gate_with_it(overruled: str) -> None:
    """Every state of the engine; the sheet overrules none or one gate, nobody or a name lets the same or none pass."""
    sheet = engine("overruled", hydraulic=True, keyless=True, overruled=[overruled] if overruled else [])
    acts = TABLE[overruled].acts if overruled else EVERY_ACT
    for proved, passed in product((False, True), ("", overruled) if overruled else ("",)):
        base = _let_pass(_known(sheet, proved=proved), passed)
        for state, act in product(every_engine(), acts):
            found = {one.gate for one in refusals(bench(sheet, replace(base, engine=state)), (act,))}
            assert found == is_refused(act, state, proved=proved) - {overruled}, (act, state)


@pytest.mark.parametrize("passed", GATES)
def test_a_name_lets_one_gate_pass_and_no_other(passed: str) -> None:
    sheet = ENGINES["hydraulic lifters, keyless pulley"]
    base = _let_pass(_known(sheet, proved=False), passed)
    for state, act in product(every_engine(), TABLE[passed].acts):
        found = {one.gate for one in refusals(bench(sheet, replace(base, engine=state)), (act,))}
        assert found == is_refused(act, state, proved=False) - {passed}, (act, state)


# What a person is offered


Said = tuple[str, Mapping[str, Any]]

SAID: tuple[Said, ...] = (
    *(("engine-state", {"seen": "looked", name: value}) for name, values in (
        ("crank", ("near the top", "half-way", "moved")), ("cams", ("in", "out")), ("belt", ("on", "off")),
        ("pins", ("in", "out")), ("holder", ("fitted", "off")), ("followers", ("bled down", "pumped up")),
    ) for value in values),
    ("turned", {"by": "hand", "seen": "half a turn"}),
    ("turned", {"by": "starter", "seen": "two seconds"}),
    ("left-in", {"item": "lock", "name": "flywheel lock", "where": "starter", "due_before": "crank"}),
    ("left-in", {"item": "pin", "name": "timing pin", "where": "crank", "due_before": "crank"}),
    ("taken-out", {"item": "lock"}),
    ("taken-out", {"item": "pin"}),
    *(("hold-proved", {"hold": hold, "value": "seen by Ada"}) for hold in all_holds() if hold != "right_engine"),
    ("pull", {"joint": "head", "stage": 1, "bolt": "1", "outcome": "done"}),
    ("pull", {"joint": "caps", "stage": 1, "bolt": "1", "outcome": "clicked while turning"}),
    ("pull", {"joint": "pulley", "stage": 1, "bolt": "1", "outcome": "done"}),
    ("pull", {"joint": "pulley", "stage": 2, "bolt": "1", "outcome": "clicked while turning"}),
    ("bolt-loosened", {"joint": "pulley", "stage": 1, "bolt": "1", "outcome": "done"}),
    ("joint-disturbed", {"joint": "caps", "why": "again"}),
    *(("task-started", {"task": key}) for key, task in tasks_of(JOINTED).items() if task.acts),
    *(("task-done", {"task": key}) for key, task in tasks_of(JOINTED).items() if task.acts or task.makes),
)  # fmt: skip
"""What can be said of the engine, one after another, in any order."""


def reachable(most: int) -> Iterator[Book]:
    """A book for each state of the engine that any sequence of entries can make, the shortest first."""
    start = Book(JOINTED)
    start.record("identity-read", code="L1-A")
    seen, todo = {_key(start.state)}, deque([start])
    while todo and most:
        book, most = todo.popleft(), most - 1
        yield book
        if any(one.open for one in book.state.breaches):
            continue  # what comes after a breach is tried apart
        for kind, fields in SAID:
            further = book.copy()
            further.record(kind, **fields)
            key = _key(further.state)
            if key not in seen:
                seen.add(key)
                todo.append(further)


def _key(state: State) -> tuple[object, ...]:
    """What of a book decides what may be done: the engine, the proof of its timing, what nobody looked into."""
    against = frozenset((one.gate, one.act) for one in state.breaches if one.open)
    proved = "timing_proved" in state.holds and state.holds["timing_proved"].status == "proved"
    return (against or state.engine, proved)


CARDS: Mapping[str, tuple[Callable[[Any, str], JointCard], str]] = {
    "head": (card, "fit the head"),
    "caps": (card, "fit camshafts"),
    "pulley": (card, "tighten a rotating bolt"),
    "pulley, loosening": (loosening_card, "loosen a rotating bolt"),
}


def check_cards(book: Book) -> set[str]:
    """No card calls a pull the next one that the table forbids; says which cards do."""
    at, offered = book.bench, set()
    against = any(one.open for one in at.state.breaches)
    proved = timing_proved(at)
    for name, (ask, act) in CARDS.items():
        shown = ask(at, name.partition(",")[0])
        acts = {act} | ({"loosen a keyless pulley"} if "loosening" in name else set())
        begun_before = (
            (name == "head" and at.state.joints.get("head") is not None)
            or (name == "caps" and at.state.joints.get("caps") is not None and at.state.engine.cams == "in")
            or (name == "pulley" and not _hand_run(at.state))
        )
        forbidden = (
            set()
            if begun_before
            else {gate for one in acts for gate in is_refused(one, at.state.engine, proved=proved)}
        )
        words = [one.state for one in shown.pulls if one.state == "next" or one.state.endswith("NEXT")]
        if forbidden or (against and not begun_before):
            assert (shown.next_pull, words, shown.outcomes) == (None, [], ()), (name, at.state.engine)
        elif shown.next_pull is not None:
            offered.add(name)
    return offered


def _hand_run(state: State) -> bool:
    """Whether the next pull of the pulley is the final one: its hand-run is in the book, and no more."""
    pulls = state.joints["pulley"].pulls if "pulley" in state.joints else {}
    return set(pulls) == {(1, 1, "1")}


@pytest.mark.parametrize("most", [120, pytest.param(700, marks=pytest.mark.long)])
def test_no_card_offers_a_forbidden_pull_whatever_was_recorded_before(most: int) -> None:
    offered: set[str] = set()
    for book in reachable(most):
        offered |= check_cards(book)
    assert offered == set(CARDS), "each card offers its pull in some state"


def said_once(state: EngineState) -> dict[str, str]:
    """What is said of an engine in one entry; what nobody knows is left out."""
    said = {name: getattr(state, name) for name in EngineState.__slots__}
    return {name: value for name, value in said.items() if value is not None}


@pytest.mark.parametrize("part", [0, *(pytest.param(part, marks=pytest.mark.long) for part in range(1, 6))])
def test_no_card_offers_a_forbidden_pull_in_any_state_of_the_engine(part: int) -> None:
    """Every state that one entry can say, with the pulley run in by hand; a sixth of them in every run."""
    offered: set[str] = set()
    for state in list(every_engine())[part::6]:
        book = Book(JOINTED)
        book.record("identity-read", code="L1-A")
        book.record("pull", joint="pulley", stage=1, bolt="1", outcome="done")
        if said := said_once(state):
            book.record("engine-state", seen="looked", **said)
        assert book.state.engine == state
        offered |= check_cards(book)
    assert offered == set(CARDS)


def acts_of(sheet: DataSheet) -> Mapping[str, set[str]]:
    """What each task of the job does to the engine, from its title; a keyless pulley asks for a holder."""
    keyless = sheet is ENGINES["hydraulic lifters, keyless pulley"]
    return {
        "turn_to_marks": {"turn by hand"},
        "slacken_pulley_bolt": {"loosen a rotating bolt", *(["loosen a keyless pulley"] if keyless else [])},
        "pistons_down": {"turn by hand"},
        "lower_head": {"fit the head"},
        "camshafts_in": {"fit camshafts"},
        "set_marks": {"turn by hand"},
        "two_turns": {"turn by hand"},
        "pulley_final": {"tighten a rotating bolt"},
        "crank_for_oil": {"turn by starter"},
        "first_start": {"turn by starter"},
    }


def states_for(acts: set[str], base: EngineState) -> Iterator[dict[str, str]]:
    """Every state of what the table asks about these acts that can follow another, each as one entry says it."""
    asked = {
        name
        for row in TABLE.values()
        if acts & set(row.acts)
        for case in (*row.broken, *row.unknown)
        for name in case
        if name != "proved"
    }
    values = {
        "crank": ("near the top", "half-way", "moved"), "cams": ("in", "out"), "belt": ("on", "off"),
        "pins": ("in", "out"), "holder": ("fitted", "off"), "followers": ("bled down", "pumped up"),
    }  # fmt: skip
    names = sorted(asked)
    for combination in product(
        *(values[name] if getattr(base, name) else (None, *values[name]) for name in names)
    ):
        yield {name: value for name, value in zip(names, combination, strict=True) if value is not None}


@pytest.mark.parametrize("key", acts_of(JOINTED))
@pytest.mark.parametrize("name", ENGINES)
def test_no_task_is_offered_or_begun_against_the_table(name: str, key: str) -> None:
    """All that comes before it is done, as the job has it; then the engine is in every state the table asks about."""
    sheet = ENGINES[name]
    acts, ready_in, book = acts_of(sheet)[key], 0, worked_up_to(sheet, key)
    assert book.state.breaches == (), "the job in its order goes against no gate"
    for said in states_for(acts, book.state.engine):
        further = book.copy()
        if said:
            further.record("engine-state", seen="looked", **said)
        at = further.bench
        forbidden = {
            gate for act in acts for gate in is_refused(act, at.state.engine, proved=timing_proved(at))
        }
        stand = Network(at, job().for_engine(sheet)).stand(key)
        if forbidden:
            assert stand.where != "ready", (said, forbidden)
            assert held_back(at, key), (said, forbidden)
        elif stand.where == "ready":
            assert held_back(at, key) == ()
            ready_in += 1
    assert ready_in, "it is offered in some state"


# Facts


def _every_proof(sheet: DataSheet) -> Book:
    """A book with every hold of the engine proved, without what proving them makes of the engine."""
    book = Book(sheet)
    book.record("identity-read", code="L1-A")
    return book


def _prove_all(book: Book) -> None:
    for hold in holds_of(book.sheet):
        if hold.id != "right_engine":
            book.chain.add(
                "hold-proved", hold=hold.id, value="seen by Ada", rests_on=list(basis_of(hold, book.sheet))
            )


def resting(sheet: DataSheet, things: Iterable[str]) -> set[str]:
    """Every hold that rests on some things by any path: found anew, round by round, until nothing is added."""
    basis = {hold.id: set(basis_of(hold, sheet)) for hold in holds_of(sheet)}
    found: set[str] = set()
    while True:
        under = {*things, *(f"hold:{one}" for one in found)}
        more = {name for name, rests in basis.items() if rests & under} - found
        if not more:
            return found
        found |= more


WRONG: Mapping[str, dict[str, str]] = {
    "pins in": {"pins": "in"},
    "bolt against pins": {"pins": "in", "holder": "off"},
    "piston near the top": {"crank": "near the top"},
    "followers pumped up": {"followers": "pumped up", "cams": "in"},
    "keyless without a holder": {"holder": "off"},
    "starter before hand turns": {"belt": "on"},
}
"""A state of the engine that breaks each gate."""
AGAINST = [(gate, act) for gate, row in TABLE.items() for act in row.acts]


def act_against(
    sheet: DataSheet, gate: str, act: str, *, overruled: Mapping[str, str] | None = None
) -> tuple[Book, Any]:
    """Everything proved with the engine in the wrong state, and then the act."""
    book = _every_proof(sheet)
    book.record("engine-state", seen="looked", **WRONG[gate])
    _prove_all(book)
    if gate == "starter before hand turns":
        book.record("hold-voided", hold="timing_proved", why="a mark was a tooth off")
    doing = {"acts": [act], "sets": None, "overruled": dict(overruled or {})}
    return book, book.chain.add("task-started", task="anything", doing=doing)


def blocking(book: Book) -> list[tuple[str, str]]:
    """The acts against a gate for which every milestone is refused: act and gate."""
    answers = [ready(book.bench, milestone=one) for one in MILESTONES]
    found = [_against(one) for one in answers]
    assert all(one == found[0] for one in found)
    assert all(one.answer == "no" for one in answers if _against(one))
    return found[0]


def _against(answer: Readiness) -> list[tuple[str, str]]:
    return [(one.what, one.about) for one in answer.reasons if one.about.startswith("breach:")]


@pytest.mark.parametrize(("gate", "act"), AGAINST)
def test_an_act_against_a_gate_voids_all_that_rests_on_what_suffers(gate: str, act: str) -> None:
    for sheet in ENGINES.values():
        book, entry = act_against(sheet, gate, act)
        (breach,) = [one for one in book.state.breaches if one.gate == gate]
        assert (breach.entry, breach.act, breach.open) == (entry.id, act, True)
        gates_hit = [one.gate for one in book.state.breaches]
        things = {f"state:{one}" for hit in gates_hit for one in TABLE[hit].suffers}
        standing = {name for name, hold in book.state.holds.items() if hold.status == "proved"}
        wanted = resting(sheet, things)
        assert wanted, "something rests on it"
        assert not standing & wanted
        for name in wanted:
            hold = book.state.holds[name]
            assert gate == "starter before hand turns" or hold.void_by == entry.id
            assert hold.why_void


IN_BETWEEN: Mapping[str, Callable[[Book, Any], object]] = {
    "the act is struck": lambda book, entry: book.chain.strike(entry),
    "all is proved again": lambda book, _: _prove_all(book),
    "the engine is put right": lambda book, _: book.record(
        "engine-state", seen="looked", crank="half-way", cams="in", belt="on", pins="out", holder="off",
        followers="bled down",
    ),
    "what was said of the engine before is struck": lambda book, _: book.chain.strike(book.chain.entries[2]),
    "another gate is let pass": lambda book, _: book.chain.add("override", about="gate:pins in", by="Sam", why="late"),
    "its own gate is let pass, too late": lambda book, _: [
        book.chain.add("override", about=f"gate:{gate}", by="Sam", why="late") for gate in GATES
    ],
    "another act is inspected": lambda book, _: book.chain.add(
        "inspected", entry="f" * 32, gate="pins in", found="nothing bent", by="Ada"
    ),
    "somebody signs": lambda book, _: book.chain.add("signed-off", milestone="crank", by="Sam", words="it is good"),
    "it is turned": lambda book, _: book.record("turned", by="hand", seen="free"),
    "the task is done": lambda book, _: book.chain.add("task-done", task="anything"),
}  # fmt: skip


@pytest.mark.parametrize(("gate", "act"), AGAINST)
def test_it_blocks_until_it_is_inspected_whatever_comes_in_between(gate: str, act: str) -> None:
    sheet = ENGINES["hydraulic lifters, keyless pulley"]
    book, entry = act_against(sheet, gate, act)
    own = (f"{act[0].upper()}{act[1:]}", f"breach:{entry.id}:{gate}")
    for name, happens in IN_BETWEEN.items():
        happens(book, entry)
        assert own in blocking(book), name
    number = sum(one.open for one in book.state.breaches)
    look = book.chain.add("inspected", entry=entry.id, gate=gate, found="no mark", by="Ada")
    assert own not in blocking(book)
    assert sum(one.open for one in book.state.breaches) == number - 1
    book.chain.strike(look)
    assert own in blocking(book)


@pytest.mark.parametrize(("gate", "act"), AGAINST)
def test_a_name_lets_a_breach_pass_which_is_shown_for_ever(gate: str, act: str) -> None:
    sheet = ENGINES["hydraulic lifters, keyless pulley"]
    book, entry = act_against(sheet, gate, act)
    own = f"breach:{entry.id}:{gate}"
    reason = next(one for one in ready(book.bench, milestone="crank").reasons if one.about == own)
    over = book.chain.add("override", about=own, by="Sam", why="seen", shown=f"{reason.what}: {reason.why}")
    answer = ready(book.bench, milestone="crank")
    assert own not in [one.about for one in answer.reasons]
    assert f"{reason.what}: {reason.why}; let pass by Sam, because seen" in answer.accepted
    book.chain.strike(over)
    assert own in [one.about for one in ready(book.bench, milestone="crank").reasons]


def test_of_two_gates_that_one_act_broke_each_is_inspected_by_itself() -> None:
    book = _every_proof(ENGINES["hydraulic lifters, keyless pulley"])
    book.record("engine-state", seen="looked", pins="in", followers="pumped up", cams="in")
    entry = book.record("turned", by="hand", seen="a quarter, then firm")
    assert [one.gate for one in book.state.breaches] == ["pins in", "followers pumped up"]
    book.chain.add("inspected", entry=entry.id, gate="pins in", found="pin not bent", by="Ada")
    assert blocking(book) == [("Turn by hand", f"breach:{entry.id}:followers pumped up")]
    book.chain.add("inspected", entry=entry.id, gate="followers pumped up", found="all tight", by="Ada")
    assert blocking(book) == []


@pytest.mark.parametrize(("gate", "act"), AGAINST)
def test_what_the_sheet_overrules_is_no_breach_and_is_kept_with_its_page(gate: str, act: str) -> None:
    sheet = engine("overruled", hydraulic=True, keyless=True, overruled=GATES)
    book, _ = act_against(sheet, gate, act, overruled=dict.fromkeys(GATES, "it is built so (manual p. 12)"))
    assert book.state.breaches == ()
    proved = {name for name, hold in book.state.holds.items() if hold.status == "proved"}
    assert gate == "starter before hand turns" or resting(sheet, {"state:timing", "state:valves"}) <= proved
    told = book.record("turned", by="hand", seen="free")
    assert told.body["doing"]["overruled"] == dict.fromkeys(GATES, "it is built so (manual p. 12)")
    assert book.state.breaches == ()
