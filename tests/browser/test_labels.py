"""Labels in a real browser: a code is typed, or read by a camera where the browser can; the thing is put back."""

import pytest
from playwright.sync_api import expect

from gudgeon.bench.context import open_bench
from gudgeon.bench.labels.things import labeled
from tests.browser.conftest import Arrive
from tests.browser.test_axe import violations
from tools.chromium import PHONE
from tools.served import Served

CAMERA = """code => {
  navigator.mediaDevices.getUserMedia = async () => document.createElement("canvas").captureStream();
  HTMLMediaElement.prototype.play = async () => {};
  let looks = 0;
  window.BarcodeDetector = class { async detect() {
    looks += 1;
    return looks < 2 ? [{ rawValue: "the code of a parcel" }] : [{ rawValue: `GUDGEON ${code}` }];
  } };
}"""
"""What stands outside of our machine: a camera, and the browser's own reader of codes."""


def code_in(server: Served, key: str) -> str:
    bench = open_bench(server.book)
    try:
        return next(one.code for one in labeled(bench) if one.key == key)
    finally:
        bench.store.close()


def test_what_is_refused(arrive: Arrive, reading: Served) -> None:
    """The pages as such are walked to by the tests of every page; here those that say no."""
    visitor = arrive(reading, size=PHONE)
    slip = code_in(reading, "hose_top")[:5]
    for address, status in ((f"/label/{slip}", 404), ("/paper/labels.pdf?rows=8&columns=3&label=90x30", 422)):
        visitor.expects(status)
        assert visitor.go(address) == status
        assert visitor.faults() == []
        assert "\n".join(violations(visitor)) == ""


def test_a_code_is_typed_and_the_thing_put_back(arrive: Arrive, served: Served) -> None:
    visitor = arrive(served, size=PHONE)
    code = code_in(served, "hose_top")
    visitor.go("/open")
    visitor.page.get_by_role("link", name="Look up a label").click()
    visitor.fill("The code on the label", f"{code[:3].lower()} {code[3:]}")
    visitor.press("Look it up")
    expect(visitor.page.get_by_role("heading", name="Top radiator hose")).to_be_visible()
    visitor.page.get_by_role("link", name="Put it back").click()
    visitor.page.locator("main form button[type=submit]").first.click()
    expect(visitor.page.get_by_text("back on since")).to_be_visible()


@pytest.mark.parametrize("can", [True, False], ids=["a browser that can", "one that cannot"])
def test_the_camera_is_a_comfort(arrive: Arrive, reading: Served, can: bool) -> None:
    visitor = arrive(reading, size=PHONE)
    code = code_in(reading, "strap_body")
    if can:
        visitor.page.add_init_script(f"({CAMERA})('{code}')")
    visitor.go("/label")
    button = visitor.page.get_by_role("button", name="Read it with the camera")
    if not can:
        expect(button).to_be_hidden()
        return
    button.click()
    expect(visitor.page.get_by_role("heading", name="Ground strap, head to bulkhead")).to_be_visible()
    assert visitor.page.url.endswith(f"/label/{code}")
