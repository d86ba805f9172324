"""What can be recorded by a program, and its fields from JSON to what the recorder takes."""

from collections.abc import Mapping
from typing import Any

from gudgeon.bench.errors import Unknown
from gudgeon.bench.recordable import RECORDABLES
from gudgeon.bench.recordable_inputs import WHY, Input, Recordable, must
from gudgeon.web.api.errors import FieldNotSaid, FieldRefused, FieldUnknown, PhotoByPage

STRIKE = Recordable(
    "strike",
    "strike",
    "An entry struck",
    "an entry that does not count; it stays legible",
    (must("entry", "", "the entry, by its number or the first letters of its id", "Entry"), WHY),
)
KINDS: tuple[Recordable, ...] = (*RECORDABLES, STRIKE)
MOST_WHOLE = 1_000_000_000


def kind_named(name: str) -> Recordable:
    """What is to be recorded, by its name."""
    found = next((one for one in KINDS if one.name == name), None)
    if found is None:
        raise Unknown("thing that can be recorded", name, (one.name for one in KINDS))
    return found


def fields_of(of: Recordable, said: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of an entry; what was not said has the value that it has in the terminal."""
    known = {one.field: one for one in of.inputs}
    for name in said:
        if name not in known:
            raise FieldUnknown(name, of.name, list(known))
    fields = {one.field: _field(of, one, said.get(one.field)) for one in of.inputs}
    for one in of.inputs:
        if one.required and fields[one.field] in ("", None):
            if one.shape == "photo":
                raise PhotoByPage(of.name)
            raise FieldNotSaid(one.field, of.name, one.text)
    return fields


def _field(of: Recordable, one: Input, said: Any) -> Any:
    if one.shape == "photo" and said not in (None, ""):
        raise PhotoByPage(of.name)
    if one.shape == "several":
        return _several(of, one, said)
    if said is None:
        return one.default
    if one.shape == "yes":
        return _yes(of, one, said)
    if one.shape == "whole":
        if type(said) is not int or not 0 <= said <= MOST_WHOLE:
            raise FieldRefused(one.field, of.name, f"a whole number from 0 to {MOST_WHOLE:,}")
        return said
    if not isinstance(said, str):
        unit = " with its unit" if one.shape == "figure" else ""
        raise FieldRefused(one.field, of.name, f"a text{unit}")
    text = said.strip()
    if one.choices and text and text not in one.choices:
        raise FieldRefused(one.field, of.name, f"one of: {', '.join(one.choices)}")
    return text or one.default


def _several(of: Recordable, one: Input, said: Any) -> list[str]:
    texts = [] if said is None else said if isinstance(said, list) else [said]
    if not all(isinstance(text, str) for text in texts):
        raise FieldRefused(one.field, of.name, "a list of texts")
    return [text.strip() for text in texts if text.strip()]


def _yes(of: Recordable, one: Input, said: Any) -> str | bool | None:
    if said is True or said == one.value_when_yes:
        return one.value_when_yes
    if said is False or said == one.default:
        return one.default
    words = f", or `{one.value_when_yes}` or `{one.default}`" if isinstance(one.value_when_yes, str) else ""
    raise FieldRefused(one.field, of.name, f"true or false{words}")
