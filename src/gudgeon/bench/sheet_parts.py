"""One part of the data sheet read for people: its figures as printed, its words, what it could state and does not."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel

from gudgeon.bench.reason import WORDS as DUE_WORDS
from gudgeon.bench.sheet_faces import FACE_FACTS, face_facts
from gudgeon.quantity.written import Printed
from gudgeon.sheet.faces import Face
from gudgeon.sheet.figures import Cited, Sourced, Stated
from gudgeon.sheet.inspections import Characteristic, place_names
from gudgeon.sheet.joints import Bolt, Joint, Stage
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.parts import StatedUse
from gudgeon.sheet.reuse import Reuse
from gudgeon.sheet.shapes import Shape
from gudgeon.sheet.write import is_figure
from gudgeon.written.located import Path

WORDS = {
    "rod_length": "Connecting rod length",
    "piston_height": "Piston height at top dead center",
    "gasket_bore": "Bore of the gasket",
    "gasket_thickness": "Thickness of the gasket, tightened",
    "chamber_mouth_area": "Area of the chamber mouth",
    "squish_pad_recess": "Recess of the squish pads",
    "least_squish": "Least squish",
    "most_off": "Most that may come off",
    "required": "Required as assembled",
    "into": "Screwed into",
    "x": "center, across",
    "y": "center, up",
    "of": "Worked out from",
    "between": "Clearance between",
    "called": "Fastener called",
    "one_time": "Renewed every time",
    "reuse": "Using the fasteners again",
    "doubt": "A bolt in doubt",
    "before_work": "Before the work",
    "does_not_have": "It does not have",
    "code_is_read": "Where its code is read",
    "due_before": "Due before",
    "bearing_diameter": "bearing diameter",
    "twelve_oclock": "12 o'clock on the painted line",
    "loosening_cold": "Loosened cold only",
    "loosening_order": "Order of loosening",
    "other": "together with",
    "face": "On the face",
    "instead": "May be read in its place",
    "accept": "How it is accepted",
    "accept_why": "Why as read",
    "at_heights": "Heights",
    "bolts_of": "Its bolts",
    "bedding": "Bedding of the clamped part",
    "yield_strength": "yield strength",
}
QUANTITY_WORDS = {"pressure_gauge": "pressure above that of the air"}
LEFT_OUT = {"name", "source", "part", "title", "edition", "photos", "shape"}
KEYS = (
    "of", "between", "measured_as", "keyless", "path", "face", "instead", "other", "bolts_of", "pits", "cam_tunnel",
    "crank_stops", "clearance", "shim", "margin", "lobe", "bore", "journal", "ring_gaps", "ring_bore", "pistons",
    "rods", "cranking_pressure", "wet", "leak_down", "tensioner",
)  # fmt: skip
"""Fields that name other parts of the sheet by their keys."""


@dataclass(frozen=True, slots=True)
class PlainFigure:
    """A figure of a part: where it stands, its name within the part, what is printed, who says so."""

    path: Path
    name: str
    printed: str
    note: str
    cited: Cited | None


@dataclass(slots=True)
class PartContent:
    """What was found in a part."""

    figures: list[PlainFigure] = field(default_factory=list)
    facts: list[tuple[str, str]] = field(default_factory=list)
    empty: list[tuple[Path, str]] = field(default_factory=list)


def label(name: str) -> str:
    """A field in words."""
    said = WORDS.get(name, name.replace("_", " "))
    return said[0].upper() + said[1:]


def part_content(part: BaseModel, path: Path, sheet: DataSheet) -> PartContent:
    """Everything that a part states, and the figures that it could state."""
    found = PartContent()
    around = part.source if isinstance(part, Sourced) else None
    _read(part, path, around, "", sheet, found)
    if isinstance(part, Joint):
        found.figures.sort(key=lambda one: one.path[2] not in ("program", "total_turn"))
    return found


def empty_content(model: type[BaseModel], path: Path) -> PartContent:
    """A part that the sheet does not have: only figures that it could state."""
    return PartContent(empty=list(_unstated(model, path, "", frozenset(model.model_fields))))


def _read(
    part: BaseModel, path: Path, around: Cited | None, before: str, sheet: DataSheet, found: PartContent
) -> None:
    """Read a section; `before` are the words that its figures carry in front, as `Fastener, `."""
    unstated = set()
    for name, model_field in type(part).model_fields.items():
        value = getattr(part, name)
        inner = (*path, model_field.alias or name)
        words = _joined(before, label(name))
        if value is None or value == ():
            unstated.add(name)
        elif isinstance(value, Stated):
            _stated(value, inner, around, words, found)
        elif isinstance(value, StatedUse):
            source = value.source or around
            found.figures.append(PlainFigure(inner, words, value.value.text, value.note or "", source))
        elif isinstance(value, Printed):
            found.figures.append(PlainFigure(inner, words, value.text, "", around))
        elif isinstance(part, Face) and name in FACE_FACTS:
            found.facts.extend(face_facts(part, name))
        elif name in ("program", "loosening"):
            for number, stage in enumerate(value):
                found.figures.append(_stage(stage, (*inner, number), number + 1, name, around))
        elif isinstance(value, BaseModel):
            own = value.source if isinstance(value, Sourced) else None
            _read(value, inner, own or around, words, sheet, found)
        elif isinstance(value, tuple) and isinstance(value[0], BaseModel) and name != "also_by":
            for index, one in enumerate(value):
                _read(one, (*inner, index), around, _numbered(one, words, index + 1), sheet, found)
        elif name == "at_heights":
            depths = ", ".join(f"{place} {height.text}" for place, height in value.items())
            found.facts.extend([(words, depths)] if depths else [])
        elif isinstance(value, dict) and name not in ("bolts", "places"):
            _named(value, inner, around, words, sheet, found)
        elif name not in LEFT_OUT:
            found.facts.extend(_facts(part, name, words, sheet))
    unstated -= _not_asked(part)
    found.empty.extend(_unstated(type(part), path, before, frozenset(unstated)))


def _joined(before: str, words: str) -> str:
    return f"{before}, {words[0].lower()}{words[1:]}" if before else words


def _numbered(one: BaseModel, words: str, number: int) -> str:
    """One of several under a heading: by its name where it has one, else by its number."""
    called = getattr(one, "name", None)
    if isinstance(one, Shape):
        return f"{words.removesuffix('s')}, {one.shape}"
    return f"{words}, {called}" if isinstance(called, str) else f"{words} {number}"


def _stated(value: Stated, path: Path, around: Cited | None, words: str, found: PartContent) -> None:
    note = value.note or ""
    found.figures.append(PlainFigure(path, words, value.value.text, note, value.source or around))
    for index, again in enumerate(value.also):
        name = f"{words}, as another page prints it"
        found.figures.append(
            PlainFigure((*path, "also", index), name, again.value.text, again.note or "", again.source)
        )


def _named(
    values: Mapping[str, Any],
    path: Path,
    around: Cited | None,
    words: str,
    sheet: DataSheet,
    found: PartContent,
) -> None:
    """Figures or sections under names of their own: grades, families, wheels."""
    for key, value in values.items():
        called = getattr(value, "name", None)
        name = called if isinstance(called, str) else f"{words.removesuffix('s')} {key}"
        if isinstance(value, Stated):
            _stated(value, (*path, key), around, name, found)
        elif isinstance(value, BaseModel):
            _read(value, (*path, key), around, name, sheet, found)


def _stage(stage: Stage, path: Path, number: int, of: str, around: Cited | None) -> PlainFigure:
    kind = stage.kind
    printed = stage.figure.text if stage.figure is not None else str(stage.loosen or stage.hand_run or "")
    narrowed = []
    if stage.only:
        narrowed.append(f"only {', '.join(stage.only)}")
    if stage.family:
        narrowed.append(f"family {stage.family}")
    if stage.order == "reversed" or (kind == "loosen" and stage.order is None):
        narrowed.append("in reversed order")
    elif stage.order == "free":
        narrowed.append("in any order")
    if stage.repeat > 1:
        narrowed.append(f"{stage.repeat} passes")
    if stage.for_bolts:
        narrowed.append(f"for {stage.for_bolts} bolts")
    words = f"{'Stage' if of == 'program' else 'Loosening, stage'} {number}: {kind}"
    return PlainFigure((*path, kind), ", ".join([words, *narrowed]), printed, stage.note or "", around)


def _facts(part: BaseModel, name: str, words: str, sheet: DataSheet) -> Iterator[tuple[str, str]]:
    """What a part says in words."""
    value = getattr(part, name)
    if name == "places" and isinstance(part, Characteristic):
        places = place_names(part)
        shown = "; ".join(places) if len(places) <= 6 else f"{len(places)}, from {places[0]} to {places[-1]}"
        yield "Places", shown
    elif name == "bolts" and isinstance(part, Joint):
        yield "Bolts", str(len(part.bolt_names))
        yield from (
            (f"Bolt {bolt}", said) for bolt in part.bolt_names if (said := bolt_place(part.bolt(bolt)))
        )
    elif name in KEYS:
        keys = (value,) if isinstance(value, str) else value
        yield (
            words,
            ("; " if name == "path" else " and ").join(_called(key, field=name, sheet=sheet) for key in keys),
        )
    elif name == "due_before":
        yield "Due before", f"you {DUE_WORDS[value]}"
    elif name == "quantity":
        yield words, QUANTITY_WORDS.get(value, str(value).replace("_", " "))
    elif isinstance(value, bool):
        if value != type(part).model_fields[name].default:
            yield words, "yes" if value else "no"
    elif isinstance(value, tuple):
        yield words, ("–" if name in ("order", "firing_order") else "; ").join(map(str, value))
    else:
        yield words, str(value)


def _called(key: str, *, field: str, sheet: DataSheet) -> str:
    """What the sheet calls a part of it that a field names by its key: a wheel, a face, a joint, a characteristic."""
    wheels = sheet.drive.wheels if sheet.drive is not None else {}
    of_field: dict[str, Mapping[str, Any]] = {"face": sheet.faces, "bolts_of": sheet.joints}
    held = of_field.get(field, {**wheels, **sheet.characteristics})
    return str(held[key].name) if key in held else key.replace("_", " ")


def bolt_place(bolt: Bolt) -> str:
    """Where a bolt stands: in words, and its coordinates as the sheet gives them."""
    at = [f"{axis} {value.text}" for axis, value in (("x", bolt.x), ("y", bolt.y)) if value is not None]
    said = [bolt.where or "", f"family {bolt.family}" if bolt.family else "", ", ".join(at)]
    return "; ".join(filter(None, said))


def _not_asked(part: BaseModel) -> set[str]:
    """A setting has no wear limit, what wears has no setting; a total or a limit only where one is needed."""
    if isinstance(part, Characteristic):
        if part.required is not None:
            return {"new_range", "wear_limit"}
        return {"required"} if part.new_range is not None or part.wear_limit is not None else set()
    if isinstance(part, Joint):
        return set() if any(stage.turn is not None for stage in part.program) else {"total_turn"}
    if isinstance(part, Reuse):
        asked = {
            "free length": "limit",
            "least diameter": "limit",
            "difference of two diameters": "difference",
        }
        return {"limit", "difference"} - {asked.get(part.rule, "")}
    return set()


def _unstated(
    model: type[BaseModel], path: Path, before: str, names: frozenset[str]
) -> Iterator[tuple[Path, str]]:
    for name, model_field in model.model_fields.items():
        inner = (*path, model_field.alias or name)
        if name in names and not issubclass(model, Stage | Bolt) and is_figure(inner):
            yield inner, _joined(before, label(name))
