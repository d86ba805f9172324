"""What cannot be right in a joint by itself: order, bolts, stages, total turn. Each finding with its place."""

from collections.abc import Iterable, Iterator

from gudgeon.quantity.written import Printed
from gudgeon.sheet.joints import Joint, Stage
from gudgeon.written.check import unknown
from gudgeon.written.located import Path


def joint_findings(path: Path, joint: Joint) -> Iterator[tuple[Path, str]]:
    """Everything that a well-formed joint gets wrong in itself."""
    if joint.order != "free":
        yield from _permutation((*path, "order"), joint, joint.order)
    if joint.loosening_order:
        yield from _permutation((*path, "loosening_order"), joint, joint.loosening_order)
    if (joint.loosening_order or joint.loosening_cold) and not joint.loosening:
        yield (
            path,
            "An order or a caution for loosening needs its stages: `loosening:` with `- loosen: fully`.",
        )
    if joint.fastener is None and not joint.families:
        yield path, "The fastener is missing. Write `fastener:` with its thread, like `thread: M10x1.25`."
    if isinstance(joint.bolts, dict):
        for name, bolt in joint.bolts.items():
            if bolt.family is not None and bolt.family not in joint.families:
                yield (
                    (*path, "bolts", name, "family"),
                    _no_family(joint, bolt.family),
                )
    for index, stage in enumerate(joint.loosening):
        if stage.kind not in ("loosen", "wait"):
            yield (
                (*path, "loosening", index),
                f"A loosening program loosens or waits; `{stage.kind}` was found.",
            )
    for part in ("program", "loosening"):
        for index, stage in enumerate(getattr(joint, part)):
            yield from _stage((*path, part, index), joint, stage)
    yield from _left_loose(path, joint)
    yield from _total(path, joint)
    yield from _clamp(path, joint)


def _clamp(path: Path, joint: Joint) -> Iterator[tuple[Path, str]]:
    """What the clamp is worked out from is stated once, and for every bolt."""
    if joint.friction is not None and joint.friction_class is not None:
        place = (*path, "friction_class")
        yield place, "Friction is stated twice, as a class and by its figures. Keep one of them."
    matrix = joint.bedding.matrix if joint.bedding is not None else None
    if matrix is not None and len(matrix.rows) != len(joint.bolt_names):
        yield (
            (*path, "bedding", "matrix"),
            f"The matrix is for {len(matrix.rows)} bolts, the joint has {len(joint.bolt_names)}.",
        )


def _permutation(path: Path, joint: Joint, said: Iterable[str]) -> Iterator[tuple[Path, str]]:
    bolts, order = list(joint.bolt_names), list(said)
    extra = sorted({name for name in order if name not in bolts})
    missing = [name for name in bolts if name not in order]
    twice = sorted({name for name in order if order.count(name) > 1})
    wrong = [
        text
        for names, text in (
            (extra, f"no such bolt: {', '.join(extra)}"),
            (missing, f"left out: {', '.join(missing)}"),
            (twice, f"twice: {', '.join(twice)}"),
        )
        if names
    ]
    if wrong:
        yield path, f"The order does not name each of the {len(bolts)} bolts once ({'; '.join(wrong)})."


def _stage(path: Path, joint: Joint, stage: Stage) -> Iterator[tuple[Path, str]]:
    for index, name in enumerate(stage.only):
        if name not in joint.bolt_names:
            yield (*path, "only", index), unknown("bolt", value=name, known=joint.bolt_names)
    if stage.family is not None and stage.family not in joint.families:
        yield (*path, "family"), _no_family(joint, stage.family)
    for name in ("torque", "verify", "turn", "draw_down", "loosen"):
        figure = getattr(stage, name)
        if isinstance(figure, Printed) and _signed(figure):
            yield (*path, name.replace("_", " ")), _unsigned(figure.text, name)
        elif name != "loosen" and figure is not None and not _positive(figure):
            yield (
                (*path, name.replace("_", " ")),
                f"`{figure.text}` is no figure to tighten by: it is zero, below zero, or open at one end. "
                "Write one value above zero, or a range with both ends.",
            )
    if not joint.stage_bolts(stage):
        yield path, "This stage names no bolt of the joint."


def _no_family(joint: Joint, said: str) -> str:
    """A family that the joint does not have; where it has none at all, how families are written."""
    if joint.families:
        return unknown("family", value=said, known=joint.families)
    return (
        f"`{said}` is no family of this joint, which has none. Write `families:` in the joint, like "
        f"`families: {{{said}: {{thread: M10x1.25}}}}`, and at each bolt its `family`."
    )


def _left_loose(path: Path, joint: Joint) -> Iterator[tuple[Path, str]]:
    """A joint is provisional until something comes after it."""
    for part in ("program", "loosening"):
        for index, stage in enumerate(getattr(joint, part)):
            if stage.provisional and (part == "loosening" or index == len(joint.program) - 1):
                yield (
                    (*path, part, index, "provisional"),
                    "A joint is left provisional before the stages that finish it; this stage has none after it.",
                )


def _positive(figure: Printed) -> bool:
    span = figure.first
    return span.low is not None and span.high is not None and min(span.low.number, span.high.number) > 0


def _signed(figure: Printed) -> bool:
    """Whether it is printed with a plus or a minus before it, as something more or less than before."""
    return any(span.text.lstrip().startswith(("+", "-")) for span in figure.spans)


def _unsigned(text: str, name: str) -> str:
    """What to write in the place of a figure with a sign."""
    if name in ("torque", "verify"):
        return (
            f"`{text}` has a sign: a stage takes the full torque, not what is added to the one before. "
            "Write the torque that is reached, like `torque: 45 N·m` with `only: [4, 5]` "
            "where 40 N·m went before and the manual adds 5 N·m."
        )
    return (
        f"`{text}` has a sign: a stage {'loosens' if name == 'loosen' else 'turns'} on from where the bolt stands. "
        "Write the angle without it, like `90°`."
    )


def _total(path: Path, joint: Joint) -> Iterator[tuple[Path, str]]:
    """The turns of one bolt after the last torque or loosening stage add up to the stated total."""
    if joint.total_turn is None:
        return
    said = joint.total_turn.value.first
    wanted = (said.nominal or said.low or said.high).to("°")  # type: ignore[union-attr]
    for bolts_are in ("new", "used"):
        for name in joint.sequence:
            total = _turned(joint, name, bolts_are=bolts_are)
            if abs(total - wanted) > 1e-9:
                yield (
                    (*path, "total_turn"),
                    f"The turns of bolt {name} add up to {total:g}°, the stated total is {wanted:g}°. "
                    "A degree sign read as a zero makes 900 of 90°: look at the page again.",
                )
                return


def _turned(joint: Joint, name: str, *, bolts_are: str) -> float:
    """How far a bolt is turned since its last torque stage or loosening, by the program."""
    total = 0.0
    for _, stage in joint.stages(bolts_are=bolts_are):
        if name not in joint.stage_bolts(stage):
            continue
        if stage.kind in ("torque", "loosen", "draw down"):
            total = 0.0
        elif stage.kind == "turn" and stage.turn is not None:
            total += stage.repeat * stage.turn.middle_in("°")
    return total
