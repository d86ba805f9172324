"""Everything a clone of Gudgeon needs, with nothing installed but Python 3.11 or newer.

python3 do.py run [ARGS]            set up, then serve the invented engine as pages (ARGS go to `gudgeon serve`)
python3 do.py gudgeon ARGS          set up, then run any command of Gudgeon (`demo --show`: in the terminal)
python3 do.py test [--long] [ARGS]  set up, then run the tests (ARGS go to pytest)
python3 do.py lint [PATHS]          set up, then check style and types
python3 do.py bench                 set up, then measure how quickly commands, pages and checks answer
python3 do.py screenshots           set up, then take the pictures of the README (needs Chromium);
                                    with `--all FOLDER` a picture of every page, at both sizes
python3 do.py lock [ARGS]           renew the locked requirements (needs uv; ARGS such as --upgrade)

Everything is installed into the folder .venv beside this file; delete it to start over.
Windows: its paths are provided for, but the script is untried there.
"""

import sys

if sys.version_info < (3, 11):  # noqa: UP036  (nothing is installed yet that could have refused it)
    found = ".".join(str(part) for part in sys.version_info[:2])
    sys.stderr.write(f"Gudgeon needs Python 3.11 or newer; this is Python {found}.\n")
    sys.exit(2)

import json
import os
import shutil
import signal
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
STAMP = VENV / "gudgeon-set-up.json"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
RUN, DEV = "requirements.txt", "requirements-dev.txt"
INSTALLER = 1  # raise it when the way of installing changes: every .venv is then made anew
NO_NETWORK = ("Retrying", "ConnectionError", "dns error", "error sending request", "tcp connect error")


class Failure(Exception):
    """Something a person can mend; its message says what to do."""


def say(text: str) -> None:
    """Tell how it goes, beside the output of the command itself."""
    print(text, file=sys.stderr, flush=True)


def main(arguments: list[str]) -> int:
    """Run one command; 2 stands for anything that was refused."""
    name, rest = (arguments[0], arguments[1:]) if arguments else ("help", [])
    if name in ("help", "-h", "--help"):
        print(__doc__)
        return 0
    try:
        if name not in COMMANDS:
            raise Failure(f"`{name}` is not a command of do.py. Commands: {', '.join(COMMANDS)}.")
        return COMMANDS[name](rest)
    except Failure as failure:
        say(str(failure))
    except OSError as error:
        say(f"{error.filename or 'System'}: {error.strerror or error}.")
    except KeyboardInterrupt:
        say("Stopped. The same command goes on from here.")
    return 2


# Commands


def run(arguments: list[str]) -> int:
    """Serve a fresh copy of the invented engine as pages."""
    return gudgeon(["serve", "--demo", *arguments])


def gudgeon(arguments: list[str]) -> int:
    """Run a command of Gudgeon where the person stands."""
    set_up(RUN)
    return call(BIN / "gudgeon", *arguments)


def test(arguments: list[str]) -> int:
    """Run the tests; the long ones only when asked for."""
    set_up(DEV)
    chosen = [] if "--long" in arguments else ["-m", "not long"]
    rest = [a for a in arguments if a != "--long"]
    return call(PYTHON, "-m", "pytest", "-n", "2", *chosen, *rest, folder=ROOT)


def lint(arguments: list[str]) -> int:
    """Check style, layout and types; all three speak even when the first finds something."""
    set_up(DEV)
    checks = (["ruff", "check"], ["ruff", "format", "--check"], ["mypy"])
    return max([call(PYTHON, "-m", *check, *arguments, folder=ROOT) for check in checks])


def bench(arguments: list[str]) -> int:
    """Measure how quickly commands, pages and proof-reading answer; 1 when a limit is broken."""
    set_up(RUN)
    scripts = sorted((ROOT / "benchmarks").glob("*.py"))
    return max([call(PYTHON, "-m", f"benchmarks.{one.stem}", *arguments, folder=ROOT) for one in scripts])


def screenshots(arguments: list[str]) -> int:
    """Take the pictures of the README from the pages as they are, or with `--all FOLDER` of every page."""
    set_up(DEV)
    return call(PYTHON, "-m", "tools.pictures", *arguments, folder=ROOT)


def lock(arguments: list[str]) -> int:
    """Resolve both lists of requirements anew for every system and every Python from 3.11."""
    program = uv()
    if program is None:
        raise Failure("`lock` needs uv on the path: pip install uv.")
    for locked in (RUN, DEV):
        options = ["--universal", "--generate-hashes", "--python-version", "3.11"]
        options += ["--no-emit-index-url", "--no-header", "--quiet", "-o", locked, *arguments]
        code = call(program, "pip", "compile", *options, locked.replace(".txt", ".in"), folder=ROOT)
        if code:
            return code
        if "://" in (ROOT / locked).read_text("utf-8"):
            raise Failure(f"{locked} names an address; a lock must hold names, versions and hashes only.")
    return 0


COMMANDS: dict[str, Callable[[list[str]], int]] = {
    command.__name__: command for command in (run, gudgeon, test, lint, bench, screenshots, lock)
}


def call(*command: str | Path, folder: Path | None = None) -> int:
    """Run a command to its end; Ctrl-C is for it to answer, not for this script."""
    before = signal.signal(signal.SIGINT, lambda *_: None)
    try:
        code = subprocess.call([str(part) for part in command], cwd=folder)
    finally:
        signal.signal(signal.SIGINT, before)
    return code if code >= 0 else 128 - code


# The environment


def set_up(locked: str) -> None:
    """Bring .venv to the lock: at once when it is there already, repaired when it was interrupted."""
    if stamp() in (wanted(locked), wanted(DEV)):
        return
    with one_at_a_time():
        had = stamp()
        if had not in (wanted(locked), wanted(DEV)):
            build(had, DEV if had.get("packages") == wanted(DEV)["packages"] else locked)


def stamp() -> dict[str, str]:
    """What the last completed set-up installed; empty when there was none."""
    try:
        found = json.loads(STAMP.read_bytes()) if PYTHON.exists() else {}
    except (OSError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def wanted(locked: str) -> dict[str, str]:
    """The stamp of an environment in which everything of this lock is in place."""
    where = f"{INSTALLER} {sys.implementation.cache_tag} {sys.platform} {ROOT}".encode()
    locks = [(ROOT / name).read_bytes() for name in (RUN, locked)]
    return {
        "packages": sha256(b"\n".join([where, *locks])).hexdigest(),
        "project": sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest(),
    }


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """Keep two set-ups apart; the lock of a database file ends with the process that holds it."""
    import sqlite3

    try:
        guard = sqlite3.connect(ROOT / ".venv.lock", timeout=0.2, isolation_level=None)
        try:
            guard.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError as error:
            if "locked" not in str(error):
                raise
            say("Another set-up of this folder is running; waiting for it …")
            guard.execute("PRAGMA busy_timeout = 1800000")
            guard.execute("BEGIN EXCLUSIVE")
    except sqlite3.Error as error:
        raise Failure(f"{ROOT} cannot be written ({error}): set-up needs a folder of your own.") from error
    try:
        yield
    finally:
        guard.close()


def build(had: dict[str, str], locked: str) -> None:
    """Install what is missing. The stamp goes first and comes back last, so a torn set-up shows."""
    start, want = time.monotonic(), wanted(locked)
    STAMP.unlink(missing_ok=True)
    if had.get("packages") not in (want["packages"], wanted(RUN)["packages"]):
        say("Setting up .venv: packages are downloaded and installed, a minute or two the first time …")
        make_environment()
    if had.get("packages") != want["packages"]:
        install("--require-hashes", "--no-deps", "-r", str(ROOT / locked))
    # The build back end is in the lock, so that the project itself needs nothing from outside.
    install("--no-build-isolation", "--no-deps", "--offline" if uv() else "--no-index", "-e", str(ROOT))
    compile_bytecode()
    STAMP.write_text(json.dumps(want), "utf-8")
    say(f"Set up in {time.monotonic() - start:.0f} s.")


def uv() -> str | None:
    """The quicker installer, where it can be had."""
    return shutil.which("uv")


def make_environment() -> None:
    """An empty .venv on the Python that runs this script, or on the one below its own environment."""
    if VENV.exists():
        shutil.rmtree(VENV)
    base = getattr(sys, "_base_executable", None) or sys.executable
    program = uv()
    if program:
        execute(program, "venv", "--quiet", "--python", base, str(VENV))
    else:
        execute(base, "-m", "venv", str(VENV))


def install(*what: str) -> None:
    """Install with uv where there is one, else with the pip of the environment."""
    program = uv()
    if program:
        execute(program, "pip", "install", "--quiet", "--python", str(PYTHON), *what)
    else:
        options = ("--quiet", "--no-input", "--disable-pip-version-check", "--no-compile")
        execute(str(PYTHON), "-m", "pip", "install", *options, *what)


def compile_bytecode() -> None:
    """Compile what the commands import, so that the first of them is as quick as the next."""
    packages = subprocess.check_output(
        [PYTHON, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"], text=True
    )
    options = ["-qq", "-j", "0", "-x", r"[\\/]tests[\\/]"]
    # Some packages ship files for other versions that do not compile; that harms nothing.
    subprocess.call([PYTHON, "-m", "compileall", *options, packages.strip(), ROOT / "src"])


def execute(*command: str) -> None:
    """Run one step of the set-up quietly; say what went wrong when it did."""
    done = subprocess.run(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace"
    )
    if done.returncode == 0:
        return
    if any(sign in done.stdout for sign in NO_NETWORK):
        raise Failure(
            "The package index cannot be reached. The first set-up needs the network (about 100 MB); "
            "nothing is lost, run the same command again."
        )
    if "ensurepip" in done.stdout:
        raise Failure(
            "This Python cannot make virtual environments: its venv module is incomplete. "
            "On Debian and Ubuntu: apt install python3-venv."
        )
    raise Failure(f"{done.stdout.rstrip()}\nSet-up failed at: {' '.join(command[:4])} …")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
