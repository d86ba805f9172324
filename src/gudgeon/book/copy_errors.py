"""What copies, archives and moves refuse, one class per cause."""

from collections.abc import Sequence

from gudgeon.book.store import Problem
from gudgeon.errors import InputError, RecordError

_SHOWN = 5


def some_of(problems: Sequence[Problem]) -> str:
    """The first few problems, and how many more there are."""
    more = f"; and {len(problems) - _SHOWN} more" if len(problems) > _SHOWN else ""
    return "; ".join(str(one) for one in problems[:_SHOWN]) + more


class ChainsNotInOrder(RecordError):
    """Chains from elsewhere that are not as they were written."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        super().__init__(
            f"What was to be taken over is not as it was written: {some_of(problems)}. Nothing was written; "
            "use another copy."
        )


class ChainsPart(RecordError):
    """Two chains of one name that do not go on from each other."""

    def __init__(self, build: str, number: int, *, there: int, come: int) -> None:
        super().__init__(
            f"The build `{build}` is in this book already, and the two part at entry {number}: here it has {there} "
            f"entries, the other {come}, and they differ from there on. Nothing was written; "
            "keep the other one in a book of its own with --book NEW."
        )


class EntryInOtherBuild(RecordError):
    """An id that is taken in the book by another build."""

    def __init__(self, entry: str, *, build: str, come: str) -> None:
        super().__init__(
            f"The entry {entry[:8]} of the build `{come}` is in this book already, in the build `{build}`. "
            "Nothing was written; keep the other one in a book of its own with --book NEW."
        )


class BuildsThere(InputError):
    """A move to where builds of these names are."""

    def __init__(self, place: str, builds: Sequence[str], *, same: bool) -> None:
        which = ", ".join(f"`{build}`" for build in builds)
        so = "They are the same there to the last entry" if same else "They are not the same there"
        super().__init__(
            f"In {place} there is {which} already. {so}. Nothing was moved; "
            "name a place without them, or take over what is new with `gudgeon book export` and `gudgeon book import`."
        )


class StillWritten(RecordError):
    """A move that never ends, because others write into the old book all the while."""

    def __init__(self, left: str, *, to: str) -> None:
        super().__init__(
            f"Others write into {left} faster than it can be moved. What it held before is in {to}, the last "
            "entries are not. Let them stop, then take over the rest with `gudgeon book export` and "
            "`gudgeon book import`."
        )


class BookNotInOrder(RecordError):
    """A book with problems is not copied as if it had none."""

    def __init__(self, place: str, problems: Sequence[Problem]) -> None:
        super().__init__(
            f"The book {place} is not as it was written: {some_of(problems)}. Nothing was written, so that no copy "
            "looks whole that is not; go back to an earlier copy, and keep this book as it is."
        )


class BookEmpty(InputError):
    """There is nothing to copy."""

    def __init__(self, place: str) -> None:
        super().__init__(f"The book {place} holds no build yet. Nothing was written.")


class BookThere(InputError):
    """A book is never written over."""

    def __init__(self, place: str) -> None:
        super().__init__(
            f"There is a book at {place} already; it was left as it is, and nothing was written. "
            "Name a place where there is none with --book NEW."
        )


class RestIsThere(InputError):
    """What is left of another book would be read into the new one."""

    def __init__(self, place: str, *, rest: str) -> None:
        super().__init__(
            f"There is no book at {place}, but {rest} of an earlier one is still there and may hold entries of it. "
            "Nothing was written; move it away, or name another place with --book NEW."
        )


class FileThere(InputError):
    """A copy is never written over another file."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"{path} exists already and was left as it is. Nothing was written; name another file."
        )


class FileRefused(InputError):
    """A file that the system does not let be written."""

    def __init__(self, path: str, why: str) -> None:
        self.why = why
        super().__init__(f"{path} cannot be written ({why}). Nothing is left of it; name another place.")


class PhotoChanged(InputError):
    """A photo that another program changed between two looks at it."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"The photo {path} was changed while it was copied. Nothing was written; "
            "let the other program finish, then try again."
        )


class ArchiveMissing(InputError):
    """There is no such file."""

    def __init__(self, path: str) -> None:
        super().__init__(f"There is no file {path}. Check the name; nothing was written.")


class NotAnArchive(InputError):
    """The file is something else."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"{path} is not an export or a backup of Gudgeon ({why}). It was left as it is, and nothing was written; "
            "name another file."
        )


class ArchiveDamaged(InputError):
    """An archive of which something is missing, changed, or too much."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"{path} is damaged: {why}. It was left as it is, and nothing was written; use another copy."
        )


class ArchiveUnsafe(InputError):
    """An archive as no book writes it, made to do harm or by another program."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"{path} is not taken: {why}. No export or backup of Gudgeon is like that. It was left as it is, "
            "and nothing was written; ask whoever gave it to you for a new one."
        )


class ArchiveTooLarge(InputError):
    """More than is unpacked at a time."""

    def __init__(self, path: str, what: str, limit: str) -> None:
        super().__init__(
            f"{path} is not taken: {what}, and this program takes at most {limit}. It was left as it is, "
            "and nothing was written; export the builds one by one with --build NAME."
        )


class ArchiveTooNew(InputError):
    """Written by a later program."""

    def __init__(self, path: str, found: int, known: int) -> None:
        super().__init__(
            f"{path} has format {found}, this program knows up to {known}. It was left as it is, and nothing was "
            "written; use the newer program."
        )


class HeadNotReadable(InputError):
    """What was given as the head of a chain cannot be one."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{said}` is no head of a chain: on a printed page it is 12 to 64 of the signs 0 to 9 and a to f. "
            "Nothing was compared; read it again."
        )
