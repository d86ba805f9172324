"""How long a page takes to answer: the real server on the invented job, one request after the other.

The machine differs from day to day: what can be compared between days is the ratio to the smallest file it serves.
"""

import json
import platform
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from statistics import median

from tools.served import Served

RESULTS = Path(__file__).with_name("pages.md")
LIMIT_S = 0.1
ROUNDS = 15
STATIC = "/static/mark.svg"
ADDRESSES = (
    "/", "/good", "/good/bore", "/set", "/set/head", "/cut", "/start?for=crank", "/start?for=handover", "/open",
    "/done", "/record", "/record/note", "/sheet", "/sheet/figure?path=characteristics.bore.new_range", "/kit",
)  # fmt: skip
HEAD = """# Pages

Written by `python3 do.py bench`. Median and longest of {rounds} answers of `gudgeon serve` on the invented job, taken
in turn over one connection: Python {python}, {system}. The ratio is to a small file; the limit is for the median.

| address | size | median | longest | ratio | limit | |
| --- | --- | --- | --- | --- | --- | --- |
"""


@dataclass(frozen=True, slots=True)
class Answer:
    """One address: how large its answer is, and how long each took [s]."""

    address: str
    size: int
    taken_s: tuple[float, ...]

    @property
    def median_s(self) -> float:
        """The middle one [s]."""
        return median(self.taken_s)


def ask(connection: HTTPConnection, address: str) -> tuple[float, int]:
    """Seconds until the last byte, and how many came."""
    start = time.perf_counter()
    connection.request("GET", address)
    answer = connection.getresponse()
    size = len(answer.read())
    taken = time.perf_counter() - start
    if answer.status != 200:
        raise SystemExit(f"{address} was answered with {answer.status}.")
    return taken, size


def measure(port: int) -> list[Answer]:
    """All addresses in turn; one round first, in which the server reads and compiles what it needs."""
    connection = HTTPConnection("127.0.0.1", port, timeout=30)
    asked = (STATIC, *ADDRESSES)
    sizes = {address: ask(connection, address)[1] for address in asked}
    taken: dict[str, list[float]] = {address: [] for address in asked}
    for _ in range(ROUNDS):
        for address in asked:
            taken[address].append(ask(connection, address)[0])
    connection.close()
    return [Answer(address, sizes[address], tuple(taken[address])) for address in asked]


def table(answers: list[Answer]) -> str:
    """The page of results."""
    page = HEAD.format(
        rounds=ROUNDS, python=platform.python_version(), system=f"{platform.system()} {platform.machine()}"
    )
    for one in answers:
        verdict = "within" if one.median_s <= LIMIT_S else "above"
        page += (
            f"| `{one.address}` | {one.size / 1000:.1f} kB | {one.median_s * 1000:.0f} ms "
            f"| {max(one.taken_s) * 1000:.0f} ms | {one.median_s / answers[0].median_s:.1f} "
            f"| {LIMIT_S * 1000:.0f} ms | {verdict} |\n"
        )
    return page


def main() -> int:
    """Measure, write the table, and say whether the limit is held."""
    with tempfile.TemporaryDirectory() as name:
        command = [sys.executable, "-m", "gudgeon.cli.main", "demo", "--json", "--folder", f"{name}/demo"]
        laid = subprocess.run(command, capture_output=True, check=True, encoding="utf-8")
        with Served(Path(json.loads(laid.stdout)["book"])) as server:
            answers = measure(server.port)
    page = table(answers)
    RESULTS.write_text(page, "utf-8")
    print(page)
    return int(any(one.median_s > LIMIT_S for one in answers))


if __name__ == "__main__":
    raise SystemExit(main())
