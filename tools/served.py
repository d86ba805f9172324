"""The pages as a person has them: `gudgeon serve` as a process of its own, on a free port."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Self
from urllib.error import URLError
from urllib.request import urlopen

from gudgeon.book.address import ServerAddress, data_folder
from gudgeon.web.devices import ADDRESS_SIGNS, Devices

PATIENCE_S = 30.0
GUDGEON = ("-m", "gudgeon.cli.main")


class NotServed(Exception):
    """The server ended, or did not answer in time."""

    def __init__(self, why: str, *, log: Path) -> None:
        said = log.read_text("utf-8", errors="replace").strip() if log.exists() else ""
        super().__init__(f"The pages are not served: {why}.\n{said}")


class Served:
    """A running server; a `with` block ends it."""

    def __init__(
        self,
        book: Path,
        *,
        database: ServerAddress | None = None,
        build: str | None = None,
        port: int | None = None,
        program: Sequence[str] = GUDGEON,
        environment: Mapping[str, str] | None = None,
    ) -> None:
        """Start the server on a free port (or this one) and wait until it answers; what it says lies beside `book`."""
        self.book, self.port = book, port or free_port()
        self.address = f"http://127.0.0.1:{self.port}"
        self._log = book.with_name(f"served-{self.port}.log")
        command = [
            sys.executable,
            *program,
            "serve",
            "--book",
            str(database or book),
            "--port",
            str(self.port),
            "--no-open",
            *(() if build is None else ("--build", build)),
        ]
        with self._log.open("ab") as log:
            self.process = subprocess.Popen(
                command, stdin=subprocess.DEVNULL, stdout=log, stderr=log, env={**os.environ, **(environment or {})}
            )  # fmt: skip
        try:
            self._wait()
        except BaseException:
            self.kill()
            raise

    def _wait(self) -> None:
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            if self.process.poll() is not None:
                raise NotServed(f"the server ended with {self.process.returncode}", log=self._log)
            with suppress(URLError, OSError), urlopen(self.address, timeout=5):
                return
            time.sleep(0.05)
        raise NotServed(f"no answer within {PATIENCE_S:.0f} s", log=self._log)

    def invitation(self) -> str:
        """An address that pairs the browser that opens it, once."""
        devices = Devices(data_folder() / "devices")
        code = devices.invite(now=datetime.now(UTC), signs=ADDRESS_SIGNS, here=True)
        return f"{self.address}/pair?code={code}"

    @property
    def log(self) -> str:
        """What the server said so far."""
        return self._log.read_text("utf-8", errors="replace")

    def kill(self) -> None:
        """End it as a power cut would: it gets no chance to tidy up."""
        self.process.kill()
        self.process.wait()

    def stop(self) -> None:
        """End it as a person would."""
        self.process.terminate()
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.kill()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()


def free_port() -> int:
    """A port of the loopback address that nobody uses at the moment."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
