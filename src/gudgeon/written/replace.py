"""A new text in the place of an old one, in one step: at no moment is half a file there."""

import os
import shutil
import tempfile
from pathlib import Path


def replace_text(path: Path, text: str) -> None:
    """Put a new text where the old one is; lines end as they ended in the old one."""
    real = path.resolve()  # a file that only points elsewhere goes on pointing there
    ending = "\r\n" if real.exists() and _first_line(real).endswith(b"\r\n") else "\n"
    replace_bytes(real, text.replace("\r\n", "\n").replace("\n", ending).encode())


def replace_bytes(path: Path, content: bytes) -> None:
    """Put a content where the old one is, or where there is none yet; on the disk before this returns."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".new", dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
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


def _first_line(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.readline()
