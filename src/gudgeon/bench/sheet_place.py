"""Where in the data sheet a figure stands: its place, or its line."""

from gudgeon.errors import Place
from gudgeon.written.located import Path, Written


def place_of(written: Written | None, path: Path) -> Place | None:
    """File, line and column of a value, or of its nearest parent; nothing of a sheet that is not at hand."""
    return written.place(path) if written is not None else None


def line_of(written: Written | None, said: str) -> int | None:
    """The line of a value, or of its nearest parent, by its dotted path; list places count from one."""
    if written is None:
        return None
    path: Path = ()
    for name in said.split("."):
        steps = (name, int(name) - 1) if name.isdecimal() else (name,)
        step = next((one for one in steps if (*path, one) in written.values), None)
        if step is None:
            break
        path = (*path, step)
    return written.place(path).line
