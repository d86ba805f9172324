"""Imports run one way, and what is slow to load is loaded by the command that needs it alone."""

import ast
import json
import subprocess
import sys

import pytest

from tests.house.code import ROOT, Module, dotted, imported, modules, program

LAYERS = (
    {"errors"},
    {"quantity"},
    {"sources"},
    {"written"},
    {"calc", "sheet", "kit", "book", "demo"},
    {"bench"},
    {"paper"},
    {"web"},
    {"cli", "__main__"},
)
LEVEL = {package: level for level, packages in enumerate(LAYERS) for package in packages}
CLOCKS = (
    "datetime.now",
    "datetime.utcnow",
    "datetime.today",
    "date.today",
    "time.time",
    "time.time_ns",
    "time.localtime",
    "time.gmtime",
)
PAGES = {"starlette", "fastapi", "uvicorn", "jinja2", "python_multipart", "anyio", "typst", "playwright"}
SLOW = {"numpy", "scipy", "rich", "pydantic", "ruamel", "sqlite3", "psycopg", "PIL", *PAGES}
OWNERS = {
    "sqlite3": {"book"},
    "psycopg": {"book"},
    "PIL": {"book"},
    "argparse": {"cli"},
    "starlette": {"web"},
    "fastapi": {"web"},
    "jinja2": {"web"},
    "uvicorn": {"web", "cli"},
    "typst": {"paper"},
    "playwright": set[str](),  # for the tests and the pictures of the README alone
}


def house() -> tuple[Module, ...]:
    return modules("src/gudgeon")


@pytest.mark.parametrize("module", house(), ids=str)
def test_imports_run_one_way(module: Module) -> None:
    wrong = []
    for name, line in imported(module):
        parts = name.split(".")
        if parts[0] != "gudgeon" or parts[1:2] == ["__version__"]:
            continue
        target = parts[1]
        if target == module.package:
            continue
        if module.package == "" or LEVEL[target] >= LEVEL[module.package]:
            wrong.append(f"line {line}: {module.package or 'gudgeon'} may not import {target}")
    assert not wrong


def test_every_package_has_its_level() -> None:
    assert {module.package for module in house()} - {""} <= LEVEL.keys()


@pytest.mark.parametrize(("library", "owners"), OWNERS.items(), ids=OWNERS)
def test_a_library_stays_in_one_package(library: str, owners: set[str]) -> None:
    users = {m.path: m.package for m in house() for name, _ in imported(m) if name.split(".")[0] == library}
    assert {path for path, package in users.items() if package not in owners} == set()


def test_only_the_command_line_prints() -> None:
    printing = [
        f"{module}:{node.lineno}"
        for module in house()
        for node in module.walk()
        if isinstance(node, ast.Call) and dotted(node.func) in ("print", "input") and module.package != "cli"
    ]
    assert printing == []


def test_only_the_faces_read_the_clock() -> None:
    reading = [
        f"{module}:{node.lineno} {dotted(node)}"
        for module in house()
        for node in module.walk()
        if isinstance(node, ast.Attribute)
        and dotted(node).endswith(CLOCKS)
        and module.package not in ("bench", "cli")
    ]
    assert reading == []


@pytest.mark.parametrize("module", modules("src/gudgeon/calc"), ids=str)
def test_kernels_are_pure(module: Module) -> None:
    """No file, no clock, no chance of its own: a generator is passed in; the form of a calculator makes it of a seed."""
    impure = {"random", "os", "io", "pathlib", "time", "datetime", "subprocess", "socket", "secrets", "uuid"}
    assert [name for name, _ in imported(module) if name.split(".")[0] in impure] == []
    calls = [node for node in module.walk() if isinstance(node, ast.Call) and not is_seeded(module, node)]
    names = [dotted(node.func) for node in calls]
    assert [name for name in names if name == "open" or ".random." in name] == []


def is_seeded(module: Module, call: ast.Call) -> bool:
    """Whether a form makes the generator of a seed that is always the same."""
    fixed = len(call.args) == 1 and ast.unparse(call.args[0]) == "SEED" and not call.keywords
    return module.name.endswith("_forms") and dotted(call.func) == "np.random.default_rng" and fixed


def test_files_are_read_and_written_as_utf_8() -> None:
    """The system's own encoding differs from machine to machine."""
    careless = [
        f"{module}:{node.lineno}"
        for module in program()
        for node in module.walk()
        if isinstance(node, ast.Call) and _text_without_encoding(node)
    ]
    assert careless == []


BYTES_ALONE = {"os.open", "archive.open"}  # a number of the system's; a file within a zip file


def _text_without_encoding(call: ast.Call) -> bool:
    if dotted(call.func) in BYTES_ALONE:
        return False
    named = {keyword.arg for keyword in call.keywords}
    if dotted(call.func) == "open" or (isinstance(call.func, ast.Attribute) and call.func.attr == "open"):
        texts = [value.value for value in call.args if isinstance(value, ast.Constant)]
        return "encoding" not in named and not any(isinstance(text, str) and "b" in text for text in texts)
    if not isinstance(call.func, ast.Attribute) or call.func.attr not in ("read_text", "write_text"):
        return False
    return "encoding" not in named and len(call.args) < (1 if call.func.attr == "read_text" else 2)


def loaded_by(statement: str) -> set[str]:
    """The libraries that are loaded once a fresh Python has run this."""
    script = f"import sys, json; {statement}; print(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, check=True, text=True, cwd=ROOT
    )
    return {name.split(".")[0] for name in json.loads(done.stdout)}


@pytest.mark.parametrize(
    "statement",
    [
        "from gudgeon.cli.main import build_parser; build_parser()",
        "from gudgeon.calc import calculator; calculator.names()",
    ],
    ids=["help", "names of calculators"],
)
def test_start_up_loads_nothing_slow(statement: str) -> None:
    assert SLOW & loaded_by(statement) == set()


def test_answers_in_the_terminal_load_nothing_of_pages_and_paper() -> None:
    assert PAGES & loaded_by("import gudgeon.cli.questions, gudgeon.cli.recording") == set()


def test_pages_do_not_load_the_interface_for_programs() -> None:
    """It takes as long to load as everything else that a first page needs."""
    assert "fastapi" not in loaded_by("import gudgeon.web.app")


def test_pages_load_neither_the_press_nor_what_the_terminal_needs() -> None:
    assert {"typst", "rich", "numpy", "scipy", "playwright"} & loaded_by("import gudgeon.web.app") == set()


def test_a_book_in_a_file_loads_nothing_of_databases() -> None:
    asking = "import gudgeon.web.app, gudgeon.cli.questions, gudgeon.cli.recording, gudgeon.book.opening"
    assert "psycopg" not in loaded_by(f"{asking}, gudgeon.book.sqlite")
