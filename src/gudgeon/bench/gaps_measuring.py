"""What a limit with a shape, a face or a size needs and the sheet does not state: each by name, none filled."""

from collections.abc import Iterator

from gudgeon.sheet.faces import Along
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import (
    AnyShape,
    BetweenCylinders,
    BetweenPlaces,
    ByDirection,
    PerLength,
    PerSpan,
    TwoFaces,
    WholeAndPerLength,
)

Found = Iterator[tuple[str, str, str, str]]
"""Where, what is missing, what cannot be done without it, and the path where it would stand."""

OF_FLATNESS = ("straightedge lines", "heights", "scanned face", "gap")
"""Methods whose readings say how flat something is."""


def measuring_gaps(sheet: DataSheet) -> Found:
    """Every gap of the limits with shapes, of the faces, and of sizes whose material is not stated."""
    for key, item in sheet.characteristics.items():
        for index, shape in enumerate(item.limits, start=1):
            path = f"characteristics.{key}.limits.{index}"
            yield from _limit(sheet, item, shape, path=path)
        yield from _heights(sheet, item, path=f"characteristics.{key}")
    yield from _materials(sheet)


def _limit(sheet: DataSheet, item: Characteristic, shape: AnyShape, *, path: str) -> Found:
    if shape.of_flatness and item.method not in OF_FLATNESS:
        therefore = f"`{shape.shape}` cannot be judged: `{item.method}` reads no flatness"
        yield item.name, f"no method for {shape.shape}", therefore, path
    elif isinstance(shape, ByDirection):
        yield from _directions(sheet, item, shape, path=path)
    elif isinstance(shape, PerLength | WholeAndPerLength):
        therefore = f"cannot say whether it is longer than {shape.over.value.text}"
        yield from _lengths(sheet, item, therefore)
    elif isinstance(shape, PerSpan) and shape.span is None and not _levels(sheet, item):
        yield from _spans(sheet, item, path=path)
    elif isinstance(shape, TwoFaces) and sheet.characteristics[shape.other].method not in OF_FLATNESS:
        other = sheet.characteristics[shape.other]
        yield item.name, f"no flatness of {other.name.lower()}", "the two faces cannot be added", path
    elif isinstance(shape, BetweenCylinders) and "cylinder" not in _divisions(sheet, item):
        yield item.name, "no places by cylinder", "cylinders cannot be compared", path
    elif isinstance(shape, BetweenPlaces) and not item.computed and not item.places:
        yield item.name, "no places", "nothing can be compared", path


def _directions(sheet: DataSheet, item: Characteristic, shape: ByDirection, *, path: str) -> Found:
    """A limit for a direction needs lines that run that way."""
    face = sheet.faces.get(item.face or "")
    lines = face.lines.values() if face is not None else ()
    wanted: tuple[tuple[str, Along], ...] = (("lengthwise", "lengthwise"), ("crosswise", "crosswise"))
    for name, along in wanted:
        if getattr(shape, name) is not None and not any(line.along == along for line in lines):
            therefore = f"the limit {name} cannot be judged"
            yield item.name, f"no line that is said to run {name}", therefore, f"{path}.{name}"


def _spans(sheet: DataSheet, item: Characteristic, *, path: str) -> Found:
    face = sheet.faces.get(item.face or "")
    if face is None or not face.lines:
        yield item.name, "no span", "a limit per unit of span cannot be worked out", f"{path}.span"
    else:
        yield from _lengths(sheet, item, "its limit per unit of span cannot be worked out")


def _lengths(sheet: DataSheet, item: Characteristic, therefore: str) -> Found:
    """Lines of its face whose length is neither stated nor between two ends."""
    face = sheet.faces.get(item.face or "")
    if face is None or item.method != "straightedge lines":
        return
    for name, line in face.lines.items():
        if name in item.places and line.length_mm() is None:
            where = f"faces.{item.face}.lines.{name}.length"
            yield item.name, f"no length of the line {name}", therefore, where


def _levels(sheet: DataSheet, item: Characteristic) -> bool:
    """Whether the heights at which it is read are told: its own, or of what it is worked out from."""
    return bool(item.at_heights) or any(sheet.characteristics[key].at_heights for key in item.of)


def _divisions(sheet: DataSheet, item: Characteristic) -> set[str]:
    """Into what its places are divided; a computed one has those of what it is worked out from."""
    read = (item, *(sheet.characteristics[key] for key in item.of)) if item.computed else (item,)
    return {name for one in read if isinstance(one.places, dict) for name in one.places}


def _heights(sheet: DataSheet, item: Characteristic, *, path: str) -> Found:
    """Heights over a plate need the place of each point; a height of a bore that is not told is named."""
    face = sheet.faces.get(item.face or "")
    if item.method == "heights" and (face is None or len(face.points) < 3):
        yield item.name, "no three points with their places", "flatness cannot be worked out", f"{path}.face"
    if item.at_heights and isinstance(item.places, dict):
        for group in item.places.values():
            untold = [name for name in group if name not in item.at_heights]
            if untold and len(untold) < len(group):
                yield (
                    item.name,
                    f"no height of {', '.join(untold)}",
                    "no taper per length from there",
                    f"{path}.at_heights",
                )


def _materials(sheet: DataSheet) -> Found:
    """Sizes whose material is not stated, all in one line."""
    names = [
        item.name
        for item in sheet.characteristics.values()
        if item.kind == "length" and not item.computed and item.material is None
    ]
    if names:
        therefore = "a size read in a cold or a warm garage cannot be brought to 20 °C"
        yield "characteristics", f"no material of {_listed(names)}", therefore, "characteristics"


def _listed(names: list[str]) -> str:
    shown = [name[:1].lower() + name[1:] for name in names[:3]]
    more = len(names) - len(shown)
    return f"{', '.join(shown)} and {more} more" if more > 0 else ", ".join(shown)
