"""A tall drawing in pieces that stand side by side: cut only where nothing is drawn."""

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element, fromstring, register_namespace, tostring

register_namespace("", "http://www.w3.org/2000/svg")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_COMMAND = re.compile(r"([MLAZ])([^MLAZ]*)")
_HEAD = re.compile(r'viewBox="0 [\d.]+ ([\d.]+) ([\d.]+)"')
_LETTERS_BELOW = 0.3
"""How far letters reach below their line, as a share of their size."""


_NEARER = 0.05
"""How much wider a gap has to be that lies one unit farther off."""


def size_of(svg: str) -> tuple[float, float]:
    """Width and height of a drawing of ours."""
    found = _HEAD.search(svg)
    assert found is not None, "a drawing without a size"
    return float(found[1]), float(found[2])


def slices(svg: str, *, most_high: float, most: int = 2) -> tuple[str, ...]:
    """The drawing in at most so many pieces of about one height; in one where no clean cut is found."""
    _, high = size_of(svg)
    pieces = min(most, -(-high // most_high))
    if pieces < 2:
        return (svg,)
    whole = fromstring(svg)
    gaps = list(_gaps(whole))
    cuts = [0.0]
    for number in range(1, int(pieces)):
        wanted = number * high / pieces
        near = [gap for gap in gaps if abs(sum(gap) / 2 - wanted) < 0.3 * high / pieces]
        if not near:
            return (svg,)
        widest = max(near, key=lambda gap: gap[1] - gap[0] - _NEARER * abs(sum(gap) / 2 - wanted))
        cuts.append(sum(widest) / 2)
    return tuple(_piece(whole, top, end) for top, end in zip(cuts, [*cuts[1:], high], strict=True))


def _piece(whole: Element, top: float, end: float) -> str:
    """What is drawn between two heights, and what belongs to all of it: title, words, borders, ground."""
    high = f"{end - top:g}"
    said = {**whole.attrib, "viewBox": f"0 {top:g} {whole.attrib['width']} {high}", "height": high}
    piece = Element(whole.tag, said)
    for one in whole:
        span = _span(one)
        if span is None or (span[0] < end and span[1] > top):
            piece.append(one)
    return tostring(piece, encoding="unicode")


def _gaps(whole: Element) -> Iterator[tuple[float, float]]:
    """From where to where nothing is drawn."""
    reach = 0.0
    for top, end in sorted(span for one in whole if (span := _span(one)) is not None):
        if top > reach + 2:
            yield reach, top
        reach = max(reach, end)


def _span(one: Element) -> tuple[float, float] | None:
    """From where to where an element reaches; nothing for what is not drawn, and for the ground below all."""
    name, said = one.tag.rpartition("}")[2], one.attrib
    if name == "text":
        y, size = float(said["y"]), float(said["font-size"])
        reach = 0.56 * size * len(one.text or "") if "transform" in said else 0.0
        return y - max(size, reach), y + max(_LETTERS_BELOW * size, reach)
    if name in ("circle", "ellipse"):
        radius = float(said.get("r") or said["ry"])
        return float(said["cy"]) - radius, float(said["cy"]) + radius
    if name == "rect" and "y" in said:
        return float(said["y"]), float(said["y"]) + float(said["height"])
    if name == "line":
        ends = float(said["y1"]), float(said["y2"])
        return min(ends), max(ends)
    if name == "path":
        heights = [y for command in _COMMAND.findall(said["d"]) for y in _heights(*command)]
        return min(heights), max(heights)
    return None


def _heights(letter: str, rest: str) -> list[float]:
    """The heights that a command of a path reaches; an arc bulges by its radius at most."""
    numbers = [float(number) for number in _NUMBER.findall(rest)]
    if letter == "A":
        arcs = [numbers[at : at + 7] for at in range(0, len(numbers), 7)]
        return [reach for arc in arcs for reach in (arc[6] - arc[1], arc[6] + arc[1])]
    return numbers[1::2]
