"""docs/job-network.md names every field of a task, and the job in it is well written."""

import re
from pathlib import Path

import pytest
from pydantic import BaseModel

from gudgeon.bench.job_file import read_job
from gudgeon.bench.job_shape import (
    BasedFile,
    Change,
    JobFile,
    OwnPhase,
    PhaseSection,
    ShopSection,
    TaskSection,
    WaitSection,
)
from gudgeon.bench.network import read
from gudgeon.written.errors import FileRefused

PAGE = (Path(__file__).resolve().parents[3] / "docs" / "job-network.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "section", [JobFile, PhaseSection, TaskSection, WaitSection, ShopSection, BasedFile, OwnPhase, Change]
)
def test_every_field_is_explained(section: type[BaseModel]) -> None:
    names = {field.alias or name for name, field in section.model_fields.items()}
    assert {name for name in names if f"`{name}`" not in PAGE and f"{name}:" not in PAGE} == set()


def test_the_job_based_on_it_takes_one_task_over_and_adds_one(monkeypatch: pytest.MonkeyPatch) -> None:
    small, based = re.findall(r"```yaml\n(.*?)```", PAGE, flags=re.DOTALL)
    monkeypatch.setattr("gudgeon.bench.job_file.all_holds", dict)  # the small job is asked for no proofs
    made = read_job(based, file="manifold.yaml", bases={"small_job": small})
    assert [(one["key"], one["minutes"], one["after"]) for one in made["tasks"]] == [
        ("manifold_off", 30, []),
        ("manifold_on", 45, ["manifold_off"]),
    ]
    assert (made["engine_has"], made["whole"]) == (["liquid cooling"], False)


def test_the_job_in_it_lacks_nothing_but_the_proofs_of_a_whole_job() -> None:
    example = re.search(r"```yaml\n(.*?)```", PAGE, flags=re.DOTALL)
    assert example is not None
    with pytest.raises(FileRefused) as refused:
        read(example[1], file="job-network.md")
    others = [one.message for one in refused.value.problems if "No task proves the hold" not in one.message]
    assert others == []
