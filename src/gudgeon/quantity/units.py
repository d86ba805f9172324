"""Units with exact factors, their spellings, and conversion inside one kind of quantity.

Sources of the factors: inch, pound, pound-force and standard acceleration of free fall:
NIST SP 811 (2008), appendix B (exact); US gallon = 231 in³: NIST Handbook 44, appendix C;
imperial gallon = 4.54609 L: Weights and Measures Act 1985 (UK); conventional millimeter of
mercury = 13.5951 kg/L x 9.80665 m/s²: ISO 80000-4:2019.
"""

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from gudgeon.quantity.errors import (
    FigureNotFinite,
    UnitAmbiguous,
    UnitMiswritten,
    UnitOfAnotherKind,
    UnknownUnit,
)
from gudgeon.quantity.kinds import KINDS, Kind, kind
from gudgeon.quantity.unit_table import AMBIGUOUS, HINTS, ROWS


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: base = factor x value + offset, both exact."""

    symbol: str
    dimension: str
    factor: Fraction
    offset: Fraction
    system: str
    only: str = ""

    def serves(self, of: Kind) -> bool:
        """Whether figures of this kind may carry the unit."""
        return self.dimension == of.family and self.only in ("", of.name)


_SAME = str.maketrans(
    {
        "²": "2", "³": "3", "⁻": "-", "¹": "1", "⁶": "6",
        "μ": "µ", "º": "°", "˚": "°", "⋅": "·", "∙": "·", "•": "·", "*": "·", "×": "·",
        "−": "-", "‐": "-", "‑": "-", "–": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " ",
        "″": '"', "”": '"', "“": '"', "′": "'", "’": "'",
    }
)  # fmt: skip


def key(symbol: str) -> str:
    """One spelling for all the ways of joining the parts of a unit.

    Example:
        >>> key("ft.-lb."), key("N m"), key("cm³")
        ('ft·lb', 'N·m', 'cm3')
    """
    text = re.sub(r"/\(([^()]*)\)", r"/\1", symbol.strip().translate(_SAME).rstrip(". "))
    return re.sub(r"[\s.·-]+", "·", text)


def _build() -> tuple[Mapping[str, Mapping[str, Unit]], Mapping[str, tuple[Unit, ...]]]:
    spellings: dict[str, dict[str, Unit]] = {}
    units: dict[str, list[Unit]] = {}
    for family, symbol, factor, offset, system, only, aliases in ROWS:
        found = Unit(symbol, family, factor, offset, system, only)
        units.setdefault(family, []).append(found)
        table = spellings.setdefault(family, {})
        for spelling in (symbol, *aliases):
            table.setdefault(key(spelling), found)
    return spellings, {family: tuple(rows) for family, rows in units.items()}


_SPELLINGS, _UNITS = _build()
_OFFERED = {"altitude": ("m", "ft", "km", "mi")}
"""The units that a refusal offers where not all of the family make sense."""
_kind = kind
"""The function, where `kind` is an argument."""


def units(of: Kind | str) -> tuple[Unit, ...]:
    """All units that figures of this kind may carry, the most usual first."""
    wanted = kind(of)
    return tuple(found for found in _UNITS[wanted.family] if found.serves(wanted))


def offered(of: Kind) -> tuple[str, ...]:
    """The symbols of units that a refusal offers for figures of this kind, the most usual first."""
    return _OFFERED.get(of.name) or tuple(one.symbol for one in units(of))


@lru_cache(maxsize=2048)
def _find(symbol: str, of: Kind) -> Unit | None:
    found = _SPELLINGS[of.family].get(key(symbol))
    return found if found is not None and found.serves(of) else None


def is_unit(symbol: str, *, of: Kind) -> bool:
    """Whether the text is a spelling of a unit of this kind."""
    return _find(symbol, of) is not None


def unit(symbol: str, *, kind: Kind | str) -> Unit:
    """The unit of that spelling for that kind, or a refusal that says what to write.

    Example:
        >>> unit("ft-lb", kind="torque").symbol
        'lbf·ft'
    """
    wanted = _kind(kind)
    found = _find(symbol, wanted)
    if found is not None:
        return found
    known = list(offered(wanted))
    choices = AMBIGUOUS.get((wanted.family, key(symbol)))
    if choices is not None:
        raise UnitAmbiguous(symbol, choices)
    better = HINTS.get((wanted.family, key(symbol)))
    if better is not None:
        raise UnitMiswritten(symbol, wanted.name, better)
    others = [one.name for one in KINDS.values() if _find(symbol, one) is not None]
    if others:
        raise UnitOfAnotherKind(symbol, " or ".join(_briefly(others)), wanted.name, known[:4])
    raise UnknownUnit(symbol, wanted.name, known)


def kinds_of(symbol: str) -> tuple[Kind, ...]:
    """Every kind of quantity that takes the unit so spelled."""
    return tuple(one for one in KINDS.values() if _find(symbol, one) is not None)


def _briefly(names: Iterable[str]) -> list[str]:
    """Names of kinds, one for each family, as it reads in a sentence."""
    seen: dict[str, str] = {}
    for name in names:
        seen.setdefault(KINDS[name].family, name)
    return list(seen.values())


def convert(value: float, *, frm: str, to: str, kind: Kind | str) -> float:
    """A value in another unit of the same kind, correct to the last digit of a float.

    Example:
        >>> convert(70.0, frm="lbf·ft", to="N·m", kind="torque")
        94.90725638319803
    """
    start, end = unit(frm, kind=kind), unit(to, kind=kind)
    if not math.isfinite(value):
        raise FigureNotFinite(str(value))
    if start is end:
        return value
    return float(exactly(Fraction(value), frm=start, to=end))


def exactly(value: Fraction, *, frm: Unit, to: Unit) -> Fraction:
    """A value in another unit without any rounding."""
    return (value * frm.factor + frm.offset - to.offset) / to.factor
