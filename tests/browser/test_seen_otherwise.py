"""A page seen otherwise: in colors that the reader has forced, without motion, and on a phone that lies on its side."""

from playwright.sync_api import expect

from tests.browser.conftest import Arrive
from tools.chromium import PHONE
from tools.served import Served

ON_ITS_SIDE = (PHONE[1], PHONE[0])
MOVES = """() => document.getAnimations().length + [...document.querySelectorAll('*')].filter((one) => {
  const style = getComputedStyle(one);
  return style.animationName !== 'none' || style.transitionDuration.split(', ').some((time) => parseFloat(time) > 0);
}).length"""
SHAPES = """() => [...document.querySelectorAll('main .state')].map((state) => {
  const lines = [...state.querySelectorAll('svg *')].map((part) => {
    const style = getComputedStyle(part);
    return [part.localName, part.getAttribute('d') || '', part.getAttribute('class'), style.fill, style.stroke];
  });
  return { words: state.innerText.trim(), ink: getComputedStyle(state).color, lines };
})"""


def test_with_forced_colors_states_keep_their_shapes_and_words(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading)
    visitor.page.emulate_media(forced_colors="active", color_scheme="dark")
    drawn: dict[str, set[str]] = {}
    for address in ("/good", "/set/head", "/start", "/"):
        visitor.go(address)
        for state in visitor.page.evaluate(SHAPES):
            assert state["words"] != ""
            assert state["lines"] != [], f"{state['words']} has no shape"
            paints = [paint for line in state["lines"] if line[2] != "cut" for paint in line[3:]]
            assert state["ink"] in paints, f"{state['words']}: its shape is not in the color of its words"
            drawn.setdefault(str([line[:3] for line in state["lines"]]), set()).add(state["words"])
    assert len(drawn) >= 5, drawn


def test_nothing_moves_for_who_wants_no_motion(arrive: Arrive, reading: Served) -> None:
    visitor = arrive(reading)
    visitor.page.emulate_media(reduced_motion="reduce")
    for address in ("/", "/set/head", "/good/part/Cylinder%20block", "/photos"):
        visitor.go(address)
        assert visitor.page.evaluate(MOVES) == 0, address


def test_on_its_side_the_pull_is_whole(arrive: Arrive, served: Served) -> None:
    """A phone on the bench, on its side: bolt and figure in sight at once, the answers a swipe away."""
    visitor = arrive(served, size=ON_ITS_SIDE)
    visitor.go("/set/head")
    visitor.look()
    pull = visitor.page.get_by_role("region", name="The next pull")
    expect(pull).to_be_visible()
    assert "\n".join(visitor.faults()) == ""
    visitor.go("/set/head#next")
    expect(pull.locator(".pull-where b")).to_be_in_viewport()
    expect(pull.locator(".pull-figure")).to_be_in_viewport()
