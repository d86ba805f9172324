"""Under which key a part is found again, however it was written: one way for what is bought and for what it costs."""

import re

from gudgeon.sheet.model import DataSheet

_FASTENER = re.compile(r"(?:bolt|nut|screw|stud)s?$", re.IGNORECASE)


def key_of(sheet: DataSheet, said: str) -> str:
    """The key of a part of the sheet that is named by its key or its name; else the words, in small letters.

    One of many is meant as well: `Valve stem seal` is the part `Valve stem seals`. Fasteners that only a joint names
    are found by the name of the joint.
    """
    return _part(sheet, said) or _joint(sheet, said) or plain_name(said)


def part_key(sheet: DataSheet, said: str) -> str:
    """The same for what goes into the book: anything that the sheet does not list stays as it was said."""
    return _part(sheet, said) or said.strip()


def fasteners_of(sheet: DataSheet, joint: str) -> str:
    """The part of the list that the fasteners of a joint are; the joint by its own name where the list has none."""
    of = sheet.joints[joint]
    for rule in of.reuse.rules if of.reuse is not None else ():
        for name in rule.measured_as:
            key = key_of(sheet, sheet.characteristics[name].part)
            if key in sheet.parts:
                return key
    low = of.name.lower()
    named = [
        key
        for key, part in sheet.parts.items()
        if _FASTENER.search(part.name) and (part.name.lower() in low or low in part.name.lower())
    ]
    return max(named, key=lambda key: len(sheet.parts[key].name), default=key_of(sheet, of.name))


def plain_name(said: str) -> str:
    """A name in small letters, as a key is read: `spark_plugs` and `Spark plugs` are one."""
    return " ".join(said.casefold().replace("_", " ").split())


def _part(sheet: DataSheet, said: str) -> str:
    text = _bare(said)
    return next((key for key, part in sheet.parts.items() if text in (_bare(key), _bare(part.name))), "")


def _joint(sheet: DataSheet, said: str) -> str:
    text = _bare(said)
    return next((plain_name(one.name) for one in sheet.joints.values() if text == _bare(one.name)), "")


def _bare(said: str) -> str:
    """A name as it is compared: `Valve stem seals` and `valve_stem_seal` are one."""
    return plain_name(said).removesuffix("s")
