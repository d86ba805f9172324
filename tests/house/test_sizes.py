"""Nothing grows so long that it cannot be read in one go."""

import ast

import pytest

from tests.house.code import Function, Module, dotted, modules, public_functions

BODY, MODULE, CLASS = 60, 500, 300


def measured() -> tuple[Module, ...]:
    return modules("src/gudgeon", "tools", "benchmarks", "do.py")


def body_lines(function: Function) -> int:
    """Lines of a function below its signature and its docstring."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    return (function.end_lineno or 0) - body[0].lineno + 1 if body else 0


@pytest.mark.parametrize("module", measured(), ids=str)
def test_sizes(module: Module) -> None:
    too_long = [f"module: {module.lines} lines"] if module.lines > MODULE else []
    for node in module.walk():
        if isinstance(node, Function) and body_lines(node) > BODY:
            too_long.append(f"{node.name}: {body_lines(node)} lines")
        if isinstance(node, ast.ClassDef) and (node.end_lineno or 0) - node.lineno >= CLASS:
            too_long.append(f"class {node.name}: {(node.end_lineno or 0) - node.lineno + 1} lines")
    assert too_long == []


@pytest.mark.parametrize("module", modules("src/gudgeon"), ids=str)
def test_arguments_that_could_be_swapped_are_named(module: Module) -> None:
    """`after_cut(0.3, swept_cm3=…)` cannot go wrong unnoticed.

    A kernel takes one argument by its place. Elsewhere up to three may stand unnamed, as long as each
    has a type of its own: then the type checker sees a swap.
    """
    loose = []
    for name, function in public_functions(module):
        placed = function.args.posonlyargs + function.args.args
        marks = {dotted(mark) for mark in function.decorator_list}
        if "." in name and "staticmethod" not in marks:
            placed = placed[1:]
        types = [ast.unparse(argument.annotation) for argument in placed if argument.annotation]
        is_kernel = module.package == "calc" and module.name.count(".") == 3
        if len(placed) > (1 if is_kernel else 3) or len(set(types)) < len(placed):
            loose.append(f"{name}({', '.join(argument.arg for argument in placed)})")
    assert loose == []
