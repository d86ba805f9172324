"""Where does every hole stand? Traced from a photo in which four points or more are known."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.pin_items import standing_photo
from gudgeon.bench.template.errors import (
    KnownPointsDisagree,
    KnownTooSmall,
    NothingTraced,
    OffThePhoto,
    PlaceTwice,
    PlaceUnreadable,
    SidesDisagree,
    TracedTooCoarsely,
)
from gudgeon.bench.template.positions import MOST_MM, USEFUL_MM, pair
from gudgeon.bench.template.template import check_apart, check_names
from gudgeon.calc.template.homography import Known, Traced, Tracing, trace
from gudgeon.calc.template.view import view
from gudgeon.quantity.units import convert
from gudgeon.sheet.joints import Joint

LEAST_KNOWN_MM = 20.0
"""A shorter side of the known points was typed in another unit, or is too short to trace a part of an engine from:
common practice, no source."""
MOST_STRETCH = 0.25
"""How much longer one way a camera may seem to see the known points, for want of exact picks and of an uncropped photo:
common practice, no source. Tried: tilted by 45°, cropped by a fifth, or picked 4 px off, it is 0.1 at most."""
ASKEW_DEG = 45.0
PICKED_SHARE = 2000
"""So fine a part of its longer side a photo is pointed at, as standard uncertainty: common practice, no source."""
RULER_MM = 0.29
"""Of a distance read to the nearest millimeter: half a millimeter to either side, over the root of three
(JCGM 100:2008, 4.3.7)."""
CORNER_FORM, PLACE_FORM = "120,340=0,0", "1=640,480"
CORNER_NAMES = ("lower left", "lower right", "upper right", "upper left")


@dataclass(frozen=True, slots=True)
class PhotoSize:
    """A photo, by what it is called, and how many pixels it has as it stands upright."""

    called: str
    width: int
    height: int
    sha: str = ""


@dataclass(frozen=True, slots=True)
class TraceSaid:
    """What was pointed at: known points and places by name, in pixels from the upper left corner."""

    joint: str
    known: Sequence[Known]
    places: Mapping[str, tuple[float, float]]
    viewed_from: str = ""
    pick_px: float | None = None
    ruler_mm: float = RULER_MM


@dataclass(frozen=True, slots=True)
class TraceAnswer:
    """Traced places [mm], to the right and up from the zero of the known points, and what is to be said of them."""

    heading: Heading
    joint: str
    name: str
    photo: str
    viewed_from: str
    pick_px: float
    places: tuple[Traced, ...]
    residual_mm: float
    remarks: tuple[str, ...]

    @property
    def worst_mm(self) -> float:
        """How far off the worst place may be."""
        return max(one.off_mm for one in self.places)


def photo_of(bench: Bench, said: str) -> PhotoSize:
    """A photo of the book by its number or its hash, else a file."""
    from gudgeon.book.pictures import clean_picture, read_picture_file
    from gudgeon.written.errors import FileMissing

    if re.fullmatch(r"\d{1,7}", said, re.ASCII):
        found = (
            one.body["sha"] for one in entries_of(bench) if one.kind == "photo" and one.number == int(said)
        )
        return photo_in_book(bench, next(found, said))
    if re.fullmatch(r"[0-9a-f]{8}|[0-9a-f]{64}", said):
        return photo_in_book(bench, said)
    path = Path(said).expanduser()
    if not path.is_file():
        raise FileMissing(said)
    picture = clean_picture(read_picture_file(path), name=path.name)
    return PhotoSize(path.name, picture.width, picture.height)


def photo_in_book(bench: Bench, sha: str) -> PhotoSize:
    """A photo of the book by its hash."""
    photo = standing_photo(bench, sha)
    return PhotoSize(f"“{photo.caption}”", photo.width, photo.height, photo.sha)


def known_said(said: Sequence[str], *, unit: str = "mm") -> list[Known]:
    """Known points as they are typed: pixels, `=`, and the true place in the unit given."""
    known = []
    for number, one in enumerate(said, 1):
        photo, equals, true = one.partition("=")
        if not equals:
            raise PlaceUnreadable(one, CORNER_FORM)
        x, y = pair(true, of=one, form=CORNER_FORM)
        x, y = (convert(value, frm=unit, to="mm", kind="length") for value in (x, y))
        known.append(Known(str(number), pair(photo, of=one, form=CORNER_FORM), (x, y)))
    return known


def places_said(said: Sequence[str]) -> dict[str, tuple[float, float]]:
    """Places as they are typed: the number of the fastener, `=`, and its pixels."""
    places = {}
    for one in said:
        name, equals, where = one.rpartition("=")
        if not (equals and name.strip()):
            raise PlaceUnreadable(one, PLACE_FORM)
        if name.strip() in places:
            raise PlaceTwice(name.strip())
        places[name.strip()] = pair(where, of=one, form=PLACE_FORM)
    return places


def traced(bench: Bench, photo: PhotoSize, said: TraceSaid) -> TraceAnswer:
    """Places in mm from what was pointed at, each with how far off it may be; what is too coarse is refused."""
    joint = joint_of(bench.sheet, said.joint)
    if not said.places:
        raise NothingTraced(joint.bolt_names)
    check_names(joint, tuple(said.places))
    for what, spot in (
        *((f"Known point {one.name}", one.photo_px) for one in said.known),
        *((f"Place {name}", spot) for name, spot in said.places.items()),
    ):
        if not (0 <= spot[0] <= photo.width and 0 <= spot[1] <= photo.height):
            raise OffThePhoto(what, f"{spot[0]:g},{spot[1]:g}", f"{photo.width} × {photo.height}")
    _check_known(said.known)
    usual = max(1.0, max(photo.width, photo.height) / PICKED_SHARE)
    pick = said.pick_px if said.pick_px is not None else usual
    found = trace(said.known, places=tuple(said.places.items()), pick_px=pick, known_off_mm=said.ruler_mm)
    if found.residual_mm > MOST_MM:
        raise KnownPointsDisagree(found.residual_mm, MOST_MM)
    look = view(said.known, width_px=photo.width, height_px=photo.height)
    if look.stretch > MOST_STRETCH:
        raise SidesDisagree(look.stretch, MOST_STRETCH)
    worst = max(found.places, key=lambda one: one.off_mm)
    if worst.off_mm > MOST_MM:
        raise TracedTooCoarsely(worst.name, worst.off_mm, MOST_MM)
    check_apart({one.name: (one.x_mm, one.y_mm) for one in found.places})
    return TraceAnswer(
        bench.heading("Photos"),
        said.joint,
        joint.name,
        photo.called,
        said.viewed_from or joint.viewed_from or "",
        pick,
        found.places,
        found.residual_mm,
        tuple(_remarks(joint, said, found, turn_deg=look.turn_deg)),
    )


def _check_known(known: Sequence[Known]) -> None:
    """Refuse known points that reach less far than anything that is traced; too few are refused with the map."""
    if len(known) < 4:
        return
    wide, high = (max(one) - min(one) for one in zip(*(point.true_mm for point in known), strict=True))
    if min(wide, high) < LEAST_KNOWN_MM:
        raise KnownTooSmall(wide, high, LEAST_KNOWN_MM)


def _remarks(joint: Joint, said: TraceSaid, found: Tracing, *, turn_deg: float) -> Iterator[str]:
    coarse = [f"{one.name} (± {one.off_mm:.1f} mm)" for one in found.places if one.off_mm > USEFUL_MM]
    if len(coarse) == len(found.places) > 1:
        coarse = [f"all of them (up to ± {max(one.off_mm for one in found.places):.1f} mm)"]
    if coarse:
        yield (
            f"Too coarse for a bolt to find its hole, off by more than {USEFUL_MM:g} mm: {', '.join(coarse)}. Point "
            "more exactly, or take the photo from nearer, straight from above and with the known points around it."
        )
    if found.residual_mm > USEFUL_MM:
        yield (
            f"The known points contradict each other by {found.residual_mm:.1f} mm: measure them again, or point at "
            "them again."
        )
    if abs(turn_deg) > ASKEW_DEG:
        yield (
            f"The known points lie turned by {abs(turn_deg):.0f}° in the photo, and so does the template against it: "
            "name the sides as the template shows them, not as the photo does."
        )
    missing = [name for name in joint.bolt_names if name not in said.places]
    if missing:
        yield f"Not pointed at yet: {', '.join(missing)}."
    if not (said.viewed_from or joint.viewed_from):
        yield "Nothing says from which side the photo was taken: say it, or the template could be laid on upside down."
    yield (
        "Only what lies in the plane of the known points is traced true: point at the holes of the bare face, not at "
        "the heads of bolts, which stand above it and seem to lie farther from the camera's middle."
    )
