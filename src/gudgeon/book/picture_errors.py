"""What is refused of a photo, one class per cause."""

from gudgeon.errors import InputError

MOST_BYTES = 30 * 1024 * 1024
MOST_PIXELS = 80_000_000
MOST_SIDE = 65_535
TAKEN = "JPEG, PNG or WebP of at most 30 MB and 80 megapixels"


def megabytes(size: int) -> str:
    """A size as people say it."""
    return f"{size / 1024 / 1024:.1f} MB"


class PhotoEmpty(InputError):
    """A file without a byte in it."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"`{name or 'The file'}` is empty: there is no photo in it. Copy it from the camera again; "
            "nothing was written."
        )


class NotAPhoto(InputError):
    """A file of another kind."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"`{name or 'The file'}` is not taken: its content is no photo that pages can show, whatever its name "
            f"says. A photo may be {TAKEN}; nothing was written."
        )


class PhotoIsHeic(InputError):
    """A format of phones that browsers do not show."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"`{name or 'The file'}` is not taken: it is a HEIC picture, which most browsers do not show. Let the "
            "phone save JPEG: in the settings of its camera choose the most compatible format, or switch "
            "“high efficiency” off; a picture that is taken already can be exported or sent as JPEG. "
            f"A photo may be {TAKEN}; nothing was written."
        )


class PhotoMoves(InputError):
    """Several pictures in one file, to be shown one after the other."""

    def __init__(self, name: str, pictures: int) -> None:
        super().__init__(
            f"`{name or 'The file'}` is not taken: it holds {pictures} pictures that follow each other, and which of "
            "them would be the proof? Save the one that shows it as a photo of its own; nothing was written."
        )


class PhotoTooLarge(InputError):
    """More bytes than any photo of a bench needs."""

    def __init__(self, name: str, size: int) -> None:
        super().__init__(
            f"`{name or 'The photo'}` has {megabytes(size)}. A photo may be {TAKEN}: "
            "take it at a lower resolution. Nothing was written."
        )


class PhotoTooManyPixels(InputError):
    """A picture that would take too much room when it is decoded."""

    def __init__(self, name: str, pixels: str) -> None:
        super().__init__(
            f"`{name or 'The photo'}` has {pixels}. A photo may be {TAKEN}, and {MOST_SIDE} pixels along a side: "
            "take it at a lower resolution. Nothing was written."
        )


class PhotoTooLargeAnew(InputError):
    """A picture that packs its pixels better than this program does."""

    def __init__(self, name: str, size: int, most: int) -> None:
        super().__init__(
            f"`{name or 'The photo'}` would have {megabytes(size)} when it is written anew without what the camera "
            f"put beside the picture, and a book keeps at most {megabytes(most)} of one. Take it at a lower "
            "resolution, or save it as JPEG. Nothing was written."
        )


class PhotoDamaged(InputError):
    """A photo that cannot be decoded to its end."""

    def __init__(self, name: str, why: str) -> None:
        super().__init__(
            f"`{name or 'The photo'}` cannot be decoded to its end ({why}): it is cut off or damaged. "
            "Copy it from the camera again; nothing was written."
        )


class PhotoNotKept(InputError):
    """The folder of the photos does not take it."""

    def __init__(self, folder: str, why: str) -> None:
        super().__init__(
            f"The photo cannot be kept in {folder} ({why}). Nothing was written, neither there nor into the book; "
            "make room there, or look at the rights of the folder, then record it again."
        )
