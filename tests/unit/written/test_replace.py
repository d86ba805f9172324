"""A file is replaced whole or not at all, and its line endings stay."""

from pathlib import Path

import pytest

from gudgeon.written.replace import replace_bytes, replace_text


def test_the_new_text_is_there_and_nothing_beside_it(tmp_path: Path) -> None:
    file = tmp_path / "sheet.yaml"
    file.write_text("old\n", encoding="utf-8")
    replace_text(file, "new: µ\n")
    assert file.read_bytes() == "new: µ\n".encode()
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.yaml"]


def test_line_endings_of_another_system_stay(tmp_path: Path) -> None:
    file = tmp_path / "sheet.yaml"
    file.write_bytes(b"a: 1\r\nb: 2\r\n")
    replace_text(file, file.read_text(encoding="utf-8").replace("2", "3"))
    assert file.read_bytes() == b"a: 1\r\nb: 3\r\n"


def test_a_failure_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk is what is outside of us: it fails as the content is secured."""
    file = tmp_path / "sheet.yaml"
    file.write_bytes(b"old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("gudgeon.written.replace.os.fsync", full)
    with pytest.raises(OSError, match="No space left"):
        replace_bytes(file, b"new")
    assert file.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.yaml"]


def test_a_file_that_points_elsewhere_goes_on_pointing_there(tmp_path: Path) -> None:
    real = tmp_path / "real.yaml"
    real.write_bytes(b"old")
    link = tmp_path / "sheet.yaml"
    try:
        link.symlink_to(real)
    except OSError:
        pytest.skip("This system lets nobody make such a file.")
    replace_text(link, "new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"
