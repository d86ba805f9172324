"""Short codes that are read off a dirty label: no two signs that look alike, and a check sign that notices a slip."""

from collections.abc import Sequence

from gudgeon.calc.labels.errors import NumberTooLarge

SIGNS = "23456789CDFHJKMNPRTVWXY"
"""Of signs that are taken for one another one at most is in it: 0 O Q 1 I L are out, of 8 B, 6 G, 5 S, 2 Z, U V one; no
vowel, so that no code is a word. There are 23, a prime."""

CARRIED = 5
"""So many signs carry the number, one more checks them."""

CODES = len(SIGNS) ** CARRIED
_RADIX = 2


def check_value(values: Sequence[int], *, modulus: int, radix: int) -> int:
    """The value of the check sign that stands at the end.

    Equation:
        Σ aᵢ · radix^(n − i) ≡ 1 (mod modulus), over i = 1 … n, where aₙ is the value of the check sign

    Parameters:
        values: values of the signs before it, from the left, each below the modulus [1]
        modulus: a prime, as many as there are values [1]
        radix: whose powers are the weights [1]

    Returns:
        the value of the check sign [1]

    Valid for:
        a prime modulus: then one wrong sign is always noticed. Two signs that swapped places are always noticed
        as long as the powers of the radix differ at all places.

    Source:
        MEMORY: ISO/IEC 7064:2003, pure systems with one check character, as MOD 11-2

    Example:
        >>> check_value([0, 0, 0, 0, 0, 0, 0, 2, 1, 8, 2, 5, 0, 0, 9], modulus=11, radix=2)
        7

    Not covered:
        two slips in one code, which are noticed all but once in `modulus` times
    """
    total = 0
    for value in values:
        total = (total + value) * radix % modulus
    return (1 - total) % modulus


def code_of(number: int) -> str:
    """The code that stands for a number: five signs and the check sign.

    Equation:
        number = Σ aᵢ · 23^(5 − i), over i = 1 … 5; the sixth by `check_value` with modulus 23 and radix 2

    Parameters:
        number: from 0 to 23⁵ − 1 [1]

    Returns:
        the code, six signs of SIGNS

    Valid for:
        0 ≤ number < 6,436,343

    Source:
        HAND: a number to base 23; the check sign as ISO/IEC 7064:2003 makes it, with the prime 23 for 11

    Example:
        >>> code_of(0), code_of(1)
        ('222223', '22223Y')

    Not covered:
        what the number is of
    """
    if not 0 <= number < CODES:
        raise NumberTooLarge(number, most=CODES - 1)
    values = [number // len(SIGNS) ** place % len(SIGNS) for place in reversed(range(CARRIED))]
    values.append(check_value(values, modulus=len(SIGNS), radix=_RADIX))
    return "".join(SIGNS[value] for value in values)


def holds(code: str) -> bool:
    """Whether a code has its six signs, all of them known, and the last one checks the others.

    Equation:
        Σ aᵢ · 2^(6 − i) ≡ 1 (mod 23)

    Parameters:
        code: as it was read

    Returns:
        whether nothing speaks against it

    Valid for:
        any text

    Source:
        MEMORY: ISO/IEC 7064:2003, pure systems, with the prime 23 for 11

    Example:
        >>> holds("222223"), holds("222232"), holds("22222")
        (True, False, False)

    Not covered:
        whether anything in a book has this code
    """
    if len(code) != CARRIED + 1 or any(sign not in SIGNS for sign in code):
        return False
    values = [SIGNS.index(sign) for sign in code]
    return check_value(values[:-1], modulus=len(SIGNS), radix=_RADIX) == values[-1]


def a_slip_apart(code: str, *, other: str) -> bool:
    """Whether one code is the other with a slip: one sign wrong, left out or doubled, or two neighbors swapped.

    Equation:
        one substitution, insertion, deletion, or swap of neighbors

    Parameters:
        code: as it was read
        other: a code that there is

    Returns:
        whether it can have been meant

    Valid for:
        any two texts

    Source:
        COMMON PRACTICE: the slips that people make when they copy a number

    Example:
        >>> [a_slip_apart(said, other="222223") for said in ("222232", "22223", "333333")]
        [True, True, False]

    Not covered:
        two slips in one code
    """
    if len(code) == len(other):
        wrong = [place for place, (a, b) in enumerate(zip(code, other, strict=True)) if a != b]
        if len(wrong) < 2:
            return True
        first, second = wrong[0], wrong[-1]
        swapped = code[first] == other[second] and code[second] == other[first]
        return len(wrong) == 2 and second == first + 1 and swapped
    short, long = sorted((code, other), key=len)
    return len(long) == len(short) + 1 and any(
        long[:place] + long[place + 1 :] == short for place in range(len(long))
    )
