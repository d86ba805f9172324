"""Parts that suppliers of the kit sell and the data sheet does not know: most often a key written otherwise."""

import difflib
from collections.abc import Iterator

from gudgeon.kit.model import Kit
from gudgeon.sheet.model import DataSheet


def unknown_parts(kit: Kit, sheet: DataSheet) -> Iterator[str]:
    """A sentence for each supplier that sells what the sheet has no part for."""
    for one in kit.suppliers.values():
        unknown = [key for key in one.sells if key not in sheet.parts]
        if unknown:
            yield f"{one.name} sells what the sheet lists as no part: {', '.join(_with_near(unknown, sheet))}."


def _with_near(keys: list[str], sheet: DataSheet) -> Iterator[str]:
    for key in keys:
        near = difflib.get_close_matches(key, sheet.parts, n=1, cutoff=0.75)
        yield f"`{key}` (`{near[0]}` is one)" if near else f"`{key}`"
