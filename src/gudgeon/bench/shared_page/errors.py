"""What is refused before a page is shared."""

from gudgeon.errors import InputError


class NotInIt(InputError):
    """Words or a photo were chosen that are not part of what is shared."""

    def __init__(self, number: int, kind: str) -> None:
        what = (
            f"Entry {number} is no photo that counts"
            if kind == "photo"
            else f"Entry {number} is not part of it"
        )
        super().__init__(
            f"{what}. A page of one operation holds the entries of that operation, and those notes and photos that you "
            "name by their numbers; `gudgeon share --look` lists both. Nothing was written."
        )


class PhotoNotWhole(InputError):
    """A photo was chosen whose file is not as it was taken."""

    def __init__(self, number: int, why: str) -> None:
        super().__init__(
            f"The photo of entry {number} cannot be shown: {why}. Leave it out, or put its file back from a backup. "
            "Nothing was written."
        )
