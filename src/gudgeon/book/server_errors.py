"""What a book on a database server refuses beside what every book refuses, one class per cause.

Each is told the address as it may be shown; none of them ever holds a password.
"""

from gudgeon.errors import InputError


class DriverMissing(InputError):
    """What speaks to PostgreSQL is not installed, or not whole."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"The book {address} is on PostgreSQL, and what speaks to it is not installed here ({why}). "
            "Install `psycopg[binary]` beside Gudgeon."
        )


class ServerAway(InputError):
    """No connection to the server, or it takes none."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"The server of the book {address} cannot be reached ({why}). Nothing was recorded; "
            "look whether it runs, and at host and port of the address."
        )


class DatabaseMissing(InputError):
    """The server is there and has no such database."""

    def __init__(self, address: str) -> None:
        super().__init__(
            f"There is no such database on the server: {address}. Check its name, or make it with PostgreSQL's "
            "`createdb`."
        )


class PasswordRefused(InputError):
    """The password is wrong, or none was given."""

    def __init__(self, address: str) -> None:
        super().__init__(
            f"The server does not take the password for {address}, or was given none. Put it into the "
            "file that PostgreSQL reads passwords from (~/.pgpass), or into PGPASSWORD; the name stands before the @ "
            "of the address."
        )


class NotLetIn(InputError):
    """The server lets this person in from nowhere, or not from here."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"The server does not let you in at {address} ({why}). Whoever keeps the server gives you a name there, "
            "and lets it in from this machine."
        )


class NoRights(InputError):
    """The server knows the person, who has no right to this."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"You have no right to do this in the book {address} ({why}). Nothing was recorded; whoever keeps "
            "the server gives you the rights (docs/book.md lists them)."
        )


class ServerReadOnly(InputError):
    """The server, or the session, takes no changes."""

    def __init__(self, address: str) -> None:
        super().__init__(
            f"The book {address} may only be read: its server takes no changes (it may be a copy of another one). "
            "Nothing was recorded; name the server that is written to."
        )


class ServerMayForget(InputError):
    """The server says that it does not wait for its disk."""

    def __init__(self, address: str, setting: str) -> None:
        super().__init__(
            f"The server of the book {address} does not wait for its disk (its setting is `{setting}`), so that what "
            "it acknowledges may be lost. Nothing was recorded; set it to `on` in postgresql.conf and have the server "
            "read that again."
        )


class EncodingRefused(InputError):
    """The database cannot keep every text as it was written."""

    def __init__(self, address: str, encoding: str) -> None:
        super().__init__(
            f"The database {address} keeps texts as {encoding}, which cannot hold every sign of a book. It was left "
            "untouched; make one with `createdb --encoding UTF8 --template template0`."
        )


class SchemaTaken(InputError):
    """In the database, the place of the book holds something else."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"The database {address} has a schema `gudgeon` that is no book of Gudgeon ({why}). It was left untouched; "
            "name another database with --book."
        )


class ConnectionLost(InputError):
    """The server went away before it was asked to keep what was sent."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"The connection to the book {address} was lost ({why}). Nothing was recorded; "
            "look whether its server runs, then try again."
        )


class OutcomeUnknown(InputError):
    """The server went away while it was keeping what was sent, and did not come back in time to be asked."""

    def __init__(self, address: str) -> None:
        super().__init__(
            f"The connection to the book {address} was lost while this was being recorded, and the server cannot be "
            "asked. Whether it is in the book is not known: when the server runs again, look with "
            "`gudgeon book show --last 5` before you record it again. (A form of a page may be sent again: "
            "it counts once.)"
        )


class ServerFailed(InputError):
    """The server gave up what it was asked for."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(
            f"The server of the book {address} could not do it ({why}). Nothing was recorded; "
            "look at the log of the server."
        )
