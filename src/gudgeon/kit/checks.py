"""What cannot be right in a kit by itself: gauges zeroed in what is not there or in one another, hours that overlap."""

from collections.abc import Iterator

from gudgeon.kit.hours import problems as of_hours
from gudgeon.kit.model import Kit
from gudgeon.kit.suppliers import problems as of_suppliers
from gudgeon.written.check import unknown
from gudgeon.written.errors import Problem
from gudgeon.written.located import Path, Written


def problems(kit: Kit, written: Written) -> Iterator[Problem]:
    """Everything that a well-formed kit gets wrong in itself."""
    for path, message in _zeroed(kit):
        yield Problem(written.place(path), message)
    for path, message in of_suppliers(kit.suppliers):
        yield Problem(written.place(path), message)
    for path, message, of_key in of_hours(kit.hours):
        yield Problem(written.place(path, key=of_key), message)


def _zeroed(kit: Kit) -> Iterator[tuple[Path, str]]:
    for key, gauge in kit.gauges.items():
        path: Path = ("gauges", key, "zeroed_in")
        if gauge.zeroed_in is None:
            continue
        if gauge.zeroed_in not in kit.gauges:
            yield path, unknown("gauge", value=gauge.zeroed_in, known=kit.gauges)
            continue
        seen, at = [key], gauge.zeroed_in
        while at not in seen and at in kit.gauges and kit.gauges[at].zeroed_in is not None:
            seen.append(at)
            at = kit.gauges[at].zeroed_in or ""
        if at == key:
            yield path, f"`{key}` is zeroed in itself. Name the gauge, or the ring, that it is set with."
            continue
        setter = kit.gauges[gauge.zeroed_in]
        if setter.reads != gauge.reads:
            yield (
                path,
                f"The {setter.name} reads {_words(setter.reads)}, the {gauge.name} {_words(gauge.reads)}: "
                "it cannot be zeroed in it.",
            )


def _words(kind: str) -> str:
    return "pressure" if kind == "pressure_gauge" else kind
