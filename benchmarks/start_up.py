"""How long a person waits for the first line: commands against an empty Python, in one run.

The machine differs from day to day, so what is compared is the ratio to `python -c pass`.
"""

import json
import platform
import subprocess
import sys
import sysconfig
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from statistics import median

RESULTS = Path(__file__).with_name("results.md")
ROOT = Path(__file__).resolve().parents[1]
GUDGEON = str(Path(sysconfig.get_path("scripts")) / "gudgeon")
ROUNDS = 15
HEAD = """# Start-up

Written by `python3 do.py bench`. Median of {rounds} runs, taken in turn so that all see the same machine:
Python {python}, {system}. The ratio is to an empty Python; the limit is what a person should not have to wait longer.

| command | median | ratio | limit | |
| --- | --- | --- | --- | --- |
"""


@dataclass(frozen=True, slots=True)
class Case:
    """A command to time, and how long it may take [s]; None where nothing was promised."""

    title: str
    command: tuple[str, ...]
    limit_s: float | None = None


def cases(folder: Path) -> list[Case]:
    """The commands; the demo is laid out once in the folder."""
    laid = run((GUDGEON, "demo", "--json", "--folder", str(folder)))
    book = json.loads(laid)["book"]
    answers = [
        Case(f"gudgeon {question}, on the demo", (GUDGEON, *question.split(), "--book", book), 0.5)
        for question in ("now", "tighten head", "ready", "judge", "cut")
    ]
    prints = [
        Case(
            f"gudgeon print {what}, on the demo",
            (GUDGEON, "print", *what.split(), "--book", book, "--out", str(folder), "--over"),
            1.0,
        )
        for what in ("card head", "card camshaft_caps", "why-not")
    ]
    return [
        Case("python -c pass", (sys.executable, "-c", "pass")),
        Case("gudgeon --help", (GUDGEON, "--help"), 0.25),
        Case(
            "do.py gudgeon --help, everything set up",
            (sys.executable, str(ROOT / "do.py"), "gudgeon", "--help"),
        ),
        *answers,
        *prints,
    ]


def run(command: tuple[str, ...]) -> str:
    """Run a command; 2 and signals are failures, other codes are answers."""
    done = subprocess.run(command, capture_output=True, encoding="utf-8")
    if done.returncode not in (0, 1, 3):
        raise SystemExit(f"{' '.join(command)} failed: {done.stderr.strip()}")
    return done.stdout


def measure(measured: list[Case]) -> list[float]:
    """Median seconds of each case; one round first to warm the disk."""
    times: list[list[float]] = [[] for _ in measured]
    for number in range(ROUNDS + 1):
        for case, taken in zip(measured, times, strict=True):
            start = time.perf_counter()
            run(case.command)
            if number:
                taken.append(time.perf_counter() - start)
    return [median(taken) for taken in times]


def main() -> int:
    """Measure, write the table, and say whether each limit is held."""
    with tempfile.TemporaryDirectory() as name:
        measured = cases(Path(name) / "demo")
        seconds = measure(measured)
    page = HEAD.format(
        rounds=ROUNDS, python=platform.python_version(), system=f"{platform.system()} {platform.machine()}"
    )
    late = False
    for case, taken in zip(measured, seconds, strict=True):
        above = case.limit_s is not None and taken > case.limit_s
        late |= above
        limit = "" if case.limit_s is None else f"{case.limit_s * 1000:.0f} ms"
        verdict = "" if case.limit_s is None else "above" if above else "within"
        page += (
            f"| `{case.title}` | {taken * 1000:.0f} ms | {taken / seconds[0]:.1f} | {limit} | {verdict} |\n"
        )
    RESULTS.write_text(page, "utf-8")
    print(page)
    return int(late)


if __name__ == "__main__":
    raise SystemExit(main())
