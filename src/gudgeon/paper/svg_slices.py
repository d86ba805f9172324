"""A tall drawing in pieces that stand side by side: cut only where nothing is drawn."""

import re
from collections.abc import Iterator
from xml.etree import ElementTree

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_COMMAND = re.compile(r"([MLAZ])([^MLAZ]*)")
_HEAD = re.compile(r'viewBox="0 [\d.]+ ([\d.]+) ([\d.]+)" width="[\d.]+" height="[\d.]+"')
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
    wide, high = size_of(svg)
    pieces = min(most, -(-high // most_high))
    gaps = list(_gaps(svg, high))
    cuts = [0.0]
    for number in range(1, int(pieces)):
        wanted = number * high / pieces
        near = [gap for gap in gaps if abs(sum(gap) / 2 - wanted) < 0.3 * high / pieces]
        if not near:
            return (svg,)
        widest = max(near, key=lambda gap: gap[1] - gap[0] - _NEARER * abs(sum(gap) / 2 - wanted))
        cuts.append(sum(widest) / 2)
    ends = [*cuts[1:], high]
    return tuple(
        _HEAD.sub(
            f'viewBox="0 {top:g} {wide:g} {end - top:g}" width="{wide:g}" height="{end - top:g}"',
            svg,
            count=1,
        )
        for top, end in zip(cuts, ends, strict=True)
    )


def _gaps(svg: str, high: float) -> Iterator[tuple[float, float]]:
    """From where to where nothing is drawn."""
    reach = 0.0
    for top, end in sorted(_spans(svg, high)):
        if top > reach + 2:
            yield reach, top
        reach = max(reach, end)


def _spans(svg: str, high: float) -> Iterator[tuple[float, float]]:
    """From where to where each element reaches; the ground below all of them is none."""
    whole = ElementTree.fromstring(svg)
    kept = {one for defined in whole.iter() if defined.tag.endswith("}defs") for one in defined.iter()}
    for one in whole.iter():
        if one in kept:
            continue
        name, said = one.tag.rpartition("}")[2], one.attrib
        if name == "text":
            y, size = float(said["y"]), float(said["font-size"])
            reach = 0.56 * size * len(one.text or "") if "transform" in said else 0.0
            yield y - max(size, reach), y + max(_LETTERS_BELOW * size, reach)
        elif name in ("circle", "ellipse"):
            radius = float(said.get("r") or said["ry"])
            yield float(said["cy"]) - radius, float(said["cy"]) + radius
        elif name == "rect" and float(said["height"]) < high:
            yield float(said.get("y", 0)), float(said.get("y", 0)) + float(said["height"])
        elif name == "line":
            yield tuple(sorted((float(said["y1"]), float(said["y2"]))))  # type: ignore[misc]
        elif name == "path":
            heights = [y for command in _COMMAND.findall(said["d"]) for y in _heights(*command)]
            yield min(heights), max(heights)


def _heights(letter: str, rest: str) -> list[float]:
    """The heights that a command of a path reaches; an arc bulges by its radius at most."""
    numbers = [float(number) for number in _NUMBER.findall(rest)]
    if letter == "A":
        arcs = [numbers[at : at + 7] for at in range(0, len(numbers), 7)]
        return [reach for arc in arcs for reach in (arc[6] - arc[1], arc[6] + arc[1])]
    return numbers[1::2]
