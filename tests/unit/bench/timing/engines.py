"""A small invented engine with one camshaft over a belt, whose figures can be worked out on paper.

HAND: wheels of 20 and 40 teeth of 9.525 mm pitch, pitch radii 30.319 and 60.638 mm, 398.8972 mm apart: the belt is
2 · c · cos β + 30.319 · (π − 2 β) + 60.638 · (π + 2 β) = 114 · 9.525 mm long, sin β = 30.319 / 398.8972.
"""

from pathlib import Path

from gudgeon.bench.context import open_bench
from gudgeon.bench.timing.answer import TimingAnswer, timing
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

DISK = "  disk: {name: degree disk, kind: other, step: 1°, error: 0.5°}\n"

_DRIVE = """\
head:
  measured_as: head_height
  source: manual p. 8
drive:
  source: manual p. 20
  kind: timing belt
  viewed_from: timing end
  turns: clockwise
  pitch: 9.525 mm
  belt_teeth: 114
  wheels:
    crank: {name: Crank wheel, teeth: 20, turns: crankshaft, x: 0.00 mm, y: 0.00 mm, mark: notch, mark_at: 180°}
    cam: {name: Cam wheel, teeth: 40, turns: camshaft, on: head, x: 0.00 mm, y: 398.8972 mm, mark: dot, mark_at: 0°, keyed: no}
  heads: {head: 0°}
  path: [crank, cam]
  tensioner_pin: "3 mm pin beside the roller"
  locking_tools: [camshaft bar]
  counter_hold: ["cam wheel bolt: two-pin holder"]
  crank_stops: crank_stops
valve_gear:
  source: manual p. 21
  adjustment: none
  camshaft: in the head
  intake: {source: manual p. 22, opens: 12°, closes: 48°, duration: 240°, centerline: 105–111°, lobe: intake_lobe}
  exhaust: {source: manual p. 22, opens: 46°, closes: 10°, duration: 236°, centerline: 105–111°, lobe: exhaust_lobe}
characteristics:
  head_height:
    name: Head height
    part: cylinder head
    places: [left, right]
    source: manual p. 8
  crank_stops:
    name: Crank at the piston stop
    part: crankshaft
    quantity: angle
    places: [turned forward, turned back]
    source: manual p. 23
  intake_lobe:
    name: Disk at 1 mm lift, intake
    part: camshaft
    quantity: angle
    places: [opening, closing]
    source: manual p. 23
  exhaust_lobe:
    name: Disk at 1 mm lift, exhaust
    part: camshaft
    quantity: angle
    places: [opening, closing]
    source: manual p. 23
"""

BELT = (
    SMALL.replace("does_not_have: [timing belt, ", "does_not_have: [")
    .replace(", overhead cam]", "]")
    .replace("characteristics:\n", _DRIVE)
)


def job(folder: Path, *changes: tuple[str, str]) -> Job:
    """A build of that engine, its code read; with texts of the sheet changed."""
    text = BELT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    made = make_job(folder, sheet=text, kit=KIT.replace("turning:\n", f"{DISK}turning:\n"))
    made.read_code()
    return made


def read(of: Job, item: str, place: str, value: str, *, unit: str = "°", condition: str = "as found") -> None:
    """One reading."""
    gauge = "disk" if unit == "°" else "caliper"
    of.record(
        "reading", item=item, place=place, value=f"{value} {unit}", instrument=gauge, condition=condition
    )


def cut(of: Job, left: str = "99.80") -> None:
    """The head was 100.00 mm high, and came back lower."""
    for condition, height in (("as found", "100.00"), ("as left", left)):
        for place in ("left", "right"):
            read(of, "head_height", place, height, unit="mm", condition=condition)


def asked(of: Job, *seen_off: str) -> TimingAnswer:
    """Is it timed? As the book says now."""
    bench = open_bench(of.book, now=of.now)
    try:
        return timing(bench, seen_off=seen_off)
    finally:
        bench.store.close()
