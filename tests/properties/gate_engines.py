"""Engines and books for the gates: entries as the recorder makes them, in a chain in memory."""

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, cast

from gudgeon.bench.bodies import body
from gudgeon.bench.context import Bench, Papers
from gudgeon.bench.doing import Known, of_entry
from gudgeon.bench.holds import IDENTITY, holds_of
from gudgeon.bench.network import Task, job
from gudgeon.book.entries import Entry
from gudgeon.book.state import State
from gudgeon.kit.load import parse_kit
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.model import DataSheet
from tests.unit.bench.benches import KIT
from tests.unit.book.chains import START, Chain, begun

OWNED = parse_kit(KIT, file="kit.yaml").kit
LATER = START + timedelta(days=90)
"""Late enough for every wait of the job to be over."""

_SHEET = """\
gudgeon: data sheet 1
invented: yes
engine:
  name: Invented {name}
  codes: [L1-A]
  code_is_read: pad beside the filler
  layout: inline
  cylinders: 4
  numbered_from: timing end
  does_not_have: [timing belt, timing gears, turbocharger, wet liners, {lacks}]
sources:
  manual: {{title: Invented manual, edition: 1st}}
drive:
  kind: timing chain
  source: manual p. 7
  wheels:
    crank: {{name: Crankshaft sprocket, teeth: 20, keyed: {keyed}}}
    intake: {{name: Intake camshaft sprocket, teeth: 40, keyed: {keyed}}}
"""
_JOINTS = """\
joints:
  head: {name: Head bolts, role: cylinder head, fastener: {thread: M10x1.25}, bolts: 2, order: [1, 2], thread_state: dry,
         program: [hand-run, {torque: 20 N·m}], source: manual p. 9}
  caps: {name: Camshaft caps, role: camshaft caps, fastener: {thread: M6x1.0}, bolts: 2, order: [1, 2], thread_state: dry,
         program: [{torque: 20 N·m}], source: manual p. 10}
  pulley: {name: Pulley bolt, role: crank pulley, fastener: {thread: M12x1.25}, bolts: 1, order: [1], thread_state: dry,
           program: [hand-run, {torque: 60 N·m}], loosening: [{loosen: fully}], source: manual p. 11}
"""
_GATE = "  - {{gate: {gate}, because: it is built so, source: manual p. 12}}\n"


def engine(
    name: str, *, hydraulic: bool, keyless: bool, joints: bool = False, overruled: Iterable[str] = ()
) -> DataSheet:
    """An invented engine with a chain."""
    lacks = "shims, screw adjusters" if hydraulic else "shims, hydraulic lifters"
    text = _SHEET.format(name=name, lacks=lacks, keyed="no" if keyless else "yes")
    text += _JOINTS if joints else ""
    gates = "".join(_GATE.format(gate=gate) for gate in overruled)
    return parse_sheet(text + (f"gates:\n{gates}" if gates else ""), file="sheet.yaml").sheet


def bench(sheet: DataSheet, state: State, *, now: datetime = LATER) -> Bench:
    """A bench on a state, without a store."""
    papers = Papers(sheet, "", "", OWNED, "", "", ())
    return Bench(Path("book"), cast(Any, None), "van", papers, state, now)


@dataclass
class Book:
    """A chain of one engine; each entry is made as the recorder makes it, with what it does to the engine."""

    sheet: DataSheet
    chain: Chain = field(default_factory=begun)
    folded: State | None = None

    def record(self, kind: str, *, basis: str | None = None, who: str = "Ada", **fields: Any) -> Entry:
        """Write one entry."""
        made = body(self.sheet, OWNED, kind=kind, fields=fields)
        known = Known.of(self.state) if kind in ("pull", "task-done") else Known(set(), set(), cams_in=False)
        doing = of_entry(self.sheet, known, kind=kind, fields=made)
        said = made if doing is None else {**made, "doing": doing}
        return self.chain.add(kind, basis=basis, who=who, **said)

    def copy(self) -> "Book":
        """A book that goes on by itself."""
        return Book(self.sheet, Chain(list(self.chain.entries)))

    @property
    def state(self) -> State:
        """What the book adds up to, worked out once for each head."""
        if self.folded is None or self.folded.head != self.chain.head:
            self.folded = self.chain.state
        return self.folded

    @property
    def bench(self) -> Bench:
        """The bench as it stands."""
        return bench(self.sheet, self.state)


def tasks_of(sheet: DataSheet) -> Mapping[str, Task]:
    """The tasks of an engine by their keys."""
    return {task.key: task for task in job().for_engine(sheet)}


def before(tasks: Mapping[str, Task], key: str) -> set[str]:
    """Everything that has to be done before a task."""
    found: set[str] = set()
    todo = deque(tasks[key].after)
    while todo:
        name = todo.popleft()
        if name not in found:
            found.add(name)
            todo.extend(tasks[name].after)
    return found


def worked_up_to(sheet: DataSheet, key: str) -> Book:
    """A book in which all is done and proved that comes before a task, in the order of the job, as it should be."""
    book, tasks = Book(sheet), tasks_of(sheet)
    wanted, names = before(tasks, key), {hold.id for hold in holds_of(sheet)}
    while wanted:
        name = next(one for one in tasks if one in wanted and not wanted & set(tasks[one].after))
        finish(book, tasks[name], names)
        wanted.discard(name)
    return book


def finish(book: Book, task: Task, holds: set[str]) -> None:
    """One task from its beginning to its end, with its proofs; the holder is in while the pulley bolt is let go."""
    holder = task.key == "slacken_pulley_bolt"
    if holder:
        book.record("left-in", item="lock", name="flywheel lock", where="starter", due_before="crank")
    book.record("task-started", task=task.key)
    if holder:
        book.record("taken-out", item="lock")
    if task.shop_when:
        part = {"part": "head"}
        if task.shop_when == "sent":
            book.record("shop-out", **part, shop="Miller", ordered="resurface")
        elif not book.state.shop["head"].back:
            book.record("shop-back", **part, found="flat")
    for hold in task.proves:
        if hold == IDENTITY:
            book.record("identity-read", code="L1-A")
        elif hold in holds:
            book.record("hold-proved", hold=hold, value="seen by Ada")
    book.record("task-done", task=task.key)
