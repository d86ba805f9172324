"""The data sheet: every figure as printed with its source, what is not stated, what proof-reading found beside it."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from pydantic import BaseModel

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.gaps import Gap, gaps
from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.bench.sheet_parts import PartContent, empty_content, part_content
from gudgeon.bench.sheet_photos import is_there
from gudgeon.sheet.engine import Cylinder, Head
from gudgeon.sheet.figures import Cited, Sourced
from gudgeon.sheet.load import LoadedSheet, parse_sheet
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.write import is_critical, is_figure, parse_path
from gudgeon.written.located import Path, Written


@dataclass(frozen=True, slots=True)
class Citation:
    """Where a figure was read: the source, the page, and the photo of that page where there is one."""

    key: str
    where: str
    title: str
    edition: str
    photo: str

    def __str__(self) -> str:
        return f"{self.key} {self.where}"


@dataclass(frozen=True, slots=True)
class SheetFigure:
    """One figure as the sheet prints it; `path` is empty where only the file itself can change it."""

    path: str
    name: str
    printed: str
    note: str
    cited: Citation | None
    critical: bool
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class NotStated:
    """A figure that the sheet could state and does not."""

    path: str
    name: str


@dataclass(frozen=True, slots=True)
class SheetPart:
    """One characteristic, joint, fluid …: figures, words, and what is not stated."""

    key: str
    title: str
    line: int | None
    cited: Citation | None
    figures: tuple[SheetFigure, ...]
    facts: tuple[tuple[str, str], ...]
    not_stated: tuple[NotStated, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class SheetGroup:
    """Parts that are read together, as all that is measured on one part of the engine."""

    title: str
    parts: tuple[SheetPart, ...]

    @property
    def figures(self) -> int:
        """How many figures it prints."""
        return sum(len(part.figures) for part in self.parts)

    @property
    def open_findings(self) -> int:
        """How many findings nobody has settled."""
        found = (
            part.findings + tuple(one for f in part.figures for one in f.findings) for part in self.parts
        )
        return sum(one.counts for findings in found for one in findings)


@dataclass(frozen=True, slots=True)
class SheetSection:
    """One section of the sheet."""

    key: str
    title: str
    groups: tuple[SheetGroup, ...]

    @property
    def figures(self) -> int:
        """How many figures it prints."""
        return sum(group.figures for group in self.groups)

    @property
    def open_findings(self) -> int:
        """How many findings nobody has settled."""
        return sum(group.open_findings for group in self.groups)


@dataclass(frozen=True, slots=True)
class SheetGap:
    """What is not stated, and what cannot be done without it; `path` where a page can write it, else the line."""

    where: str
    missing: str
    therefore: str
    path: str
    line: int | None


@dataclass(frozen=True, slots=True)
class SheetSource:
    """A source with the photos of its pages, and whether each is in its folder."""

    key: str
    title: str
    edition: str
    note: str
    photos: tuple[tuple[str, str, bool], ...]
    pages: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class SheetAnswer:
    """The data sheet, to be read and written."""

    heading: Heading
    file: str
    locked: str
    writable: bool
    sections: tuple[SheetSection, ...]
    gaps: tuple[SheetGap, ...]
    findings: tuple[Finding, ...]
    settled: tuple[Finding, ...]
    sources: tuple[SheetSource, ...]
    cautions: tuple[tuple[str, str], ...]
    figures: int


SECTIONS: tuple[tuple[str, str], ...] = (
    ("engine", "Engine"),
    ("cylinder", "Cylinder"),
    ("head", "Cylinder head"),
    ("characteristics", "What is measured"),
    ("faces", "Faces that must be flat"),
    ("joints", "Joints and their programs"),
    ("drive", "Drive of the camshafts"),
    ("valve_gear", "Valve gear"),
    ("fits", "Fits that are chosen"),
    ("after_start", "Proofs after the start"),
    ("fluids", "Fluids"),
    ("sealants", "Sealants"),
    ("parts", "Parts"),
)
_ABSENT: Mapping[str, type[BaseModel]] = {"cylinder": Cylinder, "head": Head}


def data_sheet(bench: Bench) -> SheetAnswer:
    """The whole data sheet of a bench."""
    sheet, papers = bench.sheet, bench.papers
    findings = sheet_findings(bench)
    sections = _sections(papers.sheet_text)
    if findings:
        sections = tuple(_with_findings(sections, findings))
    file = papers.sheet_file
    sources = tuple(
        SheetSource(
            key,
            book.title,
            book.edition,
            book.note or "",
            tuple((page, photo, is_there(file, photo=photo)) for page, photo in book.photos.items()),
            _pages(sections, key),
        )
        for key, book in sheet.sources.items()
    )
    return SheetAnswer(
        heading=bench.heading("Data sheet"),
        file=file.name if file is not None else "",
        locked=str(bench.locked or ""),
        writable=file is not None,
        sections=sections,
        gaps=tuple(_gap(one, papers.written) for one in gaps(sheet)),
        findings=tuple(one for one in findings if one.counts),
        settled=tuple(one for one in findings if not one.counts),
        sources=sources,
        cautions=tuple((one.text, one.basis) for one in sheet.cautions),
        figures=sum(section.figures for section in sections),
    )


def sheet_findings(bench: Bench) -> tuple[Finding, ...]:
    """What proof-reading finds in the sheet as it stands; read once for each text."""
    return _proofread(bench.papers.sheet_text)


@lru_cache(maxsize=4)
def _loaded(text: str) -> LoadedSheet:
    return parse_sheet(text, file="data sheet")


@lru_cache(maxsize=4)
def _proofread(text: str) -> tuple[Finding, ...]:
    loaded = _loaded(text)
    return proofread(loaded.sheet, written=loaded.written)


@lru_cache(maxsize=4)
def _sections(text: str) -> tuple[SheetSection, ...]:
    """The sections of a sheet, without findings; a page asks for the same text again and again."""
    loaded = _loaded(text)
    sheet, written = loaded.sheet, loaded.written
    return tuple(
        SheetSection(key, title, groups)
        for key, title in SECTIONS
        if (groups := tuple(_groups(key, title, sheet, written)))
    )


def _groups(key: str, title: str, sheet: DataSheet, written: Written) -> Iterator[SheetGroup]:
    held = getattr(sheet, key)
    if held is None:
        if key in _ABSENT:
            empty = empty_content(_ABSENT[key], (key,))
            yield SheetGroup(title, (_part((key,), title, None, empty, sheet, written),))
    elif not isinstance(held, dict):
        yield SheetGroup(title, (_whole((key,), title, held, sheet, written),))
    elif key == "characteristics":
        by_part: dict[str, list[SheetPart]] = {}
        for name, item in held.items():
            by_part.setdefault(item.part, []).append(_whole((key, name), item.name, item, sheet, written))
        yield from (SheetGroup(part, tuple(parts)) for part, parts in by_part.items())
    elif key == "joints":
        for name, joint in held.items():
            yield SheetGroup(joint.name, (_whole((key, name), joint.name, joint, sheet, written),))
    elif held:
        parts = (_whole((key, name), one.name, one, sheet, written) for name, one in held.items())
        yield SheetGroup(title, tuple(parts))


def _whole(path: Path, title: str, held: BaseModel, sheet: DataSheet, written: Written) -> SheetPart:
    source = held.source if isinstance(held, Sourced) else None
    return _part(path, title, source, part_content(held, path, sheet), sheet, written)


def _part(
    path: Path, title: str, source: Cited | None, content: PartContent, sheet: DataSheet, written: Written
) -> SheetPart:
    figures = tuple(
        SheetFigure(
            said(one.path) if is_figure(one.path) else "",
            one.name,
            one.printed,
            one.note,
            cited(one.cited, sheet),
            is_critical(one.path),
            (),
        )
        for one in content.figures
    )
    not_stated = tuple(NotStated(said(inner), name) for inner, name in content.empty)
    line = written.place(path, key=True).line if path in written.keys else None
    return SheetPart(
        said(path), title, line, cited(source, sheet), figures, tuple(content.facts), not_stated, ()
    )


def said(path: Path) -> str:
    """A path as it is typed; list places count from one."""
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def cited(source: Cited | None, sheet: DataSheet) -> Citation | None:
    """A citation with the title behind its key, and the photo of its page."""
    if source is None or source.key not in sheet.sources:
        return None
    book = sheet.sources[source.key]
    return Citation(source.key, source.where, book.title, book.edition, book.photo_of(source.where))


def _with_findings(sections: Iterable[SheetSection], findings: Iterable[Finding]) -> Iterator[SheetSection]:
    """Each finding beside its figure, else with the part that it is about."""
    left: dict[str, list[Finding]] = {}
    for one in findings:
        left.setdefault(one.path, []).append(one)

    def beside(figure: SheetFigure) -> SheetFigure:
        found = left.pop(figure.path, None)
        return replace(figure, findings=tuple(found)) if found else figure

    def of_part(part: SheetPart) -> SheetPart:
        figures = tuple(beside(figure) for figure in part.figures)
        inside = [path for path in left if path == part.key or path.startswith(f"{part.key}.")]
        found = tuple(one for path in inside for one in left.pop(path))
        return replace(part, figures=figures, findings=found) if found or figures != part.figures else part

    for section in sections:
        groups = tuple(replace(one, parts=tuple(map(of_part, one.parts))) for one in section.groups)
        yield replace(section, groups=groups)


def _gap(gap: Gap, written: Written | None) -> SheetGap:
    path = parse_path(gap.path) if gap.path else ()
    if path and is_figure(path):
        return SheetGap(gap.where, gap.missing, gap.therefore, gap.path, None)
    line = written.place(path).line if written is not None and path[:1] in written.values else None
    return SheetGap(gap.where, gap.missing, gap.therefore, "", line)


def _pages(sections: Iterable[SheetSection], key: str) -> tuple[tuple[str, int], ...]:
    """The pages of a source that figures cite, by number, with how many of them."""
    counted: dict[str, int] = {}
    for section in sections:
        for group in section.groups:
            for part in group.parts:
                for figure in part.figures:
                    if figure.cited is not None and figure.cited.key == key:
                        counted[figure.cited.where] = counted.get(figure.cited.where, 0) + 1
    return tuple(sorted(counted.items(), key=lambda page: [int(one) for one in re.findall(r"\d+", page[0])]))
