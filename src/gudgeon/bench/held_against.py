"""The figures of the sheet that a proof is held against: those of its joint, and those that the hold names."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from gudgeon.bench.same import NOT_STATED, same_figure, same_words
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.model import DataSheet

NONE_STATED = {"figures": NOT_STATED}
"""Kept with a proof that the sheet states no figure for."""
_BEHIND = ".behind"
"""Ends the place of what a proof keeps for its readings alone, and compares with nothing."""


def held_against(sheet: DataSheet, named: tuple[str, ...], *, joints: tuple[str, ...]) -> dict[str, str]:
    """Every figure by its place in the sheet, as it is printed there."""
    found = {place: text for key in joints for place, text in _program(key, sheet.joints[key])}
    for one in named:
        found.update(_named(sheet, one))
    return found


def shown_with(sheet: DataSheet, named: tuple[str, ...], *, joints: tuple[str, ...]) -> dict[str, str]:
    """What a proof keeps: the figures, or that the sheet states none where it could."""
    found = held_against(sheet, named, joints=joints)
    return found if not named or _compared(found) else {**NONE_STATED, **found}


def differing(
    shown: Mapping[str, str], sheet: DataSheet, named: tuple[str, ...], *, joints: tuple[str, ...]
) -> dict[str, tuple[str, str]]:
    """What a proof was held against and the sheet no longer says so, by the place: before, and now.

    A proof that kept no figures says nothing about them.
    """
    if not shown:
        return {}
    before, now = _compared(shown), _compared(held_against(sheet, named, joints=joints))
    return {
        path: (before.get(path, NOT_STATED), now.get(path, NOT_STATED))
        for path in (*before, *(path for path in now if path not in before))
        if not _same(path, before.get(path, NOT_STATED), now.get(path, NOT_STATED), sheet)
    }


def _compared(kept: Mapping[str, str]) -> dict[str, str]:
    """The figures alone: neither that there are none, nor what is kept for its readings."""
    return {
        path: text for path, text in kept.items() if path not in NONE_STATED and not path.endswith(_BEHIND)
    }


def _same(path: str, before: str, now: str, sheet: DataSheet) -> bool:
    if same_words(before, now=now):
        return True
    kinds = before.partition(": ")[0], now.partition(": ")[0]
    if path.startswith("joints."):
        figures = before.partition(": ")[2], now.partition(": ")[2]
        kind = {"torque": "torque", "verify": "torque", "stretch": "length_difference", "wait": "time"}
        return kinds[0] == kinds[1] and same_figure(
            figures[0], now=figures[1], kind=kind.get(kinds[0], "angle")
        )
    key = path.split(".")[1] if path.startswith("characteristics.") else ""
    item = sheet.characteristics.get(key)
    return same_figure(before, now=now, kind=item.kind if item is not None else "length")


def _program(key: str, joint: Joint) -> Iterator[tuple[str, str]]:
    for number, stage in enumerate(joint.program, start=1):
        figure = stage.figure
        what = figure.text if figure is not None else str(stage.loosen or "to contact")
        yield f"joints.{key}.program.{number}", f"{stage.kind}: {what}"


def _named(sheet: DataSheet, one: str) -> Iterator[tuple[str, str]]:
    """One name of figures: `limits of PART`, `named WORDS`, `figure PATH`, `drive`, `cures` or `tightening`."""
    what, _, rest = one.partition(" ")
    if what == "tightening":
        for key, joint in sheet.joints.items():
            yield from _program(key, joint)
    elif what == "limits":
        yield from _limits(sheet, part=rest.removeprefix("of "))
    elif what == "named":
        yield from _limits(sheet, words=rest)
    elif what == "figure":
        yield from _figure(sheet, rest)
    elif what == "drive":
        yield from _drive(sheet)
    else:
        yield from _cures(sheet)


def _limits(sheet: DataSheet, *, part: str = "", words: str = "") -> Iterator[tuple[str, str]]:
    """What a reading must keep of each characteristic of a part or with words in its name, and whose readings count."""
    for key, item in sheet.characteristics.items():
        if (part and item.part.lower() == part) or (words and begins(words, text=item.name)):
            for field in ("required", "wear_limit"):
                figure: Stated | None = getattr(item, field)
                if figure is not None:
                    yield f"characteristics.{key}.{field}", figure.value.text
            yield from _behind(sheet, key)


def _behind(sheet: DataSheet, key: str) -> Iterator[tuple[str, str]]:
    """A characteristic and those that it is worked out of, down to the ones that are read themselves."""
    item = sheet.characteristics[key]
    yield f"characteristics.{key}{_BEHIND}", item.name
    for source in item.of:
        yield from _behind(sheet, source)


def begins(words: str, *, text: str) -> bool:
    """Whether every one of some words begins a word of a text."""
    there = re.findall(r"[a-z]+", text.lower())
    return all(any(one.startswith(word) for one in there) for word in words.split())


def _figure(sheet: DataSheet, path: str) -> Iterator[tuple[str, str]]:
    found: Any = sheet
    for name in path.split("."):
        found = getattr(found, name, None)
    if isinstance(found, Stated):
        yield path, found.value.text


def _drive(sheet: DataSheet) -> Iterator[tuple[str, str]]:
    """What the marks and teeth of a proved timing were compared with."""
    drive = sheet.drive
    if drive is None:
        return
    if drive.belt_teeth is not None:
        yield "drive.belt_teeth", str(drive.belt_teeth)
    for key, wheel in drive.wheels.items():
        mark = f", mark: {wheel.mark}" if wheel.mark else ""
        if wheel.teeth is not None:
            yield f"drive.wheels.{key}", f"{wheel.teeth} teeth{mark}"
    for number, between in enumerate(drive.teeth_between_marks, start=1):
        yield f"drive.teeth_between_marks.{number}", str(between)


def _cures(sheet: DataSheet) -> Iterator[tuple[str, str]]:
    for key, sealant in sheet.sealants.items():
        if sealant.cure is not None:
            yield f"sealants.{key}.cure", sealant.cure.value.text
