"""Beginning a build in a book, and opening a fresh copy of the invented job."""

import re
import shutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from importlib import resources
from pathlib import Path
from typing import Any

from gudgeon.bench.context import Papers, clock
from gudgeon.bench.doing import Known
from gudgeon.bench.errors import BuildExists
from gudgeon.bench.record import draft, writer_here
from gudgeon.book.address import BookAddress, papers_folder
from gudgeon.book.entries import Draft
from gudgeon.book.opening import open_book
from gudgeon.errors import InputError
from gudgeon.kit.load import load_kit
from gudgeon.sheet.load import load_sheet
from gudgeon.written.located import read_yaml

DEMO_BUILD = "demo"


class FolderTaken(InputError):
    """The folder for the demo holds something else."""

    def __init__(self, folder: str) -> None:
        super().__init__(
            f"{folder} exists and is no folder of an earlier demo. Name an empty one with --folder."
        )


class FolderRefused(InputError):
    """The folder cannot be written."""

    def __init__(self, folder: str, why: str) -> None:
        super().__init__(f"{folder} cannot be written ({why}). Name another folder.")


class DemoBroken(InputError):
    """The demo's own data are not what they should be."""

    def __init__(self, why: str) -> None:
        super().__init__(f"The invented job cannot be laid out: {why}.")


@dataclass(frozen=True, slots=True)
class Begun:
    """A build that has been begun, and where its things are."""

    book: BookAddress
    build: str
    sheet: Path
    kit: Path
    entries: int
    kept: Path | None = None


def read_papers(sheet: Path, *, kit: Path) -> Papers:
    """Sheet and kit from their files, both checked."""
    loaded, owned = load_sheet(sheet), load_kit(kit)
    return Papers(
        loaded.sheet, loaded.written.text, loaded.sha256, owned.kit, owned.written.text, owned.sha256, ()
    )  # fmt: skip


def begin(book: BookAddress, *, build: str, sheet: Path, kit: Path, at: datetime, job: str = "") -> Begun:
    """Begin a build: pin the sheet and the kit, write the first entry, and how far the job goes where that was said."""
    chosen = []
    if job:
        from gudgeon.bench.job_choice import suits
        from gudgeon.bench.plan_fields import find_job

        key = find_job(job)
        suits(load_sheet(sheet).sheet, key)
        chosen.append((at, "job-chosen", {"job": key}))
    return _begin(book, build, sheet, kit, at, chosen)


def _begin(
    book: BookAddress,
    build: str,
    sheet: Path,
    kit: Path,
    at: datetime,
    more: Iterable[tuple[datetime, str, Mapping[str, Any]]],
) -> Begun:
    papers = read_papers(sheet, kit=kit)
    folder = papers_folder(book)
    if folder is not None:
        _make(folder)
    store = open_book(book, clock=clock, create=True)
    try:
        if build in store.builds():
            raise BuildExists(build)
        store.put_document(papers.sheet_text, kind="sheet")
        store.put_document(papers.kit_text, kind="kit")
        opened = {
            "name": build,
            "engine": papers.sheet.engine.name,
            "sheet_path": _path(sheet, folder),
            "kit_path": _path(kit, folder),
        }
        known = Known(tasks=set(), pulled=set(), cams_in=False)
        drafts: list[Draft] = []
        for when, kind, fields in ((at, "build-opened", opened), *more):
            drafts.append(
                draft(
                    papers,
                    build=build,
                    kind=kind,
                    fields=fields,
                    at=when,
                    basis="",
                    by=writer_here(),
                    known=known,
                )
            )
            known.note(papers.sheet, kind=kind, fields=fields)
        store.append_many(drafts)
        return Begun(book, build, sheet, kit, len(drafts))
    finally:
        store.close()


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FolderRefused(str(folder), error.strerror or "refused") from None


def _path(file: Path, folder: Path | None) -> str:
    """The path of a file: as seen from the book, so that a folder can be moved as a whole; else the whole of it."""
    whole = file.resolve()
    if folder is not None and whole.is_relative_to(folder.resolve()):
        return whole.relative_to(folder.resolve()).as_posix()
    return str(whole)


def open_demo(folder: Path, *, now: datetime) -> Begun:
    """Lay a fresh copy of the invented job into a folder; an earlier demo there makes room.

    One in which the person has recorded something of his own is kept beside it.
    """
    kept = _make_room(folder, now=now)
    files = {}
    source = resources.files("gudgeon.demo")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name in ("sheet.yaml", "kit.yaml"):
            files[name] = folder / name
            files[name].write_text(source.joinpath(name).read_text(encoding="utf-8"), encoding="utf-8")
    except OSError as error:
        raise FolderRefused(str(folder), error.strerror or "refused") from None
    written = read_yaml(source.joinpath("entries.yaml").read_text(encoding="utf-8"), file="entries.yaml")
    more = [_demo_entry(one, now) for one in written.data["entries"]]
    start = more[0][0] - timedelta(minutes=5)
    begun = _begin(folder / "book.gudgeon", DEMO_BUILD, files["sheet.yaml"], files["kit.yaml"], start, more)
    (folder / _MARK).write_text(f"{begun.entries}\n", encoding="utf-8")
    return replace(begun, kept=kept)


_MARK = ".gudgeon-demo"


def _make_room(folder: Path, *, now: datetime) -> Path | None:
    if folder.exists() and (not folder.is_dir() or (any(folder.iterdir()) and not (folder / _MARK).exists())):
        raise FolderTaken(str(folder))
    kept = None
    try:
        if folder.exists() and _written_in(folder):
            kept = folder.with_name(f"{folder.name}-kept-{now:%Y%m%d-%H%M%S}")
            folder.rename(kept)
        elif folder.exists():
            shutil.rmtree(folder)
        folder.mkdir(parents=True)
        (folder / _MARK).write_text("0\n", encoding="utf-8")
        return kept
    except OSError as error:
        raise FolderRefused(str(folder), error.strerror or "refused") from None


def _written_in(folder: Path) -> bool:
    """Whether the book of an earlier demo holds more entries than were laid out."""
    laid = (folder / _MARK).read_text(encoding="utf-8").strip() if (folder / _MARK).exists() else ""
    try:
        store = open_book(folder / "book.gudgeon", clock=clock)
    except InputError:
        return False
    try:
        return laid.isdigit() and int(laid) > 0 and len(store.entries(DEMO_BUILD)) > int(laid)
    finally:
        store.close()


_AGO = re.compile(r"(\d+) (d|h|min)\b")
_UNITS = {"d": "days", "h": "hours", "min": "minutes"}
_WHOLE = ("stage", "round", "minutes", "count", "minutes_ago", "open_minutes", "cure_minutes", "months")
_YES_NO = ("compared", "sure")


def _demo_entry(fields: Mapping[str, Any], now: datetime) -> tuple[datetime, str, dict[str, Any]]:
    """One line of the demo's entries: how long ago, which kind, and its fields."""
    rest = {key: value for key, value in fields.items() if key not in ("ago", "kind")}
    found = _AGO.findall(str(fields.get("ago", "")))
    if not found or "kind" not in fields:
        raise DemoBroken(f"an entry without `ago` or `kind`: {fields}")
    ago = timedelta(**{_UNITS[unit]: int(amount) for amount, unit in found})
    for key in _WHOLE:
        if key in rest:
            rest[key] = int(rest[key])
    for key in _YES_NO:
        if key in rest:
            rest[key] = rest[key] in ("yes", "true")
    return now - ago, str(fields["kind"]), rest
