"""The picture of a characteristic as a file."""

import sys
from argparse import Namespace
from pathlib import Path

from gudgeon.bench.context import Bench
from gudgeon.errors import InputError


class PictureOfWhat(InputError):
    """A picture shows one characteristic."""

    def __init__(self) -> None:
        super().__init__(
            "--picture shows one characteristic, and none was named. Name it, like `gudgeon judge bore --picture "
            "bore.svg`; `gudgeon judge` lists them."
        )


class NotAnSvgName(InputError):
    """A name that would promise another format."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{path} does not end in .svg, and the picture is an SVG drawing. Name the file so.")


class PictureExists(InputError):
    """A file that is there already is not written over."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"{path} exists already and is left as it is. Name another file, or take it away first."
        )


class NoSuchFolder(InputError):
    """A folder that is not there."""

    def __init__(self, folder: str) -> None:
        super().__init__(
            f"The folder {folder} is not there, so no picture is written. Make it, or name another."
        )


def svg_file(name: str) -> Path:
    """The file that a drawing is written to; refused where it promises another format or is there already."""
    path = Path(name)
    if path.suffix.lower() != ".svg":
        raise NotAnSvgName(str(path))
    if not path.parent.is_dir():
        raise NoSuchFolder(str(path.parent))
    if path.exists():
        raise PictureExists(str(path))
    return path


def write_picture(chosen: Namespace, bench: Bench) -> None:
    """Write the picture of the characteristic that was asked about, and say where it lies."""
    from gudgeon.bench.pictures.of import picture
    from gudgeon.paper.svg_picture import picture_svg

    if chosen.what is None:
        raise PictureOfWhat
    path = svg_file(chosen.picture)
    drawn = picture_svg(picture(bench, chosen.what))
    path.write_text(drawn, encoding="utf-8")
    # With --json only the answer goes to the output.
    print(f"Picture: {path}", file=sys.stderr if chosen.json else sys.stdout)
