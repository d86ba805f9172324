"""A face as a drawing: what was read on it, on the outline where it was read."""

from collections.abc import Callable, Sequence
from math import dist, inf

from gudgeon.bench.pictures.face import DrawnLine, FacePicture, Ring
from gudgeon.bench.pictures.relief import Relief
from gudgeon.calc.metrology.contour import Spot
from gudgeon.paper.pattern import edges
from gudgeon.paper.svg import ACCENT, INK, PAPER, RULE, SIZE, SOFT, WIDTH, WORDS, Drawing
from gudgeon.paper.svg_marks import badge, scale_bar, stroke_of
from gudgeon.quantity.format import number

_EDGE = 30.0
_TALLEST = 320.0
_BOLT = 3.5
_BADGE = 11.0
_DARKEST = 0.62
Turned = Callable[[Spot], Spot]


def face_svg(of: FacePicture) -> str:
    """The drawing of a face."""
    on = Drawing(f"{of.name}, {of.face}", words=of.words)
    top = on.paragraph((6, 20), of.name, size=17, bold=True, family=WORDS)
    if of.limits:
        top = on.paragraph((6, top), of.limits, fill=SOFT)
    if of.viewed_from:
        top = on.paragraph((6, top), f"Seen from {of.viewed_from}", fill=SOFT)
    placed = _placed(of)
    if placed:
        top = _drawn(on, of, placed, top)
    else:
        top = on.paragraph(
            (6, top + 4),
            "The sheet states no place on this face: its outline, bolts and lines are not drawn.",
        )
    if of.note:
        top = on.paragraph((6, top), of.note)
    if of.relief is not None:
        top = _relief_key(on, of.relief, top)
    on.bottom = _lines_key(on, of.lines, top) + 4
    return on.svg()


def _placed(of: FacePicture) -> list[Spot]:
    """Every point that has to fit on the drawing."""
    spots = list(of.outline)
    for ring in (*of.openings, *of.bolts):
        half = (ring.diameter_mm or 0.0) / 2
        spots += [(ring.x_mm - half, ring.y_mm - half), (ring.x_mm + half, ring.y_mm + half)]
    spots += [end for line in of.lines for end in (line.start, line.end) if end is not None]
    if of.relief is not None:
        spots += [spot for band in of.relief.bands for piece in band.pieces for spot in piece]
    return spots


def _drawn(on: Drawing, of: FacePicture, placed: Sequence[Spot], top: float) -> float:
    left, right = min(x for x, _ in placed), max(x for x, _ in placed)
    low, high = min(y for _, y in placed), max(y for _, y in placed)
    scale = min(
        (WIDTH - 2 * _EDGE) / (right - left) if right > left else inf,
        _TALLEST / (high - low) if high > low else inf,
    )
    if scale == inf:
        scale = 1.0
    tall, shift = (high - low) * scale, (WIDTH - (right - left) * scale) / 2
    named = edges(of.viewed_from)
    top += SIZE * 0.4
    if "top" in named:
        on.text((WIDTH / 2, top + 2), named["top"], anchor="middle", fill=SOFT)
        top += 12
    start = top + 4

    def turned(spot: Spot) -> Spot:
        return shift + (spot[0] - left) * scale, start + (high - spot[1]) * scale

    _base(on, of, turned, scale)
    badges = _lines(on, of, turned)
    if of.relief is not None:
        _heights(on, of, of.relief, turned=turned, badges=badges)
    for side, x, angle in (("left", 12.0, -90.0), ("right", WIDTH - 12.0, 90.0)):
        if side in named:
            on.text((x, start + tall / 2), named[side], anchor="middle", fill=SOFT, turned=angle)
    below = start + tall + 18
    if "bottom" in named:
        on.text((WIDTH / 2, below), named["bottom"], anchor="middle", fill=SOFT)
        below += 18
    return scale_bar(on, scale, top=below + 4)


def _base(on: Drawing, of: FacePicture, turned: Turned, scale: float) -> None:
    """Outline, relief, openings, bolt holes."""
    outline = [turned(one) for one in of.outline]
    if of.relief is not None:
        _bands(on, of.relief, turned, outline)
    if outline:
        on.path([outline], closed=True, fill="none", stroke=INK, stroke_width=1.8, stroke_linejoin="round")
    ground = PAPER if of.relief is not None else "none"
    for ring in of.openings:
        x, y = turned((ring.x_mm, ring.y_mm))
        on.add(
            "circle",
            cx=x,
            cy=y,
            r=(ring.diameter_mm or 0) / 2 * scale,
            fill=ground,
            stroke=RULE,
            stroke_width=1.4,
        )
    for ring in of.bolts:
        x, y = turned((ring.x_mm, ring.y_mm))
        on.add("circle", cx=x, cy=y, r=_BOLT, fill=PAPER, stroke=INK, stroke_width=1.2)


def _bands(on: Drawing, of: Relief, turned: Turned, outline: Sequence[Spot]) -> None:
    """The higher, the more ink, as marking ink on a plate takes the high places first."""
    cut = {"clip_path": on.clip("face", [outline])} if outline else {}
    most = max(len(of.bands) - 1, 1)
    for place, band in enumerate(of.bands):
        shade = _DARKEST * place / most
        pieces = [[turned(spot) for spot in piece] for piece in band.pieces]
        on.path(pieces, closed=True, fill=INK, fill_opacity=shade, **cut)
    for line in of.lines:
        pieces = [[turned(spot) for spot in piece] for piece in line.pieces]
        dashes = {"stroke_dasharray": "5 3"} if line.height < 0 else {}
        width = 2.2 if abs(line.height) < 1e-9 else 1.0
        on.path(pieces, closed=False, fill="none", stroke=INK, stroke_width=width, **dashes, **cut)


def _heights(on: Drawing, of: FacePicture, relief: Relief, *, turned: Turned, badges: Sequence[Spot]) -> None:
    """The height on each line where there is room for it, then the highest and the lowest point."""
    marks = [
        (turned((one.x_mm, one.y_mm)), sign) for one, sign in ((relief.highest, "▲"), (relief.lowest, "▼"))
    ]
    taken = [*(spot for spot, _ in marks), *badges]
    bolts = [(one.x_mm, one.y_mm) for one in of.bolts]
    for line in relief.lines:
        for piece in sorted(line.pieces, key=len, reverse=True)[:2]:
            free = [turned(spot) for spot in piece if _open(spot, of.openings)]
            free = [spot for spot in free if all(dist(spot, turned(bolt)) > 14 for bolt in bolts)]
            best = max(free, key=lambda spot: min(dist(spot, one) for one in taken), default=None)
            if best is None or min(dist(best, one) for one in taken) < 26:
                continue
            taken.append(best)
            said = f"{'+' if line.height > 0 else ''}{number(line.height, decimals=0)}"
            x = min(max(best[0], 1.5 * _EDGE), WIDTH - 1.5 * _EDGE)
            on.text((x, best[1] + 4.5), said, anchor="middle", bold=True, halo=True)
    for (x, y), sign in marks:
        on.text((x, y + 5), sign, size=16, anchor="middle", fill=ACCENT, halo=True)


def _open(spot: Spot, openings: Sequence[Ring]) -> bool:
    """Whether a spot is on the face and not in an opening."""
    return all(dist(spot, (one.x_mm, one.y_mm)) > (one.diameter_mm or 0.0) / 2 for one in openings)


def _lines(on: Drawing, of: FacePicture, turned: Turned) -> list[Spot]:
    """The lines of the straightedge, each with its number; where the numbers stand."""
    drawn = [(one, turned(one.start), turned(one.end)) for one in of.lines if one.start and one.end]
    for one, start, end in drawn:
        on.path([[start, end]], closed=False, **stroke_of(one.verdict))
    bolts = [turned((ring.x_mm, ring.y_mm)) for ring in of.bolts]
    badges: list[Spot] = []
    for one, start, end in drawn:
        badges.append(_free_spot(start, end, [*bolts, *badges]))
        badge(on, badges[-1], said=str(one.number), verdict=one.verdict, radius=_BADGE)
    return badges


def _free_spot(start: Spot, end: Spot, taken: Sequence[Spot]) -> Spot:
    """A place on a line as far as can be from what stands there already; its middle where that is free."""
    shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
    spots = [(start[0] + (end[0] - start[0]) * s, start[1] + (end[1] - start[1]) * s) for s in shares]
    free = [spot for spot in spots if all(dist(spot, one) > 2.4 * _BADGE for one in taken)]
    return free[0] if free else max(spots, key=lambda spot: min(dist(spot, one) for one in taken))


def _relief_key(on: Drawing, of: Relief, top: float) -> float:
    top = on.paragraph((6, top),
        f"Heights in µm over {of.plane}, a line every {of.step}. More ink stands higher; dashed lines lie below the "
        "plane.",
    )  # fmt: skip
    for sign, name, one in (("▲", "highest", of.highest), ("▼", "lowest", of.lowest)):
        on.text((8, top), sign, fill=ACCENT, size=15)
        on.text((28, top), f"{name}: {one.text}", bold=True)
        top += 1.4 * SIZE
    counts = f"{of.points} points were read" + (
        f", {of.drawn} of them are drawn" if of.drawn < of.points else ""
    )
    return on.paragraph((6, top), f"{counts}. Between them the height runs straight.", fill=SOFT) + 4


def _lines_key(on: Drawing, lines: Sequence[DrawnLine], top: float) -> float:
    for one in lines:
        top += 6
        badge(on, (9 + _BADGE, top + 4), said=str(one.number), verdict=one.verdict, radius=_BADGE)
        below = on.paragraph((40, top), one.place, bold=True)
        said = one.verdict if one.verdict == "not measured" else f"{one.reading}: {one.verdict}"
        below = on.paragraph((40, below), said, fill=ACCENT if one.verdict == "outside" else INK)
        if one.start is None:
            below = on.paragraph((40, below), "not drawn: the sheet does not state its ends", fill=SOFT)
        top = max(below, top + 2 * _BADGE + 4)
    return top
