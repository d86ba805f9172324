"""Tools and sources as a stranger can use them: by kind and range, by title and page."""

from collections.abc import Iterable

from gudgeon.bench.context import Bench
from gudgeon.bench.shared_page.choices import Choices
from gudgeon.bench.shared_page.hiding import Hiding
from gudgeon.kit.gauges import Gauge
from gudgeon.kit.torque import Wrench
from gudgeon.quantity.format import both
from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Cited


def tool_words(bench: Bench, key: str, *, choices: Choices, hidden: Hiding) -> str:
    """What a bolt was turned with; empty where the entry names no tool, or one that the kit no longer has."""
    wrench, turning = bench.kit.wrenches.get(key), bench.kit.turning.get(key)
    if wrench is not None:
        return _called(_wrench(wrench), wrench.name, choices=choices, hidden=hidden)
    if turning is not None:
        error = f", off by at most {turning.error.text}" if turning.error is not None else ""
        return _called(f"{turning.kind}{error}", turning.name, choices=choices, hidden=hidden)
    return ""


def gauge_words(bench: Bench, key: str, *, choices: Choices, hidden: Hiding) -> str:
    """What something was measured with; empty where the entry names no gauge, or one that the kit no longer has."""
    gauge = bench.kit.gauges.get(key)
    return _called(_gauge(gauge), gauge.name, choices=choices, hidden=hidden) if gauge is not None else ""


def source_words(bench: Bench, cited: Cited | None) -> str:
    """A source with its title, its edition and the place in it; empty where the sheet names none."""
    if cited is None:
        return ""
    if cited.key not in bench.sheet.sources:
        return str(cited)
    return f"{title_of(bench, cited.key)}, {cited.where}"


def title_of(bench: Bench, key: str) -> str:
    """The title and the edition behind the key of a source."""
    book = bench.sheet.sources[key]
    return f"{book.title}, {book.edition}"


def in_both(figure: Printed, *, kind: str, base: str) -> str:
    """A figure as the manual prints it, with the other system of units where it prints one alone."""
    if not figure.first.single or "(" in figure.text or "/" in figure.text:
        return figure.text
    said = both(figure.middle_in(base), kind=kind)
    own, _, other = said.partition(" (")
    others = [one for one in (own, other.removesuffix(")")) if figure.first.unit.symbol not in one]
    return f"{figure.text} ({others[0]})" if others else figure.text


def _called(plainly: str, name: str, *, choices: Choices, hidden: Hiding) -> str:
    return f"{hidden.words(name)}: {plainly}" if choices.tools else plainly


def _wrench(wrench: Wrench) -> str:
    share = f", off by at most {100 * wrench.deviation:g} %" if wrench.deviation is not None else ""
    checked = ", checked" if wrench.checked is not None else ""
    ranges = " and ".join(scale.range.text for scale in wrench.scales)
    return f"{wrench.kind} torque wrench, {ranges}{share}{checked}"


def _gauge(gauge: Gauge) -> str:
    kind = gauge.kind if gauge.kind != "other" else "gauge"
    said = [
        kind,
        gauge.range.text if gauge.range is not None else "",
        f"off by at most {gauge.error.text}" if gauge.error is not None else "",
        "checked" if gauge.checked is not None else "",
    ]
    return ", ".join(filter(None, said))


def each_once(texts: Iterable[str]) -> tuple[str, ...]:
    """What is said, each once, in its order; nothing of what is empty."""
    return tuple(dict.fromkeys(filter(None, texts)))
