"""ISO 273:1979, clearance holes for bolts and screws, medium series: numbers as printed in public tables of it."""

import pytest

from gudgeon.sources.clearance_holes import clearance_hole

PRINTED = ((4, 4.5), (5, 5.5), (6, 6.6), (7, 7.6), (8, 9.0), (10, 11.0), (12, 13.5), (14, 15.5), (16, 17.5))


@pytest.mark.parametrize(("thread_mm", "hole_mm"), PRINTED)
def test_medium_series(thread_mm: float, hole_mm: float) -> None:
    found = clearance_hole(thread_mm)
    assert found.value == hole_mm
    assert str(found.source).startswith("ISO 273:1979, medium series")


@pytest.mark.parametrize(("shank_mm", "hole_mm"), [(7.938, 9.0), (11.0, 12.5), (25.4, 28.0)])
def test_other_diameters_by_common_practice(shank_mm: float, hole_mm: float) -> None:
    """HAND: 5/16 in is 7.938 mm, a tenth more 8.73, up to 9.0; 11 gives 12.1 and 12.5; 1 in 27.94 and 28.0."""
    found = clearance_hole(shank_mm)
    assert found.value == pytest.approx(hole_mm)
    assert str(found.source).endswith("(common practice)")
