"""The project as its house tests see it: files, and the syntax trees of those that are Python."""

import ast
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src"
Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True, slots=True)
class Module:
    """One Python file: its path as a reader writes it, its dotted name, its tree."""

    path: str
    name: str
    tree: ast.Module
    lines: int

    def __str__(self) -> str:
        return self.path

    @property
    def package(self) -> str:
        """The package below `gudgeon` (or the top module) that the file belongs to."""
        return self.name.split(".")[1] if "." in self.name else ""

    def walk(self) -> Iterator[ast.AST]:
        """All nodes of its tree."""
        return ast.walk(self.tree)


@cache
def modules(*folders: str) -> tuple[Module, ...]:
    """The Python files of these folders (or files) of the project."""
    found: list[Module] = []
    for folder in folders:
        start = ROOT / folder
        for path in sorted(start.rglob("*.py")) if start.is_dir() else [start]:
            text = path.read_text("utf-8")
            base = SRC if path.is_relative_to(SRC) else ROOT
            parts = path.relative_to(base).with_suffix("").parts
            name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
            shown = path.relative_to(ROOT).as_posix()
            found.append(Module(shown, name, ast.parse(text, shown), len(text.splitlines())))
    assert found, f"no Python file in {folders}"
    return tuple(found)


def program() -> tuple[Module, ...]:
    """All that runs at a user's: the package and the script at the root."""
    return modules("src/gudgeon", "do.py")


def public_functions(module: Module) -> Iterator[tuple[str, Function]]:
    """Functions of a module and methods of its classes that others may call."""
    for node in module.tree.body:
        if isinstance(node, Function) and not node.name.startswith("_"):
            yield node.name, node
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for inner in node.body:
                if isinstance(inner, Function) and not inner.name.startswith("_"):
                    yield f"{node.name}.{inner.name}", inner


def dotted(node: ast.AST) -> str:
    """`a.b.c` of an attribute or a name; empty for anything else."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        before = dotted(node.value)
        return f"{before}.{node.attr}" if before else ""
    return ""


def imported(module: Module) -> Iterator[tuple[str, int]]:
    """Every module that a file imports, anywhere in it, with the line; names stay absolute."""
    for node in module.walk():
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name, node.lineno
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}:{node.lineno}: write the import out from `gudgeon`"
            for alias in node.names:
                yield f"{node.module}.{alias.name}", node.lineno


@cache
def tracked_files() -> tuple[Path, ...]:
    """Files under version control that are still there."""
    git = shutil.which("git")
    if git is None or not (ROOT / ".git").exists():
        pytest.skip("This is not a checkout: which files are tracked is not known.")
    listed = subprocess.run([git, "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True)
    found = tuple(ROOT / name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file())
    assert found
    return found
