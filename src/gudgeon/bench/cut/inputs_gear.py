"""Head bolts, valves and lifters: what a head that comes down does not leave as it was."""

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.given import BoltGiven, Given, LifterGiven, Limit, State, ValvesGiven
from gudgeon.bench.cut.looked_for import LookedFor
from gudgeon.bench.cut.reading import by_cylinder, limit, stated
from gudgeon.quantity.format import both
from gudgeon.sheet.drive import ValveGear, Valves
from gudgeon.sheet.fasteners import Fastener
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.reuse import Reuse
from gudgeon.sources.cutting import below_bolt


def bolts(bench: Bench, wanted: LookedFor) -> tuple[BoltGiven, ...]:
    """The head bolts of every family that ends in a blind hole."""
    found = []
    for key, joint in bench.sheet.joints.items():
        if joint.role != "cylinder head":
            continue
        families = {f"joints.{key}.families.{name}": one for name, one in joint.families.items()}
        if joint.fastener is not None:
            families[f"joints.{key}.fastener"] = joint.fastener
        if not families:
            wanted.lacks(f"fasteners of {joint.name}", path=f"joints.{key}.fastener", do="not stated")
        found += [
            _bolts(bench, joint, one, path, wanted)
            for path, one in families.items()
            if one.hole_kind != "through"
        ]
    return tuple(found)


def _bolts(bench: Bench, joint: Joint, one: Fastener, path: str, wanted: LookedFor) -> BoltGiven:
    name = one.name or joint.name

    def figure(field: str, words: str, state: State = "") -> Given | None:
        return wanted.take(
            stated(
                bench, getattr(one, field), name=f"{words}, {name}", path=f"{path}.{field}", kind="length",
                source=joint.source, state=state,
            )
        )  # fmt: skip

    least = one.least_below
    below = limit(
        bench, least, name="free below the bolt", path=f"{path}.least_below", kind="length_difference",
        source=joint.source, upper=False,
    ) or _usual_below(path)  # fmt: skip
    measured = _length_measured(bench, joint) if not joint.families else None
    return BoltGiven(
        name,
        path,
        measured or figure("free_length", "free length"),
        figure("grip", "length between head and block", "new"),
        figure("hole_depth", "depth of the hole"),
        below,
    )


def _usual_below(path: str) -> Limit:
    usual = below_bolt()
    text = both(usual.value, kind="length_difference", decimals=0)
    return Limit("free below the bolt", usual.value, text, str(usual.source), f"{path}.least_below")


def _length_measured(bench: Bench, joint: Joint) -> Given | None:
    """The longest of the bolts that are used again, as measured; new ones are as long as the sheet says."""
    rules: tuple[Reuse, ...] = joint.reuse.rules if joint.reuse is not None else ()
    keys = [key for one in rules if one.rule == "free length" for key in one.measured_as]
    for key in keys:
        if key in bench.sheet.characteristics:
            part = bench.sheet.characteristics[key].part
            disposition = bench.state.parts.get(part)
            if disposition is not None and disposition.decision == "renew":
                continue
            found = by_cylinder(bench, key, name=f"free length, {joint.name}", kind="length", highest=True)
            if found is not None:
                return found
    return None


def valves(bench: Bench, wanted: LookedFor) -> tuple[ValvesGiven, ...]:
    """Intake and exhaust valves, where the sheet has them."""
    gear = bench.sheet.valve_gear
    if gear is None:
        wanted.lacks("valve gear", path="valve_gear", do="not stated")
        return ()
    return (_valves(bench, gear, "intake", wanted), _valves(bench, gear, "exhaust", wanted))


def _valves(bench: Bench, gear: ValveGear, which: str, wanted: LookedFor) -> ValvesGiven:
    one = (gear.intake if which == "intake" else gear.exhaust) or Valves()
    path = f"valve_gear.{which}"

    def figure(field: str, words: str, kind: str, state: State = "") -> Given | None:
        stated_one = getattr(one, field)
        return wanted.take(
            stated(
                bench, stated_one, name=f"{which} {words}", path=f"{path}.{field}", kind=kind,
                source=one.cited(stated_one) or gear.source, state=state,
            )
        )  # fmt: skip

    measured = None
    if one.margin is not None and one.margin in bench.sheet.characteristics:
        measured = by_cylinder(
            bench, one.margin, name=f"{which} valve to piston", kind="length_difference", highest=False
        )
    least = one.least_piston_margin
    return ValvesGiven(
        "intake" if which == "intake" else "exhaust",
        measured or figure("piston_margin", "valve to piston", "length_difference", "new"),
        limit(
            bench, least, name=f"least {which} valve to piston", path=f"{path}.least_piston_margin",
            kind="length_difference", source=one.cited(least) or gear.source, upper=False,
        ),
        figure("angle", "valve angle", "angle"),
        figure("opens", "valve opens", "angle"),
        figure("closes", "valve closes", "angle"),
        figure("lift", "valve lift", "length_difference"),
        None if one.at_lift is None else figure("at_lift", "lift of the events", "length_difference"),
    )  # fmt: skip


def lifters(bench: Bench, wanted: LookedFor) -> LifterGiven | None:
    """What the camshaft in the block moves: the head comes down on its pushrods."""
    gear = bench.sheet.valve_gear
    if gear is None or gear.adjustment == "none":
        return None
    if gear.camshaft is None and gear.adjustment == "hydraulic lifters":
        wanted.lacks("where the camshaft sits", path="valve_gear.camshaft", do="not stated")
        return LifterGiven(gear.adjustment, None, None, None)
    if gear.camshaft != "in the block":
        return None

    def figure(field: str, words: str, kind: str) -> Given | None:
        one = getattr(gear, field)
        return wanted.take(
            stated(
                bench, one, name=words, path=f"valve_gear.{field}", kind=kind, source=gear.cited(one), state="new"
            )
        )  # fmt: skip

    hydraulic = gear.adjustment == "hydraulic lifters"
    preload = gear.lifter_preload if hydraulic else None
    most = limit(
        bench, preload, name="most preload of the lifter", path="valve_gear.lifter_preload",
        kind="length_difference", source=gear.cited(preload), upper=True,
    )  # fmt: skip
    single = preload is not None and preload.value.first.single
    return LifterGiven(
        gear.adjustment,
        figure("lifter_preload", "preload of the lifter", "length_difference") if hydraulic else None,
        None if single else most,
        figure("rocker_ratio", "rocker ratio", "ratio"),
    )
