"""A new text in the place of an old one, in one step: at no moment is half a file there."""

import os
import secrets
import shutil
from pathlib import Path


def replace_text(path: Path, text: str) -> None:
    """Put a new text where the old one is; lines end as they ended in the old one."""
    real = path.resolve()  # a file that only points elsewhere goes on pointing there
    ending = "\r\n" if real.exists() and _first_line(real).endswith(b"\r\n") else "\n"
    replace_bytes(real, text.replace("\r\n", "\n").replace("\n", ending).encode())


def replace_bytes(path: Path, content: bytes) -> None:
    """Put a content where the old one is, or where there is none yet; on the disk before this returns."""
    beside = name_beside(path)
    try:
        with beside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            shutil.copymode(path, beside)
        else:
            beside.chmod(0o644)
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def name_beside(path: Path) -> Path:
    """
    A name in the same folder under which a new file is written before it gets its own.

    It is known before the file is there: whatever stops the program in between, the file can be taken away.
    """
    return path.with_name(f".{path.name}.{secrets.token_hex(6)}.new")


def _first_line(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.readline()
