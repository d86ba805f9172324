"""From a joint of the sheet to its mechanics: bolts as springs that yield, and what they feel of each other.

Nothing is filled in. What is missing is named, with what can therefore not be said; what is taken in its place
by custom is said too.
"""

import math
from dataclasses import dataclass, field

import numpy as np

from gudgeon.bench.clamp_families import families
from gudgeon.calc.joint.interaction import (
    Floats,
    PartsCompliance,
    endless_beam,
    free_beam,
    given_matrix,
)
from gudgeon.calc.joint.interaction_plate import endless_plate, free_plate
from gudgeon.calc.joint.preload import bearing_diameter, strength_class
from gudgeon.calc.joint.program import BoltSpec, JointModel
from gudgeon.calc.joint.scatter import Band
from gudgeon.calc.joint.stiffness import (
    STEEL_MPA,
    Compliance,
    Layer,
    Segment,
    bolt_compliance,
    vdi_member_compliance,
)
from gudgeon.calc.joint.thread import Thread, read_thread
from gudgeon.errors import GudgeonError
from gudgeon.quantity.format import both
from gudgeon.quantity.written import Printed
from gudgeon.sheet.fasteners import Beam, Fastener, Plate, head_kind
from gudgeon.sheet.joints import Joint
from gudgeon.sources.tables import friction_classes, materials

NO_YIELD_MPA = 1e6  # a bolt that never yields, where its strength is not stated and no angle takes it there
NO_STIFFNESS = 1e-5  # mm/N, of no consequence where every clamp comes from a torque alone
_LIKE = {"six-lobe": "flange hexagon", "cross": "slotted"}  # heads of the same height
_NEEDS_STIFFNESS = ("turn", "loosen")


@dataclass(frozen=True, slots=True)
class Missing:
    """Something that the sheet does not state, and what can therefore not be said."""

    what: str
    therefore: str
    stops: bool = False
    """Whether without it nothing can be said at all."""


@dataclass(slots=True)
class Notes:
    """What is missing, whether it is so much that nothing can be said, and what was taken by custom."""

    missing: list[Missing] = field(default_factory=list)
    taken: list[str] = field(default_factory=list)
    stopped: bool = False

    def lacks(self, what: str, *, therefore: str, stops: bool = False) -> None:
        """Name something that is missing, once."""
        if Missing(what, therefore, stops) not in self.missing:
            self.missing.append(Missing(what, therefore, stops))
        self.stopped = self.stopped or stops

    def takes(self, text: str) -> None:
        """Say what is taken, once."""
        if text not in self.taken:
            self.taken.append(text)


@dataclass(frozen=True, slots=True)
class Mechanics:
    """A joint that can be simulated, the friction of each of its bolts, and what is known of it."""

    model: JointModel
    mu_thread: tuple[Band, ...]
    mu_head: tuple[Band, ...]
    yield_known: bool
    see_each_other: bool


def mechanics(joint: Joint, notes: Notes, *, friction: str = "") -> Mechanics | None:
    """The mechanics of a joint; None where so much is missing that no clamp can be said.

    `friction` is a class that stands in the place of what the sheet states.
    """
    bands = _friction(joint, notes, friction)
    fasteners = [joint.fastener_of(name) for name in joint.bolt_names]
    if not all(fasteners):
        notes.lacks("the fastener, with its thread", therefore="no clamp can be worked out", stops=True)
    stiff = _needs_stiffness(joint)
    whose = {
        id(fasteners[place]): f" of {family.name}" if family.name else ""
        for family in families(joint)
        for place in family.places
    }
    built = {
        id(one): _bolt(joint, one, notes, stiff=stiff, whose=whose[id(one)])
        for one in fasteners
        if one is not None
    }
    if notes.stopped or bands is None:
        return None
    each = [built[id(one)] for one in fasteners]
    bolts = [one for one in each if one is not None]
    if len(bolts) < len(each):
        return None
    whole = all(one.member is not None for one in bolts)
    own = np.array([one.member if whole and one.member is not None else 0.0 for one in bolts])
    felt = _felt(joint, notes) if whole else None
    if felt is None:
        parts = np.diag(own)
    else:
        given = joint.bedding is not None and joint.bedding.matrix is not None
        parts = felt.matrix_mm_per_n + (0.0 if given else np.diag(own))
    count = len(bolts)
    return Mechanics(
        JointModel(tuple(one.spec for one in bolts), parts),
        (bands[0],) * count,
        (bands[1],) * count,
        all(one.spec.yield_mpa < NO_YIELD_MPA for one in bolts),
        felt is not None,
    )


def _needs_stiffness(joint: Joint) -> bool:
    """Whether a clamp of this program comes from an angle somewhere."""
    return any(stage.kind in _NEEDS_STIFFNESS and stage.loosen != "fully" for stage in joint.program)


def _friction(joint: Joint, notes: Notes, named: str) -> tuple[Band, Band] | None:
    """Bands of friction in thread and under head: as asked, else as the sheet states them."""
    name = named or (joint.friction_class if joint.friction is None else None)
    if name:
        known = next(one for one in friction_classes() if one.name == name)
        if known.high is None:
            notes.lacks(
                f"an upper end of friction class {name}",
                therefore="how much the clamp scatters: state `friction: {thread: …, head: …}` with both ends",
                stops=True,
            )
            return None
        band = Band(known.low, known.high)
        notes.takes(
            f"friction {known.low:.2f} to {known.high:.2f} in thread and under head, class {name} ({known.examples}); "
            f"source: {known.source}"
        )
        return band, band
    if joint.friction is not None:
        stated = _band(joint.friction.thread), _band(joint.friction.head)
        if any(one.low == one.high for one in stated):
            notes.lacks(
                "how far the friction scatters: it is one figure, not a range",
                therefore="the whole spread; what is said leaves out the cause that mostly makes most of it",
            )
        cited = joint.friction.source or joint.source
        text = f"thread {joint.friction.thread.text}, head {joint.friction.head.text}"
        notes.takes(f"friction of {text}; source: {cited}" if cited else f"friction of {text}")
        return stated
    notes.lacks(
        "the friction of thread and head (`friction_class` or `friction`)",
        therefore="no clamp can be worked out: about nine tenths of a torque go into friction",
        stops=True,
    )
    return None


def _band(printed: Printed) -> Band:
    low, high = printed.low_in("1"), printed.high_in("1")
    return Band(low or high or 0.0, high or low or 0.0)


@dataclass(frozen=True, slots=True)
class _Built:
    """One family: its bolt, and what the parts give under it where that is known."""

    spec: BoltSpec
    member: float | None


def _bolt(joint: Joint, one: Fastener, notes: Notes, *, stiff: bool, whose: str) -> _Built | None:
    """The bolt of one family; `whose` names it where the joint has several."""
    try:
        thread = read_thread(one.thread)
        strength = _yield_mpa(one, thread, notes, stiff=stiff, whose=whose)
        bearing = _bearing(one, notes, whose=whose)
        springs = _springs(joint, one, thread, notes, stiff=stiff, whose=whose)
    except GudgeonError as error:
        notes.lacks(
            f"figures{whose or f' of {one.name or one.thread}'} that agree with each other",
            therefore=str(error),
            stops=True,
        )
        return None
    if strength is None or bearing is None or (springs is None and stiff):
        return None
    waist = min((area for area in _areas(one) if area < thread.stress_area_mm2), default=None)
    give = springs[0].compliance_mm_per_n if springs else NO_STIFFNESS
    spec = BoltSpec(
        thread,
        strength,
        bearing,
        give,
        hardening_n_per_mm=_hardening(one, thread, notes, whose=whose) if springs else 0.0,
        stress_area_mm2=waist,
    )
    return _Built(spec, springs[1].compliance_mm_per_n if springs else None)


def _areas(one: Fastener) -> list[float]:
    return [math.pi / 4 * part.diameter.middle_in("mm") ** 2 for part in one.segments if part.diameter]


def _yield_mpa(one: Fastener, thread: Thread, notes: Notes, *, stiff: bool, whose: str) -> float | None:
    if one.yield_strength is not None:
        return one.yield_strength.middle_in("MPa")
    if one.strength_class:
        known = strength_class(one.strength_class, nominal_mm=thread.nominal_mm)
        notes.takes(
            f"bolts{whose} that yield at {both(known.yield_mpa, kind='stress')}, the least of class {known.name}: most "
            f"yield later; source: {known.source}"
        )
        return known.yield_mpa
    notes.lacks(
        f"the strength class or yield strength {whose.strip() or 'of the bolts'}",
        therefore="whether an angle takes them through yield, so no clamp can be said"
        if stiff
        else "how near to yield they come",
        stops=stiff,
    )
    return None if stiff else NO_YIELD_MPA


def _bearing(one: Fastener, notes: Notes, *, whose: str) -> float | None:
    if one.bearing_diameter is None or one.hole is None:
        notes.lacks(
            f"the bearing diameter under the head and the hole{whose}",
            therefore="at which radius the head rubs, so no clamp can be said",
            stops=True,
        )
        return None
    outer, hole = one.bearing_diameter.middle_in("mm"), one.hole.middle_in("mm")
    return bearing_diameter(outer, hole_mm=hole)


def _springs(
    joint: Joint, one: Fastener, thread: Thread, notes: Notes, *, stiff: bool, whose: str
) -> tuple[Compliance, Compliance] | None:
    """How far the bolt stretches and the parts give."""
    lacking = [name for name, there in (("segments", one.segments), ("clamped", joint.clamped)) if not there]
    layers = _layers(joint, notes)
    if lacking or layers is None or one.bearing_diameter is None or one.hole is None:
        therefore = (
            "what an angle does to the clamp"
            if stiff
            else "what tightening one bolt takes from its neighbors"
        )
        for name in lacking:
            what = {
                "segments": f"lengths and diameters {whose.strip() or 'of the bolt'} (`segments`)",
                "clamped": "the clamped parts",
            }
            notes.lacks(what[name], therefore=f"{therefore} cannot be said", stops=stiff)
        return None
    tapped = one.engagement is not None or one.into is not None
    engaged = one.engagement.middle_in("mm") if one.engagement is not None else None
    kind = head_kind(one.head) if one.head else None
    if kind is None:
        notes.takes(f"a head{whose} that gives as a hexagon does: the sheet states no kind of head")
    bolt = bolt_compliance(
        [
            Segment(
                part.length.middle_in("mm"),
                diameter_mm=part.diameter.middle_in("mm") if part.diameter else None,
                threaded=part.threaded,
            )
            for part in one.segments
        ],
        thread=thread,
        head=_LIKE.get(kind or "hexagon", kind or "hexagon"),
        engagement_mm=engaged if engaged is not None else (thread.nominal_mm if tapped else None),
        engaged_modulus_mpa=_modulus_of(one.into or ""),
    )
    notes.takes(
        "bolts of steel, 205 GPa; springs of bolts and parts after VDI 2230, parts as wide as its cone"
    )
    member = vdi_member_compliance(
        layers,
        head_diameter_mm=one.bearing_diameter.middle_in("mm"),
        hole_mm=one.hole.middle_in("mm"),
        tapped=tapped,
    )
    _lengths_agree(one, layers, notes, whose=whose)
    return bolt, member


def _lengths_agree(one: Fastener, layers: list[Layer], notes: Notes, *, whose: str) -> None:
    """Bolt and parts are of one length between head and thread; said where they are not."""
    bolt = sum(part.length.middle_in("mm") for part in one.segments)
    parts = sum(layer.thickness_mm for layer in layers)
    if abs(bolt - parts) > 0.02 * parts:
        notes.takes(
            f"a bolt{whose} of {bolt:.1f} mm in its segments on parts of {parts:.1f} mm: both should be of one length"
        )


def _layers(joint: Joint, notes: Notes) -> list[Layer] | None:
    found = []
    for layer in joint.clamped:
        modulus = layer.modulus.middle_in("MPa") if layer.modulus else _modulus_of(layer.material or "")
        if modulus is None:
            notes.lacks(
                f"the modulus of {layer.name}: no figure is on file for {layer.material}",
                therefore="how far the parts give",
                stops=_needs_stiffness(joint),
            )
            return None
        found.append(Layer(modulus, layer.thickness.middle_in("mm")))
    return found


def _modulus_of(text: str) -> float | None:
    """The modulus of a material that is named in a text [MPa]."""
    named = [one for one in materials() if one.name in text.lower()]
    return named[0].modulus_mpa if named else None


def _hardening(one: Fastener, thread: Thread, notes: Notes, *, whose: str) -> float:
    """Rise of the force per permanent stretch [N/mm]: the yielding length hardens by a share of its modulus.

    dε_p = dσ · (1 / (h · E) − 1 / E), so H = A · E · h / (l · (1 − h)), l the length that yields.
    """
    share = one.hardening.middle_in("1") if one.hardening is not None else 0.0
    if not 0 < share < 1:
        notes.takes(f"a clamp{whose} that no longer rises beyond yield: the sheet states no hardening")
        return 0.0
    sections = [
        (
            thread.stress_area_mm2
            if part.threaded or part.diameter is None
            else math.pi / 4 * part.diameter.middle_in("mm") ** 2,
            part.length.middle_in("mm"),
        )
        for part in one.segments
    ]
    least = min(area for area, _ in sections)
    length = sum(length for area, length in sections if area <= 1.02 * least)
    return least * STEEL_MPA * share / (length * (1 - share))


def _felt(joint: Joint, notes: Notes) -> PartsCompliance | None:
    """What the bolts feel of each other, where the sheet says how the part carries their load."""
    if len(joint.bolt_names) < 2:
        return None
    if joint.bedding is None:
        notes.lacks(
            "how the part carries the load of one bolt to the others (`bedding`)",
            therefore="what tightening one bolt takes from its neighbors: each is counted by itself",
        )
        return None
    try:
        if joint.bedding.matrix is not None:
            found = given_matrix(joint.bedding.matrix.mm_per_n)
        else:
            found_or_none = _on_foundation(joint, joint.bedding.beam or joint.bedding.plate, notes)
            if found_or_none is None:
                return None
            found = found_or_none
        if len(found.matrix_mm_per_n) != len(joint.bolt_names):
            notes.lacks("a matrix with a row for each bolt", therefore="each bolt is counted by itself")
            return None
    except GudgeonError as error:
        notes.lacks("a bedding that can be worked out", therefore=f"each bolt is counted by itself. {error}")
        return None
    for flag in found.flags:
        notes.takes(flag)
    return found


def _on_foundation(joint: Joint, part: Beam | Plate | None, notes: Notes) -> PartsCompliance | None:
    places = _places(joint)
    if places is None or part is None:
        notes.lacks("the places of all bolts (x and y)", therefore="each bolt is counted by itself")
        return None
    spread = np.ptp(places, axis=0)
    long, across = (0, 1) if spread[0] >= spread[1] else (1, 0)
    length = part.length.middle_in("mm") if part.length is not None else None
    along = _centered(places[:, long], length)
    if isinstance(part, Beam):
        figures = {
            "bending_stiffness_n_mm2": part.bending_stiffness.middle_in("N·mm²"),
            "foundation_n_per_mm2": part.foundation.middle_in("N/mm²"),
        }
        if length is None:
            notes.takes("a beam without ends: the sheet states no length")
            return endless_beam(along.tolist(), **figures)
        notes.takes(f"the bolts in the middle of a beam of {length:g} mm")
        return free_beam(along.tolist(), **figures, length_mm=length)
    width = part.width.middle_in("mm") if part.width is not None else None
    over = _centered(places[:, across], width)
    plate = {
        "rigidity_n_mm": part.rigidity.middle_in("N·mm"),
        "foundation_n_per_mm3": part.foundation.middle_in("N/mm³"),
    }
    on = list(zip(along.tolist(), over.tolist(), strict=True))
    if length is None or width is None:
        notes.takes("a plate without edges: the sheet does not state both sides")
        return endless_plate(on, **plate)
    notes.takes(f"the bolts in the middle of a plate of {length:g} × {width:g} mm")
    poisson = part.poisson.middle_in("1") if part.poisson is not None else 0.3
    return free_plate(on, **plate, length_mm=length, width_mm=width, poisson=poisson)


def _places(joint: Joint) -> Floats | None:
    bolts = [joint.bolt(name) for name in joint.bolt_names]
    found = [(one.x.middle_in("mm"), one.y.middle_in("mm")) for one in bolts if one.x and one.y]
    return np.array(found) if len(found) == len(bolts) else None


def _centered(places: Floats, length: float | None) -> Floats:
    """Places from the end of the part; the pattern of the bolts stands in its middle."""
    start = 0.0 if length is None else (length - float(np.ptp(places))) / 2
    return np.asarray(places - places.min() + start, np.float64)
