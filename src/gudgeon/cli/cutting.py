"""What does the cut do, in the terminal."""

import sys
from argparse import Namespace

from gudgeon.bench.cut.consequences import CutAnswer, consequences
from gudgeon.bench.cut.table import Line, Table
from gudgeon.cli.picture import svg_file
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, closing, heading, say


def cut(chosen: Namespace) -> int:
    """Answer “What does the cut do?”; with --order and --back what goes to the shop, and what came back."""
    if chosen.order or chosen.back:
        from gudgeon.cli.shop import back, order

        return order(chosen) if chosen.order else back(chosen)
    path = svg_file(chosen.picture) if chosen.picture else None
    bench = bench_of(chosen)
    answer = consequences(bench, off=chosen.off, gasket=chosen.gasket)
    if chosen.json:
        as_json(answer)
    else:
        heading(answer.heading)
        _ends(answer)
        for one in answer.tables:
            _table(one)
        _rest(answer)
    if path is not None:
        from gudgeon.bench.pictures.cut import cut_picture
        from gudgeon.paper.svg_cut import cut_svg

        drawn = cut_svg(cut_picture(bench, off=chosen.off, gasket=chosen.gasket))
        path.write_text(drawn, encoding="utf-8")
        print(f"Picture: {path}", file=sys.stderr if chosen.json else sys.stdout)
    if not chosen.json:
        closing(answer.heading)
    return 0


def _ends(answer: CutAnswer) -> None:
    """Least and most first: they are what is asked before the head goes away."""
    _filled(answer.verdict)
    for way in answer.ways_out:
        _filled(f"what else: {way}", mark="-")
    for text in answer.contradictions:
        _filled(f"cannot be: {text}", mark="!")
    least, most = answer.least, answer.most
    if least is not None:
        print("\nThe least that cleans up")
        _filled(f"{least.text}; surely with {least.surely}")
        _filled(f"{least.made_of}: {least.source}", mark="-")
        _filled(f"taken for granted: {'; '.join(least.assumes)}", mark="-")
    if most.limits:
        under = f", with the gasket {most.gasket}" if most.gasket else ""
        _filled(f"\nThe most that may come off{under}; counted from {answer.counted_from}", indent="")
        for one in most.limits:
            binds = "  <- binds" if one.binds else ""
            middle = "" if one.middle == one.surely else f" (were every figure exact, {one.middle})"
            _filled(f"{one.what}: {one.surely}{middle}{binds}")
            _filled("; ".join(filter(None, (one.limit, one.note, one.source))), mark="-")
    for text in most.other_gaskets:
        _filled(f"with the gasket {text}")


def _table(one: Table) -> None:
    print()
    under = f", with the gasket {one.gasket}" if one.gasket else ""
    _filled(f"Cut: {one.cut}, {one.cut_from}{under}", indent="")
    for line in one.lines:
        _consequence(line)
    for text in one.missing:
        _filled(f"not worked out: {text}", mark="?")


def _consequence(line: Line) -> None:
    before = f", before {line.before}" if line.before else ""
    _filled(f"{line.what}: {line.after}{before}")
    judged = "; ".join(part for part in (line.limit, line.verdict) if part)
    if judged:
        _filled(judged, mark="-")
    if line.source:
        _filled(f"[{line.source}]", mark=" ")


def _rest(answer: CutAnswer) -> None:
    print()
    for text in answer.missing:
        _filled(f"not worked out: {text}", mark="?")
    if answer.ordered:
        _filled(f"Ordered: {answer.ordered}", indent="")
    for text in (*answer.notes, answer.basis):
        _filled(text, indent="")


def _filled(text: str, *, mark: str = "", indent: str = "  ") -> None:
    """A text within the width of the terminal; what hangs below another line has a mark."""
    if text.startswith("\n"):
        print()
    say(text.strip(), lead=f"{indent}  {mark} " if mark else indent)
