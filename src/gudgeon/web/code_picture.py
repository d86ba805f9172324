"""An address as a picture that a phone's camera reads: a QR code (ISO/IEC 18004), for a page and for a terminal."""

from io import BytesIO, StringIO

from gudgeon.paper.code_squares import QUIET, made

_BLACK_AND_WHITE, _AS_BEFORE = "\x1b[97;40m", "\x1b[0m"


def as_svg(text: str) -> bytes:
    """The code as a drawing; it takes the size that the page gives it."""
    kept = BytesIO()
    made(text).save(
        kept, kind="svg", border=QUIET, omitsize=True, xmldecl=False, dark="#000", light="#fff",
        svgclass=None, lineclass=None,
    )  # fmt: skip
    return kept.getvalue()


def as_text(text: str, *, colored: bool) -> str:
    """The code in half blocks, two rows of squares to a line; the blocks are what is light.

    `colored` makes it dark on light whatever the colors of the terminal are.
    """
    kept = StringIO()
    made(text).terminal(kept, border=QUIET, compact=True)
    lines = kept.getvalue().splitlines()
    return "\n".join(f"{_BLACK_AND_WHITE}{line}{_AS_BEFORE}" if colored else line for line in lines)
