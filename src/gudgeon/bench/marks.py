"""Marks on the heads of a joint: the painted line, where it points, and what every pull leaves behind.

A stage that turns by an angle is told by a line that was painted across the head and the casting beside it
after the last torque stage; what a later look can tell rests on these marks alone.
"""

from dataclasses import dataclass

from gudgeon.bench.progress import Progress, Step
from gudgeon.sheet.joints import Joint


@dataclass(frozen=True, slots=True)
class Datum:
    """A line to paint before a turning stage: between which stages, on which heads, pointing where."""

    after_stage: int
    before_stage: int
    bolts: tuple[str, ...]
    words: str


def clock(angle_deg: float) -> str:
    """Where a mark painted at 12 o'clock points after a turn to the right, as a clock hand."""
    hours, minutes = divmod(round(angle_deg % 360 * 2), 60)
    return f"{hours or 12} o'clock" if minutes == 0 else f"{hours or 12}:{minutes:02d} o'clock"


def flats(angle_deg: float) -> str:
    """An angle in flats of a hexagon, 60° each; only sixths of a turn and their halves read well.

    Example:
        >>> flats(90), flats(60), flats(75)
        ('1½ flats', '1 flat', '1.25 flats')
    """
    count = angle_deg / 60
    whole, half = divmod(round(count * 2), 2)
    if abs(count * 2 - round(count * 2)) > 1e-9:
        return f"{count:.3g} flats"
    said = f"{whole or ''}{'½' if half else ''}" or "0"
    return f"{said} flat" if 0 < count <= 1 else f"{said} flats"


def in_flats(joint: Joint, step: Step) -> str:
    """The turn of a step in flats, and how many since the line; only where the head shows flats."""
    if step.kind != "turn":
        return ""
    fastener = joint.fastener_of(step.bolt)
    if fastener is None or not fastener.has_flats:
        return ""
    here = flats(step.turn_after - step.turn_before)
    return here if not step.turn_before else f"{here}, {flats(step.turn_after)} since the line"


def leaves(step: Step, *, loosening: bool = False) -> str:
    """The mark that a pull leaves on its head, so that a look tells later that it was done."""
    if step.kind == "torque":
        return "a dot on its head" if step.marks == 1 else f"dot {step.marks} on its head"
    if step.kind == "turn":
        return "a stroke across its line" if step.marks == 1 else f"stroke {step.marks} across its line"
    if step.kind == "draw down":
        return "a chalk tick on its head" if step.marks == 1 else f"chalk tick {step.marks} on its head"
    if step.kind == "loosen":
        return "a chalk tick on its head" if loosening else "no dot and no line"
    return "a ring round its dots" if step.kind == "verify" else ""


def dots(step: Step) -> str:
    """What a torqued head, or one that was drawn down, has to carry."""
    if step.kind == "draw down":
        return "its chalk tick" if step.marks == 1 else f"its {step.marks} chalk ticks"
    return "its dot" if step.marks == 1 else f"its {step.marks} dots"


def datums(joint: Joint, found: Progress) -> tuple[Datum, ...]:
    """Every line to paint: before the first turning stage that follows a stage without a turn."""
    said: dict[int, Datum] = {}
    before: dict[str, int] = {}
    for step in found.steps:
        if step.kind == "turn" and step.turn_before == 0 and step.round == 1:
            known = said.get(step.stage)
            bolts = (*known.bolts, step.bolt) if known else (step.bolt,)
            after = max(known.after_stage if known else 0, before.get(step.bolt, 0))
            said[step.stage] = Datum(after, step.stage, bolts, "")
        if step.kind in ("hand-run", "draw down", "torque"):
            before[step.bolt] = step.stage
    return tuple(
        Datum(one.after_stage, one.before_stage, one.bolts, _datum_words(joint, one)) for one in said.values()
    )


def _datum_words(joint: Joint, one: Datum) -> str:
    many = len(one.bolts) > 1
    every = len(one.bolts) == len(joint.bolt_names)
    if not many:
        which = "the head" if every else f"the head of {joint.called} {one.bolts[0]}"
    elif every:
        which = f"each of the {len(one.bolts)} heads"
    else:
        which = f"the heads of {joint.called}s {', '.join(one.bolts)}"
    seen = (
        f", seen from {joint.viewed_from}" if joint.viewed_from else ", seen from where you stand to turn it"
    )
    points = joint.twelve_oclock or ("up in the drawing" if joint.viewed_from else "away from you")
    when = f"After stage {one.after_stage} and before stage {one.before_stage}"
    if not one.after_stage:
        when = f"Before stage {one.before_stage}"
    them = "it" if not many else "them"
    return (
        f"{when} whoever turns {them} paints one line across {which} and the casting beside it, at 12 o'clock: "
        f"{points}{seen}. Every later turn is told from that line."
    )
