"""The photos of a build, each file read to its end."""

from argparse import Namespace

from gudgeon.bench.photos import Photos, photos_report
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, table


def photos(chosen: Namespace) -> int:
    """List the photos of a build; exit code 1 when one is missing or altered."""
    answer = photos_report(bench_of(chosen))
    if chosen.json:
        as_json(answer)
    else:
        _say(answer)
    return 1 if answer.wrong else 0


def _say(answer: Photos) -> None:
    heading(answer.heading)
    table(
        ("no.", "when", "taken", "what it shows", "about", "proves", "file", "size", "state"),
        [
            (
                str(one.number),
                one.when,
                one.taken,
                one.caption,
                "; ".join(one.about),
                "; ".join(one.proves),
                one.sha[:8],
                f"{one.width} × {one.height}",
                ", ".join(filter(None, [one.wrong, f"struck: {one.struck}" if one.struck else ""]))
                or "in order",
            )
            for one in answer.photos
        ],
    )
    print(f"\n{len(answer.photos)} photo(s), {answer.wrong} missing or altered, in {clean(answer.folder)}")
    if answer.wrong:
        print("Put the files back from a backup (gudgeon book restore), or prove anew what they proved.")
    for name in answer.strangers:
        print(f"- {clean(name)} lies in the folder, not in the book")
    closing(answer.heading)
