"""The wheels of the sheet's drive with center and pitch radius, their order, and the way in which they turn."""

import re

from gudgeon.bench.timing.drive_model import DriveWheel, Grade, Remarks
from gudgeon.calc.engine.drive_path import WheelAt
from gudgeon.calc.engine.drive_wheels import belt_radius, chain_radius, smooth_radius
from gudgeon.quantity.written import Printed
from gudgeon.sheet.drive import Drive, Wheel
from gudgeon.sheet.model import DataSheet

_STATED_ORDER = 2  # wheels whose order is the same either way


def wheels_of(drive: Drive) -> dict[str, DriveWheel]:
    """Every wheel by its key."""
    tensioner = named(drive, drive.tensioner or "")
    found = {}
    for key, wheel in drive.wheels.items():
        at, lacks, _ = _placed(drive, key, wheel)
        found[key] = DriveWheel(
            key=key,
            name=wheel.name,
            teeth=wheel.teeth,
            drives=wheel.turns or _by_name(key, wheel),
            mark=wheel.mark or "",
            mark_at_deg=middle(wheel.mark_at, "°"),
            on=wheel.on or "",
            back=wheel.back,
            keyless=key in drive.keyless or not wheel.keyed,
            is_tensioner=key == tensioner,
            at=at,
            lacks=lacks,
        )
    return found


def remark_places(
    drive: Drive, wheels: dict[str, DriveWheel], remarks: Remarks, *, order: tuple[str, ...]
) -> None:
    """What each wheel of the path lacks to be placed, and a tensioner that is no wheel of it."""
    for key in order or wheels:
        _, lacks, field = _placed(drive, key, drive.wheels[key])
        if lacks:
            name = wheels[key].name
            remarks.add("missing", ("drive", *field), f"{name} cannot be placed: its {lacks} is not stated.")
    if tensioner_off_path(drive, wheels, order):
        why = (
            f"`{drive.tensioner}` is no wheel of `path`: how much longer it makes the way is not known, so the length "
            "is not compared."
        )
        remarks.add("missing", ("drive", "tensioner"), why)


def tensioner_off_path(drive: Drive, wheels: dict[str, DriveWheel], order: tuple[str, ...]) -> bool:
    """Whether a tensioner is stated that the path does not run over."""
    return bool(drive.tensioner and order) and not any(wheels[key].is_tensioner for key in order)


def named(drive: Drive, said: str) -> str:
    """The key of a wheel that a text names by key or by name; empty where there is none."""
    wanted = _plain(said)
    for key, wheel in drive.wheels.items():
        if wanted and wanted in (_plain(key), _plain(wheel.name)):
            return key
    return ""


def order_of(drive: Drive, wheels: dict[str, DriveWheel], remarks: Remarks) -> tuple[str, ...]:
    """The keys in the order in which the belt runs, begun at the crankshaft; empty where it is not known."""
    keys = []
    for index, said in enumerate(drive.path):
        key = named(drive, said)
        if not key:
            why = f"`{said}` is no wheel of the drive, so the path cannot be followed. Add it under `wheels`"
            remarks.add("missing", ("drive", "path", index), f"{why}, with `x` and `y`.")
            return ()
        keys.append(key)
    if not keys:
        if len(wheels) != _STATED_ORDER:
            what = "the order in which the belt runs over the wheels, begun at the crankshaft, is not stated"
            remarks.add(
                "missing",
                ("drive", "path"),
                f"{what}: neither length, tight side nor cam timing can be worked out.",
            )
            return ()
        keys = list(wheels)
    return _begun_at_crankshaft(keys, wheels, remarks)


def _begun_at_crankshaft(keys: list[str], wheels: dict[str, DriveWheel], remarks: Remarks) -> tuple[str, ...]:
    cranks = [key for key in keys if wheels[key].is_crankshaft]
    if len(cranks) != 1:
        count = "No wheel of the path turns" if not cranks else f"{len(cranks)} wheels of the path turn"
        why = f"{count} with the crankshaft, not one. Write `turns: crankshaft` at that wheel alone."
        grade: Grade = "error" if cranks else "missing"
        remarks.add(grade, ("drive", "path"), why, printed=", ".join(keys))
        return ()
    at = keys.index(cranks[0])
    return (*keys[at:], *keys[:at])


def running(sheet: DataSheet, drive: Drive, remarks: Remarks) -> tuple[bool | None, str]:
    """Whether the crankshaft turns clockwise as the drive is seen, and which field says so."""
    engine = _rotation(sheet.engine.rotation or "", drive.viewed_from or "")
    own = None if drive.turns is None else drive.turns == "clockwise"
    if own is not None and engine is not None and own != engine:
        why = (
            f"The drive turns {drive.turns}, but `engine.rotation` says “{sheet.engine.rotation}”, seen from the same "
            "side. Mend the wrong one: the tight side depends on it."
        )
        remarks.add("error", ("drive", "turns"), why, printed=f"{drive.turns}; {sheet.engine.rotation}")
        return None, ""
    if own is not None:
        return own, "drive.turns"
    return engine, "engine.rotation" if engine is not None else ""


def middle(figure: Printed | None, unit: str) -> float | None:
    """The middle of a printed figure that may be missing."""
    return None if figure is None else figure.middle_in(unit)


def _rotation(said: str, viewed_from: str) -> bool | None:
    """Clockwise or not, where a text says it for the same side of the engine."""
    words, side = said.lower().replace("-", " "), _side(viewed_from)
    if not side or side not in _side(words.partition("from")[2]):
        return None
    if re.search(r"counter ?clockwise|anti ?clockwise", words):
        return False
    return True if "clockwise" in words else None


def _side(said: str) -> str:
    words = re.findall(r"[a-z]+", said.lower())
    return " ".join(
        word for word in words if word not in ("the", "its", "of", "from", "seen", "as", "viewed")
    )


def _plain(said: str) -> str:
    return said.lower().replace("_", " ").strip()


def _by_name(key: str, wheel: Wheel) -> str:
    """What a wheel turns, by its name where `turns` is not stated."""
    said = f"{_plain(key)} {_plain(wheel.name)}"
    for word, shaft in (("crankshaft", "crankshaft"), ("camshaft", "camshaft")):
        if word in said:
            return shaft
    return ""


def _placed(drive: Drive, key: str, wheel: Wheel) -> tuple[WheelAt | None, str, tuple[str, ...]]:
    """A wheel with its place; else what is missing and which field would hold it."""
    own = ("wheels", key)
    x, y = middle(wheel.x, "mm"), middle(wheel.y, "mm")
    if x is None or y is None:
        return (
            None,
            "place (`x` and `y`)" if x is None and y is None else f"`{'x' if x is None else 'y'}`",
            own,
        )
    pitch = middle(drive.pitch.value if drive.pitch is not None else None, "mm")
    if wheel.teeth is not None:
        if pitch is None:
            return None, "pitch radius (`pitch` of the drive)", ("pitch",)
        chain = drive.kind == "timing chain"
        radius = (chain_radius if chain else belt_radius)(pitch, teeth=wheel.teeth)
        per_turn = pitch * wheel.teeth if chain else None
        return WheelAt(key, x, y, radius, wheel.back, per_turn), "", own
    diameter = middle(wheel.diameter, "mm")
    if diameter is None:
        return None, "pitch radius (`diameter`)", own
    if not wheel.back:
        return (
            None,
            "pitch radius (a smooth wheel on the toothed side: write `back: yes`, or its `teeth`)",
            own,
        )
    rise = middle(drive.rise.value if drive.rise is not None else None, "mm")
    if rise is None:
        return (
            None,
            "pitch radius (`rise` of the drive: from the back of the belt to its pitch line)",
            ("rise",),
        )
    return WheelAt(key, x, y, smooth_radius(diameter, rise_mm=rise), True), "", own
