"""Arguments to entries: recording, striking, beginning a build."""

import textwrap
from argparse import Namespace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.errors import InDoubt
from gudgeon.bench.pull_list import card
from gudgeon.bench.record import Recorded, find_entry
from gudgeon.bench.record import record as write
from gudgeon.cli.questions import bench_of
from gudgeon.cli.record_commands import OUTCOMES, RENAMED
from gudgeon.cli.show import as_json, book_path, clean, width
from gudgeon.errors import InputError

_NOT_FIELDS = ("run", "kind", "book", "build", "json", "done")


class ValueMissing(InputError):
    """A reading without a value."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"No value was given for {item}. Write it with its unit, like `81.65 mm`, or an interval of two blades: "
            "--enters `0.05 mm` --stops `0.06 mm`."
        )


class NothingNext(InputError):
    """Every pull of the joint is in the book."""

    def __init__(self, joint: str) -> None:
        super().__init__(
            f"Every pull of {joint} is in the book. Name --stage and --bolt to record one again."
        )


class HalfNamed(InputError):
    """A pull named by its bolt or its stage alone."""

    def __init__(self) -> None:
        super().__init__("Name both --bolt and --stage, or neither for the next pull of the list.")


def record(chosen: Namespace) -> int:
    """Write one entry."""
    bench = bench_of(chosen)
    fields = {
        RENAMED.get(name, name): value for name, value in vars(chosen).items() if name not in _NOT_FIELDS
    }
    if chosen.kind == "reading":
        _reading_fields(fields)
    elif chosen.kind == "pull":
        _pull_fields(bench, fields)
    return _said(write(bench, chosen.kind, fields), as_json_too=chosen.json)


def _reading_fields(fields: dict[str, Any]) -> None:
    """With one place only, what stands where the place would is the value."""
    if fields["value"] is None and fields["low"] is None and fields["high"] is None:
        if not fields["place"]:
            raise ValueMissing(fields["item"])
        fields["place"], fields["value"] = "", fields["place"]


def _pull_fields(bench: Bench, fields: dict[str, Any]) -> None:
    """The next pull of the list, unless bolt and stage are named; tool and setting from the list."""
    joint_of(bench.sheet, fields["joint"])
    shown = card(bench, fields["joint"])
    fields["outcome"] = OUTCOMES[fields["outcome"]]
    if (fields["bolt"] is None) != (fields["stage"] is None):
        raise HalfNamed
    if fields["bolt"] is None:
        if shown.doubts:
            raise InDoubt(shown.name, shown.doubts, shown.in_doubt)
        following = next((one for one in shown.pulls if one.number == shown.next_pull), None)
        if following is None:
            raise NothingNext(shown.name)
        fields["bolt"], fields["stage"] = following.bolt, following.stage
        fields["round"] = fields["round"] or following.round
    fields["round"] = fields["round"] or 1
    line = next((one for one in shown.stages if one.stage == fields["stage"]), None)
    if fields["tool"] is None:
        fields["tool"] = line.tool.tool if line is not None else ""
    if fields["setting"] is None:
        fields["setting"] = line.tool.setting if line is not None else ""


def _said(done: Recorded, *, as_json_too: bool) -> int:
    if as_json_too:
        return as_json(done)
    print(clean(f"In the book ({done.entry[:8]}): {done.said}"))
    for text in done.remarks:
        print(textwrap.fill(f"! {clean(text)}", width=width(), subsequent_indent="  "))
    return 0


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
    )
    if chosen.json:
        return as_json(begun)
    print(f"Begun: {begun.build}, in the book {begun.book}")
    print("Next: gudgeon record identity CODE --read-from WHERE, then gudgeon now")
    return 0
