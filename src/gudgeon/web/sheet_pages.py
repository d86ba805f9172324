"""The data sheet as pages: read, written figure by figure, with photos of the manual's pages."""

import uuid
from urllib.parse import urlencode

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.errors import Unknown
from gudgeon.bench.record import Recorded
from gudgeon.bench.sheet_figures import SheetAnswer, SheetFigure, SheetPart, data_sheet
from gudgeon.bench.sheet_file import sheet_file
from gudgeon.bench.sheet_photos import add_photo, is_there, page_photo
from gudgeon.bench.sheet_settling import settle_finding
from gudgeon.bench.sheet_writing import FigureSaid, figure_form, write_figure
from gudgeon.book.picture_errors import PhotoEmpty
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.folding import told_often
from gudgeon.web.said import Said
from gudgeon.web.security import UPLOAD_BYTES
from gudgeon.written.errors import FileRefused

_WRITTEN = Said()


def the_sheet(desk: Desk, asked: Asked) -> Response:
    """The data sheet: every figure with its source, what is not stated, what proof-reading found; `?open=` a part."""
    with desk.bench() as bench:
        return _sheet(desk, asked, bench)


def _sheet(desk: Desk, asked: Asked, bench: Bench, *, error: GudgeonError | None = None) -> Response:
    answer, opened = data_sheet(bench), asked.query.get("open", "")
    return desk.page(
        "sheet.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        changeable={figure.path for part in _parts(answer) for figure in part.figures},
        made_from=bench.papers.sheet_sha,
        opened=opened,
        shown=_shown(answer, opened),
        found_said=told_often(one.grade for one in answer.findings),
        gaps_said=told_often(one.therefore for one in answer.gaps),
        written=_WRITTEN.of(asked.query.get("written", "")),
        error=_words(error),
    )


def _shown(answer: SheetAnswer, opened: str) -> dict[str, set[str]]:
    """The sections that stand open, each with its open groups: what a link asks for, and what has findings."""
    shown: dict[str, set[str]] = {}
    for section in answer.sections:
        groups = {
            group.title
            for group in section.groups
            if group.open_findings or opened in [part.key for part in group.parts]
        }
        if groups or opened == section.key:
            shown[section.key] = groups
    return shown


def which_figure(desk: Desk, asked: Asked) -> Response:
    """The form of one figure of the data sheet; without a figure, which ones can be written."""
    with desk.bench() as bench:
        if not asked.query.get("path", "").strip():
            return desk.page(
                "sheet_choose.html", bench=bench, asked=asked, answer=data_sheet(bench), error=""
            )
        try:
            return _figure(desk, asked, bench, asked.query["path"])
        except GudgeonError as error:
            answer = data_sheet(bench)
            return desk.page(
                "sheet_choose.html", bench=bench, asked=asked, status=404, answer=answer, error=_words(error)
            )


def _figure(
    desk: Desk, asked: Asked, bench: Bench, path: str, *, error: GudgeonError | None = None
) -> Response:
    form = figure_form(bench, path)
    return desk.page(
        "sheet_figure.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        form=form,
        photo_there=form.cited is not None and is_there(bench.papers.sheet_file, photo=form.cited.photo),
        error=_words(error),
        uploaded=bool(_photo(asked)[0]),
    )


def write_one(desk: Desk, asked: Asked) -> Response:
    """Write a figure into the sheet, and the photo of its page; a refusal is shown above the form."""
    said = asked.form
    path = said.get("path", "")
    photo, name = _photo(asked)
    given = FigureSaid(
        value=said.get("value", ""),
        again=said.get("again", ""),
        source=said.get("source", ""),
        page=said.get("page", ""),
        note=said.get("note", ""),
        photo=photo,
        photo_name=name,
    )
    with desk.bench() as bench:
        try:
            if name and not photo:
                raise PhotoEmpty(name)
            done = write_figure(bench, path, given=given, made_from=said.get("made_from", ""))
        except GudgeonError as error:
            with desk.bench() as now:
                return _figure(desk, asked, now, path, error=error)
    source = done.source or "the source of its part"
    words = f"{done.name} = {done.printed} ({source})" + (f"; it was {done.before}" if done.before else "")
    remarks = list(done.judged)
    if done.photo is not None:
        remarks.append(_photo_words(done.photo.source, done.photo.page, replaced=bool(done.photo.before)))
    part = done.path.rsplit(".", 1)[0]
    return _on(_part_of(desk, part), words, remarks)


def _photo(asked: Asked) -> tuple[bytes, str]:
    """The photo that came with a form; a form whose photo was left out sends an empty one without a name."""
    upload = asked.uploads.get("photo")
    return (upload.content, upload.name) if upload is not None else (b"", "")


def _photo_words(source: str, page: str, *, replaced: bool) -> str:
    was = " The photo that was named for this page before is still in the folder." if replaced else ""
    return (
        f"The photo of {source} {page} is kept beside the sheet, without what the camera wrote into it.{was}"
    )


def _part_of(desk: Desk, path: str) -> str:
    """The part of the sheet that a path stands in."""
    with desk.bench() as bench:
        keys = [part.key for part in _parts(data_sheet(bench))]
    return next((key for key in keys if path == key or path.startswith(f"{key}.")), "")


def _on(part: str, words: str, remarks: list[str]) -> Response:
    token = uuid.uuid4().hex
    _WRITTEN.keep(Recorded(token, "sheet", words, tuple(remarks)))
    return go(f"/sheet?{urlencode({'open': part, 'written': token})}#written")


def _words(error: GudgeonError | None) -> str:
    """A refusal without the line and column that a figure would have had: the form is where it is mended."""
    if isinstance(error, FileRefused):
        return "\n".join(problem.message.removeprefix("value: ") for problem in error.problems)
    return str(error) if error is not None else ""


def _parts(answer: SheetAnswer) -> list[SheetPart]:
    return [part for section in answer.sections for group in section.groups for part in group.parts]


def one_source(desk: Desk, asked: Asked) -> Response:
    """One page of a source: its photo, and the figures that were read there."""
    with desk.bench() as bench:
        return _source(desk, asked, bench)


def _source(desk: Desk, asked: Asked, bench: Bench, *, error: GudgeonError | None = None) -> Response:
    key = asked.path["key"]
    if key not in bench.sheet.sources:
        raise Unknown("source", key, bench.sheet.sources)
    answer = data_sheet(bench)
    page = asked.query.get("page", asked.form.get("page", "")).strip()
    photo = bench.sheet.sources[key].photo_of(page) if page else ""
    return desk.page(
        "sheet_source.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        source=next(one for one in answer.sources if one.key == key),
        page=page,
        photo=photo,
        there=is_there(bench.papers.sheet_file, photo=photo),
        read_here=_read_at(answer, key=key, page=page),
        made_from=bench.papers.sheet_sha,
        written=_WRITTEN.of(asked.query.get("written", "")),
        error=_words(error),
    )


def _read_at(answer: SheetAnswer, *, key: str, page: str) -> list[tuple[SheetPart, SheetFigure]]:
    return [
        (part, figure)
        for part in _parts(answer)
        for figure in part.figures
        if figure.cited is not None and (figure.cited.key, figure.cited.where) == (key, page)
    ]


def keep_photo_of_page(desk: Desk, asked: Asked) -> Response:
    """Keep the photo of a page beside the sheet."""
    key, (photo, name) = asked.path["key"], _photo(asked)
    with desk.bench() as bench:
        try:
            if not photo:
                raise PhotoEmpty(name)
            done = add_photo(
                sheet_file(bench),
                photo,
                source=key,
                page=asked.form.get("page", ""),
                made_from=asked.form.get("made_from", ""),
                name=name,
            )
        except GudgeonError as error:
            with desk.bench() as now:
                return _source(desk, asked, now, error=error)
    token = uuid.uuid4().hex
    words = _photo_words(key, done.page, replaced=bool(done.before))
    _WRITTEN.keep(Recorded(token, "sheet", words, ()))
    return go(f"/sheet/source/{key}?{urlencode({'page': done.page, 'written': token})}")


def one_photo(desk: Desk, asked: Asked) -> Response:
    """A photo that the sheet names."""
    with desk.bench() as bench:
        found = page_photo(bench.papers.sheet_file, bench.sheet, name=asked.path["name"])
        if found is None:
            return desk.page("sheet_no_photo.html", bench=bench, asked=asked, status=404)
    kept = {"Cache-Control": "private, max-age=86400", "Content-Disposition": "inline"}
    return Response(found.content, media_type=found.content_type, headers=kept)


def settle_one(desk: Desk, asked: Asked) -> Response:
    """Settle a finding of the proof-reading: kept with a reason, or asked."""
    said = asked.form
    with desk.bench() as bench:
        try:
            done = settle_finding(
                bench,
                said.get("finding", ""),
                decision=said.get("decision", ""),
                why=said.get("why", ""),
                made_from=said.get("made_from", ""),
            )
        except GudgeonError as error:
            with desk.bench() as now:
                return _sheet(desk, asked, now, error=error)
    return _on(_part_of(desk, done.path), f"{done.name}: settled.", [])


ADDRESSES = (
    Address("/sheet", the_sheet),
    Address("/sheet/figure", which_figure),
    Address("/sheet/figure", write_one, methods=("POST",), most_bytes=UPLOAD_BYTES),
    Address("/sheet/source/{key}", one_source),
    Address("/sheet/source/{key}", keep_photo_of_page, methods=("POST",), most_bytes=UPLOAD_BYTES),
    Address("/sheet/photo/{name}", one_photo),
    Address("/sheet/settle", settle_one, methods=("POST",)),
)
