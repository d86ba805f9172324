"""A page to share: what goes in and what stays out is told before the file is written."""

from argparse import Namespace
from pathlib import Path

from gudgeon.bench.context import Bench
from gudgeon.cli.paper_files import refuse_existing, write_file
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, closing, point, say


def share(chosen: Namespace) -> int:
    """Tell what will be in the page and what was left out, then write it; with --look only tell."""
    from gudgeon.bench.shared_page.answer import shared_page
    from gudgeon.bench.shared_page.choices import choices_said
    from gudgeon.bench.shared_page.scope import scope_said
    from gudgeon.web.shared_file import shared_html, shared_name

    choices = choices_said(",".join(chosen.let_in))
    bench = bench_of(chosen)
    page = shared_page(bench, of=chosen.of, choices=choices)
    said = scope_said(bench, chosen.of).said
    path = _path(chosen, shared_name(said))
    if not chosen.look:
        refuse_existing(chosen, path)
    made = shared_html(bench, page)
    if not chosen.json:
        say(f"{page.title}. In the page:")
        for one in page.inside:
            point(one)
        say("Left out:")
        for one in page.left_out:
            point(one)
    if chosen.look:
        return as_json(page) if chosen.json else _look(bench, said)
    write_file(chosen, path, made)
    if chosen.json:
        told = {"written": str(path), "bytes": len(made), "inside": page.inside, "left_out": page.left_out}
        return as_json({"heading": page.heading, **told})
    print(f"Written: {path} ({len(made) / 1000:,.0f} kB). Open it and read it before you give it away.")
    closing(page.heading)
    return 0


def _path(chosen: Namespace, name: str) -> Path:
    path = Path(chosen.out) if chosen.out else Path()
    return path / name if path.is_dir() else path


def _look(bench: Bench, of: str) -> int:
    """What of his own could go in: words and photos, each with the number that lets it in."""
    from gudgeon.bench.entries import brief
    from gudgeon.bench.shared_page.choices import Choices
    from gudgeon.bench.shared_page.offered import photos_offered, words_offered
    from gudgeon.bench.shared_page.scope import scopes

    words, photos = words_offered(bench, of, Choices()), photos_offered(bench, of)
    if words:
        say("Your own words, let in with --with notes=NUMBER,NUMBER:")
    for one in words:
        point(f"{one.what}: {brief(one.words)}", mark=str(one.number))
    if photos:
        say("Photos, let in with --with photos=NUMBER,NUMBER (look at each: what is seen in it stays in it):")
    for one in photos:
        point(": ".join(filter(None, (one.what, one.words))), mark=str(one.number))
    say("What can be shared: " + ", ".join(scope.said for scope in scopes(bench)))
    say("Nothing was written.")
    return 0
