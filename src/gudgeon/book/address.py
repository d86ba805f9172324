"""Where a book is: a file, or a database on a server; and what lies beside it."""

import os
import re
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeAlias
from urllib.parse import quote, unquote

from gudgeon.errors import InputError

_SERVER = re.compile(
    r"(?:(?P<user>[^:@/?#\s]*)(?::(?P<password>[^@/?#\s]*))?@)?"
    r"(?P<host>\[[0-9A-Fa-f:.]+\]|[\w.,%-]*)(?::(?P<port>\d*))?"
    r"(?:/(?P<database>[^/?#@:\s]*))?(?:\?(?P<options>[^?#@\s]*))?"
)
OPTIONS = (
    *("connect_timeout", "host", "passfile", "password", "port", "sslcert", "sslcrl", "sslkey"),
    *("sslmode", "sslrootcert", "user"),
)
"""What may stand behind the `?` of an address; the rest of what PostgreSQL knows there is not needed."""
PORT = 5432


class AddressRefused(InputError):
    """The address of a database that cannot be read. It may hold a password, so nothing of it is shown."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"The address of the book cannot be read ({why}); it is not shown here, as it may hold a password. "
            "It looks like postgresql://NAME@HOST:5432/DATABASE; a sign that means something in an address, like @ : / "
            "in a password, is written as % and its two digits (@ is %40)."
        )


@dataclass(frozen=True, slots=True)
class ServerAddress:
    """A database on a PostgreSQL server. What is shown of it holds no password."""

    host: str
    port: int
    database: str
    user: str = ""
    password: str = field(default="", repr=False)
    options: tuple[tuple[str, str], ...] = field(default=(), repr=False)

    def __str__(self) -> str:
        who = f"{quote(self.user, safe='')}@" if self.user else ""
        database = quote(self.database, safe="")
        if not self.host or self.host.startswith("/"):
            host = f"host={quote(self.host)}&" if self.host else ""
            return f"postgresql://{who}/{database}?{host}port={self.port}"
        host = f"[{self.host}]" if ":" in self.host else self.host
        return f"postgresql://{who}{host}:{self.port}/{database}"

    def without_password(self, text: str) -> str:
        """A text of the server's or the driver's, in which the password is not legible."""
        return text.replace(self.password, "***") if self.password else text


BookAddress: TypeAlias = Path | ServerAddress
"""Where a book is. `str` of it can be shown to anybody."""


def book_address(text: str) -> BookAddress:
    """What was said with --book or GUDGEON_BOOK: the address of a database, else the path of a file."""
    scheme, mark, rest = text.partition("://")
    if not mark or not re.fullmatch(r"[A-Za-z][A-Za-z0-9+.-]*", scheme):
        return Path(text).expanduser()
    if scheme.lower() not in ("postgresql", "postgres"):
        raise AddressRefused("it does not begin with postgresql:// or postgres://")
    found = _SERVER.fullmatch(rest)
    if found is None:
        raise AddressRefused("its parts cannot be told apart")
    said = {name: _plain(value or "") for name, value in found.groupdict().items() if name != "options"}
    options = _options(found["options"] or "")
    for name in ("host", "port", "user", "password"):
        said[name] = options.pop(name, "") or said[name]
    return _server(said, options)


def _server(said: Mapping[str, str], options: Mapping[str, str]) -> ServerAddress:
    """Host and port from the address, else from the variables that every program for PostgreSQL reads."""
    host = said["host"].strip("[]") or os.environ.get("PGHOST", "")
    port = said["port"] or os.environ.get("PGPORT", "") or str(PORT)
    if not said["database"]:
        raise AddressRefused("it names no database")
    if "," in host:
        raise AddressRefused("it names several servers; a book is on one")
    if not port.isdecimal() or not 1 <= int(port) <= 65535:
        raise AddressRefused("its port is no number from 1 to 65535")
    return ServerAddress(
        host, int(port), said["database"], said["user"], said["password"], tuple(sorted(options.items()))
    )


def _options(text: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for part in filter(None, text.split("&")):
        name, mark, value = part.partition("=")
        if not mark or name not in OPTIONS or name in found:
            raise AddressRefused(f"behind the ? may stand, once each, {', '.join(OPTIONS)}")
        found[name] = _plain(value)
    return found


def _plain(text: str) -> str:
    """A part of an address with its % signs read."""
    if re.search(r"%(?![0-9A-Fa-f]{2})", text):
        raise AddressRefused("a % in it is not followed by two digits of 0 to 9 and A to F")
    try:
        plain = unquote(text, errors="strict")
    except UnicodeDecodeError:
        raise AddressRefused("what its % signs stand for is no text") from None
    if "\0" in plain:
        raise AddressRefused("it holds a sign that ends a text")
    return plain


def papers_folder(address: BookAddress) -> Path | None:
    """Where the paths of sheet and kit begin: beside the file; for a database in the folder that is named, if any.

    Without one they are whole there, and a path that began beside a file, before the book was moved, leads nowhere.
    """
    if isinstance(address, Path):
        return address.parent
    named = os.environ.get("GUDGEON_PAPERS", "")
    return Path(named).expanduser() if named else None


def photos_folder(address: BookAddress) -> Path:
    """Where the photos of a book lie: beside the file, or in a folder of this machine named after the database."""
    if isinstance(address, Path):
        return address.with_name(f"{address.name}.photos")
    named = os.environ.get("GUDGEON_PHOTOS", "")
    if named:
        return Path(named).expanduser()
    parts = (address.host or "local", str(address.port), address.database)
    return data_folder() / "photos" / "_".join(quote(part, safe="").replace("_", "%5F") for part in parts)


def data_folder() -> Path:
    """The user's data folder: XDG on Unix, the usual place elsewhere."""
    if os.name == "nt":
        base = os.environ.get("LOCALAPPDATA") or str(Path.home() / "AppData" / "Local")
        return Path(base) / "gudgeon"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "gudgeon"
    named = os.environ.get("XDG_DATA_HOME")
    return (Path(named) if named else Path.home() / ".local" / "share") / "gudgeon"
