"""Joints of any size for the tests of paper: an invented engine whose joint has the bolts and stages asked for."""

from collections.abc import Sequence
from pathlib import Path

from gudgeon.bench.pull_list import JointCard, card
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL

STAGES = (
    "torque: 30 N·m (22.1 lbf·ft)",
    "loosen: fully",
    "torque: 25.5 N·m (18.8 lbf·ft)",
    "turn: 90° ± 5°",
    "turn: 45°",
    "wait: 10 min",
    "verify: 40 N·m",
    "draw down: 180°",
)
NASTY = "#panic(1) $x_1$ [link] *b* _i_ \\u{41} `c` //no /* @a <b> ~ = - \\"
"""What markup would obey and print must show."""


def quoted(text: str) -> str:
    """A text as YAML's single quotes hold it."""
    return "'" + text.replace("'", "''") + "'"


def sheet(
    *,
    bolts: int = 4,
    stages: int = 4,
    placed: bool = False,
    where: str = "",
    name: str = "Test bolts",
    program: Sequence[str] = (),
    mixed: bool = False,
) -> str:
    """The small sheet with a joint `many` besides."""
    lines = ["  many:", f"    name: {quoted(name)}", "    source: manual p. 77", "    bolts:"]
    for number in range(1, bolts + 1):
        said = [f"where: {quoted(where or f'place {number}, upper row')}"]
        if placed:
            said += [f"x: {(number - 1) // 2 * 60} mm", f"y: {40 if number % 2 else -40} mm"]
        if mixed:
            said.append(f"family: {'long' if number % 2 else 'short'}")
        lines.append(f"      {number}: {{{', '.join(said)}}}")
    long, short = ("{thread: M10x1.25, strength_class: '10.9'}", "{thread: M8x1.25, strength_class: '8.8'}")
    lines += [
        f"    families: {{long: {long}, short: {short}}}" if mixed else f"    fastener: {long}",
        "    viewed_from: above, timing end at the left",
        f"    order: [{', '.join(str(number) for number in range(bolts, 0, -1))}]",
        "    thread_state: dry",
        f"    before_work: [{quoted('wipe ' + name)}, look]",
        f"    cautions: [{quoted('hot ' + name)}, mind the fingers]",
        f"    doubt: {quoted('renew ' + name)}",
        "    reuse: {rule: free length, limit: {value: max 100 mm, source: manual p. 78}}",
        "    program:",
        *(f"      - {stage}" for stage in program or STAGES[:stages]),
    ]
    return SMALL + "\n".join(lines) + "\n"


def job(folder: Path, **wanted: object) -> Job:
    """A build whose code has been read, with such a joint."""
    made = make_job(folder, sheet=sheet(**wanted))  # type: ignore[arg-type]
    made.read_code()
    return made


def card_of(folder: Path, **wanted: object) -> JointCard:
    """The card of such a joint, nothing of it done."""
    return card(job(folder, **wanted).bench(), "many")
