"""Answers on paper: PDF files to print and to hang on the engine."""

import re
from argparse import Namespace
from pathlib import Path

from gudgeon.bench.answer import Heading
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, closing
from gudgeon.errors import InputError


class PrintExists(InputError):
    """A file that is there already is not written over unasked."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"{path} exists already and is left as it is. Name another file with --out, or write over it with --over."
        )


class NoJoints(InputError):
    """A sheet without a joint has no card."""

    def __init__(self, engine: str) -> None:
        super().__init__(f"The data sheet of {engine} holds no joint, so there is no card to print.")


def card(chosen: Namespace) -> int:
    """The card of one joint."""
    from gudgeon.bench.pull_list import card as ask
    from gudgeon.bench.pull_list import loosening_card
    from gudgeon.paper.card import card_pdf

    answer = (loosening_card if chosen.loosening else ask)(bench_of(chosen), chosen.joint)
    path = _file(chosen, answer.heading, f"card-{chosen.joint}" + ("-loosening" if chosen.loosening else ""))
    return _told(chosen, answer.heading, _write(chosen, path, card_pdf(answer, size=chosen.size)))


def cards(chosen: Namespace) -> int:
    """The cards of all joints: in one file, or in a folder one by one."""
    from gudgeon.bench.pull_list import card as ask
    from gudgeon.paper.card import card_pdf, cards_pdf

    bench = bench_of(chosen)
    bench.unlock()
    answers = [ask(bench, key) for key in bench.sheet.joints]
    if not answers:
        raise NoJoints(bench.sheet.engine.name)
    heading = answers[0].heading
    if chosen.folder is None:
        path = _file(chosen, heading, "cards")
        return _told(chosen, heading, _write(chosen, path, cards_pdf(answers, size=chosen.size)))
    folder = Path(chosen.folder)
    paths = [folder / _name(heading, f"card-{answer.joint}") for answer in answers]
    _refuse_existing(chosen, *paths)
    folder.mkdir(parents=True, exist_ok=True)
    for path, answer in zip(paths, answers, strict=True):
        _write(chosen, path, card_pdf(answer, size=chosen.size))
    return _told(chosen, heading, *paths)


def shims(chosen: Namespace) -> int:
    """Which shim goes where."""
    from gudgeon.bench.shims.shims import shims as ask
    from gudgeon.paper.shims import shims_pdf

    answer = ask(bench_of(chosen))
    path = _file(chosen, answer.heading, "shims")
    return _told(chosen, answer.heading, _write(chosen, path, shims_pdf(answer, size=chosen.size)))


def buy(chosen: Namespace) -> int:
    """The shopping list, by supplier."""
    from gudgeon.bench.buying.ask import buy as ask
    from gudgeon.paper.shopping import shopping_pdf

    answer = ask(bench_of(chosen), no_delay=chosen.no_delay)
    path = _file(chosen, answer.heading, "shopping-list")
    return _told(chosen, answer.heading, _write(chosen, path, shopping_pdf(answer, size=chosen.size)))


def estimate(chosen: Namespace) -> int:
    """The estimate for the owner, or the closing account."""
    from gudgeon.bench.costs.costs import costs
    from gudgeon.paper.estimate import estimate_pdf

    answer = costs(bench_of(chosen), closing=chosen.closing)
    path = _file(chosen, answer.heading, "closing-account" if answer.closed else "estimate")
    return _told(chosen, answer.heading, _write(chosen, path, estimate_pdf(answer, size=chosen.size)))


def why_not(chosen: Namespace) -> int:
    """The list of what is open before a milestone."""
    from gudgeon.bench.ready import ready as ask
    from gudgeon.paper.why_not import why_not_pdf

    answer = ask(bench_of(chosen), milestone=chosen.milestone)
    path = _file(chosen, answer.heading, f"why-not-{answer.milestone}")
    return _told(chosen, answer.heading, _write(chosen, path, why_not_pdf(answer, size=chosen.size)))


def shop_order(chosen: Namespace) -> int:
    """The order that leaves with a part."""
    from gudgeon.bench.shop.order import shop_order as ask
    from gudgeon.paper.order import order_pdf

    answer = ask(bench_of(chosen), part=chosen.part)
    path = _file(chosen, answer.heading, f"shop-order-{answer.kind}")
    return _told(chosen, answer.heading, _write(chosen, path, order_pdf(answer, size=chosen.size)))


def _name(heading: Heading, what: str) -> str:
    """A name that every file system takes: the build, and what it is."""
    build = re.sub(r"[^\w-]+", "-", heading.build).strip("-") or "build"
    return f"{build}-{what}.pdf"


def _file(chosen: Namespace, heading: Heading, what: str) -> Path:
    """The file asked for, or one of the usual name in the folder asked for, or here; refused before the work."""
    path = Path(chosen.out) if chosen.out else Path()
    path = path / _name(heading, what) if path.is_dir() else path
    _refuse_existing(chosen, path)
    return path


def _refuse_existing(chosen: Namespace, *paths: Path) -> None:
    for path in paths:
        if path.exists() and not chosen.over:
            raise PrintExists(str(path))


def _write(chosen: Namespace, path: Path, pdf: bytes) -> Path:
    """Put the whole file there in one step, so that no half print is ever sent to a printer."""
    _refuse_existing(chosen, path)
    beside = path.with_name(f"{path.name}.new")
    beside.write_bytes(pdf)
    beside.replace(path)
    return path


def _told(chosen: Namespace, heading: Heading, *paths: Path) -> int:
    if chosen.json:
        return as_json({"heading": heading, "written": [str(path) for path in paths]})
    for path in paths:
        print(f"Written: {path}")
    closing(heading)
    return 0
