"""A PostgreSQL server of its own, for the tests and the measurements: made in a folder of its own, thrown away after.

It waits for its disk as a real one does. It listens on a socket in its folder and on nothing else.
"""

import os
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

VARIABLE = "GUDGEON_POSTGRES"
DEBIAN = ("usr", "lib", "postgresql")
OWNER = "postgres"
PORT = 5432
PATIENCE_S = 60.0
SETTINGS = {"listen_addresses": "", "max_connections": "60", "shared_buffers": "16MB", "lc_messages": "C"}
LET_IN = "local all with_password scram-sha-256\nlocal all kept_out reject\nlocal all all trust\n"
"""Whoever reaches the socket is let in without a password, but for two names that are there to be asked or refused."""


class NoPostgres(Exception):
    """There are no programs of PostgreSQL to be found, or nobody whom they may run as."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"{why}. Install the PostgreSQL server (on Debian and Ubuntu: apt install postgresql; it need not run), "
            f"or set {VARIABLE} to the folder of its programs."
        )


class NotStarted(Exception):
    """The server did not start, or did not stop."""

    def __init__(self, what: str, *, log: Path) -> None:
        said = log.read_text("utf-8", errors="replace")[-2000:] if log.exists() else ""
        super().__init__(f"{what}\n{said}")


def programs() -> Path:
    """The folder of the server's programs: the named one, else what pg_config says, else Debian's newest."""
    named = os.environ.get(VARIABLE)
    found = [Path(named)] if named else _usual()
    for folder in found:
        if (folder / "initdb").exists() and (folder / "postgres").exists():
            return folder
    raise NoPostgres(f"{VARIABLE} names {named}, where they are not" if named else "No PostgreSQL was found")


def _usual() -> list[Path]:
    found = []
    asked = shutil.which("pg_config")
    if asked:
        said = subprocess.run([asked, "--bindir"], capture_output=True, text=True, check=False)
        found.append(Path(said.stdout.strip()))
    debian = [one for one in Path("/").joinpath(*DEBIAN).glob("*/bin") if one.parent.name.isdecimal()]
    return [*found, *sorted(debian, key=lambda one: int(one.parent.name), reverse=True)]


class Cluster:
    """A server with databases of its own."""

    def __init__(self, folder: Path, *, settings: dict[str, str] | None = None) -> None:
        self.folder = folder
        self.log = folder / "log"
        self._data = folder / "data"
        self._settings = {**SETTINGS, **(settings or {}), "unix_socket_directories": str(folder)}
        self._bin = programs()
        self._user = _owner(folder)
        self._server: subprocess.Popen[bytes] | None = None
        self._run(
            "initdb", "-D", str(self._data), "-U", OWNER, "--auth=trust", "--encoding=UTF8", "--locale=C"
        )
        (self._data / "pg_hba.conf").write_text(LET_IN, encoding="utf-8")

    def address(self, database: str, *, user: str = OWNER, password: str = "") -> str:
        """The address of a database of this server."""
        who = f"{user}:{password}" if password else user
        return f"postgresql://{who}@/{database}?host={self.folder}&port={PORT}"

    def start(self) -> None:
        """Start it, and wait until it answers."""
        options = [part for name, value in self._settings.items() for part in ("-c", f"{name}={value}")]
        with self.log.open("ab") as log:
            self._server = subprocess.Popen(
                [self._bin / "postgres", "-D", self._data, "-p", str(PORT), *options],
                stdin=subprocess.DEVNULL, stdout=log, stderr=log, cwd=self.folder, user=self._user, group=self._user,
            )  # fmt: skip
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            if self._server.poll() is not None:
                raise NotStarted(f"PostgreSQL ended with {self._server.returncode}.", log=self.log)
            if self._ready():
                return
            time.sleep(0.02)
        raise NotStarted(f"PostgreSQL did not answer within {PATIENCE_S:.0f} s.", log=self.log)

    def _ready(self) -> bool:
        import psycopg

        with suppress(psycopg.OperationalError), psycopg.connect(self.address("postgres")):
            return True
        return False

    def run(self, statements: str, *, database: str = "postgres") -> list[tuple[object, ...]]:
        """Run statements as the owner of the server, each for itself; the rows of the last one."""
        import psycopg

        with psycopg.connect(self.address(database), autocommit=True) as connection:
            done = connection.execute(statements)
            while done.nextset():
                pass
            return done.fetchall() if done.description else []

    def own(self, folder: Path) -> None:
        """Make a folder that the server may write."""
        folder.mkdir()
        _owner(folder)

    @property
    def process(self) -> "subprocess.Popen[bytes]":
        """The server itself, which starts the others; after it was killed, `start` starts it again."""
        if self._server is None:
            raise NotStarted("PostgreSQL was not started.", log=self.log)
        return self._server

    def stop(self) -> None:
        """Stop it as its owner would, without waiting for those who are connected."""
        if self._server is not None and self._server.poll() is None:
            self._server.send_signal(signal.SIGINT)
            try:
                self._server.wait(PATIENCE_S)
            except subprocess.TimeoutExpired:
                self._server.kill()
                self._server.wait()

    def _run(self, name: str, *arguments: str) -> None:
        done = subprocess.run(
            [self._bin / name, *arguments],
            capture_output=True, text=True, cwd=self.folder, user=self._user, group=self._user,
        )  # fmt: skip
        if done.returncode:
            raise NotStarted(
                f"{name} ended with {done.returncode}:\n{done.stdout}{done.stderr}", log=self.log
            )


def _owner(folder: Path) -> str | None:
    """PostgreSQL refuses to run as the administrator; then it runs as the user that comes with its package."""
    if getattr(os, "geteuid", lambda: 1)() != 0:
        return None
    try:
        shutil.chown(folder, OWNER, OWNER)
    except LookupError:
        raise NoPostgres(f"PostgreSQL does not run as root, and there is no user `{OWNER}`") from None
    return OWNER


@contextmanager
def running(**settings: str) -> Iterator[Cluster]:
    """A server, stopped at the end of the block; its folder is short, as the name of a socket may not be long."""
    programs()
    folder = Path(tempfile.mkdtemp(prefix="gudgeon-pg-"))
    try:
        cluster = Cluster(folder, settings=settings)
        try:
            cluster.start()
            yield cluster
        finally:
            cluster.stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)
