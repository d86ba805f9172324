"""What one cut does with one gasket: each consequence as a law of the cut, with what is uncertain of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from gudgeon.bench.cut.camshafts import Camshafts
from gudgeon.bench.cut.given import BoltGiven, GasketGiven, Given, Inputs, Missing, ValvesGiven
from gudgeon.bench.cut.known import EXACTLY_ZERO, Known, total, worked_out
from gudgeon.bench.cut.nearer import nearer_per_degree
from gudgeon.calc.engine.bolt_reach import free_below_bolt
from gudgeon.calc.engine.cut import squish
from gudgeon.calc.engine.cylinder import (
    CylinderGeometry,
    clearance_volume_cm3,
    ratio_of_volumes,
    swept_volume_cm3,
)
from gudgeon.calc.engine.lifter_preload import clearance_lost, preload_after
from gudgeon.calc.engine.valve_margin import margin_after_cut
from gudgeon.errors import InputError

OF_THE_RATIO = (
    "bore", "stroke", "chamber_volume", "chamber_mouth_area", "crown_volume", "piston_height", "gasket_bore",
    "gasket_thickness",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class NotWorkedOut:
    """A consequence that cannot be worked out, and why: what is missing, or which figure cannot be."""

    what: str
    why: str
    missing: tuple[Missing, ...] = ()

    def __str__(self) -> str:
        return f"{self.what}: {self.why}"


Answer = Known | NotWorkedOut


@dataclass(frozen=True, slots=True)
class Laws:
    """Every consequence of a cut under one gasket; without a gasket of its own that of the cylinder."""

    inputs: Inputs
    camshafts: Camshafts
    gasket: GasketGiven | None = None

    @property
    def thickness(self) -> Given | None:
        """The gasket that goes in, tightened."""
        return self.gasket.thickness if self.gasket is not None else self.inputs.cylinder.gasket_thickness

    @property
    def thicker(self) -> Known:
        """By how much the gasket that goes in is thicker than the one that the figures of the sheet are for."""
        own, chosen = self.inputs.cylinder.gasket_thickness, self.thickness
        if own is None or chosen is None or own.value == chosen.value:
            return EXACTLY_ZERO
        return total([(1.0, chosen.known), (-1.0, own.known)])

    def since(self, given: Given, cut: Known) -> Known:
        """What comes off the head that a figure speaks of, with this cut."""
        head = self.inputs.head
        if given.state == "new":
            return self.in_all(cut)
        if given.state == "as left" and head.made is not None:
            return total([(1.0, cut), (-1.0, head.made.known)])
        return cut if given.state else EXACTLY_ZERO

    def in_all(self, cut: Known) -> Known:
        """What has come off over the life of the head."""
        before = self.inputs.head.before
        return total([(1.0, cut), (1.0, before.known)]) if before is not None else cut

    def lowering(self, given: Given, cut: Known) -> Known:
        """How far the head comes down against where a figure has it; measured as left, the gasket was in already."""
        if given.state == "as left":
            return self.since(given, cut)
        return total([(1.0, self.since(given, cut)), (-1.0, self.thicker)])

    def of_new(self, cut: Known) -> Known:
        """How far the head lies below where a new one lay."""
        return total([(1.0, self.in_all(cut)), (-1.0, self.thicker)])

    def ratio(self, cut: Known) -> Answer:
        """The compression ratio."""
        one = self.inputs.cylinder
        given = {
            "bore_mm": one.bore, "stroke_mm": one.stroke, "chamber_cm3": one.chamber_volume,
            "mouth_mm2": one.mouth_area, "crown_cm3": one.crown_volume, "height_mm": one.piston_height,
            "gasket_bore_mm": one.gasket_bore, "gasket_mm": self.thickness,
        }  # fmt: skip
        chamber = one.chamber_volume
        paths = tuple(f"cylinder.{name}" for name in OF_THE_RATIO)
        off = self.since(chamber, cut) if chamber is not None else EXACTLY_ZERO
        return self._law("compression ratio", _ratio, given, {"off_mm": off}, paths)

    def removed(self, cut: Known) -> Answer:
        """The volume that goes from one chamber [cm³]."""
        given = {"mouth_mm2": self.inputs.cylinder.mouth_area}
        paths = ("cylinder.chamber_mouth_area",)
        return self._law("volume that goes from a chamber", _removed, given, {"cut_mm": cut}, paths)

    def squish(self, cut: Known) -> Answer:
        """The gap between piston and squish pad [mm]."""
        one = self.inputs.cylinder
        recess = one.squish_recess
        if recess is not None and recess.value < -recess.known.expanded:
            where = f" (line {recess.line} of the data sheet)" if recess.line is not None else ""
            return NotWorkedOut("squish", f"squish pad recess {recess.text} is below 0{where}")
        given = {"gasket_mm": self.thickness, "height_mm": one.piston_height, "recess_mm": recess}
        off = self.since(recess, cut) if recess is not None else EXACTLY_ZERO
        paths = ("cylinder.gasket_thickness", "cylinder.piston_height", "cylinder.squish_pad_recess")
        return self._law("squish", _squish, given, {"off_mm": off}, paths)

    def margin(self, of: ValvesGiven, cut: Known) -> Answer:
        """The gap between valves and pistons, square to the face of the valve [mm]."""
        path, margin = f"valve_gear.{of.which}", of.margin
        given = {"margin_mm": margin, "angle_deg": of.angle}
        down = self.lowering(margin, cut) if margin is not None else EXACTLY_ZERO
        extra = {"down_mm": down, "nearer_mm": self._nearer(of, down)}
        paths = (f"{path}.piston_margin", f"{path}.angle", "valve_gear")
        return self._law(f"{of.which} valve to piston", _margin, given, extra, paths)

    def turned_counts(self, of: ValvesGiven) -> bool:
        """Whether what the turned camshaft adds is known."""
        known = bool(self.camshafts.late_per_mm(of.which))
        return known and nearer_per_degree(of, self.inputs.cylinder) is not None

    def _nearer(self, of: ValvesGiven, down: Known) -> Known:
        """What the camshaft that turns worst brings the valve nearer; nothing where it is not known, or farther off."""
        rates = self.camshafts.late_per_mm(of.which)
        nearer = nearer_per_degree(of, self.inputs.cylinder)
        if not rates or nearer is None:
            return EXACTLY_ZERO
        found = max((total([(nearer * rate, down)]) for rate in rates), key=lambda one: one.value)
        return found if found.value > 0 else EXACTLY_ZERO

    def free_below(self, of: BoltGiven, cut: Known) -> Answer:
        """What stays free below the head bolts [mm]."""
        given = {"depth_mm": of.hole_depth, "length_mm": of.length, "grip_mm": of.grip}
        down = self.lowering(of.grip, cut) if of.grip is not None else EXACTLY_ZERO
        paths = tuple(f"{of.path}.{name}" for name in ("hole_depth", "free_length", "grip"))
        return self._law(f"free below the bolt, {of.name}", _free_below, given, {"down_mm": down}, paths)

    def preload(self, cut: Known) -> Answer:
        """The preload of hydraulic lifters whose camshaft stays in the block [mm]."""
        lifters = self.inputs.lifters
        given = {"preload_mm": lifters.preload if lifters is not None else None}
        extra = {"down_mm": self.of_new(cut)}
        return self._law("preload of the lifters", _preload, given, extra, ("valve_gear.lifter_preload",))

    def clearance_lost(self, cut: Known) -> Answer:
        """The valve clearance that goes, with solid pushrods [mm]."""
        lifters = self.inputs.lifters
        given = {"rocker_ratio": lifters.rocker_ratio if lifters is not None else None}
        extra = {"down_mm": self.of_new(cut)}
        return self._law("valve clearance that goes", _lost, given, extra, ("valve_gear.rocker_ratio",))

    def least_height(self, cut: Known) -> Answer:
        """The height of the head at its least place [mm]."""
        head = self.inputs.head
        if head.left is not None and head.made is not None:
            return total([(1.0, head.left.least.known), (-1.0, cut), (1.0, head.made.known)])
        base = head.base
        if base is None:
            return self._missing("height of the head, least place", ("head.measured_as",))
        return total([(1.0, base.least.known), (-1.0, cut)])

    def _law(
        self,
        what: str,
        law: Callable[..., float],
        given: Mapping[str, Given | None],
        extra: Mapping[str, Known],
        paths: tuple[str, ...],
    ) -> Answer:
        known = {name: one.known for name, one in given.items() if one is not None}
        if len(known) < len(given):
            return self._missing(what, paths)
        try:
            return worked_out(law, {**known, **extra})
        except InputError as error:
            lines = [one.line for one in given.values() if one is not None and one.line is not None]
            where = f" (lines {', '.join(map(str, sorted(lines)))} of the data sheet)" if lines else ""
            return NotWorkedOut(what, f"{error.message}{where}")

    def _missing(self, what: str, paths: tuple[str, ...]) -> NotWorkedOut:
        missing = self.inputs.lacking(*paths)
        return NotWorkedOut(what, f"missing: {'; '.join(map(str, missing)) or 'what it rests on'}", missing)


def _ratio(
    bore_mm: float, *, stroke_mm: float, chamber_cm3: float, mouth_mm2: float, crown_cm3: float, height_mm: float,
    gasket_bore_mm: float, gasket_mm: float, off_mm: float,
) -> float:  # fmt: skip
    geometry = CylinderGeometry(
        bore_mm,
        stroke_mm,
        chamber_cm3 - off_mm * mouth_mm2 / 1000,
        gasket_bore_mm,
        gasket_mm,
        crown_cm3,
        height_mm,
    )
    swept = swept_volume_cm3(bore_mm, stroke_mm=stroke_mm)
    return ratio_of_volumes(swept, clearance_cm3=clearance_volume_cm3(geometry))


def _removed(mouth_mm2: float, *, cut_mm: float) -> float:
    return mouth_mm2 * cut_mm / 1000


def _squish(gasket_mm: float, *, height_mm: float, recess_mm: float, off_mm: float) -> float:
    left = max(0.0, recess_mm - off_mm)
    return squish(gasket_mm, piston_below_deck_mm=-height_mm, pad_recess_mm=left, cut_mm=0.0).after_mm


def _margin(margin_mm: float, *, angle_deg: float, down_mm: float, nearer_mm: float) -> float:
    return margin_after_cut(margin_mm, lowering_mm=down_mm, valve_angle_deg=angle_deg, nearer_mm=nearer_mm)


def _free_below(depth_mm: float, *, length_mm: float, grip_mm: float, down_mm: float) -> float:
    return free_below_bolt(depth_mm, length_mm=length_mm, grip_mm=grip_mm, lowering_mm=down_mm)


def _preload(preload_mm: float, *, down_mm: float) -> float:
    return preload_after(preload_mm, lowering_mm=down_mm)


def _lost(rocker_ratio: float, *, down_mm: float) -> float:
    return clearance_lost(down_mm, rocker_ratio=rocker_ratio)
