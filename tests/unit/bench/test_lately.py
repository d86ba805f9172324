"""What was worked out lately is not worked out again, and never serves other facts."""

from pathlib import Path

import pytest

from gudgeon.bench import good
from gudgeon.bench.good import inspect
from gudgeon.bench.lately import MOST, Lately
from tests.unit.bench.benches import Job, make_job


class Asked:
    """What was worked out, in order."""

    def __init__(self) -> None:
        self.worked: list[int] = []
        self._lately = Lately[tuple[int, str], str]()

    def of(self, number: int) -> str:
        def work() -> str:
            self.worked.append(number)
            return f"{number} mm"

        return self._lately.of((number, "mm"), work)


def test_equal_facts_have_one_answer_and_others_their_own() -> None:
    asked = Asked()
    assert [asked.of(one) for one in (1, 2, 1, 2)] == ["1 mm", "2 mm", "1 mm", "2 mm"]
    assert asked.worked == [1, 2]


def test_no_more_than_a_few_are_kept() -> None:
    asked = Asked()
    for number in (*range(MOST + 1), 0):
        asked.of(number)
    assert asked.worked == [*range(MOST + 1), 0]


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def verdicts(job: Job) -> list[tuple[str, str, str]]:
    return [(row.item, row.place, row.verdict) for row in inspect(job.bench()).rows]


def test_a_verdict_is_not_judged_again_for_a_note_and_is_for_a_reading_and_its_strike(
    job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged: list[int] = []
    judge = good._judged

    def counted(*asked: object) -> object:
        judged.append(1)
        return judge(*asked)  # type: ignore[arg-type]

    monkeypatch.setattr(good, "_judged", counted)
    before = verdicts(job)
    job.record("note", text="cold")
    assert verdicts(job) == before
    assert len(judged) == 1
    reading = job.record(
        "reading",
        item="head_face",
        place="along",
        value="0.30 mm",
        condition="as found",
        instrument="feelers",
    )
    after = verdicts(job)
    assert after != before
    assert len(judged) > 1
    job.record("strike", entry=reading.entry, why="wrong face")
    assert verdicts(job) == before
