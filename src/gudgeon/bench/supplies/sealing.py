"""Sealant: the volume of every bead that the sheet describes, and how far a tube goes."""

import re
from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.supplies.model import PRACTICE, Supply, drops, lengths
from gudgeon.calc.planning.supplies import bead_cm3, closed_path_mm
from gudgeon.errors import InputError
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.faces import Face
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.model import DataSheet, Sealant
from gudgeon.sources.supplies import supply_figure

_SIZE = r"(?P<{}>\d+(?:\.\d+)?\s*(?:mm|cm|in|inch|inches))\b"
_WIDTH = re.compile(
    rf"bead\s*(?:of|,)?\s*{_SIZE.format('after')}|{_SIZE.format('before')}\s*(?:wide\s*)?bead", re.IGNORECASE
)
_DABS = re.compile(r"(?:(\d{1,3})\s*)?dabs?\b", re.IGNORECASE)
_LONG = re.compile(rf"{_SIZE.format('long')}\s*(?:long|in all|of it)", re.IGNORECASE)


def sealing(bench: Bench) -> Iterator[Supply]:
    """One line for each sealant of the sheet."""
    for key, sealant in bench.sheet.sealants.items():
        yield _one(bench.sheet, key, sealant)


def _one(sheet: DataSheet, key: str, sealant: Sealant) -> Supply:
    width = _size(_WIDTH, sealant.where)
    source = str(sealant.source or "the data sheet")
    if width is None and (found := _DABS.search(sealant.where)):
        return _dabs(key, sealant, 1 if not found[1] else int(found[1]), stated=bool(found[1]))
    if width is None:
        return Supply(
            f"sealant_{key}", sealant.name, "", sealant.where, "", source,
            f"how wide the bead is: the data sheet says “{sealant.where}”; write it there, like “bead 2 mm”",
        )  # fmt: skip
    way, told = _way(sheet, key, sealant)
    if way is None:
        return Supply(f"sealant_{key}", sealant.name, "", sealant.where, "", source, told)
    reserve, tube = supply_figure("bead_reserve"), supply_figure("tube")
    volume = bead_cm3(way, diameter_mm=width, reserve=reserve.value)
    how = (
        f"{told}, {lengths(width, decimals=1)} wide: length · π/4 · width², and {100 * reserve.value:.0f} % more for "
        f"nozzle and ends ({PRACTICE}). {_tubes(volume, tube.value)}"
    )
    return Supply(f"sealant_{key}", sealant.name, drops(volume), sealant.where, how, source)


def _dabs(key: str, sealant: Sealant, count: int, *, stated: bool) -> Supply:
    """Sealant in dabs: by their number, where the sheet says it."""
    each, source = supply_figure("dab").value, str(sealant.source or "the data sheet")
    if not stated:
        missing = "how many dabs: write it into the data sheet where it says where they go, like “8 dabs”"
        return Supply(f"sealant_{key}", sealant.name, "", sealant.where, "", source, missing)
    how = f"{count} dabs of {drops(each)} ({PRACTICE}). {_tubes(count * each, supply_figure('tube').value)}"
    return Supply(f"sealant_{key}", sealant.name, drops(count * each), sealant.where, how, source)


def _tubes(volume: float, tube: float) -> str:
    count = -(-volume // tube)
    if count <= 1:
        return f"A tube of {drops(tube)} is enough."
    return f"That is {count:.0f} tubes of {drops(tube)}."


def _size(pattern: re.Pattern[str], text: str) -> float | None:
    """The first size that a text says in such words [mm]."""
    found = pattern.search(text)
    written = next((one for one in found.groups() if one), None) if found else None
    if written is None:
        return None
    try:
        size = float(parse_amount(written, kind="length").to("mm"))
    except InputError:
        return None
    return size if size > 0 else None


def _way(sheet: DataSheet, key: str, sealant: Sealant) -> tuple[float | None, str]:
    """How long the bead is and by what; or why that is not known."""
    stated = _size(_LONG, sealant.where)
    if stated is not None:
        return stated, f"{lengths(stated)} long, as the sheet says"
    joint_key = _joint_of(sheet, key, sealant)
    joint = sheet.joints.get(joint_key)
    if joint is not None and (places := _places(joint)):
        around = closed_path_mm(places)
        return (
            around,
            f"{lengths(around)} around through the {len(places)} holes of {joint.name}, so at most that",
        )
    face = sheet.faces.get(key) or sheet.faces.get(joint_key)
    if face is not None and (corners := _corners(face)):
        around = closed_path_mm(corners)
        return around, f"{lengths(around)} around the outline of {face.name}, so at most that"
    where = (
        f"where every bolt sits, in x and y ({joint.name})" if joint is not None else "how long the bead is"
    )
    return None, (
        f"{where}, or the length itself: write it into the data sheet where it says where the sealant goes, like "
        "“bead 2 mm, 560 mm long”"
    )


def _joint_of(sheet: DataSheet, key: str, sealant: Sealant) -> str:
    """The joint that a sealant belongs to: of the same key, else the one whose name its own name begins with."""
    if key in sheet.joints:
        return key
    said = sealant.name.lower()
    return next(
        (
            name
            for name, joint in sheet.joints.items()
            if said.startswith(re.sub(r"\s+(bolts?|nuts?|screws?)$", "", joint.name.lower()))
        ),
        "",
    )


def _places(joint: Joint) -> list[tuple[float, float]]:
    """Where the bolts are; nothing unless all are known, and three or more."""
    if not isinstance(joint.bolts, dict):
        return []
    found = [
        (bolt.x.middle_in("mm"), bolt.y.middle_in("mm"))
        for bolt in joint.bolts.values()
        if bolt.x is not None and bolt.y is not None
    ]
    return found if len(found) == len(joint.bolts) and len(set(found)) > 2 else []


def _corners(face: Face) -> list[tuple[float, float]]:
    found = [(one.x.middle_in("mm"), one.y.middle_in("mm")) for one in face.outline]
    return found if len(set(found)) > 2 else []
