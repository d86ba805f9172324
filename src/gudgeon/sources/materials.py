"""Names of materials whose expansion is on file, as a person writes them: `gray iron` and `gray_iron` are one."""

from gudgeon.sources.tables import expansion_coefficients


def material_names() -> tuple[str, ...]:
    """The names, in words, in the order of the table."""
    return tuple(name.replace("_", " ") for name in expansion_coefficients())


def is_material(said: str) -> bool:
    """Whether the expansion of a material is on file."""
    return " ".join(said.replace("_", " ").lower().split()) in material_names()
