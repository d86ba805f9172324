"""Arguments of `gudgeon record`, made from the table of everything that can be recorded."""

import argparse
import re
from functools import partial
from typing import Any

from gudgeon.bench.recordable_inputs import Input, Recordable
from gudgeon.errors import InputError, short

MOST_SIGNS = 15
_WHOLE = re.compile(rf"[+-]?\d{{1,{MOST_SIGNS}}}", re.ASCII)
_METAVAR = {"whole": "NUMBER", "figure": "VALUE", "photo": "FILE", "several": "WHAT"}


def add_arguments(parser: argparse.ArgumentParser, of: Recordable) -> None:
    """One argument for each thing that is said of an entry."""
    for one in of.inputs:
        parser.add_argument(*([one.flag] if one.flag else [one.field]), **_options(one))


class NoWholeNumber(InputError):
    """Something else where a whole number is said."""

    def __init__(self, name: str, said: str) -> None:
        super().__init__(
            f"`{short(said)}` is no whole number for `{name}`. Write it in figures of at most {MOST_SIGNS} signs, like "
            "`30`; nothing was recorded."
        )


def _whole(name: str, said: str) -> int:
    if not _WHOLE.fullmatch(said.strip()):
        raise NoWholeNumber(name, said)
    return int(said)


def _options(one: Input) -> dict[str, Any]:
    options: dict[str, Any] = {"help": one.text}
    if one.flag:
        options["dest"] = one.field
    if one.shape == "yes":
        return {**options, "action": "store_const", "const": one.value_when_yes, "default": one.default}
    if one.shape == "whole":
        options["type"] = partial(_whole, one.flag or one.field)
    if one.shape == "several":
        return {**options, "action": "append", "default": [], "metavar": _METAVAR[one.shape]}
    if one.choices:
        options["choices"] = one.choices
    elif one.flag:
        options["metavar"] = _METAVAR.get(one.shape, "TEXT")
    if not one.required:
        options["default"] = one.default
        if not one.flag:
            options["nargs"] = "?"
    elif one.flag:
        options["required"] = True
    return options
