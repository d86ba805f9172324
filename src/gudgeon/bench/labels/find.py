"""What is this? From the code on a label to the thing, and what to do with a sign that was misread."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench, at_hour
from gudgeon.bench.labels.errors import LabelOfOtherBuild, NoSuchLabel, NotACode, spaced
from gudgeon.bench.labels.things import Label, labeled
from gudgeon.calc.labels.codes import CARRIED, SIGNS, a_slip_apart, holds
from gudgeon.errors import InputError
from gudgeon.quantity.format import show_first

PREFIX = "GUDGEON"
"""What stands before the code in its picture, so that whoever reads one elsewhere knows what it is of."""

_READ_AS = str.maketrans({"B": "8", "G": "6", "S": "5", "Z": "2", "U": "V"})
_MOST_NEAR = 3


@dataclass(frozen=True, slots=True)
class LabelFound:
    """What a code is of; `shown` is the code as it is read aloud."""

    heading: Heading
    shown: str
    label: Label


def find_label(bench: Bench, said: str) -> LabelFound:
    """The thing with this code, typed, pasted or read by a camera; small letters, spaces and dashes do not matter."""
    code = plain_code(said)
    every = labeled(bench)
    found = next((one for one in every if one.code == code), None)
    if found is not None:
        return LabelFound(bench.heading("Which label is it?"), spaced(code), found)
    near = [one.code for one in every if a_slip_apart(code, other=one.code)][:_MOST_NEAR]
    if holds(code):
        _refuse_of_other_build(bench, code)
        raise NoSuchLabel(code, build=bench.build, near=near)
    raise NotACode(said, why=_why(code), near=near)


def _refuse_of_other_build(bench: Bench, code: str) -> None:
    """Two engines in one garage are in one book: say of which one the label is."""
    for build in bench.store.builds():
        if build == bench.build:
            continue
        try:
            there = labeled(at_hour(bench.book, store=bench.store, build=build, now=bench.now))
        except InputError:  # its papers cannot be read: it is as if it were not there
            continue
        finally:
            show_first(bench.kit.units)
        found = next((one for one in there if one.code == code), None)
        if found is not None:
            raise LabelOfOtherBuild(code, build=bench.build, other=build, what=found.what)


def plain_code(said: str) -> str:
    """The bare signs; one that is no sign of a code is taken for the one that looks like it, where only one does.

    Example:
        >>> plain_code("gudgeon 7kd-4mx"), plain_code("7KD4M8"), plain_code("7KD4MB")
        ('7KD4MX', '7KD4M8', '7KD4M8')
    """
    bare = "".join(sign for sign in said.upper() if sign.isalnum())
    return bare.removeprefix(PREFIX).translate(_READ_AS)


def _why(code: str) -> str:
    wrong = "".join(dict.fromkeys(sign for sign in code if sign not in SIGNS))
    if wrong:
        return f"{wrong[0]} is in none" if len(wrong) == 1 else f"{', '.join(wrong[:4])} are in none"
    if len(code) != CARRIED + 1:
        return f"it has {len(code)} sign{'' if len(code) == 1 else 's'}, and one has {CARRIED + 1}"
    return "its last sign does not fit the others, so one was misread or two changed places"
