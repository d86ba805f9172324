"""Which picture belongs to a characteristic."""

from typing import TypeAlias

from gudgeon.bench.bodies import characteristic
from gudgeon.bench.context import Bench
from gudgeon.bench.pictures.bore import BorePicture, bore_picture, is_bore
from gudgeon.bench.pictures.errors import NothingToDraw
from gudgeon.bench.pictures.face import FacePicture, face_picture

Picture: TypeAlias = FacePicture | BorePicture


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
    """The picture of a characteristic, made of the readings that its verdicts are made of."""
    bench.unlock()
    own = drawn_from(bench, key)
    item = bench.sheet.characteristics[own or key]
    if not own:
        raise NothingToDraw(item.name, key)
    return face_picture(bench, own) if item.face in bench.sheet.faces else bore_picture(bench, own)
