"""A pinhole camera over a flat part, worked out by turning and projecting points: an outside check of the tracing.

The map of the tracing is solved from equations; this one knows nothing of it. It turns a point of the plane into the
eyes of the camera and divides by its distance (Hartley and Zisserman, 2nd edition 2004, 6.1).
"""

from dataclasses import dataclass
from math import cos, radians, sin

Spot = tuple[float, float]

SHEET = ((0.0, 0.0), (210.0, 0.0), (210.0, 297.0), (0.0, 297.0))
"""The corners of a sheet of A4 (ISO 216:2007) that lies on the face, from the lower left to the right."""


@dataclass(frozen=True)
class Camera:
    """How far the camera hangs above the sheet, how it is tilted and turned, and its focal length in pixels."""

    above_mm: float = 560.0
    tilt_deg: float = 18.0
    turn_deg: float = 7.0
    focal_px: float = 5000.0
    size: tuple[int, int] = (3000, 4000)

    def sees(self, spot: Spot, *, above_mm: float = 0.0) -> Spot:
        """Where a point of the part [mm] is in the photo [px], from its upper left corner to the right and down."""
        tilt, turn = radians(self.tilt_deg), radians(self.turn_deg)
        x, y, z = spot[0] - 105.0, spot[1] - 148.5, above_mm - self.above_mm
        # Moved back by what the tilt looks past, so that the middle of the sheet stays in the picture.
        y -= self.above_mm * sin(tilt) / cos(tilt)
        x, y, z = x, -y, -z  # the camera looks down, and counts down
        y, z = y * cos(tilt) - z * sin(tilt), y * sin(tilt) + z * cos(tilt)
        x, y = x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)
        return (
            self.size[0] / 2 + self.focal_px * x / z,
            self.size[1] / 2 + self.focal_px * y / z,
        )
