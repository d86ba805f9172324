"""The closed book on paper: every text of it, on pages of either size, and a last page that verifies its archive."""

import json
import re
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

import pytest

from gudgeon.bench.begin import open_demo
from gudgeon.bench.closed.ask import checker, closed_book
from gudgeon.bench.closed.model import ClosedBook, Row, Section, Table
from gudgeon.bench.context import open_bench
from gudgeon.bench.copies import export
from gudgeon.bench.photos import Sent, record_photo
from gudgeon.bench.pins import PinSaid
from gudgeon.book.address import photos_folder
from gudgeon.paper import closed as paper
from gudgeon.paper.closed import closed_pdf, grouped
from gudgeon.paper.errors import PhotosTooLarge
from gudgeon.paper.words import for_paper, without_commands
from tests.unit.bench.benches import make_job
from tests.unit.book.photos import drawn, saved
from tests.unit.paper.cards import NASTY
from tests.unit.paper.in_place import misplaced
from tests.unit.paper.reading import least_white_mm, numbered, pages, squashed, words

NOW = datetime(2026, 11, 29, 12, tzinfo=UTC)
SIZES = ("a4", "letter")
DOCUMENT = Path(__file__).parents[3] / "docs" / "closed-book.md"


@dataclass(frozen=True)
class Printed:
    """The book of the invented job with photos, its prints, and the archive of it."""

    book: ClosedBook
    folder: Path
    prints: dict[str, bytes]
    archive: Path


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Printed]:
    folder = tmp_path_factory.mktemp("closed")
    open_demo(folder / "demo", now=NOW)
    bench = open_bench(folder / "demo" / "book.gudgeon", now=NOW)
    pins = [PinSaid("7", "20", "80", "earth strap below the sender")]
    for number, size in enumerate([(1200, 900), (12000, 400), (300, 2000)]):
        sent = Sent(f"{number}.jpg", saved(drawn(size), "JPEG"))
        record_photo(bench, sent, caption=f"View {number} of the head", about=["joint:head"], pins=pins)
    bench.store.close()
    bench = open_bench(folder / "demo" / "book.gudgeon", now=NOW)
    book = closed_book(bench)
    photos = photos_folder(bench.book)
    prints = {size: closed_pdf(book, size=size, folder=photos) for size in SIZES}
    export(bench.book, folder / "demo.zip")
    yield Printed(book, photos, prints, folder / "demo.zip")
    bench.store.close()


def everything(book: ClosedBook) -> list[str]:
    """Every text of a book that its reader needs."""
    texts = [
        book.lead,
        *(thing for one in book.open for thing in one.things),
        *book.photos_missing,
        grouped(book.head),
    ]
    for one in book.sections:
        texts += [one.title, *one.said, *one.missing]
        for table in one.tables:
            texts += [
                table.name,
                table.note,
                *table.heads,
                *(cell for row in table.rows for cell in row.cells),
            ]
    for photo in book.photos:
        texts += [
            f"No. {photo.number}. {photo.caption}",
            *photo.said,
            f"SHA-256 {photo.sha}",
            *(one.words for one in photo.pins),
        ]
    return [re.sub(r"(?<![\w.–-])-(?=\d)", "−", for_paper(without_commands(text))) for text in texts if text]


HEAD_AND_FOOT = re.compile(
    r"· The (book so far|closed book)|^Book as of |overrule this\.$|^page \d+ of|^invented engine –"
)


def flowing(pdf: bytes) -> str:
    """All words of a print, squashed, without head and foot of its pages: what goes on to the next page is whole."""
    lines = [line for page in pages(pdf) for line in page.split("\n") if not HEAD_AND_FOOT.search(line)]
    return squashed("".join(lines))


@pytest.mark.parametrize("size", SIZES)
def test_nothing_of_the_book_is_lost(printed: Printed, size: str) -> None:
    pdf = printed.prints[size]
    told = flowing(pdf)
    wanted = everything(printed.book)
    assert len(wanted) > 1500
    assert [text for text in wanted if squashed(text) not in told] == []
    count = len(pages(pdf))
    assert numbered(pdf) == [(number, count) for number in range(1, count + 1)]


def test_every_word_is_in_its_place(printed: Printed) -> None:
    """What drawings put into disks and bars lies on their lines; everything else is clear of every rule."""
    in_a_drawing = re.compile("a rule runs (down through|across) “([0-9]+|repair|standard)”$")
    assert [one for one in misplaced(printed.prints["letter"]) if not in_a_drawing.search(one)] == []


def test_the_first_page_says_what_is_open_and_where_each_section_begins(printed: Printed) -> None:
    first, *others = pages(printed.prints["a4"])
    assert "NOTCLOSED:OPENBEFOREHANDOVER" in squashed(first)
    lines = [line.rstrip() for line in first.split("\n")]
    for one in printed.book.sections:
        number = next(at for at, page in enumerate(others, start=2) if f"\n{one.title}\n" in f"\n{page}")
        assert any(re.fullmatch(rf"{re.escape(one.title)}[ .\u2060]+{number}", line) for line in lines), (
            one.title
        )


def test_heads_of_tables_stand_on_every_page_that_a_table_goes_on_to(printed: Printed) -> None:
    long = max(
        (table for one in printed.book.sections for table in one.tables), key=lambda one: len(one.rows)
    )
    bolts = [squashed(row.cells[0]) for row in long.rows if row.mark != "group"]
    on = [
        page
        for page in map(squashed, pages(printed.prints["a4"]))
        if sum(name in page for name in bolts) > 15
    ]
    assert len(on) >= 2
    assert all("No." + "".join(map(squashed, long.heads)) in page for page in on)


def test_paper_needs_no_terminal(printed: Printed) -> None:
    assert "gudgeon" not in words(printed.prints["a4"]).lower()


def test_the_same_book_gives_the_same_bytes(printed: Printed) -> None:
    assert closed_pdf(printed.book, size="a4", folder=printed.folder) == printed.prints["a4"]


def test_without_photos_the_print_says_so(printed: Printed) -> None:
    told: list[str] = []
    pdf = closed_pdf(printed.book, size="a4", folder=printed.folder, with_photos=False, tell=told.append)
    assert "Theyareleftoutofthisprint,asitwasaskedfor." in words(pdf)
    assert squashed("View 0 of the head") in words(pdf)
    assert len(pdf) < len(printed.prints["a4"])
    assert told == ["setting the pages"]


def test_more_photos_than_a_print_can_hold_are_refused(
    printed: Printed, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(paper, "ROOM_FOR_PHOTOS", 1000)
    with pytest.raises(
        PhotosTooLarge, match="Nothing was printed: its 3 photos would have 0 MB as they are printed"
    ):
        closed_pdf(printed.book, size="a4", folder=printed.folder)


def test_an_empty_book_prints_what_is_missing(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    bench = open_bench(job.book, now=job.now)
    book = closed_book(bench)
    bench.store.close()
    pdf = closed_pdf(book, size="letter", folder=tmp_path)
    told = flowing(pdf)
    assert [text for text in everything(book) if squashed(text) not in told] == []
    assert "Nophotointhebook." in told


def test_texts_of_any_length_are_shown_and_never_obeyed(printed: Printed, tmp_path: Path) -> None:
    long = " ".join([NASTY, "x" * 300, *(f"word{number}" for number in range(1500))])
    rows = (Row((NASTY, long, "short"), (1,)), Row((long[:500], "", NASTY), (2, 3, 4), "struck"))
    section = Section("x", NASTY, (long,), (Table(NASTY, ("A", NASTY, "C"), rows, NASTY),), (NASTY,))
    book = replace(printed.book, open=(), closed=True, sections=(section,), photos=())
    pdf = closed_pdf(book, size="a4", folder=printed.folder)
    told = words(pdf)
    for number in (0, 750, 1499):
        assert f"word{number}" in told
    assert squashed(NASTY) in told
    assert told.count("x" * 300) >= 2
    assert "Theclosedbook" in told and "NOTCLOSED" not in told
    assert least_white_mm(pdf, tmp_path) >= 10.0


# How to verify: the lines are taken off the paper, and run with Python's standard library alone.


def off_the_paper(pdf: bytes) -> str:
    """The program as somebody copies it off the last page."""
    program = shutil.which("pdftotext")
    if program is None:
        pytest.skip("The program pdftotext, which reads a PDF back, is not installed here.")
    done = subprocess.run(
        [program, "-layout", "-enc", "UTF-8", "-", "-"], input=pdf, capture_output=True, check=True
    )
    lines = done.stdout.decode().split("\n")
    first = next(at for at, line in enumerate(lines) if line.startswith("import hashlib"))
    last = next(at for at, line in enumerate(lines) if line.startswith("print("))
    return "\n".join(line.rstrip() for line in lines[first : last + 1]) + "\n"


def run(program: str, archive: Path, head: str) -> tuple[int, str]:
    """What it answers, and how it ends."""
    file = archive.parent / "check.py"
    file.write_text(program, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-I", "-S", str(file), str(archive), *head.split()],
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, (done.stdout + done.stderr).strip()


@pytest.mark.parametrize("size", SIZES)
def test_the_program_on_paper_is_the_one_that_is_kept(printed: Printed, size: str) -> None:
    lines = checker()
    assert off_the_paper(printed.prints[size]) == "\n".join(lines) + "\n"
    assert len(lines) <= 47
    assert squashed(f"a program of {len(lines)} lines") in squashed(DOCUMENT.read_text(encoding="utf-8"))
    assert {len(line) - len(line.lstrip()) for line in lines} == {0, 4}
    assert squashed(f"the {len(lines)} lines below") in words(printed.prints[size])


def test_the_archive_verifies_with_nothing_but_the_paper(printed: Printed) -> None:
    pdf = printed.prints["a4"]
    head = pages(pdf)[-1].partition("No. 409):")[2].split("import")[0]
    count = printed.book.entries
    assert "".join(head.split()) == printed.book.head
    assert squashed(f"Head of the build 'demo', the hash of its last entry (No. {count}):") in words(pdf)
    assert run(off_the_paper(pdf), printed.archive, head) == (
        0, f"In order. The print ends with entry {count} of {count} of build 'demo' in build-1/entries.jsonl.",
    )  # fmt: skip


def anew(archive: Path, to: Path, *, change: Callable[[dict[str, bytes]], None]) -> Path:
    """The archive with other files in it, its checksums made to match them as a forger would."""
    with zipfile.ZipFile(archive) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    change(files)
    sums = {name: sha256(content).hexdigest() for name, content in files.items() if name != "checksums.txt"}
    files["checksums.txt"] = "".join(f"{sums[name]}  {name}\n" for name in sorted(sums)).encode()
    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as written:
        for name, content in files.items():
            written.writestr(name, content)
    return to


ENTRIES = "build-1/entries.jsonl"


def _byte(files: dict[str, bytes]) -> None:
    files[ENTRIES] = files[ENTRIES].replace(b"clicked while turning", b"clicked while Turning", 1)


def _removed(files: dict[str, bytes]) -> None:
    lines = files[ENTRIES].splitlines(keepends=True)
    files[ENTRIES] = b"".join(lines[:200] + lines[201:])


def _cut_off(files: dict[str, bytes]) -> None:
    files[ENTRIES] = b"".join(files[ENTRIES].splitlines(keepends=True)[:-1])


def _photo(files: dict[str, bytes]) -> None:
    name = next(one for one in files if one.startswith("photos/"))
    files[name] = files[name][:-1] + b"\0"


def _no_photo(files: dict[str, bytes]) -> None:
    del files[next(one for one in files if one.startswith("photos/"))]


def _forged(files: dict[str, bytes]) -> None:
    """One word of an early entry changed, and every hash after it worked out again."""
    lines, prev = [], ""
    for number, line in enumerate(files[ENTRIES].splitlines()):
        text = line[9:].rpartition(b',"hash":"')[0]
        if number == 3:
            text = text.replace(b"water pump", b"water pipe", 1)
        if number:
            before = text.partition(b'"prev":"')[2][:64]
            text = text.replace(b'"prev":"' + before, b'"prev":"' + prev.encode(), 1)
        prev = sha256(text).hexdigest()
        lines.append(b'{"entry":' + text + b',"hash":"' + prev.encode() + b'"}\n')
    files[ENTRIES] = b"".join(lines)


def _swapped(files: dict[str, bytes]) -> None:
    """Two photos under each other's names: whoever looks one up by the printed hash sees the other."""
    one, other, *_ = (name for name in files if name.startswith("photos/"))
    files[one], files[other] = files[other], files[one]


def _limits(files: dict[str, bytes]) -> None:
    """The data sheet that the entries were made against says another figure."""
    name = next(one for one in files if one.startswith("sheets/"))
    assert b"25 N" in files[name]
    files[name] = files[name].replace(b"25 N", b"95 N")


def _no_kit(files: dict[str, bytes]) -> None:
    del files[next(one for one in files if one.startswith("kits/"))]


def _one_more(files: dict[str, bytes]) -> None:
    files["photos/mine.jpg"] = b"of another engine"


@pytest.mark.parametrize("size", SIZES)
def test_a_hash_is_copied_off_the_paper_as_the_archive_names_it(printed: Printed, size: str) -> None:
    text = "\n".join(pages(printed.prints[size]))
    with zipfile.ZipFile(printed.archive) as opened:
        named = [name for name in opened.namelist() if name.startswith(("photos/", "sheets/", "kits/"))]
    assert len(named) == 5
    assert [name for name in named if name.rpartition("/")[2].partition(".")[0] not in text] == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (_byte, "NOT in order: build-1/entries.jsonl, entry 338: it was changed"),
        (_removed, "NOT in order: build-1/entries.jsonl, entry 201: one is missing before it"),
        (_cut_off, "NOT in order: the printed head is in no chain: entries were cut off"),
        (_forged, "NOT in order: the printed head is in no chain: entries were cut off"),
        (_photo, "NOT in order: a photo, sheet or kit is missing, changed or added"),
        (_swapped, "NOT in order: a photo, sheet or kit is missing, changed or added"),
        (_limits, "NOT in order: a photo, sheet or kit is missing, changed or added"),
        (_no_kit, "NOT in order: a photo, sheet or kit is missing, changed or added"),
        (_one_more, "NOT in order: a photo, sheet or kit is missing, changed or added"),
        (_no_photo, "NOT in order: a photo, sheet or kit is missing, changed or added"),
    ],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_what_was_changed_is_refused(
    printed: Printed, tmp_path: Path, change: Callable[[dict[str, bytes]], None], said: str
) -> None:
    program = "\n".join(checker()) + "\n"
    changed = anew(printed.archive, tmp_path / "changed.zip", change=change)
    assert run(program, changed, grouped(printed.book.head)) == (1, said)


def _beside(files: dict[str, bytes]) -> None:
    """The forged chain where everybody looks for it, and the true one beside it for whoever checks."""
    files["build-2/entries.jsonl"] = files[ENTRIES]
    _forged(files)


def _beside_and_named(files: dict[str, bytes], *, name: str = "") -> None:
    """The same, and the archive names both chains as it holds them."""
    _beside(files)
    about = json.loads(files["book.json"])
    (true,) = about["builds"]
    forged = files[ENTRIES].splitlines()[-1].rpartition(b'"hash":"')[2][:64].decode()
    about["builds"] = [true | {"head": forged}, true | {"folder": "build-2", "name": name or true["name"]}]
    files["book.json"] = json.dumps(about).encode()


def _under_a_false_name(files: dict[str, bytes]) -> None:
    _named_otherwise(files, name="true")


def _with_a_false_head(files: dict[str, bytes]) -> None:
    _named_otherwise(files, head="0" * 64)


def _with_a_build_that_is_not_there(files: dict[str, bytes]) -> None:
    about = json.loads(files["book.json"])
    about["builds"] += [about["builds"][0] | {"folder": "build-2"}]
    files["book.json"] = json.dumps(about).encode()


def _named_otherwise(files: dict[str, bytes], **said: str) -> None:
    about = json.loads(files["book.json"])
    about["builds"][0] |= said
    files["book.json"] = json.dumps(about).encode()


OTHERS = "NOT in order: book.json does not name the builds and heads that it holds"
TWICE = "NOT in order: build-1/entries.jsonl and build-2/entries.jsonl are of one build"


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (_beside, TWICE),
        (_beside_and_named, TWICE),
        (_under_a_false_name, OTHERS),
        (_with_a_false_head, OTHERS),
        (_with_a_build_that_is_not_there, OTHERS),
    ],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_a_true_chain_vouches_for_no_other(
    printed: Printed, tmp_path: Path, change: Callable[[dict[str, bytes]], None], said: str
) -> None:
    forged = anew(printed.archive, tmp_path / "forged.zip", change=change)
    assert run("\n".join(checker()) + "\n", forged, printed.book.head) == (1, said)


def _flipped(content: bytes, at: int) -> bytes:
    """One bit of it turned over."""
    return content[:at] + bytes([content[at] ^ 1]) + content[at + 1 :]


@pytest.mark.parametrize(
    "where", ["way of packing", "packed", "checksum", "list", "its end", "half of it", "no zip", "none"]
)
def test_a_damaged_file_is_refused_in_words(printed: Printed, tmp_path: Path, where: str) -> None:
    content, file = printed.archive.read_bytes(), tmp_path / "damaged.zip"
    listed = content.rindex(b"PK\x01\x02")
    made: dict[str, Callable[[], bytes]] = {
        "way of packing": lambda: _flipped(content, listed + 10),
        "packed": lambda: _flipped(content, content.index(b"entries.jsonl") + 5000),
        "checksum": lambda: _flipped(content, listed + 16),
        "list": lambda: _flipped(content, listed + 42),
        "its end": lambda: _flipped(content, len(content) - 4),
        "half of it": lambda: content[: len(content) // 2],
        "no zip": lambda: b"The book of an engine.",
    }
    if where in made:
        file.write_bytes(made[where]())
    code, said = run("\n".join(checker()) + "\n", file, printed.book.head)
    assert code == 1
    assert re.match(r"NOT in order: \w+\(.+\)$", said), said


def test_without_an_archive_or_a_head_it_says_what_it_needs(printed: Printed) -> None:
    program = "\n".join(checker()) + "\n"
    assert run(program, printed.archive, "") == (
        1, "NOT in order: say which archive, and behind it the head as printed",
    )  # fmt: skip


def test_a_file_that_is_not_as_the_checksums_say_is_refused(printed: Printed, tmp_path: Path) -> None:
    program = "\n".join(checker()) + "\n"
    with zipfile.ZipFile(printed.archive) as opened, zipfile.ZipFile(tmp_path / "c.zip", "w") as written:
        for name in opened.namelist():
            written.writestr(name, opened.read(name) + (b" " if name == "README.txt" else b""))
    assert run(program, tmp_path / "c.zip", printed.book.head) == (
        1, "NOT in order: a file is missing, or is not as checksums.txt says",
    )  # fmt: skip


def test_an_archive_without_checksums_is_refused_in_words(printed: Printed, tmp_path: Path) -> None:
    with zipfile.ZipFile(printed.archive) as opened, zipfile.ZipFile(tmp_path / "c.zip", "w") as written:
        for name in opened.namelist():
            if name != "checksums.txt":
                written.writestr(name, opened.read(name))
    assert run("\n".join(checker()) + "\n", tmp_path / "c.zip", printed.book.head) == (
        1, """NOT in order: KeyError("There is no item named 'checksums.txt' in the archive")""",
    )  # fmt: skip


def test_entries_that_came_after_the_print_are_counted(printed: Printed, tmp_path: Path) -> None:
    program = "\n".join(checker()) + "\n"
    with zipfile.ZipFile(printed.archive) as opened:
        line = opened.read(ENTRIES).splitlines()[399]
    earlier = line.rpartition(b'"hash":"')[2][:64].decode()
    shutil.copy(printed.archive, tmp_path / "a.zip")
    assert run(program, tmp_path / "a.zip", earlier) == (
        0, f"In order. The print ends with entry 400 of {printed.book.entries} of build 'demo' in build-1/entries.jsonl.",
    )  # fmt: skip
