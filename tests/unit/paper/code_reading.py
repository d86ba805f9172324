"""Reads a QR code of the smallest sort off a picture, by the rules of the standard and without the library that made it.

Source: MEMORY, ISO/IEC 18004:2015, version 1: 21 modules; format information with the mask 101010000010010; data masks
of table 10; placement in upward and downward columns of two; alphanumeric mode; Reed-Solomon over 2^8 with x^8 + x^4 +
x^3 + x^2 + 1.
"""

import numpy as np
from numpy.typing import NDArray

SIDE = 21
SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
LEVELS = {0b01: ("L", 7), 0b00: ("M", 10), 0b11: ("Q", 13), 0b10: ("H", 17)}
MASKS = (
    lambda i, j: (i + j) % 2 == 0, lambda i, j: i % 2 == 0, lambda i, j: j % 3 == 0, lambda i, j: (i + j) % 3 == 0,
    lambda i, j: (i // 2 + j // 3) % 2 == 0, lambda i, j: (i * j) % 2 + (i * j) % 3 == 0,
    lambda i, j: ((i * j) % 2 + (i * j) % 3) % 2 == 0, lambda i, j: ((i + j) % 2 + (i * j) % 3) % 2 == 0,
)  # fmt: skip
FORMAT_AT = [(8, c) for c in (0, 1, 2, 3, 4, 5, 7, 8)] + [(r, 8) for r in (7, 5, 4, 3, 2, 1, 0)]
FORMAT_AGAIN = [(20 - k, 8) for k in range(7)] + [(8, 13 + k) for k in range(8)]
Squares = NDArray[np.bool_]


def squares(picture: NDArray[np.uint8], *, quiet: int) -> Squares:
    """The squares of a picture that is the code and its quiet zone, which has to be blank."""
    count = SIDE + 2 * quiet
    middles = [round((k + 0.5) * picture.shape[0] / count) for k in range(count)]
    dark = picture[np.ix_(middles, middles)] < 128
    inner = dark[quiet:-quiet, quiet:-quiet]
    assert dark.sum() == inner.sum(), "something stands in the quiet zone"
    return inner


def read(dark: Squares) -> tuple[str, str]:
    """Its text and its level; refuses a code that is not right in every square."""
    assert _finders(dark), "it does not stand upright"
    level, mask = _format(dark)
    words = _words(dark, mask)
    name, checking = LEVELS[level]
    assert _syndromes(words, checking) == [0] * checking, "a square is wrong"
    return _text("".join(f"{word:08b}" for word in words[: 26 - checking])), name


def _finders(dark: Squares) -> bool:
    ring = np.array([[max(abs(r - 3), abs(c - 3)) != 2 for c in range(7)] for r in range(7)])
    corners = [dark[:7, :7], dark[:7, -7:], dark[-7:, :7]]
    timing = [bool(dark[6, k]) == bool(dark[k, 6]) == (k % 2 == 0) for k in range(8, 13)]
    return all((one == ring).all() for one in corners) and all(timing) and not (dark[-7:, -7:] == ring).all()


def _format(dark: Squares) -> tuple[int, int]:
    bits = [int("".join(str(int(dark[at])) for at in places), 2) for places in (FORMAT_AT, FORMAT_AGAIN)]
    assert bits[0] == bits[1]
    plain = bits[0] ^ 0b101010000010010
    rest = plain
    for bit in range(14, 9, -1):
        if rest >> bit & 1:
            rest ^= 0b10100110111 << (bit - 10)
    assert rest == 0, "the format is wrong"
    return plain >> 13, plain >> 10 & 0b111


def _words(dark: Squares, mask: int) -> list[int]:
    def of_function(r: int, c: int) -> bool:
        return (r < 9 and c < 9) or (r < 9 and c > 12) or (r > 12 and c < 9) or r == 6 or c == 6

    bits = []
    for number, right in enumerate((20, 18, 16, 14, 12, 10, 8, 5, 3, 1)):
        rows = range(SIDE - 1, -1, -1) if number % 2 == 0 else range(SIDE)
        bits += [
            int(dark[r, c] ^ MASKS[mask](r, c))
            for r in rows
            for c in (right, right - 1)
            if not of_function(r, c)
        ]
    assert len(bits) == 208
    return [int("".join(map(str, bits[k : k + 8])), 2) for k in range(0, 208, 8)]


def _syndromes(words: list[int], count: int) -> list[int]:
    powers = [1]
    for _ in range(254):
        doubled = powers[-1] << 1
        powers.append(doubled ^ 0x11D if doubled > 255 else doubled)
    logs = {value: power for power, value in enumerate(powers)}
    found = []
    for root in range(count):
        value = 0
        for word in words:
            value = (powers[(logs[value] + root) % 255] if value else 0) ^ word
        found.append(value)
    return found


def _text(bits: str) -> str:
    assert bits[:4] == "0010", "not in the mode for letters and figures"
    count, at, said = int(bits[4:13], 2), 13, ""
    while len(said) < count:
        if count - len(said) > 1:
            pair, at = int(bits[at : at + 11], 2), at + 11
            said += SIGNS[pair // 45] + SIGNS[pair % 45]
        else:
            said, at = said + SIGNS[int(bits[at : at + 6], 2)], at + 6
    return said
