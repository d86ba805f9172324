"""The picture of a characteristic as SVG: one drawing for the page, the terminal and the paper."""

from gudgeon.bench.pictures.face import FacePicture
from gudgeon.bench.pictures.of import Picture
from gudgeon.paper.svg_bore import bore_svg
from gudgeon.paper.svg_face import face_svg


def picture_svg(of: Picture) -> str:
    """A picture as the text of an SVG file."""
    return face_svg(of) if isinstance(of, FacePicture) else bore_svg(of)
