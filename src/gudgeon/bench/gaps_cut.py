"""What a sheet does not state of a cut, and which of its consequences cannot be said without it."""

from collections.abc import Iterator

from gudgeon.bench.features import has
from gudgeon.sheet.drive import ValveGear, Valves
from gudgeon.sheet.engine import Cylinder, Head
from gudgeon.sheet.fasteners import Fastener
from gudgeon.sheet.model import DataSheet

Found = tuple[str, str, str, str]
"""Where, what is missing, what cannot be said, and the path of the field."""


def cut_gaps(sheet: DataSheet) -> Iterator[Found]:
    """Everything that the cut asks for and the sheet does not state; nothing where no head comes off."""
    if not has(sheet, "removable head"):
        return
    yield from _head(sheet.head or Head())
    yield from _cylinder(sheet, sheet.cylinder or Cylinder())
    if sheet.valve_gear is not None:
        yield from _valves(sheet.valve_gear)
    for key, joint in sheet.joints.items():
        if joint.role == "cylinder head":
            families = {f"families.{name}": one for name, one in joint.families.items()}
            if joint.fastener is not None:
                families["fastener"] = joint.fastener
            for path, fastener in families.items():
                yield from _bolts(joint.name, fastener, f"joints.{key}.{path}")


def _head(head: Head) -> Iterator[Found]:
    wanted = {
        "measured_as": ("no characteristic for its height", "what was cut off cannot be told from readings"),
        "face": ("no face for its gasket", "what cleans it up cannot be told from its flatness"),
        "height": ("no height of a new one", "what came off before cannot be told"),
    }
    for name, (missing, therefore) in wanted.items():
        if getattr(head, name) is None:
            yield "head", missing, therefore, f"head.{name}"


def _cylinder(sheet: DataSheet, cylinder: Cylinder) -> Iterator[Found]:
    if cylinder.most_ratio is None:
        yield "cylinder", "no most ratio", "the ratio limits no cut", "cylinder.most_ratio"
    if cylinder.least_squish is None:
        yield "cylinder", "no least squish", "the squish limits no cut", "cylinder.least_squish"
    if not cylinder.gaskets and has(sheet, "graded head gasket"):
        yield (
            "cylinder",
            "no head gaskets that can be had",
            "cannot say which to take after a cut",
            "cylinder.gaskets",
        )


def _valves(gear: ValveGear) -> Iterator[Found]:
    for which, held in (("intake", gear.intake), ("exhaust", gear.exhaust)):
        valves, path = held or Valves(), f"valve_gear.{which}"
        words = f"what a cut leaves between {which} valves and pistons cannot be said"
        if valves.piston_margin is None and valves.margin is None:
            yield "valve gear", f"no gap between {which} valves and pistons", words, f"{path}.piston_margin"
        if valves.angle is None:
            yield "valve gear", f"no angle of the {which} valves", words, f"{path}.angle"
        if valves.least_piston_margin is None:
            missing = f"no least gap between {which} valves and pistons"
            yield "valve gear", missing, "it limits no cut", f"{path}.least_piston_margin"
    if gear.adjustment == "hydraulic lifters" and gear.camshaft is None:
        where = "valve_gear.camshaft"
        yield (
            "valve gear",
            "not said where the camshaft sits",
            "what a cut does to the lifters cannot be said",
            where,
        )


def _bolts(joint: str, fastener: Fastener, path: str) -> Iterator[Found]:
    if fastener.hole_kind == "through":
        return
    wanted = {
        "free_length": "no free length",
        "grip": "no length between head and block",
        "hole_depth": "no depth of the holes",
    }
    for name, missing in wanted.items():
        if getattr(fastener, name) is None:
            therefore = "cannot say whether a bolt reaches the bottom after a cut"
            yield joint, missing, therefore, f"{path}.{name}"
