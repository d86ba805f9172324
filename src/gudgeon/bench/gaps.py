"""What a sheet does not state, and what therefore cannot be answered. A gap is listed, never filled."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.features import has
from gudgeon.bench.gaps_cut import cut_gaps
from gudgeon.bench.gaps_measuring import measuring_gaps
from gudgeon.bench.gaps_running import running_gaps
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import ReplaceAlways


@dataclass(frozen=True, slots=True)
class Gap:
    """Something that is not stated, and what cannot be done without it; `path` is where it would stand."""

    where: str
    missing: str
    therefore: str
    path: str = ""

    def __str__(self) -> str:
        return f"{self.where}: {self.missing}; {self.therefore}"


def gaps(sheet: DataSheet) -> tuple[Gap, ...]:
    """Every gap of a sheet; what the engine is said not to have leaves none."""
    return (
        *_engine(sheet),
        *(Gap(*found) for found in cut_gaps(sheet)),
        *_characteristics(sheet),
        *(Gap(*found) for found in measuring_gaps(sheet)),
        *_joints(sheet),
        *_rest(sheet),
        *(Gap(*found) for found in running_gaps(sheet)),
    )


def _engine(sheet: DataSheet) -> Iterator[Gap]:
    cylinder = sheet.cylinder
    wanted = {
        "bore": "no displacement",
        "stroke": "no displacement",
        "chamber_volume": "the compression ratio cannot be worked out",
        "crown_volume": "the compression ratio cannot be worked out",
        "piston_height": "neither the compression ratio nor the squish can be worked out",
        "gasket_thickness": "neither the compression ratio nor the squish can be worked out",
        "gasket_bore": "the compression ratio cannot be worked out",
        "chamber_mouth_area": "what a cut does to the ratio cannot be worked out",
        "squish_pad_recess": "what a cut does to the squish cannot be worked out",
    }
    if not has(sheet, "removable head"):
        return
    for name, therefore in wanted.items():
        if cylinder is None or getattr(cylinder, name) is None:
            yield Gap("cylinder", f"no {name.replace('_', ' ')}", therefore, f"cylinder.{name}")
    head = sheet.head
    if head is None or (head.least_height is None and head.most_off is None):
        yield Gap(
            "head",
            "no least height and no most that may come off",
            "cannot say how much may be cut",
            "head.least_height",
        )
    if sheet.engine.cylinders > 1 and sheet.engine.firing_order is None:
        yield Gap("engine", "no firing order", "leads and coils cannot be checked", "engine.firing_order")


def _characteristics(sheet: DataSheet) -> Iterator[Gap]:
    if not sheet.characteristics:
        yield Gap("characteristics", "none stated", "nothing can be judged by measurement", "characteristics")
    for key, item in sheet.characteristics.items():
        yield from _characteristic(f"characteristics.{key}", item)


def _characteristic(path: str, item: Characteristic) -> Iterator[Gap]:
    if item.required is not None or item.grades:
        return
    stands_for = {shape.stands_for for shape in item.limits}
    if "required" in stands_for or any(isinstance(shape, ReplaceAlways) for shape in item.limits):
        return
    if item.wear_limit is None and "wear limit" not in stands_for:
        yield Gap(
            item.name,
            f"no wear limit for {item.name.lower()}",
            "cannot judge a used part",
            f"{path}.wear_limit",
        )
    if item.new_range is None and item.wear_limit is None and not item.limits:
        yield Gap(item.name, "no new range either", "a reading is kept and not judged", f"{path}.new_range")


def _joints(sheet: DataSheet) -> Iterator[Gap]:
    if not sheet.joints:
        yield Gap("joints", "none stated", "nothing can be tightened by the sheet", "joints")
    for key, joint in sheet.joints.items():
        yield from _joint(f"joints.{key}", joint)


def _joint(path: str, joint: Joint) -> Iterator[Gap]:
    fasteners = [joint.fastener, *joint.families.values()]
    if any(one is not None and one.strength_class is None for one in fasteners):
        yield Gap(
            joint.name,
            "no strength class",
            "the clamp cannot be estimated",
            f"{path}.fastener.strength_class",
        )
    if joint.reuse is None:
        yield Gap(
            joint.name,
            "no rule for using the fasteners again",
            "treat them as the manual says",
            f"{path}.reuse",
        )
    if len(joint.bolt_names) > 2 and not isinstance(joint.bolts, dict):
        yield Gap(
            joint.name, "no positions of the bolts", "the places cannot be shown in words", f"{path}.bolts"
        )
    if joint.role == "cylinder head" and joint.doubt is None and not joint.doubts:
        yield Gap(
            joint.name,
            "no rule for a bolt in doubt",
            "ask the manual before going on after a doubt",
            f"{path}.doubts",
        )


def _rest(sheet: DataSheet) -> Iterator[Gap]:
    if sheet.drive is None and any(
        has(sheet, kind) for kind in ("timing belt", "timing chain", "timing gears")
    ):
        yield Gap("drive", "not stated", "the valve timing cannot be followed", "drive")
    if sheet.valve_gear is None:
        yield Gap("valve gear", "not stated", "valve clearances cannot be judged", "valve_gear")
    if "engine_oil" not in sheet.fluids:
        yield Gap("fluids", "no engine oil", "how much oil to fill is not known", "fluids")
    if has(sheet, "liquid cooling") and "coolant" not in sheet.fluids:
        yield Gap("fluids", "no coolant", "how much coolant to fill is not known", "fluids")
    for key, sealant in sheet.sealants.items():
        if sealant.cure is None:
            yield Gap(
                sealant.name, "no cure time", "cannot say when it may be filled", f"sealants.{key}.cure"
            )
