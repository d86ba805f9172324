"""Writes docs/pages.md from the addresses of the pages, so that the two cannot differ.

Run: python -m tools.pages
"""

from pathlib import Path

from gudgeon.web.app import ADDRESSES

FILE = Path(__file__).parent.parent / "docs" / "pages.md"

HEAD = """\
# Pages

Written by `python -m tools.pages` from the program itself.

`gudgeon serve` answers this machine alone, with `--lan` the devices of its network too; only a paired device writes
([how](how-it-works/devices.md)). A word in braces stands for a key of the data sheet or an entry of the book. GET
shows; POST writes, then leads back to the page with what was written. Every page works without JavaScript.
What answers programs, under `/api`, is described in [api.md](api.md).

| address | | what it answers |
| --- | --- | --- |
"""


def text() -> str:
    """The whole page."""
    return HEAD + "".join(
        f"| `{said(one.path)}` | {' '.join(one.methods)} | {first_sentence(one.handler.__doc__ or '')} |\n"
        for one in sorted(ADDRESSES, key=lambda one: one.path)
    )


def said(path: str) -> str:
    """An address without what only the program has to know: that a word of it may hold a slash."""
    return path.replace(":path}", "}")


def first_sentence(docstring: str) -> str:
    """The first paragraph of a docstring on one line."""
    return " ".join(docstring.strip().split("\n\n")[0].split())


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
