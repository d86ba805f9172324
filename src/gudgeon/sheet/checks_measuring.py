"""What cannot be right in what is measured and limited: names that lead nowhere, limits that contradict themselves."""

from collections.abc import Iterator

from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic, read_on
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import BetweenPlaces, Matched, Shape, SumWith, TwoFaces
from gudgeon.sources.materials import is_material, material_names
from gudgeon.written.check import unknown
from gudgeon.written.located import Path

Found = Iterator[tuple[Path, str]]

_NEEDED = {"difference": 2, "out-of-round": 1, "taper": 1}
"""How many other characteristics a method works out its value from."""


def measuring_findings(sheet: DataSheet) -> Found:
    """Everything that characteristics and faces get wrong in themselves."""
    for key, face in sheet.faces.items():
        if face.bolts_of is not None and face.bolts_of not in sheet.joints:
            path: Path = ("faces", key, "bolts_of")
            yield path, unknown("joint", value=face.bolts_of, known=sheet.joints)
    for key, item in sheet.characteristics.items():
        path = ("characteristics", key)
        yield from _names(path, item, sheet)
        yield from _method(path, item)
        if key in _worked_out_from(item, sheet):
            yield (*path, "of"), f"`{key}` is worked out from itself. Name what is measured in `of:`."
        yield from _on_face(path, item, sheet)
        yield from _heights(path, item)
        for index, shape in enumerate(item.limits):
            inner: Path = (*path, "limits", index)
            yield from _sides(inner, shape)
            yield from _shape(inner, shape, item, key)


def _names(path: Path, item: Characteristic, sheet: DataSheet) -> Found:
    """Everything that names another part of the sheet, or a material, names one that is there."""
    known = sheet.characteristics
    for part, names in (("of", item.of), ("between", item.between or ())):
        for index, name in enumerate(names):
            if name not in known:
                yield (*path, part, index), unknown("characteristic", value=name, known=known)
    if item.instead is not None and item.instead not in known:
        yield (*path, "instead"), unknown("characteristic", value=item.instead, known=known)
    elif item.instead is not None and known[item.instead] is item:
        yield (*path, "instead"), "A characteristic cannot be taken in its own place: name another one."
    for index, shape in enumerate(item.limits):
        if isinstance(shape, TwoFaces | SumWith) and shape.other not in known:
            place = (*path, "limits", index, "with")
            yield place, unknown("characteristic", value=shape.other, known=known)
    if item.face is not None and item.face not in sheet.faces:
        yield (*path, "face"), unknown("face", value=item.face, known=sheet.faces)
    if item.material is not None and not is_material(item.material):
        yield (*path, "material"), unknown("material", value=item.material, known=material_names())


def _worked_out_from(item: Characteristic, sheet: DataSheet) -> set[str]:
    """Everything that a characteristic is worked out from, by however many steps."""
    found: set[str] = set()
    ahead = list(item.of)
    while ahead:
        key = ahead.pop()
        if key not in found and key in sheet.characteristics:
            found.add(key)
            ahead += sheet.characteristics[key].of
    return found


def _method(path: Path, item: Characteristic) -> Found:
    needed = _NEEDED.get(item.method)
    if needed is not None and len(item.of) != needed:
        yield (
            path,
            f"`{item.method}` is worked out from {needed} other characteristic(s): name them in `of:`.",
        )
    if item.wear_limit is not None and item.wear_limit.value.spans[0].single:
        yield (*path, "wear_limit"), _no_side(item.wear_limit)
    if item.accept == "as read" and item.accept_why is None:
        yield (
            (*path, "accept"),
            "`as read` leaves out the doubt of the reading: say in `accept_why:` why the maker's limit allows it, "
            "or take the line out.",
        )


def _on_face(path: Path, item: Characteristic, sheet: DataSheet) -> Found:
    """Places of a characteristic that names a face are lines, or points, of that face."""
    face = sheet.faces.get(item.face or "")
    if face is None:
        return
    what = "point" if item.method == "heights" else "line"
    there = read_on(item, face=face)
    if isinstance(item.places, dict) and there:
        yield (
            (*path, "places"),
            f"On a face the places are its {what}s: write them as one list, or leave them out.",
        )
        return
    for index, name in enumerate(item.places):
        if there and name not in there:
            yield (*path, "places", index), unknown(f"{what} of the face", value=str(name), known=there)


def _heights(path: Path, item: Characteristic) -> Found:
    """The heights that are told are places of the characteristic, and no two of them are one."""
    named = (
        {name for group in item.places.values() for name in group} if isinstance(item.places, dict) else set()
    )
    known = named or set(item.places)
    seen: dict[float, str] = {}
    for name, height in item.at_heights.items():
        place = (*path, "at_heights", name)
        if name not in known:
            yield place, unknown("place of this characteristic", value=name, known=known)
        if not height.first.single:
            yield place, f"`{height.text}` is no single height. Write it like `60 mm`."
            continue
        if height.in_unit("mm") in seen:
            yield (
                place,
                f"`{seen[height.in_unit('mm')]}` and `{name}` lie at one height ({height.text}). Look again.",
            )
        seen[height.in_unit("mm")] = name


def _sides(path: Path, shape: Shape) -> Found:
    """Every figure of a limit says on which side it limits, and what it limits by is one length."""
    for name, figure in shape.limiting().items():
        span = figure.value.first
        percent = name.startswith("percent")
        if span.single and not percent:
            yield (*path, name), _no_side(figure)
        elif percent:
            yield from _percent((*path, name), name, figure)
        elif span.high is None and not isinstance(shape, SumWith | Matched):
            yield (
                (*path, name),
                f"`{figure.value.text}` limits downward, and `{shape.shape}` is a limit upward. Write `max …`.",
            )
    for name in shape.spans:
        length = getattr(shape, name, None)
        if length is not None and not (length.value.first.single and length.value.middle_in("mm") > 0):
            yield (
                (*path, name),
                f"`{length.value.text}` is no single length above zero. Write it like `150 mm`.",
            )


def _percent(path: Path, name: str, figure: Stated) -> Found:
    """A share of the highest may say what must be reached or what may be lacking; below the mean only the latter."""
    span = figure.value.first
    if name == "percent_below_mean" and span.high is None:
        yield path, f"`{figure.value.text}`: `{name}` is the most that it may be. Write `max …`."
        return
    end = span.low if span.low is not None else span.high
    assert end is not None  # a span has at least one end
    share = end.to("1")
    if not 0 < share <= 1:
        yield (
            path,
            f"`{figure.value.text}` is {100 * share:g} %: a share lies above 0 % and up to 100 %. Write `75 %`.",
        )


def _shape(path: Path, shape: Shape, item: Characteristic, key: str) -> Found:
    if isinstance(shape, TwoFaces | SumWith) and shape.other == key:
        what = "faces" if isinstance(shape, TwoFaces) else "parts"
        yield (
            (*path, "with"),
            f"Two {what} are added, and `{key}` is the one it stands in: name the other one.",
        )
    if isinstance(shape, BetweenPlaces) and shape.within is not None:
        divisions = tuple(item.places) if isinstance(item.places, dict) else ()
        if shape.within not in divisions:
            yield (*path, "within"), unknown("division of the places", value=shape.within, known=divisions)
    if isinstance(shape, Matched) and item.method != "difference":
        yield (
            path,
            "`matched pairs` finds the part that fits each place: it belongs to a `method: difference` whose `of:` "
            f"names the two parts, not to `{item.method}`.",
        )


def _no_side(figure: Stated) -> str:
    return f"`{figure.value.text}` does not say on which side it limits. Write `max …` or `min …`."
