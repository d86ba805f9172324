"""An export is read and checked by anybody, holds every entry exactly, and is believed in nothing when it comes back."""

import csv
import hashlib
import io
import json
import shutil
import subprocess
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.bench import copies
from gudgeon.bench.verifying import verified, verified_archive
from gudgeon.book.address import book_address
from gudgeon.book.archive import MOST_TEXT_BYTES, checksums
from gudgeon.book.bodies import BODIES
from gudgeon.book.copy_errors import (
    ArchiveDamaged,
    ArchiveMissing,
    ArchiveTooLarge,
    ArchiveTooNew,
    ArchiveUnsafe,
    ChainsPart,
    FileThere,
    NotAnArchive,
)
from gudgeon.book.tables import TABLES, safe
from gudgeon.errors import GudgeonError
from tests.contract.books import PHOTO_SHA, fill, many, rows_of
from tests.contract.stores import Shelf, draft


@pytest.fixture(autouse=True)
def _photos_of_databases(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GUDGEON_PHOTOS", str(tmp_path / "photos of the database"))


def exported(shelf: Shelf, folder: Path, *, build: str | None = None, name: str = "export.zip") -> Path:
    """A filled book, exported."""
    copies.export(book_address(shelf.address), folder / name, build=build)
    return folder / name


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    """An export of a filled book."""
    shelf = Shelf("SQLite", str(tmp_path / "filled.gudgeon"))
    shelf.open(create=True).close()
    fill(shelf)
    return exported(shelf, tmp_path)


def new_shelf(folder: Path, name: str) -> Shelf:
    """A place for a book, where there is none yet."""
    return Shelf("SQLite", str(folder / name))


# What is in it


def test_an_export_is_checked_by_hand_with_nothing_of_gudgeon(shelf: Shelf, tmp_path: Path) -> None:
    """HAND: the rule of README.txt – hash of the text as it stands, each chained to the one before it."""
    fill(shelf)
    with zipfile.ZipFile(exported(shelf, tmp_path)) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    said = {line[66:]: line[:64] for line in files.pop("checksums.txt").decode().splitlines()}
    assert said == {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
    about = json.loads(files["book.json"])
    assert [(one["name"], one["entries"]) for one in about["builds"]] == [("van", 7), ("boat", 2)]
    for one in about["builds"]:
        prev = ""
        lines = files[f"{one['folder']}/entries.jsonl"].split(b"\n")
        assert lines.pop() == b""
        assert len(lines) == one["entries"]
        for number, line in enumerate(lines, start=1):
            text, digest = line[len(b'{"entry":') : -len(b',"hash":"') - 64 - 2], json.loads(line)["hash"]
            assert hashlib.sha256(text).hexdigest() == digest
            entry = json.loads(text)
            assert (entry["number"], entry["prev"], entry["build"]) == (number, prev, one["name"])
            prev = digest
        assert prev == one["head"]
        assert one["head"] in files["README.txt"].decode()
    assert f"photos/{PHOTO_SHA}.jpg" in files


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="sha256sum is not installed")
def test_the_lines_that_the_page_of_words_gives_do_what_it_says(archive: Path, tmp_path: Path) -> None:
    unpacked = tmp_path / "unpacked"
    with zipfile.ZipFile(archive) as opened:
        opened.extractall(unpacked)
    subprocess.run(
        ["sha256sum", "-c", "--strict", "checksums.txt"], cwd=unpacked, check=True, capture_output=True
    )
    (line,) = (one for one in (unpacked / "README.txt").read_text("utf-8").splitlines() if "sed -n 1p" in one)
    done = subprocess.run(["bash", "-c", line], cwd=unpacked, check=True, capture_output=True, text=True)
    first = json.loads((unpacked / "build-1" / "entries.jsonl").read_text("utf-8").partition("\n")[0])
    assert done.stdout.split()[0] == first["hash"]


def test_an_export_taken_in_and_exported_again_is_the_same_to_the_byte(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    first = exported(shelf, tmp_path)
    other = new_shelf(tmp_path, "other.gudgeon")
    taken = copies.take_in(first, to=book_address(other.address))
    assert [(one.build, one.entries, one.added) for one in taken.builds] == [("van", 7, 7), ("boat", 2, 2)]
    assert taken.photos == 1
    assert rows_of(other) == rows_of(shelf)
    assert exported(other, tmp_path, name="again.zip").read_bytes() == first.read_bytes()


def test_five_thousand_entries_come_back_as_they_were(shelf: Shelf, tmp_path: Path) -> None:
    many(shelf, 5_000)
    first = exported(shelf, tmp_path)
    other = new_shelf(tmp_path, "other.gudgeon")
    copies.take_in(first, to=book_address(other.address))
    rows = rows_of(other)
    assert rows == rows_of(shelf)
    assert len(rows["van"]) == 5_000
    assert exported(other, tmp_path, name="again.zip").read_bytes() == first.read_bytes()


def test_one_build_leaves_alone_and_is_verified_alone(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    alone = exported(shelf, tmp_path, build="boat")
    with zipfile.ZipFile(alone) as opened:
        inside = b"".join(opened.read(name) for name in opened.namelist())
    assert b"van" not in inside
    assert PHOTO_SHA.encode() not in inside
    found = verified_archive(alone)
    assert (found.entries, list(found.heads), found.problems) == (2, ["boat"], ())


def test_names_that_no_folder_can_have(shelf: Shelf, tmp_path: Path) -> None:
    name = "../../etc \u202e*?\n" + "x" * 250
    with shelf.open() as store:
        store.append(draft("build-opened", build=name, name="a", engine="b\nc", sheet_path="s", kit_path="k"))
    found = verified_archive(exported(shelf, tmp_path))
    assert (found.problems, list(found.heads)) == ((), [name])


def test_texts_that_shrink_very_far_are_no_trap(shelf: Shelf, tmp_path: Path) -> None:
    """A person who leans on a key: 2 MB of one letter are written so that they are taken again."""
    with shelf.open() as store:
        store.append(draft("build-opened"))
        store.append_many([draft(text="a" * 20_000) for _ in range(100)])
    assert verified_archive(exported(shelf, tmp_path)).problems == ()


# The tables


@pytest.mark.parametrize("cell", ["-0.02", "+0.5", "0.050", "81.500", "3", "", "25 N·m", "no. 4", "–", "µ"])
def test_figures_and_plain_words_are_never_touched(cell: str) -> None:
    assert safe(cell) == cell


@pytest.mark.parametrize(
    "cell",
    [
        "=1+1",
        "+SUM(A1)",
        "-1+cmd",
        "@x",
        "\t=1",
        " =1",
        "-0.02 mm",
        "'quoted",
        "＝1",
        "--1",
        "-",
        "1\n=2"[1:],
    ],
)
def test_what_a_spreadsheet_would_run_is_text_there(cell: str) -> None:
    assert safe(cell) == "'" + cell


@given(st.text())
def test_the_apostrophe_can_be_taken_away_again(cell: str) -> None:
    made = safe(cell)
    assert made.removeprefix("'") == cell
    assert made == cell or not cell.lstrip("-+").replace(".", "", 1).isdecimal()


def test_the_tables_hold_what_the_entries_hold(archive: Path) -> None:
    with zipfile.ZipFile(archive) as opened:
        raw = {name: opened.read(name).decode() for name in opened.namelist() if name.endswith(".csv")}
    tables = {name: list(csv.DictReader(io.StringIO(text, newline=""))) for name, text in raw.items()}
    (one,) = tables["build-1/tables/readings.csv"]
    assert (one["number"], one["value"], one["unit"], one["note"]) == ("2", "-0.02", "mm", "'=1+1")
    assert one["struck"] == "yes: read upside down"
    assert [row["bolt"] for row in tables["build-1/tables/pulls.csv"]] == ["1", "2 µ–"]
    assert tables["build-2/tables/notes.csv"][1]["text"] == "'+SUM(A1:A9)"
    assert tables["build-1/tables/photos.csv"][0]["sha"] == PHOTO_SHA
    assert sum(len(rows) for rows in tables.values()) == 9
    assert all(text.replace("\r\n", "").count("\r") == 0 for text in raw.values())


def test_every_kind_of_entry_has_a_table() -> None:
    assert set(BODIES) == {kind for kinds in TABLES.values() for kind in kinds}


# What is refused


def rewritten(archive: Path, change: Callable[[dict[str, bytes]], None], *, sums: bool = True) -> None:
    """The archive written anew with other files in it, its checksums made to match them."""
    with zipfile.ZipFile(archive) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    change(files)
    if sums:
        files["checksums.txt"] = checksums(
            (name, hashlib.sha256(content).hexdigest())
            for name, content in files.items()
            if name != "checksums.txt"
        )
    with zipfile.ZipFile(archive, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in files.items():
            made.writestr(name, content)


def refused(archive: Path, tmp_path: Path) -> GudgeonError:
    """How both restore and import refuse it; neither leaves anything behind."""
    before = sorted(path.name for path in tmp_path.iterdir())
    book = tmp_path / "new.gudgeon"
    with pytest.raises(GudgeonError) as by_import:
        copies.take_in(archive, to=book)
    with pytest.raises(GudgeonError) as by_restore:
        copies.restore(archive, to=book)
    assert by_import.type is by_restore.type
    assert str(by_import.value) == str(by_restore.value)
    assert sorted(path.name for path in tmp_path.iterdir()) == before
    return by_import.value


STRANGE = "No export or backup of Gudgeon is like that. It was left as it is, and nothing was written; ask whoever gave it to you for a new one."
DAMAGED = "It was left as it is, and nothing was written; use another copy."


@pytest.mark.parametrize(
    "name",
    [
        "../evil",
        "/etc/passwd",
        "C:\\evil",
        "photos/../../evil",
        "build-1/evil.sh",
        "evil\\..\\x",
        "build-1/",
        "README.TXT",
    ],
)
def test_another_name(archive: Path, tmp_path: Path, name: str) -> None:
    rewritten(archive, lambda files: files.update({name: b""}))
    error = refused(archive, tmp_path)
    assert isinstance(error, ArchiveUnsafe)
    assert (
        str(error) == f"{archive} is not taken: `{name}` in it is no name of a file of an export. {STRANGE}"
    )


def test_a_name_twice(archive: Path, tmp_path: Path) -> None:
    with pytest.warns(UserWarning, match="Duplicate name"), zipfile.ZipFile(archive, "a") as opened:
        opened.writestr("README.txt", "other words")
    assert (
        str(refused(archive, tmp_path)) == f"{archive} is not taken: it holds `README.txt` twice. {STRANGE}"
    )


def test_a_link(archive: Path, tmp_path: Path) -> None:
    info = zipfile.ZipInfo(f"photos/{'0' * 64}.jpg")
    info.create_system, info.external_attr = 3, 0o120777 << 16
    with zipfile.ZipFile(archive, "a") as opened:
        opened.writestr(info, "../../secret")
    assert (
        str(refused(archive, tmp_path))
        == f"{archive} is not taken: `{info.filename}` in it is no plain file. {STRANGE}"
    )


def test_an_encrypted_one(archive: Path, tmp_path: Path) -> None:
    content = bytearray(archive.read_bytes())
    place = content.rindex(b"PK\x01\x02")  # the last file in the list at the end
    content[place + 8] |= 1  # OTHER TOOL: the zip format, bit 0 of the flags says that a file is encrypted
    archive.write_bytes(content)
    assert (
        str(refused(archive, tmp_path))
        == f"{archive} is not taken: `checksums.txt` in it is encrypted. {STRANGE}"
    )


def test_another_way_of_packing(archive: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(archive, "a", zipfile.ZIP_LZMA) as opened:
        opened.writestr(f"kits/{'0' * 64}.yaml", "x")
    error = refused(archive, tmp_path)
    assert (
        str(error)
        == f"{archive} is not taken: `kits/{'0' * 64}.yaml` in it is packed in another way. {STRANGE}"
    )


def test_a_bomb_by_how_far_it_unpacks(archive: Path, tmp_path: Path) -> None:
    rewritten(archive, lambda files: files.update({"README.txt": bytes(30_000_000)}))
    error = refused(archive, tmp_path)
    assert str(error) == f"{archive} is not taken: it unpacks to more than 100 times its size. {STRANGE}"


def test_a_file_larger_than_any_of_its_kind(archive: Path, tmp_path: Path) -> None:
    large = MOST_TEXT_BYTES + 1
    with zipfile.ZipFile(archive, "a") as opened, opened.open(f"sheets/{'0' * 64}.yaml", "w") as file:
        for _ in range(64):
            file.write(bytes(1024 * 1024))
        file.write(b"0")
    error = refused(archive, tmp_path)
    assert isinstance(error, ArchiveTooLarge)
    assert (
        f"`sheets/{'0' * 64}.yaml` in it has {large:,} bytes, and this program takes at most 67,108,864 there"
        in str(error)
    )


def test_a_file_that_is_longer_than_it_says(archive: Path, tmp_path: Path) -> None:
    """The list at the end says less than is there: never more is unpacked than was said."""
    content = bytearray(archive.read_bytes())
    place = content.rindex(b"PK\x01\x02")
    said = int.from_bytes(content[place + 24 : place + 28], "little")
    content[place + 24 : place + 28] = (said - 60).to_bytes(4, "little")
    archive.write_bytes(content)
    assert isinstance(refused(archive, tmp_path), ArchiveDamaged)


def test_a_missing_and_an_additional_file(archive: Path, tmp_path: Path) -> None:
    def swap(files: dict[str, bytes]) -> None:
        files["build-1/tables/other.csv"] = files.pop("build-1/tables/pulls.csv")

    rewritten(archive, swap, sums=False)
    assert str(refused(archive, tmp_path)) == (
        f"{archive} is damaged: `build-1/tables/pulls.csv`: it is missing; `build-1/tables/other.csv`: "
        f"checksums.txt does not name it. {DAMAGED}"
    )


def test_a_changed_file(archive: Path, tmp_path: Path) -> None:
    rewritten(archive, lambda files: files.update({"README.txt": b"all is well"}), sums=False)
    assert (
        str(refused(archive, tmp_path))
        == f"{archive} is damaged: `README.txt`: it does not match its checksum. {DAMAGED}"
    )


def test_a_changed_table_with_a_checksum_made_to_match(archive: Path, tmp_path: Path) -> None:
    def better(files: dict[str, bytes]) -> None:
        name = "build-1/tables/readings.csv"
        files[name] = files[name].replace(b"-0.02", b"0.00")

    rewritten(archive, better)
    why = "`build-1/tables/readings.csv`: it does not say what the entries say"
    assert str(refused(archive, tmp_path)) == f"{archive} is damaged: {why}. {DAMAGED}"
    assert verified_archive(archive).problems == (why,)


def test_a_changed_entry_with_everything_around_it_made_to_match(archive: Path, tmp_path: Path) -> None:
    """Text, its hash and the checksum changed: then the next entry tells."""

    def better(files: dict[str, bytes]) -> None:
        lines = files["build-1/entries.jsonl"].split(b"\n")
        text = json.dumps(
            {**json.loads(lines[1])["entry"], "who": "Bo"},
            ensure_ascii=False,
            sort_keys=True,
            separators=(",", ":"),
        )
        lines[1] = f'{{"entry":{text},"hash":"{hashlib.sha256(text.encode()).hexdigest()}"}}'.encode()
        files["build-1/entries.jsonl"] = b"\n".join(lines)

    rewritten(archive, better)
    (problem,) = verified_archive(archive).problems
    assert problem.startswith("build van, entry 3 (")
    assert problem.endswith("): it is not chained to the entry before it")
    assert problem in str(refused(archive, tmp_path))


def test_a_cut_tail_is_shown_by_a_head_that_was_noted(archive: Path, tmp_path: Path) -> None:
    book = tmp_path / "filled.gudgeon"
    head = verified(book).heads["van"]
    found = verified(book, against=head[:12].upper()).against
    assert found is not None
    assert (found.found, found.build, found.number, found.after) == (True, "van", 7, 0)

    def cut(files: dict[str, bytes]) -> None:
        lines = files["build-1/entries.jsonl"].split(b"\n")
        files["build-1/entries.jsonl"] = b"\n".join([*lines[:-2], b""])
        about = json.loads(files["book.json"])
        about["builds"][0] |= {"entries": 6, "head": json.loads(lines[-3])["hash"]}
        files["book.json"] = (json.dumps(about, ensure_ascii=False, indent=1) + "\n").encode()
        files["README.txt"] = files["README.txt"].replace(b"7 entries", b"6 entries")

    rewritten(archive, cut)
    against = verified_archive(archive, against=head).against
    assert against is not None
    assert not against.found


@pytest.mark.parametrize(
    ("name", "content", "why"),
    [
        ("build-1/entries.jsonl", b'{"entry":{},"hash":"' + b"0" * 64 + b'"}\n', "line 1 of `build-1/entries.jsonl` is no entry with its hash"),
        ("build-1/entries.jsonl", b"[" * 100_000 + b"\n", "line 1 of `build-1/entries.jsonl` is no entry with its hash"),
        ("build-1/entries.jsonl", b'{"entry":' + b"[" * 100_000 + b',"hash":"' + b"0" * 64 + b'"}\n', "line 1 of `build-1/entries.jsonl` is no entry with its hash"),
        ("build-1/entries.jsonl", b"\xff\xfe\n", "line 1 of `build-1/entries.jsonl` is no entry with its hash"),
        ("build-1/entries.jsonl", b"{}", "the last line of `build-1/entries.jsonl` is cut off"),
        ("checksums.txt", b"no sums\n", "its checksums.txt is not as it is written"),
        ("book.json", b'{"gudgeon": "book", "format": 1}', "its book.json is not as it is written"),
        ("book.json", b'{"gudgeon": "book", "format": 1, "program": "", "builds": [], "missing_photos": []}', "its book.json is not as it is written"),
    ],
)  # fmt: skip
def test_files_that_are_not_as_they_are_written(
    archive: Path, tmp_path: Path, name: str, content: bytes, why: str
) -> None:
    rewritten(archive, lambda files: files.update({name: content}), sums=name != "checksums.txt")
    assert str(refused(archive, tmp_path)) == f"{archive} is damaged: {why}. {DAMAGED}"
    assert verified_archive(archive).problems == (str(refused(archive, tmp_path)),)


def test_no_entries_at_all(archive: Path, tmp_path: Path) -> None:
    rewritten(archive, lambda files: files.update({"build-1/entries.jsonl": b""}))
    why = "build van: 7 entries should be there, 0 are; build van: it has no entries"
    assert str(refused(archive, tmp_path)) == f"{archive} is damaged: {why}. {DAMAGED}"


def test_a_huge_line(archive: Path, tmp_path: Path) -> None:
    line = b'{"entry":"' + bytes(range(48, 58)) * 900_000 + b'"}\n'
    with zipfile.ZipFile(archive) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    with zipfile.ZipFile(
        archive, "w"
    ) as made:  # stored, as packed it would be refused for how far it unpacks
        for name, content in (files | {"build-1/entries.jsonl": line}).items():
            made.writestr(name, content)
    error = refused(archive, tmp_path)
    assert isinstance(error, ArchiveTooLarge)
    assert (
        f"line 1 of `build-1/entries.jsonl` has {len(line) - 1:,} bytes, and this program takes at most 8,388,608 a line"
        in str(error)
    )


def test_a_later_format(archive: Path, tmp_path: Path) -> None:
    """It may hold files of other names; that it is newer is what helps."""

    def newer(files: dict[str, bytes]) -> None:
        files["book.json"] = files["book.json"].replace(b'"format": 1', b'"format": 2')
        files["drawings/1.svg"] = b""

    rewritten(archive, newer)
    error = refused(archive, tmp_path)
    assert isinstance(error, ArchiveTooNew)
    assert str(error) == (
        f"{archive} has format 2, this program knows up to 1. It was left as it is, and nothing was written; "
        "use the newer program."
    )


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "it is empty"),
        (b"hello", "it is no zip file"),
        (b"PK\x05\x06" + bytes(18), "there is no book.json in it"),
    ],
)
def test_something_else(tmp_path: Path, content: bytes, why: str) -> None:
    file = tmp_path / "else.zip"
    file.write_bytes(content)
    error = refused(file, tmp_path)
    assert isinstance(error, NotAnArchive)
    assert str(error) == (
        f"{file} is not an export or a backup of Gudgeon ({why}). It was left as it is, and nothing was written; "
        "name another file."
    )
    with pytest.raises(NotAnArchive):
        verified_archive(file)


def test_a_folder_and_nothing_at_all(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    assert isinstance(refused(tmp_path / "folder", tmp_path), NotAnArchive)
    error = refused(tmp_path / "none.zip", tmp_path)
    assert isinstance(error, ArchiveMissing)
    assert str(error) == f"There is no file {tmp_path / 'none.zip'}. Check the name; nothing was written."


def test_cut_off_anywhere_it_is_never_taken(archive: Path, tmp_path: Path) -> None:
    whole = archive.read_bytes()
    cut = tmp_path / "cut.zip"
    for length in range(1, len(whole), max(1, len(whole) // 60)):
        cut.write_bytes(whole[:length])
        assert isinstance(refused(cut, tmp_path), ArchiveDamaged | NotAnArchive)


def test_changed_anywhere_it_is_found_or_says_the_same(archive: Path, tmp_path: Path) -> None:
    """Some bytes of a zip file say nothing that is read (times, the system it was made on): then all is as it was."""
    whole, sound = archive.read_bytes(), verified_archive(archive)
    changed, found = tmp_path / "changed.zip", 0
    for place in range(0, len(whole), max(1, len(whole) // 300)):
        changed.write_bytes(whole[:place] + bytes([whole[place] ^ 0x55]) + whole[place + 1 :])
        try:
            now = verified_archive(changed)
        except GudgeonError:
            found += 1
            continue
        if now.problems:
            found += 1
        else:
            assert (now.heads, now.entries) == (sound.heads, sound.entries)
    assert found > 200


def test_never_over_another_file(archive: Path, tmp_path: Path) -> None:
    before = archive.read_bytes()
    with pytest.raises(FileThere) as caught:
        copies.export(tmp_path / "filled.gudgeon", archive)
    assert (
        str(caught.value)
        == f"{archive} exists already and was left as it is. Nothing was written; name another file."
    )
    assert archive.read_bytes() == before


# Into a book that is there


def test_the_same_again_is_there_already(shelf: Shelf, tmp_path: Path) -> None:
    fill(shelf)
    file, before = exported(shelf, tmp_path), rows_of(shelf)
    taken = copies.take_in(file, to=book_address(shelf.address))
    assert [(one.added, one.ahead) for one in taken.builds] == [(0, 0), (0, 0)]
    assert (taken.photos, rows_of(shelf)) == (0, before)


def test_a_chain_that_goes_on_is_continued_and_one_that_is_behind_changes_nothing(
    shelf: Shelf, tmp_path: Path
) -> None:
    fill(shelf)
    early = exported(shelf, tmp_path, name="early.zip")
    other = new_shelf(tmp_path, "other.gudgeon")
    copies.take_in(early, to=book_address(other.address))
    with other.open() as store:
        store.append_many([draft(text="later"), draft(text="later still")])
    late = exported(other, tmp_path, name="late.zip")
    taken = copies.take_in(late, to=book_address(shelf.address))
    assert [(one.build, one.added, one.ahead) for one in taken.builds] == [("van", 2, 0), ("boat", 0, 0)]
    assert rows_of(shelf) == rows_of(other)
    with shelf.open() as store:
        assert store.verify() == ()
    taken = copies.take_in(early, to=book_address(shelf.address))
    assert [(one.build, one.added, one.ahead) for one in taken.builds] == [("van", 0, 2), ("boat", 0, 0)]
    assert rows_of(shelf) == rows_of(other)


def test_chains_that_part_are_refused_with_the_entry_where_they_do(shelf: Shelf, tmp_path: Path) -> None:
    """Nothing of the archive is taken, not even the build that would fit."""
    fill(shelf)
    other = new_shelf(tmp_path, "other.gudgeon")
    copies.take_in(exported(shelf, tmp_path), to=book_address(other.address))
    with other.open() as store:
        store.append_many(
            [
                draft(text="here"),
                draft(text="and here"),
                draft("build-opened", build="bike", name="bike", engine="e", sheet_path="s", kit_path="k"),
            ]
        )
    with shelf.open() as store:
        store.append(draft(text="there"))
    before = rows_of(shelf)
    with pytest.raises(ChainsPart) as caught:
        copies.take_in(exported(other, tmp_path, name="parted.zip"), to=book_address(shelf.address))
    assert str(caught.value) == (
        "The build `van` is in this book already, and the two part at entry 8: here it has 8 entries, the other 9, "
        "and they differ from there on. Nothing was written; keep the other one in a book of its own with --book NEW."
    )
    assert rows_of(shelf) == before
