"""The air against the library ambiance; freezing points against the library CoolProp, both over a grid."""

import ambiance  # type: ignore[import-untyped]
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from gudgeon.calc.engine.atmosphere import standard_air
from gudgeon.calc.engine.coolant import freeze_point_c, freezing_table, share_for_freeze_point, volume_share


@pytest.mark.parametrize("altitude", [*range(-4900, 11000, 300), 10_990])
def test_the_air_is_that_of_another_library(altitude: float) -> None:
    # ambiance takes the gas constant of 1976 too, and rounds p0 by nothing: parts in a million are left.
    ours, other = standard_air(altitude), ambiance.Atmosphere(altitude)
    assert ours.pressure_pa == pytest.approx(other.pressure[0], rel=5e-6)
    assert ours.temperature_k == pytest.approx(other.temperature[0], abs=1e-3)
    assert ours.density_kg_per_m3 == pytest.approx(other.density[0], rel=1e-5)


def frozen(fluid: str, share: float) -> float:
    kelvin = PropsSI("T_freeze", "T", 300.0, "P", 101325.0, f"INCOMP::{fluid}[{share}]")
    return float(kelvin) - 273.15


# Between the points of the tables, and where the other library says anything at all: by volume from 10 %, by mass from
# nothing; its propylene by mass does not begin at 0 °C but at −0.025 °C.
GRIDS = [
    ("AEG", "ethylene", "volume", np.arange(0.10, 0.6001, 0.01), 0.05),
    ("APG", "propylene", "volume", np.arange(0.10, 0.6001, 0.01), 0.05),
    ("MEG", "ethylene", "mass", np.arange(0.01, 0.6001, 0.01), 0.05),
    ("MPG", "propylene", "mass", np.arange(0.01, 0.6001, 0.01), 0.05),
]


@pytest.mark.parametrize(("fluid", "glycol", "basis", "shares", "tolerance"), GRIDS)
def test_freezing_points_are_those_of_another_library(
    fluid: str,
    glycol: str,
    basis: str,
    shares: "np.ndarray[tuple[int], np.dtype[np.float64]]",
    tolerance: float,
) -> None:
    table = freezing_table(glycol, basis=basis)
    for share in shares:
        inside = min(float(share), 0.6)
        assert freeze_point_c(inside, table=table) == pytest.approx(frozen(fluid, inside), abs=tolerance), (
            inside
        )


@pytest.mark.parametrize("glycol", ["ethylene", "propylene"])
@pytest.mark.parametrize("mass", [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.55])
def test_both_ways_of_counting_agree_as_their_authors_do(glycol: str, mass: float) -> None:
    # Two sets of measurements, 2.2 K apart at half ethylene glycol by mass (ASHRAE has −33.8 °C there, MEMORY), and
    # volumes that shrink by up to 1 % as they mix, which is worth another 0.7 K of the curve there.
    gravity = {"ethylene": 1.1155, "propylene": 1.038}[glycol]
    by_mass = freeze_point_c(mass, table=freezing_table(glycol, basis="mass"))
    by_volume = freeze_point_c(
        volume_share(mass, gravity=gravity), table=freezing_table(glycol, basis="volume")
    )
    assert by_volume == pytest.approx(by_mass, abs=3.0)


@pytest.mark.parametrize("table", ["ASHRAE", "Lange"])
@pytest.mark.parametrize("freeze", [-1.0, -5.0, -12.3, -20.0, -33.0])
def test_the_share_for_a_cold_freezes_there(table: str, freeze: float) -> None:
    found = freezing_table("propylene", basis="volume", name=table)
    assert freeze_point_c(share_for_freeze_point(freeze, table=found), table=found) == pytest.approx(freeze)
