"""The one figure of a pull: what is set or turned, as it stands largest on the screen, and the same in other words."""

import re
from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.marks import flats
from gudgeon.errors import InputError
from gudgeon.quantity.format import both
from gudgeon.quantity.written import Printed, parse_amount
from gudgeon.sheet.joints import Stage

_PARTS = re.compile(r"^(?P<number>\d[\d.,–\- ]*\d|\d)(?P<gap> ?)(?P<unit>[^\d].*)?$")
_WORDS = {"hand-run": "By hand", "loosen": "Fully", "wait": "Wait", "stretch": "Stretch"}
_TURNS = {90.0: "a quarter turn", 180.0: "half a turn", 270.0: "three quarters of a turn", 360.0: "one turn"}


@dataclass(frozen=True, slots=True)
class BigFigure:
    """What is largest on the screen: a number with its unit, or a word where a stage has no number.

    `more` stands beside it (a tolerance), `other` below it: the same in the other system of units, or in turns.
    """

    number: str
    unit: str = ""
    more: str = ""
    other: str = ""
    word: bool = False

    @property
    def text(self) -> str:
        """The figure as it is written in a line: `25.0 N·m`, `90°`."""
        return f"{self.number}{'' if self.unit in ('', '°') else ' '}{self.unit}"


def big_figure(
    stage: Stage, *, setting: str, exact: str, units: Literal["metric", "inch"], hexagon: bool = False
) -> BigFigure:
    """The figure of a pull: what is set on the scale, else what the sheet prints for its stage.

    A setting is on the scale of its wrench, so its unit is that of the wrench whatever the person reads first.
    """
    if setting:
        return _split(setting, other=_others(setting, exact=exact, units=units))
    printed = stage.loosen if stage.kind == "loosen" else stage.figure
    if not isinstance(printed, Printed):
        return BigFigure(_WORDS.get(stage.kind, stage.kind.capitalize()), word=True)
    if stage.kind in ("turn", "draw down", "loosen"):
        return _turn(printed, hexagon=hexagon)
    if stage.kind in ("torque", "verify"):
        return _torque(printed, units=units)
    return _split(printed.first.text)


def _turn(printed: Printed, *, hexagon: bool) -> BigFigure:
    angle = printed.middle_in("°")
    low, high = printed.low_in("°"), printed.high_in("°")
    most = max(
        abs((high if high is not None else angle) - angle), abs(angle - (low if low is not None else angle))
    )
    said = [_TURNS.get(angle, ""), flats(angle) if hexagon else ""]
    more = f"± {most:g}°" if most else ""
    return BigFigure(f"{angle:g}°", "", more, ", ".join(filter(None, said)))


def _torque(printed: Printed, *, units: Literal["metric", "inch"]) -> BigFigure:
    """The printed torque where no wrench shows it: in the person's own units first, where both are printed."""
    spans = sorted(printed.spans, key=lambda one: one.unit.system != units)
    others = [one.text for one in spans[1:]] or _other_words(printed.middle_in("N·m"), spans[0].unit.system)
    return _split(spans[0].text, other=", ".join(others))


def in_both(words: str, *, printed: Printed | None, units: Literal["metric", "inch"]) -> str:
    """Words about a torque with both systems: as printed, the person's own first, or the other one beside it."""
    if printed is None or printed.text not in words:
        return words
    spans = sorted(printed.spans, key=lambda one: one.unit.system != units)
    others = [one.text for one in spans[1:]] or _other_words(printed.middle_in("N·m"), spans[0].unit.system)
    return words.replace(printed.text, f"{spans[0].text} ({', '.join(others)})", 1)


def _others(setting: str, *, exact: str, units: Literal["metric", "inch"]) -> str:
    """A setting in the other system, and the torque of the sheet in both where the mark is another."""
    try:
        amount = parse_amount(setting, kind="torque")
    except InputError:
        return exact
    value = amount.to("N·m")
    said = ", ".join(_other_words(value, amount.unit.system))
    wanted = both(value, kind="torque")
    if not exact or exact in (wanted, setting):
        return said
    return f"{said}; {exact} at the bolt" if said else f"{exact} at the bolt"


def _other_words(torque_nm: float, system: str) -> list[str]:
    """A torque in the system that is not this one."""
    first: Literal["metric", "inch"] = "metric" if system == "inch" else "inch"
    return [both(torque_nm, kind="torque", first=first).partition(" (")[0]]


def _split(text: str, *, other: str = "") -> BigFigure:
    """A text into its number and its unit; what is not one number and a unit stays together."""
    found = _PARTS.match(text.strip())
    if found is None:
        return BigFigure(text, other=other, word=True)
    symbol = found["unit"] or ""
    if symbol in ("°", "%"):
        return BigFigure(f"{found['number']}{symbol}", "", "", other)
    return BigFigure(found["number"], symbol.strip(), "", other)
