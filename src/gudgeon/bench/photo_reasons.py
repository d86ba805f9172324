"""Why not: photos that prove something, and are not as they were taken."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.holds import all_holds
from gudgeon.bench.reason import Reason


def reasons(bench: Bench) -> Iterator[Reason]:
    """Photos that prove something, and are not as they were taken."""
    captions = {one.sha: one.caption for one in bench.state.photos}
    for key, hold in bench.state.holds.items():
        why = bench.state.photos_wrong.get(hold.photo, "") if hold.photo and hold.status == "proved" else ""
        known = all_holds().get(key)
        if why and known is not None:
            yield Reason(
                "in doubt",
                f"Photo “{captions.get(hold.photo, hold.photo[:8])}”",
                f"{why}, and it proves “{known.name}”",
                known.before,
                "gudgeon photos",
                "Put its file back from a backup, or prove it anew.",
                "what you see, or a new photo",
                about=f"hold:{key}",
            )
