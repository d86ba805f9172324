"""Families of bolts in one joint: each has a clamp of its own, and no figure is about two of them."""

from dataclasses import dataclass

from gudgeon.sheet.joints import Joint


@dataclass(frozen=True, slots=True)
class Family:
    """Bolts that are alike: their name with its thread, nothing where the joint has one kind; their places."""

    name: str
    places: tuple[int, ...]

    @property
    def before(self) -> str:
        """The name as it stands before what is said of it."""
        return f"{self.name}: " if self.name else ""


def families(joint: Joint) -> tuple[Family, ...]:
    """The families of a joint, in the order in which their first bolts are numbered."""
    found: dict[str, list[int]] = {}
    for place, bolt in enumerate(joint.bolt_names):
        fastener, key = joint.fastener_of(bolt), joint.bolt(bolt).family or "others"
        found.setdefault(f"{key} ({fastener.thread})" if fastener else key, []).append(place)
    if len(found) == 1:
        return (Family("", tuple(range(len(joint.bolt_names)))),)
    return tuple(Family(name, tuple(places)) for name, places in found.items())


def each(texts: dict[str, str]) -> str:
    """One text for each family, its name before it; those that have none are left out."""
    return "; ".join(f"{name}: {text}" if name else text for name, text in texts.items() if text)
