"""Drawings as SVG: presentation attributes only, so that page, paper and file show the same one.

The width of every drawing is 360 units, that of a phone: what is 13 units high is read there as it is.
"""

import re
import textwrap
from collections.abc import Sequence
from html import escape

WIDTH = 360.0
INK, PAPER, CARD, SOFT, RULE, ACCENT = "#17140f", "#f7f2e4", "#fdfaf1", "#463f35", "#8b8272", "#8c1c13"
FIGURES = "Segoe UI, Roboto, Helvetica Neue, Arial, DejaVu Sans, sans-serif"
WORDS = "Georgia, Times New Roman, DejaVu Serif, serif"
SIZE = 13.0
"""The smallest letters of a drawing."""

_LETTER = 0.56
"""How wide a letter of the figures is on average, as a share of its height."""

_NOT_IN_XML = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Drawing:
    """A drawing that grows from the top; what is added later lies above what was added before.

    Without a `ground` it lies on whatever is behind it: on a page the tone of that, in print white.
    """

    def __init__(self, title: str, *, words: str, width: float = WIDTH, ground: bool = True) -> None:
        self._title, self._words = title, words
        self._ground, self.width = ground, width
        self._parts: list[str] = []
        self._clips: list[str] = []
        self.bottom = 0.0

    def add(self, name: str, **attributes: object) -> None:
        """One element; an underscore in a name of an attribute stands for a hyphen."""
        self._parts.append(f"<{name}{_written(attributes)}/>")

    def path(
        self, lines: Sequence[Sequence[tuple[float, float]]], *, closed: bool, **attributes: object
    ) -> None:
        """Lines through their corners, as one element."""
        end = "Z" if closed else ""
        drawn = "".join(
            "M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in line) + end for line in lines if line
        )
        if drawn:
            self.add("path", d=drawn, **attributes)

    def text(
        self,
        at: tuple[float, float],
        said: str,
        *,
        size: float = SIZE,
        anchor: str = "start",
        bold: bool = False,
        fill: str = INK,
        halo: bool = False,
        family: str = FIGURES,
        turned: float = 0.0,
    ) -> None:
        """Words at a place; `halo` keeps them legible above lines."""
        x, y = at
        attributes: dict[str, object] = {
            "x": x, "y": y, "font_size": size, "text_anchor": anchor, "fill": fill, "font_family": family,
        }  # fmt: skip
        if bold:
            attributes["font_weight"] = "bold"
        if halo:
            attributes |= {
                "stroke": PAPER, "stroke_width": 4, "stroke_linejoin": "round", "paint_order": "stroke",
            }  # fmt: skip
        if turned:
            attributes["transform"] = f"rotate({_number(turned)} {_number(x)} {_number(y)})"
        self._parts.append(f"<text{_written(attributes)}>{escape(_clean(said))}</text>")

    def paragraph(
        self,
        at: tuple[float, float],
        said: str,
        *,
        size: float = SIZE,
        bold: bool = False,
        fill: str = INK,
        family: str = FIGURES,
    ) -> float:
        """Words below each other to the right edge; the height of the line below them."""
        x, y = at
        for line in wrapped(said, width=self.width - x - 6, size=size):
            self.text((x, y), line, size=size, bold=bold, fill=fill, family=family)
            y += 1.35 * size
        return y

    def clip(self, name: str, lines: Sequence[Sequence[tuple[float, float]]]) -> str:
        """A border that elements may be cut at; what their `clip_path` says."""
        drawn = "".join("M" + "L".join(f"{_number(x)} {_number(y)}" for x, y in line) + "Z" for line in lines)
        self._clips.append(f'<clipPath id="{name}"><path d="{drawn}" clip-rule="evenodd"/></clipPath>')
        return f"url(#{name})"

    def svg(self) -> str:
        """The whole drawing as a file."""
        width, height = _number(self.width), _number(self.bottom)
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
            f'width="{width}" height="{height}" role="img" aria-labelledby="drawing-title drawing-words">'
        )
        title = f'<title id="drawing-title">{escape(_clean(self._title))}</title>'
        words = f'<desc id="drawing-words">{escape(_clean(self._words))}</desc>'
        clips = f"<defs>{''.join(self._clips)}</defs>" if self._clips else ""
        ground = f'<rect width="{width}" height="{height}" fill="{PAPER}"/>' if self._ground else ""
        return "\n".join(filter(None, (head, title, words, clips, ground, *self._parts, "</svg>\n")))


def wrapped(said: str, *, width: float, size: float = SIZE) -> list[str]:
    """Words broken so that each line stays within a width, by how wide letters usually are."""
    return textwrap.wrap(_clean(said), max(8, int(width / (_LETTER * size)))) or [""]


def wide(said: str, *, size: float = SIZE) -> float:
    """About how wide words are."""
    return _LETTER * size * len(said)


def _written(attributes: dict[str, object]) -> str:
    return "".join(
        f' {name.rstrip("_").replace("_", "-")}="{escape(_value(value))}"'
        for name, value in attributes.items()
    )


def _value(value: object) -> str:
    return _number(value) if isinstance(value, float | int) else _clean(str(value))


def _number(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _clean(said: str) -> str:
    """Without what no XML may hold."""
    return _NOT_IN_XML.sub("", said)
