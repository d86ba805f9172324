"""Which picture belongs to a characteristic."""

from typing import TypeAlias

from gudgeon.bench.bodies import characteristic
from gudgeon.bench.context import Bench
from gudgeon.bench.pictures.bore import BorePicture, bore_picture, is_bore
from gudgeon.bench.pictures.face import FacePicture, face_picture
from gudgeon.bench.pictures.spots import SpotPicture, spot_picture

Picture: TypeAlias = FacePicture | BorePicture | SpotPicture


def drawn_from(bench: Bench, key: str) -> str:
    """The characteristic whose readings are drawn: its own, or those it is worked out from; empty where none can."""
    item = characteristic(bench.sheet, key)
    if item.face in bench.sheet.faces or is_bore(item):
        return key
    if item.method in ("out-of-round", "taper") and item.of:
        other = bench.sheet.characteristics.get(item.of[0])
        return item.of[0] if other is not None and is_bore(other) else ""
    return ""


def picture(bench: Bench, key: str) -> Picture:
    """The picture of a characteristic, made of the readings that its verdicts are made of.

    What the sheet draws no face for, and a bore of which nothing was read, is drawn as its places in a row.
    """
    bench.unlock()
    own = drawn_from(bench, key)
    if own and bench.sheet.characteristics[own].face in bench.sheet.faces:
        return face_picture(bench, own)
    return (bore_picture(bench, own) if own else None) or spot_picture(bench, key)
