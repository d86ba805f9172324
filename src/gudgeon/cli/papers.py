"""Writing and checking the data sheet and the kit."""

import json
import sys
from argparse import Namespace
from dataclasses import asdict
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.cli.show import as_json
from gudgeon.errors import InputError

if TYPE_CHECKING:
    from gudgeon.bench.proof.findings import Finding
    from gudgeon.bench.wrench_gap import WrenchGap

_USUAL = {"single": 1, "inline": 4, "vee": 6, "flat": 4}


class FileExists(InputError):
    """A blank is never written over something."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} exists already and is left as it is. Name another file.")


class NothingAnswered(InputError):
    """The input ended while something was asked."""

    def __init__(self, asked: str) -> None:
        super().__init__(f"Nothing was answered to “{asked}”. Nothing was written.")


class CylindersRefused(InputError):
    """A number of cylinders that the layout cannot have."""

    def __init__(self, said: int, layout: str) -> None:
        super().__init__(
            f"{said} cylinders are not taken for the layout `{layout}`. Give 1 for single, 2 to 16 else."
        )


def write_new(path: Path, text: str) -> None:
    """Write a file that must not exist yet."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise FileExists(str(path)) from None


def sheet_blank(chosen: Namespace) -> int:
    """A commented blank sheet, and the schema beside it."""
    from gudgeon.sheet.blank import blank_sheet
    from gudgeon.sheet.schema import sheet_schema

    cylinders = chosen.cylinders if chosen.cylinders is not None else _USUAL[chosen.layout]
    if not 1 <= cylinders <= 16 or (chosen.layout == "single") != (cylinders == 1):
        raise CylindersRefused(cylinders, chosen.layout)
    path = Path(chosen.file)
    text = blank_sheet(
        layout=chosen.layout,
        cylinders=cylinders,
        drive=chosen.drive,
        valves=chosen.valves,
        cooling=chosen.cooling,
    )
    write_new(path, text)
    _schema_beside(path, "data-sheet.schema.json", json.dumps(sheet_schema(), ensure_ascii=False, indent=1))
    print(f"Written: {path}. Open it in an editor, then: gudgeon sheet check {path}")
    return 0


def _schema_beside(path: Path, name: str, text: str) -> None:
    schema = path.with_name(name)
    if not schema.exists():
        schema.write_text(text + "\n", encoding="utf-8")


def kit_blank(chosen: Namespace) -> int:
    """A commented blank kit, and the schema beside it."""
    from gudgeon.kit.schema import blank_kit, kit_schema

    path = Path(chosen.file)
    write_new(path, blank_kit())
    _schema_beside(path, "kit.schema.json", json.dumps(kit_schema(), ensure_ascii=False, indent=1))
    print(f"Written: {path}. Open it in an editor, then: gudgeon kit check {path}")
    return 0


def schema(chosen: Namespace) -> int:
    """The JSON Schema of a sheet or a kit."""
    from gudgeon.kit.schema import kit_schema
    from gudgeon.sheet.schema import sheet_schema

    return as_json(sheet_schema() if chosen.of == "sheet" else kit_schema())


def sheet_check(chosen: Namespace) -> int:
    """Load a sheet, proof-read it and list its gaps; 1 while an error of the proof-reading is not settled."""
    from gudgeon.bench.answer import NOTICE
    from gudgeon.bench.gaps import gaps
    from gudgeon.bench.proof.findings import open_errors
    from gudgeon.bench.proof.run import proofread
    from gudgeon.bench.proof.settle import outdated
    from gudgeon.sheet.load import load_sheet

    loaded = load_sheet(chosen.file)
    sheet = loaded.sheet
    found, findings = gaps(sheet), proofread(sheet, written=loaded.written)
    errors = open_errors(findings)
    if chosen.json:
        as_json(
            {
                "file": chosen.file,
                "sheet": loaded.sha256,
                "invented": sheet.invented,
                "errors": errors,
                "findings": [{**asdict(one), "counts": one.counts} for one in findings],
                "gaps": found,
            }
        )
        return 1 if errors else 0
    found_wrong = f"{errors or 'no'} error{'' if errors == 1 else 's'} by proof-reading"
    print(
        f"{chosen.file}: can be read; {found_wrong}. {sheet.engine.name}, for {', '.join(sheet.engine.codes)}"
    )
    if sheet.invented:
        print(f"*** {NOTICE} ***")
    print(
        ", ".join(
            f"{len(things)} {word}{'' if len(things) == 1 else 's'}"
            for things, word in (
                (sheet.characteristics, "characteristic"),
                (sheet.joints, "joint"),
                (sheet.sources, "source"),
            )
        )
    )
    _print_findings(chosen.file, findings, outdated(sheet, findings))
    print(
        f"\n{len(found)} gap{'s' if len(found) > 1 else ''}: what is not stated is never filled"
        if found
        else "\nNo gaps."
    )
    for gap in found:
        print(f"  - {gap}")
    return 1 if errors else 0


def _print_findings(file: str, findings: "tuple[Finding, ...]", outdated: int) -> None:
    """What does not agree, errors first; what was settled stands last."""
    still = [one for one in findings if one.counts]
    settled = [one for one in findings if not one.counts]
    counts = ", ".join(
        f"{number} {grade if number == 1 else grade + 's'}"
        for grade in ("error", "doubt", "note")
        if (number := sum(one.grade == grade for one in still))
    )
    print(
        f"\nProof-reading: {counts or 'nothing to look at'}{f'; {len(settled)} settled' if settled else ''}"
    )
    for one in still + settled:
        _print_finding(one)
    if outdated:
        print(f"  {outdated} decisions are about figures that have changed since; they settle nothing now.")
    if still:
        print(f"  Look at the page again. A wrong figure: gudgeon sheet add {file} PATH")
        print(f'  One that stays as it is: gudgeon sheet settle {file} KEY --kept --why "…"')


def _print_finding(one: "Finding") -> None:
    where = f", line {one.line}" if one.line is not None else ""
    state = "" if one.counts else " (settled)"
    print(f"  {one.grade.upper()}{state}{where}: {one.name}")
    print(f"      printed: {one.printed}{f' [{one.source}]' if one.source else ''}")
    print(f"      {one.why}")
    if one.agrees:
        print(f"      would agree: {one.agrees}")
    if one.digit:
        print(f"      probably: {one.digit}")
    if one.settled is not None:
        said = ", ".join(text for text in (one.settled.who, str(one.settled.on or "")) if text)
        print(f"      {one.settled.decision}{f' ({said})' if said else ''}: {one.settled.why}")
    print(f"      path {one.path}, key {one.key}")


def sheet_settle(chosen: Namespace) -> int:
    """Write into the sheet what was decided about one finding, and why."""
    from gudgeon.bench.proof.settle import found_in, settle
    from gudgeon.bench.record import who
    from gudgeon.bench.sheet_file import text_hash, write_sheet
    from gudgeon.written.located import read_text

    text = read_text(chosen.file, what="data sheet")
    found = found_in(text, file=chosen.file, key=chosen.key)
    write_sheet(
        Path(chosen.file),
        made_from=text_hash(text),
        change=partial(
            settle,
            file=chosen.file,
            finding=chosen.key,
            decision=chosen.decision,
            why=chosen.why,
            who=who(),
            on=datetime.now().astimezone().date(),
        ),
    )
    print(f"Written: {found.name}, {chosen.decision}: {chosen.why}")
    if chosen.decision == "corrected":
        print(f"It counts until the figure is written: gudgeon sheet add {chosen.file} {found.path}")
    return 0


def kit_check(chosen: Namespace) -> int:
    """Load a kit, say which tools are due for a check, and what of a sheet none of them can measure."""
    from gudgeon.bench.kit_parts import unknown_parts
    from gudgeon.bench.kit_view import checks_due
    from gudgeon.bench.wrench_gap import wrench_gap
    from gudgeon.kit.load import load_kit

    loaded = load_kit(chosen.file)
    kit, today = loaded.kit, datetime.now().astimezone().date()
    due = tuple(checks_due(kit, today=today))
    gap: WrenchGap | None = None
    unknown: tuple[str, ...] = ()
    if chosen.sheet is not None:
        from gudgeon.sheet.load import load_sheet

        sheet = load_sheet(chosen.sheet).sheet
        gap, unknown = wrench_gap(kit, sheet, today=today), tuple(unknown_parts(kit, sheet))
    if chosen.json:
        told = {"file": chosen.file, "kit": loaded.sha256, "due": due, "parts": unknown}
        return as_json({**told, "gap": gap and asdict(gap)})
    counts = ", ".join((
        _counted(len(kit.wrenches), "torque wrench", "torque wrenches"),
        _counted(len(kit.gauges), "gauge", "gauges"),
        _counted(len(kit.turning), "tool for turning", "tools for turning"),
    ))  # fmt: skip
    print(f"{chosen.file}: can be read. {counts}")
    for one in (*due, *unknown):
        print(f"  - {one}")
    if gap is not None:
        _print_gap(gap)
    return 0


def _print_gap(gap: "WrenchGap") -> None:
    """What no wrench of his measures, stage by stage, and the one wrench that closes most of it."""
    print()
    for line in gap.words:
        print(line)
    for stage in gap.stages:
        left = " (not closed by it)" if gap.closing is not None and stage in gap.closing.leaves else ""
        print(f"  - {stage.name}, stage {stage.stage} of {stage.of}, {stage.torque}{left}: {stage.why}")


def sheet_add(chosen: Namespace) -> int:
    """Ask for one figure at a time and write it in; critical ones are asked twice."""
    from gudgeon.bench.sheet_file import text_hash, write_sheet
    from gudgeon.sheet.write import NotTheSame, figure_now, is_critical, parse_path, put_figure, takes_source
    from gudgeon.written.located import read_text

    text = read_text(chosen.file, what="data sheet")
    given = chosen.path
    while True:
        said = given or _ask("Which figure (like cylinder.bore; empty to stop)?", empty_ends=True)
        if not said:
            return 0
        path = parse_path(said)
        before = figure_now(text, file=chosen.file, path=path)
        value = chosen.value or _ask("The figure with its unit, as printed?")
        again = chosen.again
        if is_critical(path) and again is None:
            again = _ask("This one is critical. Look at the page again, and once more:")
        if again is not None and "".join(value.split()) != "".join(again.split()):
            raise NotTheSame(value, again)
        source = (chosen.source or _ask("Source and page (like manual p. 41)?")) if takes_source(path) else ""
        text = write_sheet(
            Path(chosen.file),
            made_from=text_hash(text),
            change=partial(put_figure, file=chosen.file, path=path, value=value, source=source),
        )
        was = f"; it was {before}" if before else ""
        print(f"Written: {said} = {value} ({source or 'the source of its joint'}){was}")
        if given:
            return 0


def sheet_photo(chosen: Namespace) -> int:
    """Keep a photo of a page beside the sheet, and name it under its source."""
    from gudgeon.bench.sheet_file import text_hash
    from gudgeon.bench.sheet_photos import add_photo
    from gudgeon.book.pictures import read_picture_file
    from gudgeon.written.located import read_text

    image = Path(chosen.image)
    added = add_photo(
        Path(chosen.file),
        read_picture_file(image),
        source=chosen.source,
        page=chosen.page,
        made_from=text_hash(read_text(chosen.file, what="data sheet")),
        name=image.name,
    )
    was = f"; it was {added.before}" if added.before else ""
    print(f"Kept: {added.photo}, the photo of {added.source} {added.page}{was}")
    print("It is written anew: what the camera wrote into it, a place perhaps, is left behind.")
    return 0


def _ask(question: str, *, empty_ends: bool = False) -> str:
    print(question, end=" ", file=sys.stderr, flush=True)
    line = sys.stdin.readline()
    if not line.strip():
        if empty_ends:
            return ""
        raise NothingAnswered(question)
    return line.strip()


def _counted(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"
