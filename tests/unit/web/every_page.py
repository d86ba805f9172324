"""Every page of the invented job, walked through once from link to link: one copy, one book, each page asked once."""

import re
import time
from collections import deque
from collections.abc import Mapping
from datetime import UTC, datetime
from functools import lru_cache
from html import unescape
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType
from urllib.parse import urlsplit

from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from tests.paired import paired

LINK = re.compile(r'<a\b[^>]*\bhref="(/[^"#]*)')
NO_PAGE = re.compile(
    r"^/(?:static|paper|sheet/photo|photo|under-way)/|\.(?:svg|pdf|png|jpg|crt|ics)$|^/(?:api|pair)\b"
)
MANY = re.compile(r"^/(label|sums|good|set|sheet|strike|record|begin|done|photos)\b(?:/[^/]+)?(/.*)?")
"""Pages of one kind, and what is asked of one of them: a few stand for all, as they are made by one template."""
OF_A_KIND = 6
PATIENCE_S = 60.0


@lru_cache(maxsize=1)
def every_page() -> Mapping[str, str]:
    """Every page that links lead to from the first one, by its address; walked once for all tests that look."""
    with TemporaryDirectory() as folder:
        job = Path(folder) / "demo"
        open_demo(job, now=datetime.now(UTC).astimezone())
        with paired(job / "book.gudgeon") as client:
            return MappingProxyType(_walked(client))


def _walked(client: TestClient) -> dict[str, str]:
    found: dict[str, str] = {}
    ahead, kinds = deque(["/"]), dict[str, int]()
    met = {"/"}
    while ahead:
        address = ahead.popleft()
        kind = MANY.match(urlsplit(address).path)
        if kind:
            of = kind[1] + (kind[2] or "") if kind[1] != "sheet" else urlsplit(address).path
            kinds[of] = kinds.get(of, 0) + 1
            if kinds[of] > OF_A_KIND:
                continue
        answer = client.get(address)
        end = time.monotonic() + PATIENCE_S
        while 'id="work"' in answer.text and time.monotonic() < end:  # something of it is under way still
            time.sleep(0.2)
            answer = client.get(address)
        assert answer.status_code == 200, address
        if "text/html" not in answer.headers["content-type"]:
            continue
        found[address] = answer.text
        for one in map(unescape, LINK.findall(answer.text)):
            if one not in met and not NO_PAGE.search(urlsplit(one).path):
                met.add(one)
                ahead.append(one)
    return found
