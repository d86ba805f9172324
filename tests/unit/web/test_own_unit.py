"""Who reads inches finds them first, at the wrench and in the box of a reading; paper comes in the size of his printer."""

import re
from pathlib import Path

import pytest

from tests.unit.sheet.sheets import SMALL
from tests.unit.web.test_joint_page import client, job_of, words

INCH = "gudgeon: kit 1\nunits: inch\n"


@pytest.mark.parametrize(("printed", "said"), [
    ("9 N·m (80 lbf·in)", "Torque to 80 lbf·in (9 N·m)"),  # PRINTED, both
    ("10 N·m", "Torque to 10 N·m (7.4 lbf·ft)"),  # HAND: 10 / 1.355818 = 7.38
])  # fmt: skip
def test_a_torque_has_both_systems_the_own_first_where_it_is_printed(
    tmp_path: Path, printed: str, said: str
) -> None:
    with client(job_of(tmp_path, torque=printed, kit=INCH)) as pages:
        assert said in words(pages.get("/set/head").text)


@pytest.mark.parametrize(("kit", "unit"), [(INCH, "in"), (INCH.replace("inch", "metric"), "mm")])
def test_a_reading_begins_in_the_own_unit(tmp_path: Path, kit: str, unit: str) -> None:
    """The journal of the small sheet is printed in millimeters."""
    assert "29.980–29.993 mm" in SMALL
    with client(job_of(tmp_path, torque="10 N·m", kit=kit)) as pages:
        page = pages.get("/good/journal").text
    assert re.findall(r'<option value="([^"]*)"[^>]* selected', page.partition('name="unit"')[2])[:1] == [
        unit
    ]


@pytest.mark.parametrize(("paper", "offered"), [("", ["a4", "letter"]), ("paper: letter\n", ["letter"])])
def test_the_size_in_the_kit_is_the_only_one_offered(tmp_path: Path, paper: str, offered: list[str]) -> None:
    with client(job_of(tmp_path, torque="10 N·m", kit=INCH + paper)) as pages:
        page = pages.get("/set/head/whole").text
        sent = pages.get("/paper/card/head.pdf").content
    assert re.findall(r"/paper/card/head\.pdf\?size=(\w+)", page) == offered
    assert (b"[0 0 612 792]" in sent) == bool(paper)
