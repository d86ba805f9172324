"""The fields of a sum, made from the registration of its calculator: names in words, units to choose from."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.bench.typed import with_a_point
from gudgeon.calc.calculator import Calculator, Parameter
from gudgeon.errors import GudgeonError
from gudgeon.quantity.format import first_system, units_shown
from gudgeon.quantity.kinds import kind as kind_of
from gudgeon.quantity.units import unit
from gudgeon.quantity.written import split_amount
from gudgeon.web.wording import adds

UNIT = ".unit"
"""What the name of a field has behind it where the unit of its number is chosen."""

_PLAIN = {
    "mu_thread": "friction in the thread",
    "mu_head": "friction under the head",
    "yield_mpa": "yield strength",
    "utilisation": "share of the yield strength",
    "u": "standard uncertainty",
    "u_length": "standard uncertainty of the size",
    "dof": "degrees of freedom",
    "half_width_over_s": "half-width over scatter",
    "series": "sizes that can be had",
    "rock": "rock of the valve",
    "to": "unit wanted",
    "rise": "lift",
    "drive": "belt or chain",
    "tool": "spread of the tool",
    "friction": "spread from friction",
    "guards_to": "stands the cold down to",
    "present": "share of glycol in what is left",
    "residual": "left in the system",
    "added": "share of glycol in what is poured in",
    "basis": "how shares are counted",
    "file": "points",
    "tapped": "part screwed into",
}
"""Names of inputs that are short for something."""

_FIGURE = re.compile(r"^\s*(?P<number>[-+−]?\d(?:[\d.,/ ]*\d)?)\s*(?P<unit>[^\d\s.,/-].*?)\s*$")
_WITHOUT_CHOICE = ("number", "ratio", "angle")
_MAY_BE_MINUS = ("length_difference", "angle", "temperature", "temperature_difference", "altitude")


@dataclass(frozen=True, slots=True)
class SumField:
    """One field of the form: `shape` is number, text, lines or choice; `units` are offered beside a number."""

    name: str
    label: str
    hint: str
    shape: str
    value: str
    needed: bool
    keys: str
    units: tuple[str, ...] = ()
    unit: str = ""
    choices: tuple[str, ...] = ()


def name_in_words(name: str) -> str:
    """The name of an input as a label."""
    words = _PLAIN.get(name, name.replace("_", " "))
    return words[0].upper() + words[1:]


def field_of(parameter: Parameter, said: Mapping[str, str]) -> SumField:
    """The field of an input, with what was typed in it, else with what holds where nothing is typed."""
    label = name_in_words(parameter.name)
    needed = parameter.default is None and not parameter.optional
    value = said.get(parameter.name, parameter.default or "" if not said else "")
    units, chosen = _units(parameter), said.get(parameter.name + UNIT, "")
    if units:
        value, written = _apart(value, kind=parameter.kind or "")
        bare = (parameter.unit or "") if value else ""
        chosen = written or chosen or bare
        units = units if chosen in units or not chosen else (*units, chosen)
    text = parameter.text if adds(label, text=parameter.text) else ""
    if parameter.kind is not None and not units and parameter.unit not in (None, "1"):
        text = f"{text}; in {parameter.unit}" if text else f"in {parameter.unit}"
    example = f"like {parameter.example}" if parameter.example and not parameter.file else ""
    if parameter.choices:
        value = value or parameter.default or ""
    shape = "lines" if parameter.file else "choice" if parameter.choices else "number" if units else "text"
    return SumField(
        parameter.name,
        label,
        "; ".join(filter(None, (text, example))),
        shape,
        value,
        needed,
        _keys(parameter),
        units,
        chosen,
        parameter.choices,
    )


def given_in(one: Calculator, said: Mapping[str, str]) -> dict[str, str]:
    """The inputs as a person writes them: a bare number with the unit chosen beside it; empty fields are not given."""
    own = {name: of for of in one.parameters for name in (of.name, *of.also)}
    given: dict[str, str] = {}
    for name, value in said.items():
        base = name.removesuffix(UNIT)
        if not value or (base != name and base in own):
            continue
        chosen = said.get(name + UNIT, "")
        of = own.get(name)
        if of is not None and of.kind is not None and not of.file and not of.choices:
            value = with_a_point(value, kind=of.kind, unit=chosen or of.unit or "")
        given[name] = f"{value} {chosen}" if chosen and name in own and _is_bare(value) else value
    return given


def in_words(message: str, *, of: Calculator) -> str:
    """A refusal with the inputs by the names that the form has for them."""
    message = message.replace(of.name, "This sum")
    message = re.sub(r"`gudgeon calc[^`]*`", "this form", message)
    names = sorted((one for p in of.parameters for one in (p.name, *p.also)), key=len, reverse=True)
    for name in names:
        label = f"“{name_in_words(name)}”"
        message = re.sub(rf"\b{name}=(?='|\S)", f"{label} = ", message)
        message = re.sub(rf"^{name}:", f"{label}:", message)
        if "_" in name or name in _PLAIN:
            message = re.sub(rf"(?<![“\w]){name}(?![\w”])", label, message)
    return message


def _units(parameter: Parameter) -> tuple[str, ...]:
    """The units offered beside a number: the person's first; none where a figure has no unit, or one alone."""
    if parameter.kind is None or parameter.kind in _WITHOUT_CHOICE:
        return ()
    metric, *inch = units_shown(parameter.kind)
    usual = _apart(parameter.example or parameter.default or "", kind=parameter.kind)[1]
    more = [one for one in (usual, parameter.unit or "") if one]
    if first_system() == "inch":
        found = (*inch, metric, *more)
    elif usual in inch:
        found = (metric, *inch, *more)
    else:
        found = (*more[:1], metric, *inch, *more)
    return tuple(dict.fromkeys(found))


def _apart(figure: str, *, kind: str) -> tuple[str, str]:
    """A figure as its number and its unit, where it is one; else as it was typed, without a unit."""
    found = _FIGURE.match(figure)
    if found is None:
        return figure, ""
    try:
        return found["number"], unit(found["unit"], kind=kind_of(kind)).symbol
    except GudgeonError:
        return figure, ""


def _is_bare(value: str) -> bool:
    try:
        return not split_amount(value)[1]
    except GudgeonError:
        return False


def _keys(parameter: Parameter) -> str:
    """Which keys a telephone shows: those of numbers where nothing else is typed."""
    plain = parameter.kind is not None and parameter.kind not in _MAY_BE_MINUS
    percent = "%" in parameter.example + (parameter.default or "")
    return "decimal" if plain and not percent else "text"
