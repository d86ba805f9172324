"""How long answers take while eight devices use the pages at once: the real server, on a small and on a large book.

Each device asks for a page every three seconds and records a pull every five, spread in time, on a joint of its own;
before a pull it asks how far the book is, as a page does that watches it. A ninth fetches a small file all the while:
the machine differs from day to day, and what can be compared is the ratio to that. `python -m benchmarks.load
[SECONDS]` writes load.md and ends with 1 when a limit is broken, or anything is answered otherwise than it should be.
"""

import json
import os
import platform
import random
import sys
import tempfile
import threading
import time
import uuid
from collections.abc import Iterator, Mapping
from contextlib import closing, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from http.client import HTTPConnection
from math import ceil
from pathlib import Path
from statistics import median
from urllib.parse import urlencode

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.bench.progress import OUTCOMES
from gudgeon.bench.pull_list import card
from gudgeon.book.address import BookAddress, data_folder
from gudgeon.web.devices import Devices
from gudgeon.web.security import COOKIE
from tools.cluster import NoPostgres
from tools.large_books import BUILDS, fill, in_files, job, on_a_server
from tools.served import Served

RESULTS = Path(__file__).with_name("load.md")
SECONDS = 60.0
PAGE_EVERY_S, PULL_EVERY_S, FILE_EVERY_S = 3.0, 5.0, 0.5
JOINTS = (
    "head", "camshaft_caps", "valve_cover", "intake_manifold", "exhaust_manifold", "rear_cover", "timing_end_mount",
    "spark_plugs",
)  # fmt: skip
"""A joint for each of the eight devices."""
PAGES = (
    "/", "/set/{joint}", "/good", "/good/bore", "/start?for=crank", "/set/{joint}", "/open", "/done", "/cut",
    "/good/head_flatness", "/set", "/start?for=handover",
)  # fmt: skip
FILE = "/static/mark.svg"
LARGE = 50_000
HEAD = """# Under load

Written by `python3 do.py bench`. {devices} paired devices at `gudgeon serve` for {seconds:g} s: each asks for a page
every {page:g} s and records a pull every {pull:g} s, on a joint of its own, with its own id and the head of the book as
it has just asked for it; where its joint is through it records that the joint is taken apart, and begins again. Python
{python}, {system}, {cores} cores, on which the devices are played as well. The ratio is to a small file fetched all the
while. What the server computes is per answer, whatever it was.

"""
TABLE = "| | answers | median | 95 % | ratio | limit | |\n| --- | --- | --- | --- | --- | --- | --- |\n"


@dataclass(slots=True)
class Heard:
    """What came back: how long each answer took [s], by what was asked, and what went wrong."""

    taken_s: dict[str, list[float]] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)

    def join(self, other: "Heard") -> None:
        """Take in what another heard."""
        for what, taken in other.taken_s.items():
            self.taken_s.setdefault(what, []).extend(taken)
        self.wrong += other.wrong


class Device:
    """One paired device: its connection, its joint, and what it has heard."""

    def __init__(
        self, number: int, port: int, *, cookie: str, seal: str, acts: Iterator[Mapping[str, str]]
    ) -> None:
        self.number, self.joint, self._acts = number, JOINTS[number], acts
        self._line = HTTPConnection("127.0.0.1", port, timeout=30)
        self._headers = {"Cookie": f"{COOKIE}={cookie}", "Gudgeon-Seal": seal}
        self.heard = Heard()

    def ask(self, what: str, address: str, *, form: Mapping[str, str] | None = None) -> bytes:
        """One answer to its last byte; what is not answered with 200 is wrong."""
        headers = dict(self._headers)
        body = None
        if form is not None:
            body = urlencode(form)
            headers |= {"Content-Type": "application/x-www-form-urlencoded", "Accept": "application/json"}
        start = time.perf_counter()
        self._line.request("GET" if form is None else "POST", address, body, headers)
        answer = self._line.getresponse()
        said = answer.read()
        self.heard.taken_s.setdefault(what, []).append(time.perf_counter() - start)
        if answer.status != 200:
            self.heard.wrong.append(f"{address}: {answer.status} {said[:300]!r}")
        return said

    def page(self, turn: int) -> None:
        """The next page of the mix; no two devices begin with the same one."""
        address = PAGES[(turn + self.number * 2) % len(PAGES)].format(joint=self.joint)
        self.ask("page", address)

    def pull(self) -> None:
        """How far is the book, and the next pull of the joint on top of that."""
        basis = json.loads(self.ask("standing", "/standing"))["head"]
        form = {**next(self._acts), "basis": basis, "entry": uuid.uuid4().hex}
        said = self.ask("pull", f"/record/{form.pop('what')}", form=form)
        with suppress(ValueError):
            if json.loads(said).get("recorded") is True:
                return
        self.heard.wrong.append(f"not recorded: {said[:300]!r}")

    def work(self, start: float, seconds: float) -> None:
        """Pages and pulls at their times until the end; where one is late the next is not brought forward."""
        chance = random.Random(self.number)
        every = {"page": PAGE_EVERY_S, "pull": PULL_EVERY_S}
        due = {what: start + chance.uniform(0, gap) for what, gap in every.items()}
        turn = 0
        while (next_due := min(due.values())) < start + seconds:
            what = min(due, key=lambda one: due[one])
            due[what] += every[what]
            time.sleep(max(0.0, next_due - time.perf_counter()))
            if what == "page":
                self.page(turn)
                turn += 1
            else:
                self.pull()

    def fetch(self, start: float, seconds: float) -> None:
        """The small file, over and over."""
        while time.perf_counter() < start + seconds:
            self.ask("file", FILE)
            time.sleep(FILE_EVERY_S)


def acts_on(book: BookAddress, build: str, joint: str) -> Iterator[Mapping[str, str]]:
    """The pulls of a joint from the next one on; it is taken apart when they are through, and they begin anew."""
    with closing((bench := open_bench(book, build=build)).store):
        shown = card(bench, joint)
    kinds = {one.stage: one for one in shown.stages}
    first = shown.next_pull or len(shown.pulls) + 1
    while True:
        for pull in shown.pulls[first - 1 :]:
            stage = kinds[pull.stage]
            yield {
                "what": "pull", "joint": joint, "stage": str(pull.stage), "round": str(pull.round), "bolt": pull.bolt,
                "outcome": OUTCOMES[stage.kind][0], "setting": pull.setting,
            }  # fmt: skip
        yield {"what": "disturbed", "joint": joint, "why": "taken apart again"}
        first = 1


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the table: what was asked, and how long it took."""

    what: str
    taken_s: tuple[float, ...]
    limit_s: float | None
    file_s: float

    @property
    def median_s(self) -> float:
        """The middle one [s]."""
        return median(self.taken_s)

    @property
    def most_s(self) -> float:
        """95 of 100 took no longer [s]."""
        return sorted(self.taken_s)[ceil(0.95 * len(self.taken_s)) - 1]

    @property
    def above(self) -> bool:
        """Whether the limit is broken by the middle one, or by more than five in a hundred."""
        return self.limit_s is not None and max(self.median_s, self.most_s) > self.limit_s

    def __str__(self) -> str:
        limit = f"{self.limit_s * 1000:g} ms" if self.limit_s is not None else ""
        verdict = ("above" if self.above else "within") if limit else ""
        return (
            f"| {self.what} | {len(self.taken_s)} | {self.median_s * 1000:.1f} ms | {self.most_s * 1000:.1f} ms "
            f"| {self.median_s / self.file_s:.1f} | {limit} | {verdict} |\n"
        )


@dataclass(frozen=True, slots=True)
class Loaded:
    """What one book was like under load."""

    title: str
    lines: tuple[Line, ...]
    wrong: tuple[str, ...]
    computed_s: float | None

    @property
    def good(self) -> bool:
        """Whether all limits are held and nothing went wrong."""
        return not self.wrong and not any(one.above for one in self.lines)

    def __str__(self) -> str:
        computed = (
            f"The server computed {self.computed_s * 1000:.1f} ms for an answer. "
            if self.computed_s is not None
            else ""
        )
        wrong = "".join(f"- {one}\n" for one in self.wrong[:20])
        lines = "".join(map(str, self.lines))
        return f"## {self.title}\n\n{TABLE}{lines}\n{computed}Errors: {len(self.wrong)}.\n{wrong}\n"


def load(
    title: str, book: BookAddress, *, build: str, seconds: float, limits_s: Mapping[str, float]
) -> Loaded:
    """Eight devices and one that fetches the small file, until the time is over."""
    devices = Devices(data_folder() / "devices")
    before = _count(book, build)
    with _served(book, build) as server:
        played = [
            _paired(devices, number, server.port, acts=acts_on(book, build, joint))
            for number, joint in enumerate(JOINTS)
        ]
        for address in dict.fromkeys((FILE, "/standing", *PAGES)):
            played[0].ask("first", address.format(joint="head"))
        fetching = _paired(devices, 0, server.port, acts=iter(()))
        heard, computed = Heard(), _computed_s(server.process.pid)
        start = time.perf_counter()
        threads = [threading.Thread(target=one.work, args=(start, seconds)) for one in played]
        threads.append(threading.Thread(target=fetching.fetch, args=(start, seconds)))
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        now = _computed_s(server.process.pid)
        for one in [*played, fetching]:
            heard.join(one.heard)
    came, sent = _count(book, build) - before, len(heard.taken_s["pull"])
    if came != sent:
        heard.wrong.append(f"{sent} pulls were sent, {came} entries came into the book")
    file_s = median(heard.taken_s["file"])
    lines = (Line(what, tuple(heard.taken_s[what]), limits_s.get(what), file_s) for what in NAMES)
    answers = sum(len(taken) for what, taken in heard.taken_s.items() if what != "first")
    return Loaded(
        title,
        tuple(lines),
        tuple(heard.wrong),
        (now - computed) / answers if now is not None and computed is not None else None,
    )


def _served(book: BookAddress, build: str) -> Served:
    if isinstance(book, Path):
        return Served(book, build=build)
    return Served(data_folder() / "database", database=book, build=build)


NAMES = ("page", "pull", "standing", "file")


def _paired(devices: Devices, number: int, port: int, *, acts: Iterator[Mapping[str, str]]) -> Device:
    now = datetime.now(UTC)
    code = devices.invite(now=now)
    _, cookie = devices.pair(code, name=f"phone {number + 1}", who="Robin", now=now)
    holder = devices.holder(cookie, now=now)
    if holder is None:
        raise SystemExit("A device that was paired is not on the list.")
    return Device(number, port, cookie=cookie, seal=holder.seal, acts=acts)


def _count(book: BookAddress, build: str) -> int:
    with closing((bench := open_bench(book, build=build)).store):
        return bench.state.count


def _computed_s(process: int) -> float | None:
    """The time of the processor that a process has had, where the system tells."""
    try:
        said = Path(f"/proc/{process}/stat").read_text("ascii").rpartition(")")[2].split()
    except OSError:
        return None
    return (int(said[11]) + int(said[12])) / os.sysconf("SC_CLK_TCK")


def measured(folder: Path, seconds: float) -> Iterator[Loaded]:
    """The small book, the large one as a file, and the large one on a server where there is one."""
    small = {"page": 0.060, "pull": 0.060, "standing": 0.005}
    large = {"page": 0.150, "pull": 0.100, "standing": 0.005}
    begun = open_demo(folder / "demo", now=datetime.now(UTC).astimezone())
    yield load("The invented job", begun.book, build=begun.build, seconds=seconds, limits_s=small)
    done = job(folder / "job")
    build, title = f"build {BUILDS - 1}", f"{LARGE:,} entries in {BUILDS} builds"
    with in_files(done) as kind:
        fill(kind.address("large"), done, entries=LARGE)
        yield load(f"{title}, a file", kind.address("large"), build=build, seconds=seconds, limits_s=large)
    try:
        with on_a_server(done) as kind:
            fill(kind.address("large"), done, entries=LARGE)
            yield load(
                f"{title}, PostgreSQL", kind.address("large"), build=build, seconds=seconds, limits_s=large
            )
    except NoPostgres as missing:
        print(f"PostgreSQL is not measured. {missing}", file=sys.stderr)


def main(arguments: list[str]) -> int:
    """Measure, write the table, and say whether the limits are held."""
    seconds = float(arguments[0]) if arguments else SECONDS
    page = HEAD.format(
        devices=len(JOINTS),
        seconds=seconds,
        page=PAGE_EVERY_S,
        pull=PULL_EVERY_S,
        python=platform.python_version(),
        system=f"{platform.system()} {platform.machine()}",
        cores=os.cpu_count(),
    )
    good = True
    with tempfile.TemporaryDirectory() as name:
        os.environ["XDG_DATA_HOME"] = os.environ["LOCALAPPDATA"] = (
            name  # its devices are not those of the person
        )
        for one in measured(Path(name), seconds):
            print(one, flush=True)
            page, good = f"{page}{one}", good and one.good
    if seconds == SECONDS:
        RESULTS.write_text(page.rstrip("\n") + "\n", "utf-8")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
