"""`gudgeon label` and `gudgeon print labels`."""

from argparse import Namespace

from gudgeon.cli.paper_files import path_for, size_of, told, write_file
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, closing, heading, say


def label(chosen: Namespace) -> int:
    """What the code on a label is of."""
    from gudgeon.bench.labels.find import find_label

    answer = find_label(bench_of(chosen), "".join(chosen.code))
    if chosen.json:
        return as_json(answer)
    heading(answer.heading)
    one = answer.label
    print(f"{answer.shown}   {one.what}")
    for name, text in (
        ("number", one.number), ("where", one.where or "no place number"), ("state", one.state),
        ("photo", _photo(one.photo, one.pin)),
    ):  # fmt: skip
        if text:
            say(text, lead=f"  {name + ':':8} ")
    if one.close_with:
        print(f"\n{one.close_with}")
    closing(answer.heading)
    return 0


def _photo(sha: str, pin: int) -> str:
    return f"{sha[:8]}, pin {pin}" if sha and pin else sha[:8]


def labels(chosen: Namespace) -> int:
    """The labels of what is off, plugged or apart, on their sheets."""
    from gudgeon.bench.labels.ask import USUAL_WIRE, LabelsSaid
    from gudgeon.bench.labels.ask import labels as ask
    from gudgeon.bench.labels.sheets import COMMON, SheetSaid
    from gudgeon.paper.labels import labels_pdf, too_small_for_a_picture

    if chosen.sheet == "list":
        for one in COMMON:
            print(f"{one.key:26} {one.name}")
        return 0
    bench = bench_of(chosen)
    said = LabelsSaid(
        kinds=tuple(chosen.kind),
        only=tuple(chosen.only),
        everything=chosen.all,
        sheet=SheetSaid(
            chosen.sheet,
            rows=chosen.rows,
            columns=chosen.columns,
            label=chosen.label,
            margins=chosen.margins,
            gaps=chosen.gaps,
            paper=chosen.paper,
            size=chosen.size or "",
        ),
        start=chosen.start,
        wire=chosen.wire or (USUAL_WIRE if chosen.flag else ""),
        outlines=chosen.outlines,
    )
    answer = ask(bench, said, paper=size_of(chosen, bench))
    path = write_file(chosen, path_for(chosen, answer.heading, "labels"), labels_pdf(answer))
    if not chosen.json:
        many = f"{len(answer.labels)} label{'' if len(answer.labels) == 1 else 's'}"
        print(f"{many} on {answer.sheets} sheet{'' if answer.sheets == 1 else 's'}.")
        small = too_small_for_a_picture(answer)
        if small:
            say(small)
    return told(chosen, answer.heading, path)
