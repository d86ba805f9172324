"""What runs at a user's calls nothing that only one family of systems has."""

import ast
import re

import pytest

from tests.house.code import Module, dotted, imported, modules

LIBRARIES = {
    "fcntl",
    "pwd",
    "grp",
    "resource",
    "termios",
    "tty",
    "pty",
    "posix",
    "syslog",
    "readline",
    "curses",
}
OF_OS = {
    "fork", "forkpty", "kill", "killpg", "setsid", "setuid", "setgid", "getuid", "geteuid", "getgid", "getegid",
    "getpgid", "getlogin", "chown", "lchown", "chroot", "uname", "mkfifo", "mknod", "nice", "wait", "waitpid",
    "openpty", "getloadavg", "sysconf", "statvfs", "sync", "O_NOFOLLOW", "O_DIRECTORY", "WNOHANG",
}  # fmt: skip
OF_SIGNAL = re.compile(r"signal\.(alarm|setitimer|pause|SIG(?!INT\b|TERM\b|_DFL\b|_IGN\b)\w+)$")
KEYWORDS = {"preexec_fn", "start_new_session", "pass_fds", "process_group", "umask"}
FOLDERS = re.compile(r"^/(tmp|dev|usr|etc|var|home|bin|opt|proc|root)(/|$)")


def portable() -> tuple[Module, ...]:
    return modules("src/gudgeon", "do.py", "tools", "benchmarks")


def found_in(module: Module) -> list[str]:
    """Everything in a module that binds it to one family of systems."""
    found = [f"line {line}: {name}" for name, line in imported(module) if name.split(".")[0] in LIBRARIES]
    for node in module.walk():
        if isinstance(node, ast.Attribute):
            name = dotted(node)
            if (name.startswith("os.") and name[3:] in OF_OS) or OF_SIGNAL.match(name):
                found.append(f"line {node.lineno}: {name}")
        if isinstance(node, ast.keyword) and node.arg in KEYWORDS:
            found.append(f"line {node.value.lineno}: {node.arg}")
        if isinstance(node, ast.keyword) and node.arg == "shell":
            found.append(f"line {node.value.lineno}: a shell")
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and FOLDERS.match(node.value):
            found.append(f"line {node.lineno}: {node.value}")
    return found


# Of another program only some systems tell how long it has computed; elsewhere the column stays empty.
WHERE_THE_SYSTEM_TELLS = {
    "benchmarks/load.py": {"os.sysconf", "/proc/"},
    "benchmarks/closed_book.py": {"resource", "os.getloadavg"},
}


@pytest.mark.parametrize("module", portable(), ids=str)
def test_no_call_of_one_family_of_systems(module: Module) -> None:
    known = WHERE_THE_SYSTEM_TELLS.get(str(module), set())
    assert [one for one in found_in(module) if one.partition(": ")[2] not in known] == []


@pytest.mark.parametrize(
    "line",
    [
        "import fcntl",
        "from pwd import getpwnam",
        "os.fork()",
        "os.kill(number, signal.SIGKILL)",
        "signal.alarm(3)",
        "subprocess.run(command, start_new_session=True)",
        "subprocess.run(command, shell=True)",
        "open('/tmp/book')",
    ],
)
def test_such_a_call_is_found(line: str) -> None:
    assert found_in(Module("x.py", "x", ast.parse(line), 1))
