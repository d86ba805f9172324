"""What can be wrong with figures of the air, of cranking, of a leak and of coolant; one class per cause."""

from gudgeon.errors import InputError


class AltitudeOutside(InputError):
    """No garage stands there, and the law of the lowest layer does not hold there."""

    def __init__(self, altitude_m: float, lowest_m: float, highest_m: float) -> None:
        super().__init__(
            f"Altitude {altitude_m:g} m is outside {lowest_m:.0f} to {highest_m:.0f} m, the lowest layer of the "
            "standard atmosphere (U.S. Standard Atmosphere 1976, ISO 2533). "
            "Give the altitude above the sea, with its unit."
        )


class ClosingOutside(InputError):
    """The intake does not close on the compression stroke."""

    def __init__(self, closing_deg: float) -> None:
        super().__init__(
            f"Intake closing {closing_deg:g}° after bottom dead center cannot be: it is from 0 to less than 180, "
            "on the way up. Give the angle after bottom dead center as the manual prints it."
        )


class ExponentOutside(InputError):
    """No compression of air has this exponent."""

    def __init__(self, exponent: float) -> None:
        super().__init__(
            f"Exponent {exponent:g} cannot be: from 1 (all heat lost) to 1.4 (none lost, dry air; by hand, from the "
            "laws of gases). Give 1.20 to 1.30, or leave it out."
        )


class ExponentsCrossed(InputError):
    """The band of exponents ends below its start."""

    def __init__(self, low: float, high: float) -> None:
        super().__init__(f"Exponents {low:g} to {high:g} run downward. Exchange them.")


class TooFewCylinders(InputError):
    """One cylinder cannot be compared."""

    def __init__(self, count: int) -> None:
        super().__init__(
            f"{count} reading{'' if count == 1 else 's'} cannot be compared: a spread takes at least two cylinders. "
            "Give them apart by semicolons, like `11.2 bar; 10.9 bar`."
        )


class CommaAmongReadings(InputError):
    """A comma may stand between readings, or within one."""

    def __init__(self, given: str) -> None:
        super().__init__(
            f"`{given}` has a comma, which may part readings or stand for a decimal point. "
            "Part readings by semicolons and write decimals with a point, like `11.2 bar; 10.9 bar`."
        )


class ShareOutside(InputError):
    """A share that is no part of a whole."""

    def __init__(self, what: str, share: float) -> None:
        like = f"`{share:g} %` or {share / 100:g}" if 2 < share <= 100 else "`50 %` or 0.5"
        super().__init__(
            f"{what} {100 * share:g} % cannot be: it is 0 to 100 %. Give a part of the whole, like {like}."
        )


class SupplyBelowCylinder(InputError):
    """A leak-down tester cannot show more behind its orifice than before it."""

    def __init__(self, cylinder_kpa: float, supply_kpa: float) -> None:
        super().__init__(
            f"Cylinder pressure {cylinder_kpa:g} kPa is above the supply of {supply_kpa:g} kPa: behind the orifice "
            "there is never more. Exchange them, or set the regulator anew with the hose closed."
        )


class AllLost(InputError):
    """Nothing is left in the cylinder: how large the hole is cannot be told."""

    def __init__(self) -> None:
        super().__init__(
            "Cylinder pressure 0: the leak is larger than this tester can tell (0 at its gauge means any large "
            "hole). See whether both valves are closed and the piston is at the top; then look for the hole."
        )


class FractionOutside(InputError):
    """Outside of the table of freezing points."""

    def __init__(self, fraction: float, most: float, table: str) -> None:
        percent = 2 < fraction <= 100  # 50 is meant as 50 %, 1.75 is not
        meant = f" Write a share with its sign or as a part of 1: `{fraction:g} %` or {fraction / 100:g}."
        super().__init__(
            f"{100 * fraction:g} % glycol is outside 0 to {100 * most:g} %, where {table} ends: with more glycol than "
            f"that the mix freezes at a milder cold again.{meant if percent else ' Take no more than that.'}"
        )


class ColderThanAny(InputError):
    """No mix of the table stays liquid there."""

    def __init__(self, freeze_c: float, coldest_c: float, most: float, table: str) -> None:
        super().__init__(
            f"{freeze_c:g} °C is colder than {coldest_c:g} °C, the end of {table} at {100 * most:g} % glycol. "
            "Ask for a temperature within it."
        )


class WarmerThanWater(InputError):
    """Water alone guards to 0 °C."""

    def __init__(self, freeze_c: float) -> None:
        super().__init__(
            f"{freeze_c:g} °C asks for no glycol: water alone freezes at 0 °C. Give the cold that it must stand."
        )


class TableUnknown(InputError):
    """No table of freezing points for this glycol and this way of counting."""

    def __init__(self, table: str, glycol: str, basis: str, known: tuple[str, ...]) -> None:
        super().__init__(
            f"There is no table `{table}` for {glycol} glycol by {basis}. Take one of: {', '.join(known)}."
        )


class NotReached(InputError):
    """What is poured in can never bring the mix to the target."""

    def __init__(self, target: float, present: float, added: float, most: float) -> None:
        super().__init__(
            f"Target {100 * target:g} % cannot be reached: what is in it, with {100 * present:g} %, and what is "
            f"poured in, with {100 * added:g} %, give {100 * most:.3g} % at most. Pour in something richer."
        )


class MoreThanHeld(InputError):
    """More than the system holds."""

    def __init__(self, what: str, volume_l: float, capacity_l: float) -> None:
        super().__init__(
            f"{what} {volume_l:g} L is more than the {capacity_l:g} L that the system holds. "
            "Check both figures and their units."
        )
