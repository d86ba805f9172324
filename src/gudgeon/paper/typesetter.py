"""Sets pages in a process of its own, so that a crash or a hang never takes more with it than one print.

It reads what to set as JSON from standard input and writes the PDF to standard output. It is run as a
file and loads nothing of the program, so that it starts in a few hundredths of a second.
"""

import json
import sys
from types import ModuleType
from typing import Any

KEEPING = "a-2a"
"""PDF/A-2a, ISO 19005-2: a file that can be read in decades, with alternative text for its drawings."""

MISSING, REFUSED = 3, 4


def main() -> int:
    """Set one document; MISSING without the library, REFUSED with its words on standard error."""
    try:
        import typst
    except ImportError:
        return MISSING
    asked = json.load(sys.stdin.buffer)
    try:
        try:
            pdf = _set(typst, asked, standards=[KEEPING])
        except typst.TypstError:  # a letter that no font holds may not stand in it: then as it comes
            pdf = _set(typst, asked, standards=[])
    except typst.TypstError as error:
        sys.stderr.write(str(error))
        return REFUSED
    sys.stdout.buffer.write(pdf)
    return 0


def _set(library: ModuleType, asked: dict[str, Any], *, standards: list[str]) -> bytes:
    pdf: bytes = library.compile(
        asked["template"],
        root=asked["root"],
        package_path=asked["root"],  # holds no package, so none of the user's own is taken
        ignore_system_fonts=True,  # the fonts inside the library: paper is the same everywhere
        sys_inputs={"data": json.dumps(asked["data"], ensure_ascii=False)},
        timestamp=asked["moment"],
        format="pdf",
        pdf_standards=standards,
    )
    return pdf


if __name__ == "__main__":
    raise SystemExit(main())
