"""Writing one figure of the data sheet: what a form asks, what rested on the old figure, and the writing itself."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.sheet_figures import Citation, said
from gudgeon.bench.sheet_file import sheet_file, write_sheet
from gudgeon.bench.sheet_naming import found_at
from gudgeon.bench.sheet_photos import AddedPhoto, PageNotNamed, page_words, with_photo
from gudgeon.errors import InputError
from gudgeon.sheet.write import (
    NotTheSame,
    figure_in,
    is_critical,
    kind_of,
    parse_path,
    put_figure,
    takes_note,
    takes_source,
)
from gudgeon.written.located import Path


class NotTypedTwice(InputError):
    """A critical figure that was written once only."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"`{said}` is a critical figure and was written once only. Look at the page again, "
            "and write it a second time."
        )


class NothingWritten(InputError):
    """A form without the figure."""

    def __init__(self) -> None:
        super().__init__(
            "No figure was written. Write it with its unit as the page prints it, like `40 N·m`."
        )


@dataclass(frozen=True, slots=True)
class FigureForm:
    """What is asked for one figure, and what stands there now."""

    path: str
    name: str
    part: str
    part_key: str
    kind: str
    like: tuple[str, ...]
    critical: bool
    takes_source: bool
    takes_note: bool
    now: str
    note: str
    cited: Citation | None
    source: str
    page: str
    sources: tuple[tuple[str, str], ...]
    judged: tuple[str, ...]
    findings: tuple[Finding, ...]
    made_from: str
    file: str


@dataclass(frozen=True, slots=True)
class FigureSaid:
    """What a person wrote into the form."""

    value: str
    again: str = ""
    source: str = ""
    page: str = ""
    note: str = ""
    photo: bytes = b""
    photo_name: str = ""


@dataclass(frozen=True, slots=True)
class FigureWritten:
    """What now stands in the sheet, and what was there before."""

    path: str
    name: str
    printed: str
    source: str
    before: str
    photo: AddedPhoto | None
    judged: tuple[str, ...]


def figure_form(bench: Bench, asked: str) -> FigureForm:
    """The form of one figure, whether it stands in the sheet or not."""
    path = parse_path(asked)
    sheet, written = bench.sheet, bench.papers.written
    now = figure_in(written.data if written is not None else {}, path)
    part, figure, name = found_at(bench, said(path))
    cited = figure.cited if figure is not None else part.cited if part is not None else None
    own = cited if takes_source(path) else None
    kind, like = kind_of(path, sheet)
    return FigureForm(
        path=said(path),
        name=name or said(path),
        part=part.title if part is not None else "",
        part_key=part.key if part is not None else "",
        kind=kind.replace("_", " "),
        like=like,
        critical=is_critical(path),
        takes_source=takes_source(path),
        takes_note=takes_note(path),
        now=now,
        note=figure.note if figure is not None else "",
        cited=cited,
        source=own.key if own is not None else next(iter(sheet.sources)) if len(sheet.sources) == 1 else "",
        page=own.where if own is not None else "",
        sources=tuple((key, f"{key}: {book.title}, {book.edition}") for key, book in sheet.sources.items()),
        judged=tuple(_judged(bench, path)) if now else (),
        findings=figure.findings if figure is not None else (),
        made_from=bench.papers.sheet_sha,
        file=sheet_file(bench).name,
    )


def write_figure(bench: Bench, asked: str, *, given: FigureSaid, made_from: str) -> FigureWritten:
    """Write a figure, and the photo of its page where one came with it, into the file in one step."""
    path, file = parse_path(asked), sheet_file(bench)
    value = " ".join(given.value.split())
    if not value:
        raise NothingWritten
    if is_critical(path):
        if not given.again.strip():
            raise NotTypedTwice(value)
        if "".join(value.split()) != "".join(given.again.split()):
            raise NotTheSame(value, " ".join(given.again.split()))
    source = f"{given.source} {page_words(given.page)}".strip() if takes_source(path) else ""
    form = figure_form(bench, asked)
    photo: AddedPhoto | None = None

    def change(text: str) -> str:
        nonlocal photo
        after = put_figure(
            text, file=file.name, path=path, value=value, source=source, note=" ".join(given.note.split())
        )
        if given.photo:
            of, page = _photographed(form, given)
            after, photo = with_photo(after, file, given.photo, source=of, page=page, name=given.photo_name)
        return after

    write_sheet(file, made_from=made_from, change=change)
    before = form.now if "".join(form.now.split()) != "".join(value.split()) else ""
    name = f"{form.part}: {form.name}" if form.part else form.name
    return FigureWritten(form.path, name, value, source, before, photo, form.judged if before else ())


def _photographed(form: FigureForm, given: FigureSaid) -> tuple[str, str]:
    """Which page a photo shows: the one that the figure cites, its own or that of its part."""
    if form.takes_source:
        return given.source, given.page
    if form.cited is None:
        raise PageNotNamed
    return form.cited.key, form.cited.where


def _judged(bench: Bench, path: Path) -> Iterator[str]:
    """What the book holds that was judged or done by the figure as it is now."""
    state, sheet = bench.state, bench.sheet
    if path[0] == "characteristics":
        key = str(path[1])
        item = sheet.characteristics[key]
        count = sum(1 for one in state.readings if one[0] == key)
        if count:
            yield f"{_counted(count, 'reading')} of {item.name} in the book; they will be judged by the new figure."
        if item.computed:
            of = [name for name in item.of if any(one[0] == name for one in state.readings)]
            names = " and ".join(sheet.characteristics[name].name for name in of)
            if names:
                yield f"{item.name} is worked out from readings of {names}; it will be judged by the new figure."
    elif path[0] == "joints" and str(path[1]) in state.joints and "program" in path:
        joint = sheet.joints[str(path[1])]
        pulls = state.joints[str(path[1])].pulls
        stage = int(path[3]) + 1 if len(path) > 3 else 0
        count = sum(1 for one in pulls if one[0] == stage)
        if count:
            yield (
                f"{_counted(count, 'pull')} of stage {stage} of {joint.name} in the book, made to the old figure: "
                "the joint will be in doubt."
            )
        if len(pulls) > count:
            yield f"{_counted(len(pulls) - count, 'pull')} of other stages of {joint.name} in the book."


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"
