"""The calculators, listed and run."""

from argparse import Namespace

from gudgeon.cli.show import as_json, table
from gudgeon.errors import InputError


class NotKeyValue(InputError):
    """An input that is not `key=value`."""

    def __init__(self, said: str, name: str) -> None:
        super().__init__(
            f"`{said}` is not an input. Write key=value, like torque='40 N·m'; `gudgeon calc {name}` lists them."
        )


class GivenTwice(InputError):
    """An input given twice."""

    def __init__(self, key: str) -> None:
        super().__init__(f"`{key}` is given twice. Give it once.")


def calc(chosen: Namespace) -> int:
    """List the calculators, describe one, or run it."""
    from gudgeon.calc.calculator import calculator, names, run
    from gudgeon.calc.told import told

    if chosen.name is None:
        listed = [calculator(name) for name in names()]
        if chosen.json:
            return as_json([{"name": one.name, "title": one.title} for one in listed])
        table(("calculator", "what it works out"), [(one.name, one.title) for one in listed])
        print("\nIts inputs: gudgeon calc NAME   Run it: gudgeon calc NAME key=value …")
        return 0
    if not chosen.inputs:
        return _describe(chosen.name, chosen.json)
    inputs: dict[str, str] = {}
    for said in chosen.inputs:
        key, sign, value = said.partition("=")
        if not sign:
            raise NotKeyValue(said, chosen.name)
        if key.strip() in inputs:
            raise GivenTwice(key.strip())
        inputs[key.strip()] = value.strip()
    answer = run(chosen.name, inputs)
    if chosen.json:
        return as_json(told(answer))
    print(answer.title)
    table(("input", "as understood"), [(key, str(value)) for key, value in dict(answer.inputs).items()])
    print()
    table(("result", "what it is", "value"), [(one.name, one.text, one.shown) for one in answer.results])
    for flag in answer.flags:
        print(f"! {flag}")
    print(f"\nSource: {answer.source}")
    return 0


def _describe(name: str, as_json_too: bool) -> int:
    from gudgeon.calc.calculator import calculator

    one = calculator(name)
    if as_json_too:
        return as_json(one)
    print(f"{one.name}: {one.title}")
    table(
        ("input", "unit", "what it is", "default"),
        [
            (
                parameter.name,
                parameter.unit or "",
                parameter.text + (f" ({' | '.join(parameter.choices)})" if parameter.choices else ""),
                parameter.default
                if parameter.default is not None
                else "optional"
                if parameter.optional
                else "",
            )
            for parameter in one.parameters
        ],
    )
    print()
    table(
        ("result", "unit", "what it is"),
        [(result.name, result.unit or "", result.text) for result in one.results],
    )
    print(f"\nSource: {one.source}")
    return 0
