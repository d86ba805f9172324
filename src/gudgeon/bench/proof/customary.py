"""Rounded conversion factors that manuals use; a pair made with one is off, and is no misprint."""

from fractions import Fraction

from gudgeon.quantity.written import Amount

# From, to, factor as people round it. COMMON PRACTICE: factors cut to two or three digits, or to a round number.
_FACTORS: tuple[tuple[str, str, str], ...] = (
    ("N·m", "lbf·ft", "0.74"), ("N·m", "lbf·ft", "0.738"), ("lbf·ft", "N·m", "1.35"), ("lbf·ft", "N·m", "1.36"),
    ("N·m", "lbf·in", "8.85"), ("N·m", "lbf·in", "8.9"), ("kgf·m", "N·m", "10"), ("kgf·m", "N·m", "9.8"),
    ("kgf·m", "lbf·ft", "7.2"), ("kgf·m", "lbf·ft", "7.25"), ("kgf·m", "lbf·ft", "7.3"),
    ("kgf·cm", "N·m", "0.1"), ("kgf·cm", "N·m", "0.098"), ("kgf/cm²", "psi", "14.2"), ("kgf/cm²", "psi", "14"),
    ("kgf/cm²", "kPa", "100"), ("kgf/cm²", "kPa", "98"), ("kgf/cm²", "bar", "1"), ("kgf/cm²", "MPa", "0.1"),
    ("bar", "psi", "14.5"), ("bar", "psi", "15"), ("psi", "kPa", "6.9"), ("psi", "kPa", "7"),
    ("in", "mm", "25"), ("US gal", "L", "3.8"), ("US qt", "L", "0.95"), ("L", "US qt", "1.06"),
    ("imp gal", "L", "4.5"), ("L", "imp pt", "1.75"), ("in³", "cm³", "16.4"), ("kgf", "N", "10"),
    ("kgf", "N", "9.8"), ("kg", "lb", "2.2"), ("lb", "kg", "0.45"), ("lbf", "N", "4.45"), ("lbf", "N", "4.5"),
)  # fmt: skip


def customary(one: Amount, *, other: Amount) -> str:
    """The rounded factor that explains a pair, in words, or nothing."""
    return _by(one, other) or _by(other, one)


def _by(start: Amount, end: Amount) -> str:
    for frm, to, said in _FACTORS:
        if (frm, to) == (start.unit.symbol, end.unit.symbol):
            factor = Fraction(said)
            miss = abs(Fraction(end.number) - factor * Fraction(start.number))
            if miss <= (Fraction(end.step) + factor * Fraction(start.step)) / 2:
                right = float(start.unit.factor / end.unit.factor)
                return f"converted with {said} {to} to 1 {frm} (it is {right:.5g})"
    return ""
