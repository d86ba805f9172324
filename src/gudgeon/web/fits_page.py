"""What fits where: shells, parts matched to places, rings, equal weights."""

from starlette.responses import Response

from gudgeon.bench.fits.ask import fits
from gudgeon.errors import InputError
from gudgeon.web.desk import Address, Asked, Desk


def what_fits(desk: Desk, asked: Asked) -> Response:
    """What fits where; codes that are stamped on the engine, and marks of the shells in it, may be told."""
    codes, shells = (asked.query.get(name, "").strip() for name in ("codes", "shells"))
    with desk.bench() as bench:
        error: InputError | None = None
        try:
            answer = fits(bench, codes=_said(codes), shells=_said(shells))
        except InputError as refused:
            error, answer = refused, fits(bench)
        sheet = bench.sheet.fits
        return desk.page(
            "fits.html",
            bench=bench,
            asked=asked,
            status=200 if error is None else 422,
            answer=answer,
            sources=bench.sheet.sources,
            error=error,
            codes=codes,
            shells=shells,
            bearings=sheet.bearings if sheet is not None else {},
        )


def _said(text: str) -> tuple[str, ...]:
    return (text,) if text else ()


ADDRESSES = (Address("/fits", what_fits),)
