"""What only the interface for programs refuses, one class per cause."""

from collections.abc import Sequence

from gudgeon.errors import InputError, RecordError, quoted, short


class SecretUnknown(InputError):
    """A secret that belongs to no device on the list."""

    def __init__(self) -> None:
        super().__init__(
            "The secret in the header Authorization belongs to no paired device: it was mistyped, or the device was "
            "taken off the list. Nothing was read or written. Pair anew: gudgeon devices --invite, then /api/pair."
        )


class NotFromHere(RecordError):
    """A request with the cookie of a device and without the seal that only its own pages know."""

    def __init__(self) -> None:
        super().__init__(
            "With the cookie of a device its seal is needed in the header Gudgeon-Seal, or another page could write "
            "in its name. Nothing was written. A program sends its secret instead: Authorization: Bearer SECRET."
        )


class OtherBasis(RecordError):
    """A basis that is no head of this build."""

    def __init__(self, basis: str) -> None:
        super().__init__(
            f"The basis {basis[:12]} is no entry of this build: another book is open here now, or another build. "
            "Nothing was written. Ask again, look at what is there, and send the basis of that answer."
        )


class NotAsked(InputError):
    """Something in the question part of an address that it does not know."""

    def __init__(self, said: str, known: Sequence[str]) -> None:
        taken = quoted(known) if known else "nothing"
        super().__init__(f"`{short(said)}` is not asked here. What may be said after the `?`: {taken}.")
        self.where = said


class AskedTwice(InputError):
    """Something said twice that is taken once."""

    def __init__(self, said: str) -> None:
        super().__init__(f"`{short(said)}` is said twice. Say it once.")
        self.where = said


class FieldUnknown(InputError):
    """A field that the kind does not have."""

    def __init__(self, field: str, kind: str, known: Sequence[str]) -> None:
        super().__init__(
            f"`{short(field)}` is no field of `{kind}`. Nothing was written. Its fields: {quoted(known)}."
        )
        self.where = f"fields.{field}"


class FieldNotSaid(InputError):
    """A field that has to be said."""

    def __init__(self, field: str, kind: str, what: str) -> None:
        super().__init__(f"`{field}` of `{kind}` was not said: {what}. Nothing was written; say it.")
        self.where = f"fields.{field}"


class FieldRefused(InputError):
    """A field of another shape than its own."""

    def __init__(self, field: str, kind: str, wanted: str) -> None:
        super().__init__(f"`{field}` of `{kind}` takes {wanted}. Nothing was written.")
        self.where = f"fields.{field}"


class PhotoByPage(InputError):
    """A photo that is to be sent as JSON."""

    def __init__(self, kind: str) -> None:
        super().__init__(
            f"`{kind}` with a photo is not taken here. Nothing was written. Send it by its page, /record/{kind}, as a "
            "form with the file; or from the terminal: gudgeon record photo FILE."
        )
        self.where = "fields.photo"
