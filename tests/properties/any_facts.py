"""Any facts of a small engine: its sheet, what that asks for, and everything that somebody could write."""

from typing import Any

from hypothesis import strategies as st

from gudgeon.bench.holds import IDENTITY, Hold, holds_of
from gudgeon.sheet.load import parse_sheet
from tests.properties.naive_book import ORDER, Needs
from tests.unit.sheet.sheets import SMALL

MORE = """\
  pulley:
    name: Pulley bolt
    role: crank pulley
    fastener: {thread: M12x1.25, strength_class: "10.9"}
    bolts: 1
    order: [1]
    thread_state: dry
    due_before: fire
    loosening:
      - loosen: fully
    program:
      - {hand-run: to contact, provisional: until the flywheel lock is in}
      - torque: 60 N·m
    source: manual p. 11
"""
SHEET = parse_sheet(SMALL + MORE, file="sheet.yaml").sheet
KEYS = [hold.id for hold in holds_of(SHEET) if hold.id != IDENTITY]


def _ground(hold: Hold) -> tuple[str, ...]:
    joints = {"cylinder head": "head", "crank pulley": "pulley"}
    under = [f"hold:{one}" for one in hold.rests_on if one in KEYS]
    return (*under, *([f"joint:{joints[hold.joint]}"] if hold.joint in joints else []))


NEEDS = Needs(
    stages={"head": ("hand-run", "torque", "torque", "turn"), "pulley": ("hand-run", "torque")},
    bolts={"head": ("1", "3", "2", "4"), "pulley": ("1",)},
    due={"head": "crank", "pulley": "fire"},
    holds={hold.id: _ground(hold) for hold in holds_of(SHEET) if hold.id != IDENTITY},
    hold_due={hold.id: hold.before for hold in holds_of(SHEET)},
    most={"head_face": 0.05},
)
"""What the sheet above asks for, as it is written there."""

ITEMS = st.sampled_from(["a", "b"])
DUE = st.sampled_from(ORDER)
OUTCOME = {"hand-run": "done", "torque": "clicked while turning", "turn": "angle reached"}
ABOUTS = st.sampled_from(
    [
        "item:left in:a", "item:left over:a", "item:plugged:b", "item:provisional:a", "timer:a", "joint:head", "joint:pulley",
        "part:a", "hold:walk_round", "hold:timing_proved", "counted:hose", "gate:pins in", "gate:starter before hand turns",
        "reading:head_face along",
    ]
)  # fmt: skip


def body(kind: str, **fields: Any) -> st.SearchStrategy[tuple[str, dict[str, Any]]]:
    plain = {
        name: one if isinstance(one, st.SearchStrategy) else st.just(one) for name, one in fields.items()
    }
    return st.tuples(st.just(kind), st.fixed_dictionaries(plain))


LISTS = st.one_of(
    body("provisional-made", item=ITEMS, name="bolt", joint=st.sampled_from([None, "head", "pulley"]), why="to turn it",
         due_task="the end", due_before=DUE),
    body("provisional-cleared", item=ITEMS, how="new bolt"),
    body("left-in", item=ITEMS, name="tool", where="flywheel", due_before=DUE,
         holds=st.sampled_from(["nothing", "timing", "torque"])),
    body("taken-out", item=ITEMS),
    body("plugged", item=ITEMS, name="port", where="head", due_before=DUE),
    body("opened", item=ITEMS),
    body("taken-off", item=ITEMS, group=st.sampled_from(["hose", "bolt"]), name="hose", count=st.integers(1, 3), due_before=DUE),
    body("refitted", item=ITEMS, count=st.sampled_from([None, 1, 2])),
    body("counted", group=st.sampled_from(["hose", "bolt"]), when=st.sampled_from(["off", "back"]), count=st.integers(0, 2)),
)  # fmt: skip
JOINTS = st.one_of(
    st.sampled_from([("head", stage, bolt) for stage in (1, 2, 3, 4) for bolt in "1324"] + [("pulley", 1, "1"), ("pulley", 2, "1")]).flatmap(
        lambda step: body("pull", joint=step[0], stage=step[1], bolt=step[2], why="seen", outcome=st.sampled_from(
            [OUTCOME[NEEDS.stages[step[0]][step[1] - 1]], "doubtful"]))
    ),
    body("bolt-loosened", joint="pulley", stage=1, bolt="1", outcome="done"),
    body("joint-marked", joint=st.sampled_from(["head", "pulley"]), how="paint"),
    body("joint-disturbed", joint=st.sampled_from(["head", "pulley"]), why="slipped"),
    body("joint-witnessed", joint="head", by="Bo", seen="4 lines"),
)  # fmt: skip
PROOFS = st.one_of(
    body("hold-proved", hold=st.sampled_from(KEYS), value="seen by Ada"),
    body("hold-voided", hold=st.sampled_from(KEYS), why="looked wrong"),
)
ENGINE = st.one_of(
    body("engine-state", seen="looked", pins=st.sampled_from(["in", "out"])),
    body("engine-state", seen="looked", holder=st.sampled_from(["fitted", "off"])),
    body("engine-state", seen="looked", cams=st.sampled_from(["in", "out"])),
    body("engine-state", seen="looked", followers=st.sampled_from(["pumped up", "bled down"])),
    body("turned", by=st.sampled_from(["hand", "starter"]), seen="half a turn"),
    body(
        "task-started",
        task=st.sampled_from(["two_turns", "crank_for_oil", "lower_head", "pulley_final", "agree_scope"]),
    ),
    body("task-paused", task="lower_head", why="rain"),
    body("task-done", task=st.sampled_from(["two_turns", "crank_for_oil", "lower_head", "pulley_final"])),
)
OTHER = st.one_of(
    body("timer-started", timer=ITEMS, name="bead", minutes=st.sampled_from([3, 60, 5000]), task="oil", due_before=DUE),
    body("timer-ended", timer=ITEMS, how="firm"),
    body("shop-out", part=ITEMS, shop="Mill Lane", ordered="clean up"),
    body("shop-back", part=ITEMS, found="flat"),
    body("part-disposition", part=st.sampled_from(["a", "cylinder head"]), decision=st.sampled_from(["reuse", "renew"]), why="worn"),
    body("part-received", part=ITEMS, compared=st.booleans()),
    body("reading", item="head_face", place=st.sampled_from(["along", "across"]), value=st.sampled_from(["0.02 mm", "0.20 mm"]),
         condition=st.sampled_from(["as found", "as left"])),
    body("accepted", what="head_face along", by="Sam", why="it seals"),
    body("identity-read", code="L1-A"),
    body("paused", hand="wrench", next_action="bolt 3"),
    body("note", text="cold"),
    body("odometer-read", value=st.sampled_from(["84100", "84200"]), unit="km"),
    body("signed-off", milestone=DUE, by="Sam", words="it is good"),
    body("money", what="gasket", amount="30", currency="EUR"),
    body("explained", group="hose", way="missing", what="short one", why="it is not fitted any more"),
    body("override", about=ABOUTS, by="Sam", why="it is a trial", shown="what was shown"),
)  # fmt: skip

FEW = st.sampled_from(["walk_round", "timing_proved", "head_bolts_all_stages", "oil_pressure_cranking"])
_STARTED = body(
    "timer-started", timer="a", name="bead", minutes=st.sampled_from([2, 4, 5000]), task="oil", due_before=DUE
)
_OFF = body("taken-off", item="a", group="hose", name="hose", count=st.integers(1, 3), due_before=DUE)


def _over(about: st.SearchStrategy[str]) -> st.SearchStrategy[tuple[str, dict[str, Any]]]:
    return body("override", about=about, by="Sam", why="it is a trial", shown="what was shown")


_OF_ONE_THING: tuple[st.SearchStrategy[tuple[str, dict[str, Any]]], ...] = (
    st.one_of(_STARTED, _STARTED, body("timer-ended", timer="a", how="firm"), _over(st.just("timer:a"))),
    st.one_of(_OFF, body("refitted", item="a", count=st.sampled_from([None, 1, 2])), _over(st.just("item:left over:a"))),
    st.one_of(
        body("left-in", item="a", name="tool", where="flywheel", due_before=DUE,
             holds=st.sampled_from(["nothing", "timing", "torque"])),
        body("taken-out", item="a"),
        body("turned", by=st.sampled_from(["hand", "starter"]), seen="half a turn"),
        body("engine-state", seen="looked", pins=st.sampled_from(["in", "out"])),
        _over(st.sampled_from(["gate:pins in", "item:left in:a"])),
    ),
    st.one_of(
        body("provisional-made", item="a", name="bolt", joint="pulley", why="to turn it", due_task="the end", due_before=DUE),
        body("provisional-cleared", item="a", how="new bolt"),
        body("joint-disturbed", joint="pulley", why="slipped"),
        body("pull", joint="pulley", stage=1, bolt="1", why="seen", outcome="done"),
        body("pull", joint="pulley", stage=2, bolt="1", why="seen", outcome=st.sampled_from(["clicked while turning", "doubtful"])),
        body("joint-marked", joint="pulley", how="paint"),
        body("hold-proved", hold="crank_pulley_final", value="seen by Ada"),
    ),
    st.one_of(body("hold-proved", hold=FEW, value="seen by Ada"), body("hold-voided", hold=FEW, why="looked wrong")),
    st.one_of(
        body("shop-out", part="a", shop="Mill Lane", ordered="clean up"), body("shop-back", part="a", found="flat"),
        _over(st.just("part:a")),
    ),
    st.one_of(body("counted", group="hose", when=st.sampled_from(["off", "back"]), count=st.integers(0, 2)), _OFF),
)  # fmt: skip

THEMES = (
    *_OF_ONE_THING, *_OF_ONE_THING, LISTS, JOINTS, PROOFS, ENGINE, OTHER, st.one_of(ENGINE, PROOFS), st.one_of(LISTS, OTHER),
)  # fmt: skip
"""Facts that meet each other: of one thing, or of one kind of things."""
