"""Is it timed? The drive in words, a mark that was seen off, dead and lobe centers, valve events, and the proof."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.cut.inputs_head import made
from gudgeon.bench.ready import cautions
from gudgeon.bench.timing.drive import DriveModel, DriveShift, Lowered, cam_shift, drive_model
from gudgeon.bench.timing.drive_model import DriveRemark, DriveWheel, TeethCounted
from gudgeon.bench.timing.drive_words import thing, worded
from gudgeon.bench.timing.errors import NoDrive
from gudgeon.bench.timing.events import Events, events
from gudgeon.bench.timing.offset import SeenOffset, seen
from gudgeon.bench.timing.proof import Proof, proof
from gudgeon.bench.timing.readings import Centers, centers
from gudgeon.calc.engine.events import Valve
from gudgeon.quantity.format import alone, number

QUESTION = "Is it timed?"


@dataclass(frozen=True, slots=True)
class WheelLine:
    """One wheel: what it turns, its teeth, its mark, how it sits on its shaft and where."""

    key: str
    name: str
    teeth: str
    turns: str
    mark: str
    seat: str
    rides_on: str


@dataclass(frozen=True, slots=True)
class CountLine:
    """Teeth between two marks as the belt runs: as printed, and as the places of the wheels make them."""

    between: str
    way: str
    printed: str
    by_path: str
    note: str


@dataclass(frozen=True, slots=True)
class TimingAnswer:
    """The answer to “Is it timed?”; `drive` is None where the sheet states none, and then `missing` says so."""

    heading: Heading
    kind: str
    runs: str
    wheels: tuple[WheelLine, ...]
    counts: tuple[CountLine, ...]
    realign: str
    rules: tuple[str, ...]
    cut: str
    shifts: tuple[str, ...]
    seen: tuple[SeenOffset, ...]
    centers: Centers
    events: Events
    proof: Proof
    cautions: tuple[str, ...]
    missing: tuple[str, ...]
    remarks: tuple[DriveRemark, ...]
    source: str


@dataclass(frozen=True, slots=True)
class _Cut:
    words: str
    shift: DriveShift | None


def timing(bench: Bench, *, seen_off: Sequence[str] = ()) -> TimingAnswer:
    """Everything that is known of the timing of this engine; `seen_off` are marks seen off, as a person writes them."""
    bench.unlock()
    model = drive_model(bench)
    if model is None and seen_off:
        raise NoDrive
    cut = _cut(bench, model)
    found = events(bench, model, cut.shift)
    late: dict[Valve, float] = {
        "intake" if one.valve == "intake" else "exhaust": one.shift_crank_deg or 0.0 for one in found.lines
    }
    read = centers(bench, late_by=late)
    offsets = tuple(seen(text, model, shift=cut.shift) for text in seen_off) if model is not None else ()
    kind = model.kind if model is not None else ""
    remarks = dict.fromkeys((*(model.remarks if model is not None else ()), *found.remarks, *read.remarks))
    return TimingAnswer(
        bench.heading(QUESTION),
        kind,
        _runs(model) if model is not None else "",
        tuple(_wheel(one, model) for one in model.wheels.values()) if model is not None else (),
        tuple(_count(one, model) for one in model.counts) if model is not None else (),
        _realign(model) if model is not None else "",
        _rules(model) if model is not None else (),
        cut.words,
        _shift_words(cut.shift),
        offsets,
        read,
        found,
        proof(bench),
        tuple(worded(one, kind=kind) for one in cautions("timing")),
        _missing(model, cut.shift, remarks),
        tuple(one for one in remarks if one.grade != "missing"),
        str(bench.sheet.drive.source or "") if bench.sheet.drive is not None else "",
    )


def events_of(bench: Bench) -> Events:
    """The valve events alone, as printed and as the cut in the book leaves them."""
    model = drive_model(bench)
    return events(bench, model, _cut(bench, model).shift)


def _cut(bench: Bench, model: DriveModel | None) -> _Cut:
    """The cut that the heights in the book show, and what it does to the drive."""
    if model is None:
        return _Cut("", None)
    cut = made(bench)
    if cut is None:
        why = "the book does not hold the height of the head both as found and as left"
        return _Cut(f"The cut is not known: {why}.", None)
    if len(model.heads) > 1:
        why = f"the drive has {len(model.heads)} heads, and the heights in the book are those of one"
        return _Cut(f"What the cut does to the timing is left open: {why}.", None)
    low = Lowered(cut.value, cut.known.u)
    give = alone(cut.known.expanded, kind="length_difference", decimals=2)
    words = f"The cut: {cut.text} ± {give}, {cut.source}."
    return _Cut(words, cam_shift(model, dict.fromkeys(model.heads, low)))


def _shift_words(shift: DriveShift | None) -> tuple[str, ...]:
    if shift is None:
        return ()
    said = [
        f"{one.name}: {one.words}, ± {number(2 * one.cam_deg_u, decimals=2)}° of the camshaft"
        for one in shift.camshafts
    ]
    if shift.slack_mm is not None and abs(shift.slack_mm) >= 0.005:
        verb = "takes up" if shift.slack_mm > 0 else "gives"
        told = (
            "what it can take up is not stated"
            if shift.slack_verdict == "not stated"
            else shift.slack_verdict
        )
        slack = alone(abs(shift.slack_mm), kind="length_difference", decimals=2)
        said.append(f"The tensioner {verb} {slack} more: {told}")
    return (*said, *shift.notes)


def _runs(model: DriveModel) -> str:
    way = {True: "clockwise", False: "counterclockwise", None: ""}[model.clockwise]
    seen_from = f", seen from the {model.viewed_from}" if model.viewed_from else ""
    if not way:
        return f"Which way it runs is not known{seen_from}."
    order = ", ".join(model.wheels[key].name for key in model.order if key in model.wheels)
    path = f" The {thing(model.kind)} runs over: {order}." if order else ""
    tight = (
        " to ".join(model.wheels[key].name for key in (model.tight[:1] + model.tight[-1:]))
        if model.tight
        else ""
    )
    pulled = f" Pulled straight: from {tight}." if tight else ""
    return f"It turns {way}{seen_from}.{path}{pulled}"


def _wheel(one: DriveWheel, model: DriveModel) -> WheelLine:
    teeth = f"{one.teeth} teeth" if one.teeth is not None else "smooth"
    turns = one.drives or ("tensioner" if one.is_tensioner else "nothing")
    timed = one.is_crankshaft or one.is_camshaft
    seat = "without a key: it can turn on its shaft" if one.keyless else "on a key" if timed else ""
    rides = (
        f"on {one.on}, comes nearer when it is cut"
        if one.on and not model.cam_in_block
        else one.on and f"on {one.on}"
    )
    mark = one.mark or ("no mark stated" if timed else "")
    return WheelLine(one.key, one.name, teeth, turns, mark, seat, rides or "in the block")


def _count(one: TeethCounted, model: DriveModel) -> CountLine:
    by_path = (
        f"{number(one.by_path, decimals=1)} {model.units}" if one.by_path is not None else "not worked out"
    )
    off = one.off
    agree = off is not None and abs(off) < 0.5
    note = (
        ""
        if off is None
        else "both agree"
        if agree
        else f"the places of the wheels make {by_path}: one is wrong"
    )
    between = f"{model.wheels[one.start].name} to {model.wheels[one.end].name}"
    return CountLine(between, one.way, f"{one.printed} {model.units}", by_path, note)


def _realign(model: DriveModel) -> str:
    """After how many turns which marks are back, so that nobody takes a right belt for a wrong one."""
    if model.kind == "timing gears":
        return "After two turns of the crankshaft the marks of the wheels are back."
    named = thing(model.kind)
    if model.realign is None or model.realign_with_cam is None:
        return (
            "After two turns of the crankshaft the marks of the wheels are back. When marks printed on the "
            f"{named} are back is left open: the {model.units} of the {named} or the teeth at the crankshaft are not "
            "stated."
        )
    turns = model.realign
    if turns <= 2:
        return f"After two turns of the crankshaft the marks of the wheels are back, and those of the {named} too."
    both = (
        f", and with the marks of the camshafts after {model.realign_with_cam}"
        if model.realign_with_cam != turns
        else ""
    )
    return (
        "After two turns of the crankshaft the marks of the wheels are back; the marks printed on the "
        f"{named} are back at the crankshaft only after {turns} turns{both}: that is as it should be."
    )


def _rules(model: DriveModel) -> tuple[str, ...]:
    drive = model.drive
    said = [f"Hold against it: {one}" for one in drive.counter_hold]
    said += [f"Locking tool: {one}" for one in drive.locking_tools]
    if drive.locking_tools:
        said.append(
            "Locking tools hold the timing and take no torque: never turn the engine or a bolt against them."
        )
    if drive.tensioner is not None:
        named = model.wheels[drive.tensioner].name if drive.tensioner in model.wheels else drive.tensioner
        takes = f"; it takes up {model.takes_up}" if model.takes_up else ""
        said.append(f"Tensioner: {named}{takes}")
    if drive.tensioner_pin is not None:
        said.append(f"Pin of the tensioner: {drive.tensioner_pin}")
    keyless = [one.name for one in model.wheels.values() if one.keyless]
    if keyless:
        said.append(
            f"Without a key: {', '.join(keyless)}. Such a wheel keeps its place by its bolt alone: hold it, "
            "and look at the marks again once the bolt is tight."
        )
    return (*said, *([drive.note] if drive.note else []))


def _missing(
    model: DriveModel | None, shift: DriveShift | None, remarks: dict[DriveRemark, None]
) -> tuple[str, ...]:
    said = (
        []
        if model is not None
        else ["drive: the data sheet states none, so wheels, marks and teeth are not told"]
    )
    said += [str(one) for one in remarks if one.grade == "missing"]
    said += shift.missing if shift is not None else ()
    return tuple(dict.fromkeys(said))
