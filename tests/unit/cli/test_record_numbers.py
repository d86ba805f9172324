"""A whole number that is none is refused in a sentence, without the usage of the command."""

from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import make_job


@pytest.mark.parametrize("said", ["x", "1.5", "", "9" * 16, "٣"])
def test_what_is_no_whole_number_is_refused_in_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], said: str
) -> None:
    job = make_job(tmp_path)
    arguments = ["record", "price", "gasket", "north", "12", "EUR", "--pack", said, "--book", str(job.book)]
    assert main(arguments) == 2
    assert capsys.readouterr().err == (
        f"`{said}` is no whole number for `--pack`. Write it in figures of at most 15 signs, like `30`; nothing was "
        "recorded.\n"
    )


def test_a_number_below_the_least_is_told_with_the_limit(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = make_job(tmp_path)
    arguments = ["record", "price", "gasket", "north", "12", "EUR", "--pack", "0", "--book", str(job.book)]
    assert main(arguments) == 2
    assert capsys.readouterr().err == (
        "This price seen is not complete: pack: 0 is too small; a book takes 1 or more. Nothing was recorded.\n"
    )
