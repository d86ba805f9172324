"""Arguments to entries: recording, striking, beginning a build."""

import textwrap
from argparse import Namespace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from gudgeon.bench.acts import loosened_fields, pull_fields, reading_fields
from gudgeon.bench.context import Bench
from gudgeon.bench.record import Recorded, find_entry
from gudgeon.bench.record import record as write
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, book_path, clean, width

_NOT_FIELDS = ("run", "kind", "book", "build", "json", "done")


def record(chosen: Namespace) -> int:
    """Write one entry."""
    bench = bench_of(chosen)
    fields = {name: value for name, value in vars(chosen).items() if name not in _NOT_FIELDS}
    if chosen.kind == "reading":
        fields = reading_fields(fields)
    elif chosen.kind == "pull":
        fields = pull_fields(bench, fields)
    elif chosen.kind == "bolt-loosened":
        fields = loosened_fields(bench, fields)
    if chosen.kind in ("photo", "hold-proved"):
        return _said(_with_photo(bench, chosen.kind, fields), as_json_too=chosen.json)
    return _said(write(bench, chosen.kind, fields), as_json_too=chosen.json)


def _with_photo(bench: Bench, kind: str, fields: dict[str, Any]) -> Recorded:
    """Write a photo, or what a photo may prove."""
    from gudgeon.bench.photos import Sent, record_with_photo

    file, sent = fields.pop("file" if kind == "photo" else "photo"), None
    if file is not None:
        from gudgeon.book.pictures import read_picture_file

        sent = Sent(Path(file).name, read_picture_file(Path(file).expanduser()))
    return record_with_photo(bench, kind, fields, sent=sent)


def _said(done: Recorded, *, as_json_too: bool) -> int:
    if as_json_too:
        return as_json(done)
    print(textwrap.fill(clean(f"In the book ({done.entry[:8]}): {done.said}"), width=width()))
    for text in done.remarks:
        print(textwrap.fill(f"! {clean(text)}", width=width(), subsequent_indent="  "))
    return 0


def start(chosen: Namespace) -> int:
    """Ask to begin a task."""
    from gudgeon.bench.start import start as ask

    done = ask(bench_of(chosen), chosen.task, override=chosen.override, by=chosen.by)
    return _said(done, as_json_too=chosen.json)


def strike(chosen: Namespace) -> int:
    """Strike an entry."""
    bench = bench_of(chosen)
    return _said(
        write(bench, "strike", {"entry": find_entry(bench, chosen.entry), "why": chosen.why}),
        as_json_too=chosen.json,
    )


def begin(chosen: Namespace) -> int:
    """Begin a build."""
    from gudgeon.bench.begin import begin as start

    begun = start(
        book_path(chosen.book),
        build=chosen.name,
        sheet=Path(chosen.sheet),
        kit=Path(chosen.kit),
        at=datetime.now(UTC).astimezone(),
        job=chosen.job,
    )
    if chosen.json:
        return as_json(begun)
    print(f"Begun: {begun.build}, in the book {begun.book}")
    print("Next: gudgeon record identity CODE --read-from WHERE, then gudgeon now")
    return 0
