"""The picture of a characteristic as SVG: one drawing for the page, the terminal and the paper."""

from gudgeon.bench.pictures.face import FacePicture
from gudgeon.bench.pictures.of import Picture
from gudgeon.bench.pictures.spots import SpotPicture
from gudgeon.paper.svg_bore import bore_svg
from gudgeon.paper.svg_face import face_svg
from gudgeon.paper.svg_spots import spots_svg


def picture_svg(of: Picture) -> str:
    """A picture as the text of an SVG file."""
    if isinstance(of, FacePicture):
        return face_svg(of)
    return spots_svg(of) if isinstance(of, SpotPicture) else bore_svg(of)
