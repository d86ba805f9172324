"""Reading YAML: every scalar as written, every value with its place, nothing guessed."""

from pathlib import Path

import pytest

from gudgeon.errors import InputError
from gudgeon.written.errors import (
    AliasRefused,
    DuplicateKey,
    FileMissing,
    FileTooLarge,
    FileUnreadable,
    NotAMapping,
    NotYaml,
    TooDeep,
)
from gudgeon.written.located import read_file, read_text, read_yaml

TEXT = """\
plain: 1.10
words: no
hex: 0x1F
date: 2026-03-31
empty:
quoted: ""
list:
  - torque: 40 N·m (29.5 lbf·ft)
    only: [1, 2]
"""


def test_scalars_stay_as_written() -> None:
    data = read_yaml(TEXT, file="s.yaml").data
    assert data["plain"] == "1.10"
    assert data["words"] == "no"
    assert data["hex"] == "0x1F"
    assert data["date"] == "2026-03-31"
    assert data["empty"] is None
    assert data["quoted"] == ""
    assert data["list"] == [{"torque": "40 N·m (29.5 lbf·ft)", "only": ["1", "2"]}]


def test_every_value_has_its_place() -> None:
    written = read_yaml(TEXT, file="s.yaml")
    place = written.place(("list", 0, "torque"))
    assert (place.file, place.line, place.column) == ("s.yaml", 8, 13)
    place = written.place(("list", 0, "only", 1))
    assert (place.line, place.column) == (9, 15)
    # A missing value is told at its parent; an empty one at its key.
    assert written.place(("list", 0, "turn")).line == 8
    assert written.place(("empty",)).line == 5


@pytest.mark.parametrize(
    ("text", "error", "message"),
    [
        ("a: 1\na: 2\n", DuplicateKey, "s.yaml, line 2, column 1: `a` is here a second time; the first is on line 1. Keep one."),
        ("a: &x 1\nb: *x\n", AliasRefused, "s.yaml, line 1, column 4: The anchor is not taken: every figure stands where it is used. Write it out."),
        ("b: *x\n", AliasRefused, "s.yaml, line 1, column 4: The alias is not taken: every figure stands where it is used. Write it out."),
        ("- 1\n", NotAMapping, "s.yaml, line 1, column 1: A file of `key: value` lines was expected, a list was found. See `gudgeon sheet blank`."),
        ("", NotAMapping, "s.yaml, line 1, column 1: A file of `key: value` lines was expected, an empty file was found. See `gudgeon sheet blank`."),
        ("a: 1\n---\nb: 2\n", NotYaml, "s.yaml, line 2, column 1: This is not well-formed YAML: a second document begins here. Mend the line."),
        ("? [a]\n: 1\n", NotYaml, "s.yaml, line 1, column 3: This is not well-formed YAML: a key must be plain text. Mend the line."),
        ("a: {b: 1\n", NotYaml, None),
    ],
)  # fmt: skip
def test_refusals(text: str, error: type[InputError], message: str | None) -> None:
    with pytest.raises(error) as caught:
        read_yaml(text, file="s.yaml")
    if message is not None:
        assert str(caught.value) == message
    assert caught.value.place is not None and caught.value.place.line is not None


def test_a_bomb_stays_small() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 9)]
    with pytest.raises(AliasRefused):
        read_yaml("\n".join(lines), file="bomb.yaml")


@pytest.mark.parametrize("depth", [30, 100_000])
def test_depth_is_limited(depth: int) -> None:
    with pytest.raises(TooDeep):
        read_yaml("a: " + "[" * depth, file="deep.yaml")


def test_files(tmp_path: Path) -> None:
    with pytest.raises(FileMissing) as missing:
        read_file(tmp_path / "none.yaml")
    told = f"{tmp_path / 'none.yaml'}: there is no such file. Check the name"
    assert str(missing.value) == f"{told}, and the folder it is sought from."
    with pytest.raises(FileMissing) as missing:
        read_text(tmp_path / "none.yaml", what="kit")
    assert str(missing.value) == f"{told}; `gudgeon kit blank` makes one."
    with pytest.raises(FileUnreadable):
        read_file(tmp_path)
    binary = tmp_path / "binary.yaml"
    binary.write_bytes(b"\xff\xfe\x00a")
    with pytest.raises(FileUnreadable):
        read_file(binary)
    huge = tmp_path / "huge.yaml"
    huge.write_text("# " + "x" * 2_000_001)
    with pytest.raises(FileTooLarge):
        read_file(huge)


@pytest.mark.parametrize("file", ["sheet.yaml", "kit.yaml", "entries.yaml"])
def test_both_parsers_find_the_same(file: str) -> None:
    """OTHER TOOL: the parser of YAML 1.2 against the one in C, value by value and place by place."""
    from importlib import resources

    from gudgeon.written.located import _built, _built_fast

    text = (resources.files("gudgeon.demo") / file).read_text("utf-8")
    slow, fast = _built(text, file), _built_fast(text, file)
    assert fast is not None, "the parser in C is not there"
    assert (fast.root, fast.values, fast.keys) == (slow.root, slow.values, slow.keys)


@pytest.mark.parametrize(
    ("text", "value"), [("a: {b: c:}\n", {"b": "c:"}), ("a: {b: [-1, :x]}\n", {"b": ["-1", ":x"]})]
)
def test_what_the_parser_in_c_refuses_is_read_by_the_other(text: str, value: object) -> None:
    from gudgeon.written.located import _built_fast

    assert _built_fast(text, "x.yaml") is None
    assert read_yaml(text, file="x.yaml").data == {"a": value}


def test_a_tab_that_no_figure_could_be_written_beside_is_refused() -> None:
    with pytest.raises(NotYaml):
        read_yaml("a:\tb\n", file="x.yaml")
