"""What can be wrong with a hand-written file, one class per cause."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.errors import InputError, Place

MOST_BYTES = 2_000_000
MOST_DEPTH = 24
BLANKS = {"data sheet": "gudgeon sheet blank", "kit": "gudgeon kit blank"}
"""What writes an empty one of each kind of file."""
MADE_BY = {**BLANKS, "file of positions": "gudgeon trace"}
"""What writes each kind of file, empty or from a photo."""


class FileMissing(InputError):
    """The file named is not there."""

    def __init__(self, path: str, *, what: str = "") -> None:
        other = f"; `{MADE_BY[what]}` makes one" if what in MADE_BY else ", and the folder it is sought from"
        super().__init__(f"{path}: there is no such file. Check the name{other}.")


class FileWrong(InputError):
    """A file that is there and cannot be taken as what it should be; `what` it should be, where that is known."""

    what: str = ""


class FileUnreadable(FileWrong):
    """The file is there and cannot be read as text."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path}: cannot be read ({why}). Give a text file in UTF-8 that you may read.")


class FileTooLarge(FileWrong):
    """Larger than any sheet written by hand."""

    def __init__(self, path: str, size: int) -> None:
        super().__init__(
            f"{path}: {size:,} bytes is more than the {MOST_BYTES:,} bytes a hand-written file may have. "
            "Is it the right file?"
        )


class NotYaml(FileWrong):
    """The text is not well-formed YAML."""

    def __init__(self, why: str, *, place: Place) -> None:
        super().__init__(f"This is not well-formed YAML: {why}. Mend the line.", place=place)


class NotAMapping(FileWrong):
    """The file holds something else than `key: value` lines."""

    def __init__(self, found: str, *, place: Place, what: str = "") -> None:
        blank = MADE_BY.get(what, BLANKS["data sheet"])
        super().__init__(
            f"A file of `key: value` lines was expected, {found} was found. See `{blank}`.", place=place
        )


class OtherFile(FileWrong):
    """A data sheet where a kit was expected, or the other way round."""

    def __init__(self, is_: str, *, wanted: str, written: str, place: Place) -> None:
        super().__init__(
            f"This is a {is_} (`gudgeon: {written}`), not a {wanted}. Give the file of the {wanted}; "
            f"`{BLANKS[wanted]}` makes one.",
            place=place,
        )


class DuplicateKey(FileWrong):
    """One key twice in one mapping: the second would silently win."""

    def __init__(self, key: str, first: Place, *, place: Place) -> None:
        super().__init__(
            f"`{key}` is here a second time; the first is on line {first.line}. Keep one.", place=place
        )


class AliasRefused(FileWrong):
    """Anchors and aliases can blow a small file up, and hide where a figure comes from."""

    def __init__(self, what: str, *, place: Place) -> None:
        super().__init__(
            f"{what} is not taken: every figure stands where it is used. Write it out.", place=place
        )


class TooDeep(FileWrong):
    """More levels than any sheet needs."""

    def __init__(self, *, place: Place) -> None:
        super().__init__(
            f"More than {MOST_DEPTH} levels inside each other. Is it the right file?", place=place
        )


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong, and where."""

    place: Place
    message: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


class FileRefused(FileWrong):
    """The file is well-formed and says something that cannot be right."""

    def __init__(self, what: str, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        shown = [str(problem) for problem in self.problems[:20]]
        if len(self.problems) > 20:
            shown.append(f"… and {len(self.problems) - 20} more.")
        super().__init__("\n".join(shown))
        self.what = what
