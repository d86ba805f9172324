"""A calculator: a kernel that a person runs by itself, with units on its inputs and results.

One registration (see catalog.py) serves terminal, pages and reference. Nothing but the
registration is imported until a calculator is run.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module

from gudgeon.calc.input_errors import (
    BareNumber,
    ChoiceUnknown,
    GivenBoth,
    InputNeeded,
    InputRefused,
    UnknownCalculator,
    UnknownInput,
)
from gudgeon.errors import InputError

Value = float | str | None
Found = float | str | tuple[float, ...] | None  # a result; several figures stand in their order

DEFAULT = " (default)"
AS_WRITTEN = "the points as written"


@dataclass(frozen=True, slots=True)
class Parameter:
    """An input: a figure of a kind, whose bare number is in `unit`; a kind of None is text.

    A bare number must lie in `bare`, where people write other units than the base unit: a compliance of 7.5 is
    meant in µm/kN and would be a million times that in mm/N. With its unit any figure is taken. `also` are other
    names of the input, `spelled` other words for its choices. A `file` is named by its path, or its lines stand
    there themselves.
    """

    name: str
    kind: str | None
    unit: str | None
    text: str
    default: str | None = None
    choices: tuple[str, ...] = ()
    optional: bool = False
    example: str = ""
    bare: tuple[float, float] | None = None
    also: tuple[str, ...] = ()
    spelled: tuple[tuple[str, str], ...] = ()
    file: bool = False


@dataclass(frozen=True, slots=True)
class Result:
    """A result: a figure of a kind in `unit`; a kind of None is text, or `several` numbers in their order."""

    name: str
    kind: str | None
    unit: str | None
    text: str
    decimals: int | None = None
    several: bool = False


@dataclass(frozen=True, slots=True)
class Worked:
    """What a kernel worked out: values by result name, flags, and words for values it shows itself.

    `understood` are the words for inputs of text that the kernel reads as figures: with the unit that they count in.
    """

    values: Mapping[str, Found]
    flags: tuple[str, ...] = ()
    shown: Mapping[str, str] | None = None
    units: Mapping[str, str] | None = None
    understood: Mapping[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Outcome:
    """A result as it is given out; `value` is in `unit`, `shown` is in both systems."""

    name: str
    text: str
    value: Found
    unit: str | None
    shown: str


@dataclass(frozen=True, slots=True)
class CalculatorAnswer:
    """The answer of a calculator, with the inputs as they were understood."""

    name: str
    title: str
    inputs: Mapping[str, str]
    results: tuple[Outcome, ...]
    flags: tuple[str, ...]
    source: str
    method: str

    def __getitem__(self, name: str) -> Found:
        return next(one.value for one in self.results if one.name == name)


@dataclass(frozen=True, slots=True)
class Calculator:
    """A registered calculator; `module` names the function that works it out."""

    name: str
    title: str
    module: str
    parameters: tuple[Parameter, ...]
    results: tuple[Result, ...]
    source: str
    method: str

    def run(self, inputs: Mapping[str, str]) -> CalculatorAnswer:
        """Work it out from inputs as a person writes them."""
        values, understood = self._read(inputs)
        module, _, function = self.module.partition(":")
        work: Callable[[Mapping[str, Value]], Worked] = getattr(import_module(module), function)
        worked = work(values)
        for key, words in (worked.understood or {}).items():
            understood[key] = words + (DEFAULT if understood.get(key, "").endswith(DEFAULT) else "")
        results = tuple(_outcome(result, worked) for result in self.results if result.name in worked.values)
        return CalculatorAnswer(
            self.name, self.title, understood, results, worked.flags, self.source, self.method
        )

    def _read(self, inputs: Mapping[str, str]) -> tuple[dict[str, Value], dict[str, str]]:
        inputs = self._by_own_names(inputs)
        values: dict[str, Value] = {}
        understood: dict[str, str] = {}
        for parameter in self.parameters:
            given = inputs.get(parameter.name, parameter.default)
            if given is None:
                if not parameter.optional:
                    raise InputNeeded(parameter.name, self.name, f"{parameter.name}={parameter.example!r}")
                values[parameter.name] = None
                continue
            values[parameter.name], shown = _read_one(parameter, given)
            understood[parameter.name] = shown if parameter.name in inputs else f"{shown}{DEFAULT}"
        return values, understood

    def _by_own_names(self, inputs: Mapping[str, str]) -> dict[str, str]:
        """The inputs under their own names, whichever of their names was written."""
        own = {name: one.name for one in self.parameters for name in (one.name, *one.also)}
        found: dict[str, str] = {}
        for key, given in inputs.items():
            name = own.get(key.replace("-", "_"))
            if name is None:
                raise UnknownInput(key, self.name, [one.name for one in self.parameters])
            if name in found:
                raise GivenBoth(name, key)
            found[name] = given
        return found


def names() -> tuple[str, ...]:
    """The names of all calculators, in the order of the catalog."""
    from gudgeon.calc.catalog import CALCULATORS

    return tuple(one.name for one in CALCULATORS)


def calculator(name: str) -> Calculator:
    """The calculator of that name."""
    from gudgeon.calc.catalog import CALCULATORS

    for one in CALCULATORS:
        if one.name == name:
            return one
    raise UnknownCalculator(name, names())


def run(name: str, inputs: Mapping[str, str]) -> CalculatorAnswer:
    """Run the calculator of that name on inputs as a person writes them."""
    return calculator(name).run(inputs)


def run_sent(name: str, inputs: Mapping[str, str]) -> CalculatorAnswer:
    """Run a calculator on inputs that were sent from a page: what stands for a file are its lines, never a path."""
    files = {one for of in calculator(name).parameters if of.file for one in (of.name, *of.also)}
    return run(name, {key: f"{given}\n" if key in files else given for key, given in inputs.items()})


def _read_one(parameter: Parameter, given: str) -> tuple[float | str, str]:
    """The value in the unit of the parameter, and how it was understood."""
    if parameter.kind is None:
        text = given.strip()
        if not text:
            raise InputNeeded(parameter.name, "The calculator", f"{parameter.name}={parameter.example!r}")
        if parameter.file and "\n" in given:
            return given, AS_WRITTEN
        chosen = _chosen(parameter, text) if parameter.choices else text
        return chosen, chosen
    from gudgeon.quantity.written import parse_amount

    try:
        amount = parse_amount(given, kind=parameter.kind, default_unit=parameter.unit)
    except InputError as error:
        raise InputRefused(parameter.name, error) from None
    value = amount.to(parameter.unit or "1")
    if parameter.bare is not None and _is_bare(given) and not _lies_in(value, parameter.bare):
        raise BareNumber(
            parameter.name, given.strip(), parameter.unit or "1", parameter.bare, parameter.example
        )
    return value, _shown(value, parameter.kind, parameter.unit or "1", None)


def _chosen(parameter: Parameter, given: str) -> str:
    """The choice that is written: in capitals or not, with hyphens or spaces, or so begun that only one is meant."""
    word = _plain(given)
    word = {_plain(other): _plain(choice) for other, choice in parameter.spelled}.get(word, word)
    same = [one for one in parameter.choices if _plain(one) == word]
    begun = [one for one in parameter.choices if f"{_plain(one)} ".startswith(f"{word} ")]
    longer = [one for one in parameter.choices if word.startswith(f"{_plain(one)} ")]
    for found in (same, begun, longer):
        if len(found) == 1:
            return found[0]
    raise ChoiceUnknown(parameter.name, given, parameter.choices)


def _plain(words: str) -> str:
    return words.casefold().replace("-", " ").replace("_", " ").strip()


def _is_bare(given: str) -> bool:
    try:
        float(given)
    except ValueError:
        return False
    return True


def _lies_in(value: float, between: tuple[float, float]) -> bool:
    return value == 0 or between[0] <= value <= between[1]


def _shown(value: float, kind: str, unit: str, decimals: int | None) -> str:
    """A value in both systems of units."""
    from gudgeon.quantity.format import both
    from gudgeon.quantity.kinds import kind as kind_of
    from gudgeon.quantity.units import convert

    return both(convert(value, frm=unit, to=kind_of(kind).base, kind=kind), kind=kind, decimals=decimals)


def _outcome(result: Result, worked: Worked) -> Outcome:
    value = worked.values[result.name]
    unit = (worked.units or {}).get(result.name, result.unit)
    shown = (worked.shown or {}).get(result.name)
    if shown is None:
        if isinstance(value, float) and result.kind is not None:
            shown = _shown(value, result.kind, result.unit or "1", result.decimals)
        else:
            shown = (
                "none"
                if value is None
                else ", ".join(map(str, value))
                if isinstance(value, tuple)
                else str(value)
            )
    return Outcome(result.name, result.text, value, unit, shown)
