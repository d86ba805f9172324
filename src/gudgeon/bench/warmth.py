"""How warm part and gauge were, as it was said: checked for sense, and kept in the unit that was said."""

from typing import Any

from gudgeon.bench.measuring_errors import (
    NoPartTemperature,
    TemperatureOfWhat,
    TemperatureOut,
    TemperatureSlip,
    UnitsDiffer,
)
from gudgeon.quantity.written import Amount, parse_amount

LEAST_C, MOST_C = -40.0, 150.0
"""Between what a part or a gauge can be that somebody measures with his hands beside it."""
AS_FAHRENHEIT = (50.0, 110.0)
"""Degrees Celsius that, read as Fahrenheit, would be a garage: 10 to 43 °C."""
AS_CELSIUS = (0.0, 30.0)
"""Degrees Fahrenheit that, read as Celsius, would be a garage."""
SAME = ("same as part", "same as the part", "same", "as part")


def warmth(part: str | None, *, gauge: str | None, as_part: bool, sure: bool) -> dict[str, Any]:
    """The fields of a reading that say how warm part and gauge were; none where nothing was said."""
    said_part = (part or "").strip()
    said_gauge = " ".join((gauge or "").lower().split())
    as_part = as_part or said_gauge in SAME
    if as_part and not said_part:
        raise NoPartTemperature
    if as_part and said_gauge and said_gauge not in SAME:
        raise TemperatureOfWhat((gauge or "").strip())
    read = {"part_temperature": _temperature("part", said_part, sure=sure)} if said_part else {}
    if said_gauge and not as_part:
        read["gauge_temperature"] = _temperature("gauge", (gauge or "").strip(), sure=sure)
    if not read:
        return {}
    units = sorted({one.unit.symbol for one in read.values()})
    if len(units) > 1:
        raise UnitsDiffer("the temperatures", units)
    numbers = {name: format(one.number, "f") for name, one in read.items()}
    return {**numbers, "temperature_unit": units[0], "gauge_as_part": as_part}


def _temperature(of: str, text: str, *, sure: bool) -> Amount:
    amount = parse_amount(text, kind="temperature")
    celsius = amount.to("°C")
    if not LEAST_C <= celsius <= MOST_C:
        raise TemperatureOut(of, str(amount), LEAST_C, MOST_C)
    if not sure and amount.unit.symbol == "°C" and AS_FAHRENHEIT[0] <= celsius <= AS_FAHRENHEIT[1]:
        raise TemperatureSlip(of, str(amount), f"{(celsius - 32) / 1.8:.0f} °C", "°F")
    shown = amount.to("°F")
    if not sure and amount.unit.symbol == "°F" and AS_CELSIUS[0] <= shown <= AS_CELSIUS[1]:
        raise TemperatureSlip(of, str(amount), f"{shown * 1.8 + 32:.0f} °F", "°C")
    return amount
