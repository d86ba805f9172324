"""Work that takes longer than a page should: it runs beside the pages, says how far it is, and can be stopped.

A work that is stopped leaves nothing behind: it hears of it the next time that it says what it is doing. Few run at
a time, and few of a kind that have ended are kept, the last ones.
"""

import re
import secrets
import shutil
import sys
import tempfile
import traceback
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from threading import Event, Lock, Thread
from typing import Any
from weakref import finalize

from gudgeon.bench.errors import Unknown
from gudgeon.book.tell import Tell
from gudgeon.errors import GudgeonError, InputError

RUNNING_MOST, KEPT_MOST = 2, 6
AT_ONCE_S = 1.0
"""Who asks for work that takes no longer has its answer at once."""
_OF = re.compile(r"([\d,]+) of ([\d,]+)")


class Stopped(Exception):
    """Somebody stopped the work."""


class TooMuchAtOnce(InputError):
    """More work than this machine should do at a time."""

    def __init__(self, titles: tuple[str, ...]) -> None:
        super().__init__(
            f"{len(titles)} works are running already ({', '.join(titles)}), and no more run at a time. Nothing was "
            "begun. Wait until one is through, or stop it."
        )


class WorkGone(Unknown):
    """A work that is not kept: it ended with an earlier server, or later ones took its place."""

    def __init__(self) -> None:
        InputError.__init__(
            self,
            "Nothing is known of this work any more: the server was started anew since, or later works took its place. "
            "What it had made is gone; the book is as it was. Begin it again from the page it belongs to.",
        )


@dataclass(frozen=True, slots=True)
class Result:
    """What came out: an answer for the page of the work, or a file to fetch, which the work has put into its folder.

    `then` is the address of the page that shows it, where that is another one.
    """

    answer: Any = None
    file: Path | None = None
    then: str = ""


@dataclass(frozen=True, slots=True)
class From:
    """The page that a work was begun from, and what a link back to it says."""

    address: str = "/book"
    words: str = "The whole book"


@dataclass(slots=True)
class Work:
    """One work: what it is, how far it has come, and what came out."""

    id: str
    title: str
    kind: str
    folder: Path
    begun_from: From = field(default_factory=From)
    same: str = ""
    words: str = "It begins."
    state: str = "running"
    fault: GudgeonError | None = None
    error: str = ""
    result: Result = field(default_factory=Result)
    stop: Event = field(default_factory=Event)
    ended: Event = field(default_factory=Event)

    @property
    def fraction(self) -> float | None:
        """How much of what is done now is done, where it can be counted."""
        found = _OF.search(self.words)
        if found is None:
            return None
        part, whole = (int(one.replace(",", "")) for one in found.groups())
        return min(1.0, part / whole) if whole else None

    def tell(self, words: str) -> None:
        """Say what is being done now; the work ends here when somebody has stopped it."""
        if self.stop.is_set():
            raise Stopped
        self.words = words

    def told(self) -> Mapping[str, Any]:
        """How far it is, for a page that looks again and again."""
        return {"state": self.state, "words": self.words, "fraction": self.fraction}

    def forget(self) -> None:
        """Throw away what it has put into its folder."""
        shutil.rmtree(self.folder, ignore_errors=True)


class Works:
    """The works of one server, in the order in which they began."""

    def __init__(self) -> None:
        self._works: dict[str, Work] = {}
        self._guard = Lock()
        self._folder: Path | None = None

    def start(
        self,
        title: str,
        *,
        kind: str,
        do: Callable[[Path, Tell], Result],
        begun_from: From | None = None,
        same: str = "",
        patient: bool = True,
    ) -> Work:
        """Begin a work in a thread of its own; it is given a folder, and what to say how far it is with.

        Where work that does the `same` is running already, that is the answer, and nothing is begun. Who is not
        `patient` does not wait to see whether it is through at once.
        """
        work, new = self._begun(title, kind, begun_from or From(), same)
        if new:
            Thread(target=_worked, args=(work, do), daemon=True).start()
        if patient:
            work.ended.wait(AT_ONCE_S)
        return work

    def _begun(self, title: str, kind: str, begun_from: From, same: str) -> tuple[Work, bool]:
        with self._guard:
            running = [one for one in self._works.values() if one.state == "running"]
            for one in running:
                if same and one.same == same and not one.stop.is_set():
                    return one, False
            if len(running) >= RUNNING_MOST:
                raise TooMuchAtOnce(tuple(one.title for one in running))
            if self._folder is None:  # it is gone with this program
                self._folder = Path(tempfile.mkdtemp(prefix="gudgeon-"))
                finalize(self, shutil.rmtree, self._folder, ignore_errors=True)
            key = secrets.token_hex(8)
            folder = self._folder / key
            folder.mkdir(mode=0o700)
            work = self._works[key] = Work(key, title, kind, folder, begun_from, same)
            self._let_go(kind)
            return work, True

    def of(self, key: str) -> Work | None:
        """A work by its id, as long as it is kept."""
        return self._works.get(key)

    def stop(self, key: str) -> Work | None:
        """Have a work end; it is gone with what it had written by then."""
        work = self._works.get(key)
        if work is not None:
            if work.state == "running":
                work.stop.set()
                work.words = "It is being stopped."
            work.ended.wait(AT_ONCE_S)
        return work

    def _let_go(self, kind: str) -> None:
        ended = [one for one in self._works.values() if one.state != "running" and one.kind == kind]
        for one in ended[: max(0, len(ended) - KEPT_MOST)]:
            del self._works[one.id]
            one.forget()


def _worked(work: Work, do: Callable[[Path, Tell], Result]) -> None:
    try:
        work.result = do(work.folder, work.tell)
        work.words, work.state = "It is done.", "done"
    except Stopped:
        work.words, work.state = "It was stopped. Nothing of it is left.", "stopped"
    except GudgeonError as error:
        work.fault, work.error, work.state = error, str(error), "refused"
    except Exception:  # noqa: BLE001  (the person is told that it is our fault; the trace goes to the terminal)
        sys.stderr.write(f"{work.title} failed:\n{traceback.format_exc()}")
        work.error, work.state = "Something of Gudgeon's own failed; the terminal says what.", "failed"
    finally:
        if work.state != "done":
            with suppress(OSError):
                work.forget()
        work.ended.set()
