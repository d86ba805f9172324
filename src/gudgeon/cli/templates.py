"""The card template on paper, and its positions traced from a photo."""

from argparse import Namespace
from functools import partial
from pathlib import Path

from gudgeon.cli.paper_files import printed, refuse_existing, size_of, write_file
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, point, table


def template(chosen: Namespace) -> int:
    """The card template of one joint."""
    from gudgeon.bench.template.positions import read_positions
    from gudgeon.bench.template.template import template as ask
    from gudgeon.paper.template import template_pdf

    bench = bench_of(chosen)
    positions = read_positions(chosen.positions) if chosen.positions is not None else None
    answer = ask(bench, chosen.joint, mirrored=chosen.mirrored, positions=positions)
    name = f"template-{chosen.joint}" + ("-mirrored" if chosen.mirrored else "")
    make = partial(template_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, name, make=make)


def trace(chosen: Namespace) -> int:
    """Positions from a photo, each with how far off it may be."""
    from gudgeon.bench.template.positions import as_file
    from gudgeon.bench.template.tracing import TraceSaid, known_said, photo_of, places_said, traced

    out = Path(chosen.out) if chosen.out else None
    if out is not None:
        refuse_existing(chosen, out)
    bench = bench_of(chosen)
    said = TraceSaid(
        chosen.joint,
        known_said(chosen.corners, unit=chosen.unit),
        places_said(chosen.places),
        chosen.viewed_from,
        chosen.pointed,
    )
    answer = traced(bench, photo_of(bench, chosen.photo), said)
    file = as_file(answer)
    if out is not None:
        write_file(chosen, out, file.encode("utf-8"))
    if chosen.json:
        return as_json({"answer": answer, "file": file, "written": str(out) if out is not None else ""})
    heading(answer.heading)
    print(f"{clean(answer.name)}, traced from {clean(answer.photo)}")
    table(
        ("number", "to the right", "up", "off by up to"),
        [
            (one.name, f"{one.x_mm:.1f} mm", f"{one.y_mm:.1f} mm", f"± {one.off_mm:.1f} mm")
            for one in answer.places
        ],
    )
    for remark in answer.remarks:
        point(remark, mark="!")
    if out is not None:
        print(f"\nWritten: {out}")
        print(f"Print it: gudgeon print template {answer.joint} --positions {out}")
    else:
        print(f"\n{file}")
    closing(answer.heading)
    return 0
