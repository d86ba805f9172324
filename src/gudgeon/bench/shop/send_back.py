"""The figures that the shop sends back with a part, each with the place for it in the book."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.shop.found import PartKind, face_key
from gudgeon.sheet.inspections import place_names


@dataclass(frozen=True, slots=True)
class Figure:
    """One thing to send back: where it is read, how, and the command that keeps it, where the book has a place."""

    what: str
    places: tuple[str, ...]
    how: str
    command: str


def send_back(bench: Bench, *, part: PartKind) -> tuple[Figure, ...]:
    """Everything that has to come back in figures, not in words like “fine”."""
    figures = [
        Figure("How much came off", (), "in all, and from which face the part was set up", ""),
        *_heights(bench, part),
        *_flatness(bench, part),
        _finish(bench, part),
        *_of_head(bench, part),
        Figure(
            "Test for cracks",
            (),
            "which test, at which pressure and warm or cold, and what it showed",
            "gudgeon record hold head_tested …" if part == "head" else "",
        ),
    ]
    return tuple(figures)


def _heights(bench: Bench, part: PartKind) -> list[Figure]:
    head = bench.sheet.head
    key = head.measured_as if head is not None and part == "head" else None
    item = bench.sheet.characteristics.get(key or "")
    if key is None or item is None:
        return [Figure("Height before and after the cut", (), "at the same places, and say which places", "")]
    how = f"as left, at the same places{f': {item.how}' if item.how else ''}"
    return [Figure(item.name, _named(place_names(item)), how, f"gudgeon record reading {key}")]


def _flatness(bench: Bench, part: PartKind) -> list[Figure]:
    key = face_key(bench, part=part)
    if key is None:
        return [Figure("Flatness of the face", (), "as left, and how it was read", "")]
    item = bench.sheet.characteristics[key]
    return [
        Figure(
            item.name,
            _named(place_names(item)),
            "as left, on the same lines",
            f"gudgeon record reading {key}",
        )
    ]


def roughness_key(bench: Bench, *, part: PartKind) -> str | None:
    """The characteristic that holds the roughness of the face, where the sheet has one."""
    face = face_key(bench, part=part)
    of_face = bench.sheet.characteristics[face] if face is not None else None
    for key, item in bench.sheet.characteristics.items():
        same = of_face is not None and item.part == of_face.part and item.face in (None, of_face.face)
        if item.kind == "roughness" and same:
            return key
    return None


def _finish(bench: Bench, part: PartKind) -> Figure:
    key = roughness_key(bench, part=part)
    return Figure(
        "Roughness Ra of the face",
        (),
        "measured, not by feel; across the marks of the cutter",
        f"gudgeon record reading {key}" if key is not None else "",
    )


def _of_head(bench: Bench, part: PartKind) -> list[Figure]:
    if part != "head":
        return []
    figures = []
    cylinder, head = bench.sheet.cylinder, bench.sheet.head
    chamber = cylinder.measured_as.get("chamber_volume") if cylinder is not None else None
    command = f"gudgeon record reading {chamber}" if chamber in bench.sheet.characteristics else ""
    figures.append(
        Figure(
            "Depth or volume of each chamber", (), "after the cut, valves and plug in for a volume", command
        )
    )
    tunnel = bench.sheet.characteristics.get((head.cam_tunnel if head is not None else None) or "")
    if tunnel is not None and head is not None:
        figures.append(
            Figure(
                tunnel.name, (), "caps at their torque; does each camshaft turn by hand?",
                f"gudgeon record reading {head.cam_tunnel}",
            )
        )  # fmt: skip
    elif not bench.sheet.lacks("overhead cam"):
        figures.append(Figure("Cam tunnel", (), "caps at their torque; does each camshaft turn by hand?", ""))
    return figures


def _named(places: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(place for place in places if place)
