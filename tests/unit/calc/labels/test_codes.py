"""The check sign notices what people do wrong when they copy a code: every single slip, proved one by one."""

import random
from itertools import pairwise

import pytest

from gudgeon.calc.labels.codes import CARRIED, CODES, SIGNS, a_slip_apart, check_value, code_of, holds
from gudgeon.calc.labels.errors import NumberTooLarge

SOME = [code_of(number) for number in random.Random(5).sample(range(CODES), 400)] + [
    code_of(0),
    code_of(CODES - 1),
]


def test_as_the_standard_makes_it() -> None:
    """MEMORY: identifiers of people that end in a check character of ISO/IEC 7064 MOD 11-2 (ORCID 0000-0002-1825-0097
    and 0000-0002-1694-233X, where X stands for ten; ISNI 0000 0001 2103 2683)."""
    for number in ("0000000218250097", "0000000121032683", "000000021694233X"):
        values = [10 if sign == "X" else int(sign) for sign in number]
        assert check_value(values[:-1], modulus=11, radix=2) == values[-1]


def test_no_two_signs_look_alike() -> None:
    """COMMON PRACTICE: what is taken for one another in print and by hand."""
    for alike in ("0OQD", "1IL", "8B", "6G", "5S", "2Z", "UV"):
        assert len([sign for sign in alike if sign in SIGNS]) <= 1
    assert not set("AEIOU") & set(SIGNS), "no code is a word"
    assert len(set(SIGNS)) == len(SIGNS) == 23


def test_every_wrong_sign_is_noticed() -> None:
    tried = 0
    for code in SOME:
        for place in range(len(code)):
            for sign in SIGNS.replace(code[place], ""):
                assert not holds(code[:place] + sign + code[place + 1 :])
                tried += 1
    assert tried == len(SOME) * 6 * 22


def test_every_swap_of_two_signs_is_noticed() -> None:
    """Of neighbors, and of any two that stand apart."""
    tried = 0
    for code in SOME:
        for first in range(len(code)):
            for second in range(first + 1, len(code)):
                if code[first] != code[second]:
                    signs = list(code)
                    signs[first], signs[second] = signs[second], signs[first]
                    assert not holds("".join(signs))
                    tried += 1
    assert tried > 5_000


def test_codes_hold_and_are_counted() -> None:
    assert all(holds(code) and len(code) == CARRIED + 1 for code in SOME)
    assert len(set(SOME)) == len(SOME)
    first = [code_of(number) for number in range(2_000)]
    assert len(set(first)) == 2_000
    assert [code for code in ("", "22222", "2222233", "22222O", "222223 ") if holds(code)] == []


@pytest.mark.parametrize("number", [-1, CODES])
def test_a_number_beyond_is_refused(number: int) -> None:
    with pytest.raises(NumberTooLarge) as refused:
        code_of(number)
    assert str(refused.value) == (
        f"No code stands for {number}: the codes of five signs and a check sign run from 0 to 6436342."
    )


def test_what_can_have_been_meant() -> None:
    code = "7KDMX2"
    slips = {code[:place] + "9" + code[place + 1 :] for place in range(6)}
    slips |= {code[:place] + code[place + 1 :] for place in range(6)}
    slips |= {code[:place] + code[place] + code[place:] for place in range(6)}
    for place, (one, other) in enumerate(pairwise(code)):
        slips.add(code[:place] + other + one + code[place + 2 :])
    assert all(a_slip_apart(said, other=code) for said in slips)
    assert not any(a_slip_apart(said, other=code) for said in ("", "7KD", "KD7MX2", "XKDM72", "77KDMX22"))
