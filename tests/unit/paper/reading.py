"""Reading a print back: its words, its pages, and how much white is left at its edges."""

import re
import shutil
import subprocess
import zlib
from pathlib import Path

import pytest


def program(name: str) -> str:
    """Where a program that reads a PDF back is; a test that needs it is skipped where it is missing."""
    found = shutil.which(name)
    if found is None:
        pytest.skip(f"The program {name}, which reads a PDF back, is not installed here.")
    return found


def pages(pdf: bytes) -> list[str]:
    """The words of each page in the order in which they were set."""
    done = subprocess.run(
        [program("pdftotext"), "-raw", "-enc", "UTF-8", "-", "-"], input=pdf, capture_output=True, check=True
    )
    return done.stdout.decode("utf-8").split("\f")[:-1]


def squashed(text: str) -> str:
    """A text without white space, so that where a line was broken does not matter."""
    return re.sub(r"[\s\u200b\u00a0]+", "", text)


def words(pdf: bytes) -> str:
    """All words of a print, squashed."""
    return squashed("".join(pages(pdf)))


def numbered(pdf: bytes) -> list[tuple[int, int]]:
    """What each page says of itself: page of pages."""
    found = [re.search(r"page(\d+)of(\d+)", squashed(page)) for page in pages(pdf)]
    assert all(found), "a page that does not say which it is"
    return [(int(one[1]), int(one[2])) for one in found if one]


def unpacked(pdf: bytes) -> bytes:
    """A print with what its packed streams hold, to look for what no reader of words tells."""
    packed = re.findall(rb"stream\r?\n(.*?)endstream", pdf, re.DOTALL)
    found = [zlib.decompress(one) for one in packed if one[:1] == b"\x78"]
    return b"\n".join([pdf, *found])


def alternatives(pdf: bytes) -> list[str]:
    """The texts that stand for the drawings and pictures of a print (ISO 32000, 14.9.3)."""
    written = re.findall(rb"/Alt\s*(?:\(((?:\\.|[^\\)])*)\)|<FEFF([0-9A-F]*)>)", unpacked(pdf), re.DOTALL)
    return [
        re.sub(r"\\(.)", r"\1", plain.decode("latin-1"))
        if plain
        else bytes.fromhex(wide.decode()).decode("utf-16-be")
        for plain, wide in written
    ]


def keeps(pdf: bytes) -> bool:
    """Whether a print says of itself that it keeps to PDF/A-2a."""
    told = unpacked(pdf)
    return b"<pdfaid:part>2</pdfaid:part>" in told and b"<pdfaid:conformance>A</pdfaid:conformance>" in told


def fonts(pdf: bytes, folder: Path) -> set[str]:
    """The families that a print brings with it."""
    file = folder / "fonts.pdf"
    file.write_bytes(pdf)
    done = subprocess.run([program("pdffonts"), str(file)], capture_output=True, check=True, encoding="utf-8")
    rows = [line.split() for line in done.stdout.splitlines()[2:]]
    assert all("yes" in row for row in rows), "a font that is not in the file"
    return {row[0].partition("+")[2].partition("-")[0] for row in rows}


def least_white_mm(pdf: bytes, folder: Path) -> float:
    """The least distance of any ink from any edge of any page."""
    dpi, least = 72, 1e9
    file = folder / "white.pdf"
    file.write_bytes(pdf)
    subprocess.run(
        [program("pdftoppm"), "-gray", "-r", str(dpi), str(file), str(folder / "white")], check=True
    )
    for picture in folder.glob("white*.pgm"):
        head, _, pixels = picture.read_bytes().partition(b"\n255\n")
        wide, high = (int(figure) for figure in head.split()[1:3])
        rows = [pixels[row * wide : (row + 1) * wide] for row in range(high)]
        inked = [number for number, row in enumerate(rows) if min(row) < 200]
        columns = [min(column) for column in zip(*rows, strict=True)]
        across = [number for number, darkest in enumerate(columns) if darkest < 200]
        edges = (inked[0], high - 1 - inked[-1], across[0], wide - 1 - across[-1])
        least = min(least, *(edge * 25.4 / dpi for edge in edges))
    return least
