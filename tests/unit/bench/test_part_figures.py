"""Lives and ages that cannot be: each refusal word by word; the limits are COMMON PRACTICE, no source."""

from pathlib import Path

import pytest

from gudgeon.bench.part_figures import NoSuchShape, NoSuchUse
from gudgeon.errors import GudgeonError
from tests.unit.bench.buying.purchases import buying_job

LIFE = {
    "part": "belt", "shape": "2", "life": "100000", "unit": "km", "until": "40000", "cost": "90", "currency": "EUR",
    "basis": "bulletin",
}  # fmt: skip
LOOK = "Look at the figure and at its unit, and write it again."


@pytest.mark.parametrize(
    ("kind", "said", "refused", "words"),
    [
        ("part-life", {"life": "1000000000"}, NoSuchUse,
         "The life of such parts: 1000000000 km cannot be. It is more than 0 and at most 3,000,000 km (common practice, "
         f"no source). {LOOK}"),
        ("part-life", {"life": "0"}, NoSuchUse,
         "The life of such parts: 0 km cannot be. It is more than 0 and at most 3,000,000 km (common practice, no "
         f"source). {LOOK}"),
        ("part-life", {"life": "-5", "unit": "mi"}, NoSuchUse,
         "The life of such parts: -5 mi cannot be. It is more than 0 and at most 2,000,000 mi (common practice, no "
         f"source). {LOOK}"),
        ("part-life", {"until": "1201", "life": "60", "unit": "months"}, NoSuchUse,
         "The time until it is open again: 1201 months cannot be. It is more than 0 and at most 1,200 months (common "
         f"practice, no source). {LOOK}"),
        ("part-life", {"shape": "0"}, NoSuchShape,
         "A shape of 0 cannot be. It lies between 0.1 and 20 (common practice, no source): about 1 where a part fails by "
         "chance, 2 to 4 where it wears out with age. Look at the figure, and write it again."),
        ("part-age", {"distance": "3000001", "unit": "km"}, NoSuchUse,
         "What it has run: 3000001 km cannot be. It is 0 or more and at most 3,000,000 km (common practice, no source). "
         f"{LOOK}"),
        ("part-age", {"months": 1201}, NoSuchUse,
         "Its age: 1201 months cannot be. It is 0 or more and at most 1,200 months (common practice, no source). "
         f"{LOOK}"),
        ("part-age", {"months": -1}, NoSuchUse,
         "Its age: -1 months cannot be. It is 0 or more and at most 1,200 months (common practice, no source). "
         f"{LOOK}"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(
    tmp_path: Path, kind: str, said: dict[str, object], refused: type[GudgeonError], words: str
) -> None:
    job = buying_job(tmp_path)
    fields = {**LIFE, **said} if kind == "part-life" else {"part": "belt", "basis": "book", **said}
    with pytest.raises(refused) as seen:
        job.record(kind, **fields)
    assert str(seen.value) == words


def test_what_lies_at_the_limits_is_kept(tmp_path: Path) -> None:
    job = buying_job(tmp_path)
    job.record("part-life", **{**LIFE, "shape": "20", "life": "3000000"})
    job.record("part-age", part="belt", distance="0", unit="km", months=1200, basis="date on it")
