"""What the book refuses, one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError, RecordError

NO_TEXT = "it holds NUL, a sign that no text holds"


class BookMissing(InputError):
    """There is no file."""

    def __init__(self, path: str) -> None:
        super().__init__(f"There is no book at {path}. Check the name, or begin one with `gudgeon begin`.")


class NotABook(InputError):
    """The file is something else; it is left untouched."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"{path} is not a book of Gudgeon ({why}). It was left untouched; name another file with --book."
        )


class BookUnreadable(InputError):
    """The file is there and the system does not let it be read."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"The book {path} cannot be read ({why}). Give yourself the right to read it.")


class BookDamaged(InputError):
    """A book that cannot be read to its end."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The book {path} is damaged ({why}). It was left untouched; keep it, "
            "and bring a backup back under another name with `gudgeon book restore`."
        )


class BookTooNew(InputError):
    """Written by a later program."""

    def __init__(self, path: str, found: int, known: int) -> None:
        super().__init__(
            f"The book {path} has format {found}, this program knows up to {known}. "
            "It was left untouched; use the newer program."
        )


class BookReadOnly(InputError):
    """The file or its folder may not be written."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"The book {path} may not be written. Nothing was recorded; "
            "give yourself the right to write the file and its folder."
        )


class BookBusy(InputError):
    """Another program holds the book."""

    def __init__(self, path: str) -> None:
        super().__init__(f"The book {path} is held by another program. Nothing was recorded; try again.")


class DiskFull(InputError):
    """There is no room for the entry."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is no room on the disk of {path}. Nothing was recorded; make room, then try again."
        )


class DiskFailed(InputError):
    """The disk, or the way to it, failed."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The disk failed while the book {path} was used ({why}). Nothing was recorded; "
            "look at the disk, then ask again what is in the book."
        )


class NotConfirmed(InputError):
    """The disk failed at the last step of recording: whether it is in the book can only be looked up."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The disk failed while something was recorded in the book {path} ({why}). It may be in the book or not; "
            "look at the disk, then with `gudgeon book show` whether it is there, before you record it again."
        )


class LogOfAnother(InputError):
    """Beside the book lies the log of another one."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"The log {path}-wal beside the book {path} is the log of another book. Both were left untouched; "
            "put the log back beside its own book, or bring a backup back with `gudgeon book restore`."
        )


class FolderMissing(InputError):
    """A book is to be made in a folder that does not exist."""

    def __init__(self, folder: str) -> None:
        super().__init__(
            f"There is no folder {folder} for the book. Make it, or name another place with --book."
        )


class BodyRefused(InputError):
    """A draft that is not what its kind asks for."""

    def __init__(self, kind: str, problems: Sequence[str]) -> None:
        super().__init__(
            f"This {kind.replace('-', ' ')} is not complete: {'; '.join(problems)}. Nothing was recorded."
        )


class UnknownKind(InputError):
    """A kind of entry that does not exist."""

    def __init__(self, kind: str, known: Sequence[str]) -> None:
        super().__init__(
            f"`{kind}` is no kind of entry. Nothing was recorded; the kinds are {', '.join(known)}."
        )


class SameIdOtherContent(RecordError):
    """One id for two different entries."""

    def __init__(self, entry: str) -> None:
        super().__init__(
            f"The entry {entry[:8]} is in the book already with other content. Nothing was recorded; use a new id."
        )


class BuildNotBegun(RecordError):
    """An entry for a build that the book does not hold."""

    def __init__(self, build: str) -> None:
        super().__init__(
            f"The build `{build}` is not in this book. Nothing was recorded; begin it with `gudgeon begin`."
        )


class BuildBegunTwice(RecordError):
    """A build is begun once."""

    def __init__(self, build: str) -> None:
        super().__init__(
            f"The build `{build}` is in this book already. Nothing was recorded; choose another name."
        )


class StrikeRefused(RecordError):
    """A strike that strikes nothing that can be struck."""

    def __init__(self, entry: str, why: str) -> None:
        super().__init__(
            f"The entry {entry[:8]} cannot be struck: {why}. Write the fact again as a new entry instead."
        )


class DocumentRefused(InputError):
    """A text that is to be pinned and that not every store can keep as it is."""

    def __init__(self, kind: str, why: str) -> None:
        super().__init__(
            f"The text of the {kind} cannot be kept ({why}). Nothing was recorded; write the file anew in an editor."
        )


class DocumentMissing(RecordError):
    """A pinned text that is not in the book."""

    def __init__(self, sha: str) -> None:
        super().__init__(
            f"The text {sha[:8]} is not in the book. Put the sheet and the kit back where they were."
        )
