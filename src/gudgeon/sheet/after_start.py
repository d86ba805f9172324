"""What proves the engine after it has run: which characteristics hold the readings, and what the manual asks."""

from typing import Literal

from pydantic import Field

from gudgeon.sheet.figures import Sourced, StatedLength, StatedPressure, StatedSpeed, StatedTemperature
from gudgeon.written.fields import Key, Section, Text


class OilPressure(Sourced):
    """The least oil pressure at a speed, warm, and the characteristic that holds what was read."""

    at: StatedSpeed
    least: StatedPressure
    temperature: StatedTemperature | None = None
    measured_as: Key | None = None


class Coolant(Sourced):
    """What the coolant must stand: its glycol, how cold, how it is bled."""

    glycol: Literal["ethylene", "propylene"] | None = None
    guards_to: StatedTemperature | None = None
    cap: StatedPressure | None = None
    bleed: tuple[Text, ...] = ()


class AfterStart(Sourced):
    """The proofs of an engine that runs.

    `cranking_pressure` and `wet` are the characteristics that hold the pressures of the cylinders, dry and with oil;
    `leak_down` the one with what a leak-down tester shows as a pressure, `orifice` the hole in that tester.
    """

    cranking_pressure: Key | None = None
    wet: Key | None = None
    cranking_speed: StatedSpeed | None = None
    leak_down: Key | None = None
    leak_down_supply: StatedPressure | None = None
    orifice: StatedLength | None = None
    oil_pressure: tuple[OilPressure, ...] = ()
    coolant: Coolant | None = None
    look_again: tuple["LookAgain", ...] = Field(default=())


class LookAgain(Section):
    """What is looked at again later: after the first heat, the next cold morning, so many kilometers."""

    what: Text
    when: Text
    basis: Text
