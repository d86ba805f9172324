"""Pages and prints bring everything with them, run nothing in line, and speak US English."""

import ast
import re
from pathlib import Path

import pytest

from tests.house.code import ROOT, SRC, Module, modules

TEMPLATES = sorted((SRC / "gudgeon" / "web" / "templates").rglob("*.html"))
STATIC = sorted((SRC / "gudgeon" / "web" / "static").rglob("*.*"))
PRINTS = sorted((SRC / "gudgeon" / "paper").rglob("*.typ"))

# In line, a rule of the browser that keeps strange scripts out would have to be loosened.
IN_LINE = re.compile(r"<style|<script(?![^>]*\bsrc=)|\sstyle\s*=|\son[a-z]+\s*=|javascript:", re.IGNORECASE)
UNESCAPED = re.compile(r"\|\s*safe\b|autoescape|Markup\(")
OUTSIDE = re.compile(r"""(?:https?:|["'(=]\s*)//(?!www\.w3\.org/)[\w.]|@import|@preview/|\bdata:""")
STORED = re.compile(r"localStorage|sessionStorage|document\.cookie|innerHTML|\beval\(|new Function")
REMEMBERED = {"bench.js": {"localStorage"}, "comfort.js": {"sessionStorage"}}
"""Whether he wants sounds and the voice, and which press was the last: nothing of the book."""
BRITISH = re.compile(
    r"""\b(
        (?:colour|favour|behaviour|honour|neighbour|labour|vapour|odour|armour)\w* |
        (?:centre|fibre|calibre|litre|metre|millimetre|centimetre|manoeuvre|theatre)s? |
        \w+(?:elled|elling|eller)(?<!spelled)(?<!spelling)(?<!propelled)(?<!propeller)(?<!impeller)(?<!selling)(?<!seller)(?<!telling)(?<!dwelling)(?<!swelling)(?<!swelled)(?<!smelling)(?<!smelled)(?<!shelling) |
        (?:organ|real|recogn|minim|maxim|normal|special|author|equal|initial|optim|summar|apolog)is(?:e|ed|es|ing|ation) |
        analys(?:e|ed|es|ing) | grey\w* | aluminium | tyres? | kerb\w* | programmes? | catalogues? | judgements? |
        licences? | defences? | offences? | moulds? | ploughs? | cheques? | storeys? | sceptic\w* | whilst | amongst |
        spanners? | petrol | bonnets? | windscreens? | paraffin
    )\b""",
    re.IGNORECASE | re.VERBOSE,
)


def hits(pattern: re.Pattern[str], text: str) -> list[str]:
    return [match[0] for match in pattern.finditer(text)]


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.name)
def test_a_template_runs_nothing_in_line_and_fetches_nothing(template: Path) -> None:
    text = template.read_text("utf-8")
    assert hits(IN_LINE, text) + hits(UNESCAPED, text) + hits(OUTSIDE, text) == []
    assert "target=" not in text, "a page opens in the window in which it was asked for"


@pytest.mark.parametrize("file", STATIC, ids=lambda path: path.name)
def test_styles_and_scripts_bring_everything_with_them(file: Path) -> None:
    text = file.read_text("utf-8")
    stored = set(hits(STORED, text)) - REMEMBERED.get(file.name, set())
    assert (hits(OUTSIDE, text), stored) == ([], set())


@pytest.mark.parametrize("template", PRINTS, ids=lambda path: path.name)
def test_a_print_needs_no_package_from_outside(template: Path) -> None:
    assert hits(OUTSIDE, template.read_text("utf-8")) == []


def shown_texts(module: Module) -> list[str]:
    """Texts in a module that may reach a reader: every constant but the docstrings."""
    bare = {id(node.value) for node in module.walk() if isinstance(node, ast.Expr)}
    return [
        node.value
        for node in module.walk()
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in bare
    ]


def test_readers_are_spoken_to_in_us_english() -> None:
    files = [*TEMPLATES, *PRINTS, *(SRC / "gudgeon").rglob("*.toml"), *(SRC / "gudgeon").rglob("*.yaml")]
    files += [*(ROOT / "docs").glob("*.md"), *ROOT.glob("*.md")]
    found = [
        f"{file.relative_to(ROOT)}: {word}"
        for file in files
        for word in hits(BRITISH, file.read_text("utf-8"))
    ]
    found += [
        f"{module}: {word}"
        for module in modules("src/gudgeon")
        if module.package != "quantity"  # it reads what others wrote, in their spelling
        for text in shown_texts(module)
        for word in hits(BRITISH, text)
    ]
    assert found == []


@pytest.mark.parametrize(
    ("pattern", "text"),
    [
        (IN_LINE, "<p style='color: red'>"),
        (IN_LINE, "<script>alert(1)</script>"),
        (IN_LINE, '<a onclick="go()">'),
        (UNESCAPED, "{{ name | safe }}"),
        (OUTSIDE, '<img src="//cdn.example/x.png">'),
        (OUTSIDE, '#import "@preview/tablex:0.0.1"'),
        (STORED, "localStorage.draft = 1"),
        (BRITISH, "the colour of the centre, labelled in millimetres"),
    ],
)
def test_such_a_fault_is_found(pattern: re.Pattern[str], text: str) -> None:
    assert pattern.search(text)


@pytest.mark.parametrize(
    ("pattern", "text"),
    [
        (IN_LINE, '<script src="/static/x.js" defer></script> <button type="submit">Record</button>'),
        (OUTSIDE, '<svg xmlns="' + "http" + '://www.w3.org/2000/svg"> // a remark'),
        (BRITISH, "meter, color, spelled, impeller, diameter, analysis, parameter, Grade, exercise"),
    ],
)
def test_ordinary_text_is_left_alone(pattern: re.Pattern[str], text: str) -> None:
    assert not pattern.search(text)
