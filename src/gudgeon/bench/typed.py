"""A reading as gauges and phones type it: some with a comma, since in their country that is the decimal point."""

import re

_COMMA = re.compile(r"([+-]?\d*),(\d+)(\s*\D*)", re.ASCII)
_DASHES = "–—−"
_SMALL = frozenset(("length", "length_difference"))
_BY_THOUSANDS = ("µm", "thou")
_GROUP = 3
"""Digits behind a comma that may as well be a whole thousand."""


def with_a_point(said: str, *, kind: str, unit: str = "") -> str:
    """What was typed, its decimal comma as a point; where it may part thousands it is left, and refused in words.

    No gauge of lengths shows a thousand millimeters or inches, so there a comma is always the decimal one.

    Example:
        >>> with_a_point("81,660 mm", kind="length"), with_a_point("1,250", kind="pressure_gauge")
        ('81.660 mm', '1,250')
    """
    plain = said.strip()
    if plain[:1] in _DASHES and plain:
        plain = f"-{plain[1:]}"
    found = _COMMA.fullmatch(plain)
    if found is None:
        return plain
    whole, decimals, rest = found.groups()
    used = rest.strip() or unit
    sure = len(decimals) != _GROUP or whole.lstrip("+-") in ("", "0")
    if not sure and (kind not in _SMALL or used in _BY_THOUSANDS):
        return plain
    return f"{whole}.{decimals}{rest}"
