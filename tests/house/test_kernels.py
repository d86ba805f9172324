"""A kernel says what it computes, in which units, from which source, and where it stops."""

import ast
import doctest
import re
from importlib import import_module

import pytest

from tests.house.code import ROOT, Function, Module, modules

SECTIONS = ("Equation", "Parameters", "Returns", "Valid for", "Source", "Example", "Not covered")
PROVENANCE = ("HAND", "COMMON PRACTICE", "MEMORY", "OTHER TOOL")
HEADING = re.compile(r"^([A-Z][a-z ]+):$", re.MULTILINE)
ENTRY = re.compile(r"^    ([a-z_][a-z0-9_]*): ", re.MULTILINE)
UNIT = re.compile(r"\[[^\]]+\]")


def kernels() -> list[tuple[str, Function]]:
    """Public functions in the packages below calc; its top modules and the forms of calculators serve them."""
    found = [
        (f"{module.name}.{node.name}", node)
        for module in modules("src/gudgeon/calc")
        if module.name.count(".") == 3 and not module.name.endswith("forms")
        for node in module.tree.body
        if isinstance(node, Function) and not node.name.startswith("_")
    ]
    assert found
    return found


def parts(text: str, mark: re.Pattern[str]) -> dict[str, str]:
    """What stands after each mark of a text, up to the next, in the order in which they stand."""
    found = list(mark.finditer(text))
    ends = [following.start() for following in found] + [len(text)]
    return {one[1]: text[one.end() : end].rstrip() for one, end in zip(found, ends[1:], strict=True)}


def arguments(function: Function) -> list[ast.arg]:
    taken = function.args
    several = [taken.vararg] if taken.vararg else []
    return [*taken.posonlyargs, *taken.args, *several, *taken.kwonlyargs]


def is_number(annotation: ast.expr | None) -> bool:
    """Whether a value, or each of several, is a number: text and switches have no unit."""
    text = ast.unparse(annotation) if annotation else ""
    return any(word in text for word in ("float", "int", "NDArray"))


KERNELS = kernels()


@pytest.mark.parametrize("function", [function for _, function in KERNELS], ids=[name for name, _ in KERNELS])
def test_docstring(function: Function) -> None:
    docstring = ast.get_docstring(function) or ""
    assert docstring.split("\n\n")[0].endswith("."), "it begins with one sentence"
    found = parts(docstring, HEADING)
    assert tuple(found) == SECTIONS
    assert all(text.strip() for text in found.values()), "a heading without text"
    described = parts(found["Parameters"], ENTRY)
    assert list(described) == [argument.arg for argument in arguments(function)]
    without = [
        a.arg for a in arguments(function) if is_number(a.annotation) and not UNIT.search(described[a.arg])
    ]
    assert without == [], "the unit in brackets is missing"
    assert UNIT.search(found["Returns"]) or not is_number(function.returns), (
        "the unit of the result is missing"
    )
    assert ">>>" in found["Example"]
    assert re.search("|".join((r"\d", *PROVENANCE)), found["Source"]), "an edition, or where it comes from"


def with_examples() -> list[Module]:
    found = [m for m in modules("src/gudgeon") if ">>>" in (ROOT / m.path).read_text("utf-8")]
    assert {"calc", "quantity"} <= {module.package for module in found}
    return found


@pytest.mark.parametrize("module", with_examples(), ids=str)
def test_examples_are_true(module: Module) -> None:
    results = doctest.testmod(import_module(module.name))
    assert results.attempted > 0
    assert results.failed == 0
