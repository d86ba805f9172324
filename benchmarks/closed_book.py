"""What the closed book costs: 44 pages with at least 30 tables, 10 drawings and 20 photos of 12 megapixels.

The book is the invented job, with generated photos recorded into it, and a section of further tables and drawings that
makes it just so long. Each round runs in a process of its own, so that its peak of memory is that round's alone: of
this program, and of the typesetter beside it. What counts is the clock, from the answer to the file, photos scaled.
`python -m benchmarks.closed_book` ends with 1 when a limit is broken.
"""

import io
import json
import os
import random
import re
import resource
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from gudgeon.bench.closed.model import ClosedBook
    from gudgeon.bench.context import Bench

LIMIT_S, LIMIT_MB = 3.0, 400.0
PAGES, TABLES, DRAWINGS, PHOTOS = 44, 30, 10, 20
PIXELS = (4000, 3000)
ROWS = 600
"""So many rows of the generated tables make the book 44 pages long."""
ROUNDS = 5


def main() -> int:
    """Lay out the book once, print it a few times, and say what it took."""
    with tempfile.TemporaryDirectory() as folder:
        _in_a_process_of_its_own("--lay-out", folder)
        rounds = [json.loads(_in_a_process_of_its_own("--round", folder)) for _ in range(ROUNDS)]
    first = rounds[0]
    middle = {name: median(one[name] for one in rounds) for name in first}
    memory = middle["own_mb"] + middle["typesetter_mb"]
    print(
        f"{first['pages']} pages, {first['tables']} tables, {first['drawings']} drawings, {first['photos']} photos, "
        f"a file of {first['bytes'] / 1e6:.1f} MB: {middle['print_s']:.2f} s by the clock (limit {LIMIT_S:g} s), of it "
        f"photos {middle['photos_s']:.2f} s; computed {middle['computed_s']:.2f} s on all processors; "
        f"{middle['own_mb']:.0f} MB here and {middle['typesetter_mb']:.0f} MB in the typesetter, together "
        f"{memory:.0f} MB (limit {LIMIT_MB:g} MB)"
    )
    ask = middle["ask_s"]
    print(
        f"the sections of the book, from the entries: {ask:.2f} s, with the libraries that are loaded for it"
    )
    print(f"load of the machine meanwhile: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors")
    as_asked = first["pages"] >= PAGES and first["tables"] >= TABLES and first["drawings"] >= DRAWINGS
    if not as_asked:
        print(f"the book is not as it is meant to be: {PAGES} pages at least")
    return 0 if as_asked and middle["print_s"] < LIMIT_S and memory < LIMIT_MB else 1


def _in_a_process_of_its_own(part: str, folder: str) -> bytes:
    """One part of the work; this program itself stays small, as the peak of a parent counts for its children too."""
    command = [sys.executable, "-m", "benchmarks.closed_book", part, folder]
    return subprocess.run(command, check=True, capture_output=True).stdout


def once(folder: Path) -> dict[str, Any]:
    """One round: the answer, the photos alone, and the whole print."""
    from gudgeon.book.address import photos_folder
    from gudgeon.book.printed_photo import printed_photos
    from gudgeon.paper.closed import closed_pdf

    bench = _bench(folder)
    start = time.perf_counter()
    book = _longer(bench)
    asked, computed = time.perf_counter(), _computed()
    photos = photos_folder(bench.book)
    pdf = closed_pdf(book, size="a4", folder=photos)
    printed, computed = time.perf_counter(), _computed() - computed
    own, other = (
        resource.getrusage(which).ru_maxrss / 1024
        for which in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    printed_photos(photos, [one.sha for one in book.photos])
    scaled = time.perf_counter()
    return {
        "pages": max(int(count) for count in re.findall(rb"/Count (\d+)", pdf)),
        "tables": sum(len(one.tables) for one in book.sections),
        "drawings": sum(len(one.pictures) for one in book.sections),
        "photos": len(book.photos),
        "bytes": len(pdf),
        "ask_s": asked - start,
        "print_s": printed - asked,
        "computed_s": computed,
        "photos_s": scaled - printed,
        "own_mb": own,
        "typesetter_mb": other,
    }


def _computed() -> float:
    """How long this program and those it ran have computed [s]."""
    spent = os.times()
    return spent.user + spent.system + spent.children_user + spent.children_system


def _bench(folder: Path) -> "Bench":
    from gudgeon.bench.context import open_bench
    from gudgeon.book.address import book_address

    return open_bench(
        book_address(str(folder / "demo" / "book.gudgeon")), now=datetime(2026, 11, 29, 12, tzinfo=UTC)
    )


def _lay_out(folder: Path) -> None:
    """The invented job with photos, each of another picture with as much detail as a camera's."""
    from gudgeon.bench.begin import open_demo
    from gudgeon.bench.photos import Sent, record_photo
    from gudgeon.bench.pins import PinSaid

    open_demo(folder / "demo", now=datetime(2026, 11, 29, 11, tzinfo=UTC))
    bench = _bench(folder)
    pins = [PinSaid("1", "20", "30", "coolant sensor"), PinSaid("2", "70", "60", "ground strap")]
    for number in range(PHOTOS):
        sent = Sent(f"photo{number}.jpg", _picture(number))
        record_photo(
            bench, sent, caption=f"The head face, view {number + 1}", about=["joint:head"], pins=pins
        )
    bench.store.close()


def _picture(seed: int) -> bytes:
    from PIL import Image

    wide, high = PIXELS[0] // 16, PIXELS[1] // 16
    grain = Image.frombytes("RGB", (wide, high), random.Random(seed).randbytes(3 * wide * high))
    file = io.BytesIO()
    grain.resize(PIXELS, Image.Resampling.BICUBIC).save(file, "JPEG", quality=90)
    return file.getvalue()


def _longer(bench: "Bench") -> "ClosedBook":
    """The closed book of the job, made as long as it is meant to be."""
    from gudgeon.bench.closed.ask import closed_book
    from gudgeon.bench.closed.model import Row, Section, Table
    from gudgeon.bench.pictures.spots import spot_picture

    book = closed_book(bench)
    own = sum(len(one.pictures) for one in book.sections)
    keys = [
        key for key in bench.sheet.characteristics if key not in ("head_flatness", "deck_flatness", "bore")
    ]
    said = ("clicked while turning", "click wrench 20–100, set to 25.0 N·m", "2026-11-29 10:41")
    rows = tuple(Row((f"bolt {number}", *said), (number,)) for number in range(1, ROWS + 1))
    heads = ("Bolt", "Outcome", "With what", "When")
    tables = tuple(Table(f"Generated {at // 30 + 1}", heads, rows[at : at + 30]) for at in range(0, ROWS, 30))
    pictures = tuple(spot_picture(bench, key) for key in keys[: max(0, DRAWINGS - own)])
    return replace(
        book, sections=(*book.sections, Section("more", "Generated", tables=tables, pictures=pictures))
    )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--lay-out"]:
        _lay_out(Path(sys.argv[2]))
    elif sys.argv[1:2] == ["--round"]:
        print(json.dumps(once(Path(sys.argv[2]))))
    else:
        raise SystemExit(main())
