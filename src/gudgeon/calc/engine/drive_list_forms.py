"""Wheels and centers as they are written in one text, such as "x=70 y=180 teeth=22; x=-58 y=72 diameter=60 back"."""

import re
from dataclasses import dataclass

from gudgeon.calc.engine.drive_errors import (
    CenterUnreadable,
    PitchNeeded,
    RiseNeeded,
    TeethUnreadable,
    WheelIncomplete,
    WheelUnreadable,
)
from gudgeon.calc.engine.drive_path import WheelAt
from gudgeon.calc.engine.drive_wheels import belt_radius, chain_radius, smooth_radius
from gudgeon.errors import InputError
from gudgeon.quantity.written import parse_amount

_NAMES = ("x", "y", "teeth", "radius", "diameter")
_SIDES = ("back", "head")
_PAIR = re.compile(r"(?P<name>[a-z]+)\s*=\s*(?P<value>[^=;]*?)(?=\s*,?\s*(?:[a-z]+\s*=|\bback\b|\bhead\b|$))")
_NUMBER = r"([-+−]?\d*\.?\d+\s*(?:mm|cm|in)?)"
_POINT = re.compile(rf"\(?\s*{_NUMBER}\s*[,\s]\s*{_NUMBER}\s*\)?")


@dataclass(frozen=True, slots=True)
class Carrier:
    """What belt or chain it is: its pitch, whether a chain, how far its pitch line lies above its back [mm]."""

    pitch_mm: float | None
    chain: bool = False
    rise_mm: float | None = None

    def wheel(self, name: str, *, at: tuple[float, float], teeth: int, back: bool = False) -> WheelAt:
        """A toothed wheel of this belt or chain."""
        assert self.pitch_mm is not None  # who gives teeth has been asked for the pitch
        if self.chain:
            radius = chain_radius(self.pitch_mm, teeth=teeth)
            return WheelAt(name, *at, radius, back, self.pitch_mm * teeth)
        return WheelAt(name, *at, belt_radius(self.pitch_mm, teeth=teeth), back)


@dataclass(frozen=True, slots=True)
class Listed:
    """A wheel of a list, and whether it is carried by the head."""

    at: WheelAt
    on_head: bool


def wheels(text: str, *, carrier: Carrier, first: int = 1) -> tuple[Listed, ...]:
    """The wheels of a list, named by their place in it."""
    parts = [part.strip() for part in re.split(r"[;\n]", text) if part.strip()]
    return tuple(_wheel(part, carrier, f"wheel {number}") for number, part in enumerate(parts, start=first))


def centers(text: str) -> tuple[tuple[float, float], ...]:
    """The centers of a list such as "0 0; 0 150 mm"; one length alone is how far two wheels lie apart."""
    apart = re.fullmatch(_NUMBER, text.strip())
    if apart is not None:
        return (0.0, 0.0), (0.0, _mm(text, apart[1]))
    found = []
    for part in filter(None, (one.strip() for one in re.split(r"[;\n]", text))):
        read = _POINT.fullmatch(part)
        if read is None:
            raise CenterUnreadable(part)
        found.append((_mm(part, read[1]), _mm(part, read[2])))
    return tuple(found)


def teeth_list(text: str) -> tuple[int, ...]:
    """The teeth of wheels in their order, such as "20; 40"."""
    parts = [part.strip() for part in re.split(r"[;,\s]+", text) if part.strip()]
    for part in parts:
        if not part.isascii() or not part.isdigit() or int(part) < 1:
            raise TeethUnreadable(part)
    return tuple(int(part) for part in parts)


def _wheel(part: str, carrier: Carrier, name: str) -> Listed:
    lower = part.lower()
    words = set(re.findall(r"\b(?:back|head)\b", lower))
    given = {read["name"]: read["value"].strip().rstrip(",") for read in _PAIR.finditer(lower)}
    rest = re.sub(r"\b(?:back|head)\b", "", _PAIR.sub("", lower)).replace(",", "").strip()
    if rest or not given or not set(given) <= set(_NAMES):
        raise WheelUnreadable(part)
    sizes = [one for one in ("teeth", "radius", "diameter") if one in given]
    if "x" not in given or "y" not in given or len(sizes) != 1:
        raise WheelIncomplete(part)
    at, back = (_mm(part, given["x"]), _mm(part, given["y"])), "back" in words
    if sizes == ["teeth"]:
        if carrier.pitch_mm is None:
            raise PitchNeeded(part)
        teeth = teeth_list(given["teeth"])
        if len(teeth) != 1:
            raise WheelUnreadable(part)
        return Listed(carrier.wheel(name, at=at, teeth=teeth[0], back=back), "head" in words)
    size = _mm(part, given[sizes[0]])
    if sizes == ["diameter"]:
        if carrier.rise_mm is None:
            raise RiseNeeded(part)
        size = smooth_radius(size, rise_mm=carrier.rise_mm)
    return Listed(WheelAt(name, *at, size, back), "head" in words)


def _mm(part: str, text: str) -> float:
    try:
        return parse_amount(text, kind="length_difference", default_unit="mm").to("mm")
    except InputError as error:
        raise WheelUnreadable(part, error.message) from None
