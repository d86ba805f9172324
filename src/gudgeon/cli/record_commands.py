"""Arguments of `gudgeon record`, made from the table of everything that can be recorded."""

import argparse
from typing import Any

from gudgeon.bench.recordable_inputs import Input, Recordable

_METAVAR = {"whole": "NUMBER", "figure": "VALUE", "photo": "FILE", "several": "WHAT"}


def add_arguments(parser: argparse.ArgumentParser, of: Recordable) -> None:
    """One argument for each thing that is said of an entry."""
    for one in of.inputs:
        parser.add_argument(*([one.flag] if one.flag else [one.field]), **_options(one))


def _options(one: Input) -> dict[str, Any]:
    options: dict[str, Any] = {"help": one.text}
    if one.flag:
        options["dest"] = one.field
    if one.shape == "yes":
        return {**options, "action": "store_const", "const": one.value_when_yes, "default": one.default}
    if one.shape == "whole":
        options["type"] = int
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
