"""The reference figures that come with the program, read from data/*.toml when they are first needed."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any

from gudgeon.sources.figures import PROVENANCES, Figure, Source


@dataclass(frozen=True, slots=True)
class PropertyClass:
    """A strength class of bolts, for diameters above one size and up to another."""

    name: str
    yield_mpa: float
    tensile_mpa: float
    proof_mpa: float | None
    above_mm: float
    up_to_mm: float
    source: Source


@dataclass(frozen=True, slots=True)
class UnifiedSize:
    """A size of unified thread and how many threads to the inch each series has."""

    size: str
    diameter_in: float
    threads_per_inch: Mapping[str, int]
    source: Source


@dataclass(frozen=True, slots=True)
class MetricSize:
    """A metric diameter, its coarse pitch and its fine ones."""

    diameter_mm: float
    coarse_mm: float
    fine_mm: tuple[float, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class FrictionClass:
    """A class of friction between threads and under heads."""

    name: str
    low: float
    high: float | None
    examples: str
    source: Source


@dataclass(frozen=True, slots=True)
class Material:
    """The modulus of elasticity of a material, and the constants of a fitted stiffness where there are any."""

    name: str
    modulus_mpa: float
    fit: tuple[float, float] | None
    source: Source


@dataclass(frozen=True, slots=True)
class TighteningWay:
    """How far the preload may lie from the wanted one with a way of tightening, as ± shares."""

    name: str
    low: float
    high: float
    source: Source


@dataclass(frozen=True, slots=True)
class PermittedError:
    """What an instrument may err, up to a length: ± fixed + per meter, in mm."""

    instrument: str
    up_to_mm: float
    fixed_mm: float
    per_meter_mm: float
    source: Source

    def at(self, length_mm: float) -> float:
        """The permitted error at a length, in mm."""
        return self.fixed_mm + self.per_meter_mm * length_mm / 1000


@dataclass(frozen=True, slots=True)
class OtherError:
    """What a gauge that measures no length may err: ± fixed in a unit of a kind, and ± a share of its reading."""

    instrument: str
    kind: str
    unit: str
    fixed: float
    share: float
    source: Source

    def at(self, reading: float) -> float:
        """The permitted error at a reading, both in its unit."""
        return self.fixed + self.share * abs(reading)


@dataclass(frozen=True, slots=True)
class MaterialExpansion:
    """The linear expansion of a material near 20 °C and how far it may be off, ±, both in 1/K."""

    name: str
    value: float
    error: float
    source: Source

    @property
    def words(self) -> str:
        """Its name as a person writes it."""
        return self.name.replace("_", " ")


def read(name: str) -> tuple[dict[str, Any], dict[str, Source]]:
    """One file of figures and the sources it names."""
    text = resources.files("gudgeon.sources").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")
    data = tomllib.loads(text)
    found = {key: Source(**row) for key, row in data["sources"].items()}
    for source in found.values():
        if source.provenance not in PROVENANCES:
            raise ValueError(f"{name}.toml: unknown provenance {source.provenance!r}")
    return data, found


@lru_cache(maxsize=1)
def property_classes() -> tuple[PropertyClass, ...]:
    """Strength classes of bolts: ISO 898-1, ISO 3506-1, SAE J429."""
    data, found = read("property_classes")
    return tuple(
        PropertyClass(
            row["name"], row["yield_mpa"], row["tensile_mpa"], row.get("proof_mpa"),
            row.get("above_mm", 0.0), row.get("up_to_mm", 1000.0), found[row["source"]],
        )
        for row in data["class"]
    )  # fmt: skip


@lru_cache(maxsize=1)
def metric_sizes() -> tuple[MetricSize, ...]:
    """Metric diameters with their coarse and fine pitches: ISO 261."""
    data, found = read("threads")
    return tuple(
        MetricSize(row["d"], row["coarse"], tuple(row["fine"]), found[row["source"]])
        for row in data["metric"]
    )


@lru_cache(maxsize=1)
def unified_sizes() -> tuple[UnifiedSize, ...]:
    """Unified sizes with their threads per inch: ASME B1.1."""
    data, found = read("threads")
    return tuple(
        UnifiedSize(
            row["size"],
            row["d"],
            {name: row[name] for name in ("UNC", "UNF") if name in row},
            found[row["source"]],
        )
        for row in data["unified"]
    )


@lru_cache(maxsize=1)
def friction_classes() -> tuple[FrictionClass, ...]:
    """Friction classes: VDI 2230."""
    data, found = read("friction")
    return tuple(
        FrictionClass(row["name"], row["low"], row.get("high"), row["examples"], found[row["source"]])
        for row in data["class"]
    )


@lru_cache(maxsize=1)
def nut_factors() -> Mapping[str, Figure]:
    """Nut factors by the state of the surfaces: Shigley."""
    data, found = read("friction")
    return {row["name"]: Figure(row["value"], "1", found[row["source"]]) for row in data["nut_factor"]}


@lru_cache(maxsize=1)
def materials() -> tuple[Material, ...]:
    """Moduli of elasticity of materials that are clamped."""
    data, found = read("materials")
    return tuple(
        Material(
            row["name"], row["modulus_gpa"] * 1000, (row["a"], row["b"]) if "a" in row else None,
            found[row["source"]],
        )
        for row in data["material"]
    )  # fmt: skip


@lru_cache(maxsize=1)
def general_fit() -> tuple[float, float]:
    """The constants of the fitted stiffness for a material that is not named."""
    data, _ = read("materials")
    return data["general"]["a"], data["general"]["b"]


@lru_cache(maxsize=1)
def tightening_ways() -> tuple[TighteningWay, ...]:
    """Scatter of the preload by the way of tightening."""
    data, found = read("scatter")
    return tuple(
        TighteningWay(row["name"], row["low"], row.get("high", row["low"]), found[row["source"]])
        for row in data["way"]
    )


@lru_cache(maxsize=1)
def expansion_coefficients() -> Mapping[str, Figure]:
    """Linear expansion of materials, by name, in 1/K."""
    data, found = read("expansion")
    return {name: Figure(row["value"], "1/K", found[row["source"]]) for name, row in data["material"].items()}


@lru_cache(maxsize=1)
def material_expansions() -> tuple[MaterialExpansion, ...]:
    """Linear expansion of materials with its error, in the order of the file."""
    data, found = read("expansion")
    return tuple(
        MaterialExpansion(name, row["value"], row["error"], found[row["source"]])
        for name, row in data["material"].items()
    )


@lru_cache(maxsize=1)
def permitted_errors() -> tuple[PermittedError, ...]:
    """What instruments may err, by kind and length."""
    data, found = read("instruments")
    return tuple(
        PermittedError(
            row["instrument"], row.get("up_to_mm", float("inf")), row["fixed_um"] / 1000,
            row.get("per_meter_um", 0.0) / 1000, found[row["source"]],
        )
        for row in data["error"]
    )  # fmt: skip


def permitted_error(instrument: str, *, length_mm: float) -> Figure | None:
    """The permitted error of a kind of instrument at a length, or None where no standard is on file."""
    for row in permitted_errors():
        if row.instrument == instrument and length_mm <= row.up_to_mm:
            return Figure(row.at(length_mm), "mm", row.source)
    return None


@lru_cache(maxsize=1)
def other_errors() -> tuple[OtherError, ...]:
    """What gauges that measure no length may err: pressures, temperatures."""
    data, found = read("instruments")
    return tuple(
        OtherError(
            row["instrument"], row["kind"], row["unit"], row.get("fixed", 0.0), row.get("share", 0.0),
            found[row["source"]],
        )
        for row in data["other"]
    )  # fmt: skip


def other_error(instrument: str, *, kind: str, reading: float) -> Figure | None:
    """The permitted error of a gauge that measures no length, or None where none is on file.

    The reading is in the base unit of its kind: kPa of a pressure, °C of a temperature; so is the error, in K there.
    """
    for row in other_errors():
        if (row.instrument, row.kind) == (instrument, kind):
            return Figure(row.at(reading), row.unit, row.source)
    return None


@lru_cache(maxsize=1)
def instrument_figures() -> Mapping[str, Figure]:
    """Single figures of instruments, such as `dial_gauge_repeatability`."""
    data, found = read("instruments")
    return {
        name: Figure(row["value"], row["unit"], found[row["source"]]) for name, row in data["figure"].items()
    }


def instruments() -> tuple[str, ...]:
    """The kinds of instrument with a permitted error on file."""
    lengths, others = permitted_errors(), other_errors()
    return tuple(dict.fromkeys([*(row.instrument for row in lengths), *(row.instrument for row in others)]))
