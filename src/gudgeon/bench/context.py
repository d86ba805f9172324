"""Everything one question needs, opened once: book, build, sheet, kit, state and the hour."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import Any

from gudgeon.bench.answer import NOTICE, Heading
from gudgeon.bench.chain_read import Read, read_chain
from gudgeon.bench.codes import same_code
from gudgeon.bench.errors import EngineDiffers, EngineNotRead, NoBook, NoSuchBuild, WhichBuild
from gudgeon.bench.moved import moved_remarks
from gudgeon.bench.network import job, job_named
from gudgeon.book.address import BookAddress, papers_folder, photos_folder
from gudgeon.book.entries import Entry
from gudgeon.book.errors import BookMissing
from gudgeon.book.opening import open_book
from gudgeon.book.state import State
from gudgeon.book.store import Store
from gudgeon.kit.load import LoadedKit, parse_kit
from gudgeon.kit.model import Kit
from gudgeon.quantity.format import show_first
from gudgeon.sheet.load import LoadedSheet, parse_sheet
from gudgeon.sheet.model import DataSheet
from gudgeon.written.errors import FileMissing, FileWrong
from gudgeon.written.located import Written, read_text


@dataclass(frozen=True, slots=True)
class Papers:
    """The sheet and the kit as they are on disk now, and what is to be said about them.

    The files are those that the texts came from; None where one is gone and the pinned copy is used.
    """

    sheet: DataSheet
    sheet_text: str
    sheet_sha: str
    kit: Kit
    kit_text: str
    kit_sha: str
    remarks: tuple[str, ...]
    written: Written | None = None
    sheet_file: Path | None = None
    kit_file: Path | None = None


@dataclass(frozen=True, slots=True)
class Writer:
    """Whose hand writes, and with what device: what every entry carries of its sender."""

    who: str
    device: str


@dataclass(frozen=True, slots=True)
class Bench:
    """One build of one book, with its papers, at one hour; `writer` where it is not the one at this machine."""

    book: BookAddress
    store: Store
    build: str
    papers: Papers
    state: State
    now: datetime
    writer: Writer | None = None

    @property
    def sheet(self) -> DataSheet:
        """The data sheet."""
        return self.papers.sheet

    @property
    def kit(self) -> Kit:
        """The kit."""
        return self.papers.kit

    @property
    def locked(self) -> EngineNotRead | EngineDiffers | None:
        """Why torques and limits are locked, or nothing."""
        engine, read = self.sheet.engine, self.state.identity
        if read is None:
            return EngineNotRead(engine.codes, engine.code_is_read)
        if not self.code_matches and not read.why_not:
            return EngineDiffers(read.code, engine.codes)
        return None

    @property
    def code_matches(self) -> bool:
        """Whether the code read off the engine is one of the sheet's as it stands now."""
        read = self.state.identity
        return read is not None and same_code(read.code, self.sheet.engine.codes)

    def unlock(self) -> None:
        """Refuse to go on while figures are locked."""
        if self.locked is not None:
            raise self.locked

    def heading(self, question: str) -> Heading:
        """What is said with every answer."""
        remarks = [*moved_remarks(self.book), *self.papers.remarks]
        read = self.state.identity
        if read is not None and not self.code_matches and read.why_not:
            remarks.append(
                f"The code read off the engine, {read.code}, is not the sheet's. Why it serves: {read.why_not}"
            )
        if self.state.photos_wrong:
            remarks.append(wrong_words(len(self.state.photos_wrong)))
        return Heading(
            question,
            self.sheet.engine.name,
            self.build,
            NOTICE if self.sheet.invented else "",
            self.now.isoformat(timespec="seconds"),
            self.papers.sheet_sha,
            self.papers.kit_sha,
            tuple(remarks),
            self.state.head,
            job(job_named(self.state)).name,
            self.state.last_time,
        )


def wrong_words(photos: int) -> str:
    """What is said with every answer as long as photos are not as they were taken."""
    which = "A photo of the book is" if photos == 1 else f"{photos} photos of the book are"
    return f"{which} missing or altered: gudgeon photos"


def clock() -> datetime:
    """The hour, with its offset from UTC."""
    return datetime.now(UTC)


def open_store(book: BookAddress) -> Store:
    """Open a book that is there."""
    try:
        return open_book(book, clock=clock)
    except BookMissing:
        raise NoBook(str(book)) from None


def open_bench(
    book: BookAddress,
    *,
    build: str | None = None,
    now: datetime | None = None,
    writer: Writer | None = None,
) -> Bench:
    """Open a book and one of its builds: the named one, else the only one."""
    store = open_store(book)
    try:
        chosen = _chosen(store.builds(), build, book)
        opened = at_hour(book, store=store, build=chosen, now=now or clock().astimezone())
        return replace(opened, writer=writer)
    except BaseException:
        store.close()
        raise


def build_of(book: BookAddress, *, chosen: str | None) -> str:
    """The build that would be opened; refuses a book that is not there, whatever state its papers are in."""
    store = open_store(book)
    try:
        return _chosen(store.builds(), chosen, book)
    finally:
        store.close()


def _chosen(builds: tuple[str, ...], build: str | None, book: BookAddress) -> str:
    if build is not None:
        if build not in builds:
            raise NoSuchBuild(build, builds)
        return build
    if not builds:
        raise NoBook(str(book))
    if len(builds) > 1:
        raise WhichBuild(builds)
    return builds[0]


def at_hour(book: BookAddress, *, store: Store, build: str, now: datetime) -> Bench:
    """The bench as it stands at an hour, from what the store holds."""
    read = read_chain(store, build, where=str(book))
    papers = _papers(book, store, read.opened, read.sheet, read.kit)
    show_first(papers.kit.units)
    return Bench(book, store, build, papers, looked_at(read.state, book), now)


def at_its_last_entry(bench: Bench) -> Bench:
    """The bench at the hour of the last entry instead of now; an empty book has none, and stays as it is."""
    last = bench.state.last_time
    return replace(bench, now=datetime.fromisoformat(last)) if last else bench


def state_after(bench: Bench) -> State:
    """The state as the book stands now, after what was recorded; whoever opens the book next finds it read."""
    return looked_at(_as_it_stands(bench).state, bench.book)


def entries_of(bench: Bench) -> tuple[Entry, ...]:
    """Every entry of the build as the book stands now, in order."""
    return _as_it_stands(bench).entries


def entry_of(bench: Bench, entry_id: str) -> Entry | None:
    """An entry of the build by its whole id, as the book stands now."""
    read = _as_it_stands(bench)
    found = read.by_id.get(entry_id)
    return found if found is not None and found.number <= read.entries[-1].number else None


def _as_it_stands(bench: Bench) -> Read:
    return read_chain(bench.store, bench.build, where=str(bench.book))


def looked_at(state: State, book: BookAddress) -> State:
    """A state with what is wrong with its photos: those that prove something are read, the others looked for."""
    proofs = {one.photo for one in state.holds.values() if one.photo and one.status == "proved"}
    named = {one.sha for one in state.photos}
    if not proofs and not named:
        return state
    from gudgeon.book.photo_folder import photos_wrong

    return replace(state, photos_wrong=photos_wrong(photos_folder(book), named=named, proofs=proofs))


@lru_cache(maxsize=8)
def _sheet(text: str, *, file: str) -> LoadedSheet:
    return parse_sheet(text, file=file)


@lru_cache(maxsize=8)
def _kit(text: str, *, file: str) -> LoadedKit:
    return parse_kit(text, file=file)


@contextmanager
def _named(what: str) -> Iterator[None]:
    """Let what is wrong with a file say whether it is the data sheet or the kit."""
    try:
        yield
    except FileWrong as error:
        error.what = error.what or what
        raise


def _papers(
    book: BookAddress, store: Store, opened: Mapping[str, Any], sheet_sha: str, kit_sha: str
) -> Papers:
    """The files as they are now; the copies pinned in the book where a file has gone."""
    remarks: list[str] = []
    texts = []
    files: list[Path | None] = []
    for what, path, sha in (
        ("data sheet", opened["sheet_path"], sheet_sha),
        ("kit", opened["kit_path"], kit_sha),
    ):
        file = (papers_folder(book) or Path()) / str(path)
        try:
            if not file.is_absolute() and papers_folder(book) is None:
                raise FileMissing(
                    str(file)
                )  # it began beside a file; where this program stands is another place
            with _named(what):
                texts.append((str(file), read_text(file)))
            files.append(file)
        except FileMissing:
            remarks.append(f"The {what} {file} is gone; the copy pinned in the book is used.")
            texts.append((f"{what} pinned in the book", store.document(sha)))
            files.append(None)
    (sheet_file, sheet_text), (kit_file, kit_text) = texts
    with _named("data sheet"):
        sheet = _sheet(sheet_text, file=sheet_file)
    with _named("kit"):
        kit = _kit(kit_text, file=kit_file)
    for what, new, old in (("data sheet", sheet.sha256, sheet_sha), ("kit", kit.sha256, kit_sha)):
        if old and new != old:
            remarks.append(
                f"The {what} has changed since the last entry; the next entry pins it as it is now."
            )
    return Papers(
        sheet.sheet,
        sheet_text,
        sheet.sha256,
        kit.kit,
        kit_text,
        kit.sha256,
        tuple(remarks),
        sheet.written,
        *files,
    )
