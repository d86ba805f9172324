"""How known points lie in a photo: cameras that turn and project by themselves, and sides that were exchanged."""

import pytest

from gudgeon.calc.errors import NotPositive
from gudgeon.calc.template.homography import Known
from gudgeon.calc.template.view import view
from tests.pinhole import SHEET, Camera


def seen(camera: Camera, true: tuple[tuple[float, float], ...] = SHEET, *, moved: float = 0.0) -> list[Known]:
    photo = [camera.sees(one) for one in SHEET]
    return [
        Known(str(at), (x + moved, y), spot)
        for at, ((x, y), spot) in enumerate(zip(photo, true, strict=True))
    ]


@pytest.mark.parametrize("tilt", [0.0, 15.0, 30.0, 45.0])
@pytest.mark.parametrize("turn", [0.0, 20.0, -70.0])
def test_a_camera_sees_it_so_and_exchanged_sides_it_does_not(tilt: float, turn: float) -> None:
    camera = Camera(above_mm=800.0, tilt_deg=tilt, turn_deg=turn, focal_px=4000.0)
    size = {"width_px": 3000.0, "height_px": 4000.0}
    found = view(seen(camera), **size)
    assert found.stretch < 0.01
    assert found.turn_deg == pytest.approx(-turn, abs=0.01)
    # The middle of a cropped photo is not that of its camera.
    assert view(seen(camera, moved=600), **size).stretch < 0.12
    # 297 × 210 said of a sheet that stands upright, and corners that begin one too late.
    exchanged = ((0.0, 0.0), (297.0, 0.0), (297.0, 210.0), (0.0, 210.0))
    assert view(seen(camera, exchanged), **size).stretch > 0.4
    assert view(seen(camera, (*SHEET[1:], SHEET[0])), **size).stretch > 0.4


def test_a_photo_without_a_size_is_refused() -> None:
    with pytest.raises(NotPositive):
        view(seen(Camera()), width_px=0, height_px=4000)
