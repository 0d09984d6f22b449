"""Points on the suction plan in Chromium: fingers, mouse and keys write the numbers, and the plan is drawn from them."""

from typing import Any

import pytest

from conftest import poll

PAGE = "04-under-the-slab/reach/"
SHAPES = {"phone": (390, True), "desk": (1100, False)}


class Plan:
    """The page of the suction plan with its points shown."""

    def __init__(self, page: Any, url: str) -> None:
        self.page = page
        page.goto(url + PAGE)
        poll(lambda: "answer follows" in page.locator("[data-slot=engine]").first.inner_text(), seconds=60)
        poll(lambda: page.locator("[data-act=points]").is_visible())
        page.locator("[data-act=points]").click()
        page.locator(".rings").scroll_into_view_if_needed()

    def ring(self, name: str) -> Any:
        return self.page.locator(f".rings button[aria-label^='{name}:']")

    def box(self, path: str) -> str:
        return str(self.page.locator(f"[data-path='{path}']").input_value())

    def drawn(self) -> str:
        return str(self.page.locator("[data-slot=drawing] svg .wall").get_attribute("d"))

    def drag(self, name: str, dx: float, dy: float, touch: bool) -> None:
        place = self.ring(name).bounding_box()
        x, y = place["x"] + place["width"] / 2, place["y"] + place["height"] / 2
        if not touch:
            self.page.mouse.move(x, y)
            self.page.mouse.down()
            self.page.mouse.move(x + dx / 2, y + dy / 2)
            self.page.mouse.move(x + dx, y + dy)
            self.page.mouse.up()
            return
        session = self.page.context.new_cdp_session(self.page)
        for kind, points in (("touchStart", (0.0,)), ("touchMove", (0.5, 1.0)), ("touchEnd", ())):
            for share in points or (None,):
                at = [] if share is None else [{"x": x + dx * share, "y": y + dy * share}]
                session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": at})


@pytest.fixture(params=SHAPES)
def plan(request: Any, browser: Any, site_server: Any) -> Any:
    width, touch = SHAPES[request.param]
    context = browser.new_context(viewport={"width": width, "height": 844}, has_touch=touch, service_workers="block")
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)) if "plan.js" in str(error.stack) else None)
    yield Plan(page, site_server.url), touch
    context.close()
    assert not faults


def test_points_stay_away_until_they_are_asked_for(plan: Any) -> None:
    """The switch shows and hides them, and says which; each is 44 px wide and high, named with its numbers."""
    shown, _ = plan
    rings = shown.page.locator(".rings button")
    assert rings.count() == 9  # pit, two places to read, two ends of a footing, place and size of two rectangles
    for ring in rings.all():
        place = ring.bounding_box()
        assert place["width"] >= 44 and place["height"] >= 44
    assert shown.ring("Pit 1").get_attribute("aria-label") == "Pit 1: x 1 ft, y 20 ft"
    switch = shown.page.locator("[data-act=points]")
    assert switch.get_attribute("aria-pressed") == "true"
    switch.click()
    assert rings.count() == 0 and switch.get_attribute("aria-pressed") == "false"


def test_a_drag_only_writes_numbers_and_the_plan_follows(plan: Any) -> None:
    """A rectangle's far corner moves its width and depth by half feet; the walls are then drawn from them."""
    shown, touch = plan
    before = shown.drawn()
    shown.drag("Rectangle 1, size", -30, 20, touch)
    poll(lambda: shown.drawn() != before)
    width, depth = float(shown.box("slab[0].width")), float(shown.box("slab[0].depth"))
    assert width < 30 and depth < 24 and (2 * width).is_integer() and (2 * depth).is_integer()
    assert (shown.box("slab[0].x"), shown.box("slab[0].y")) == ("0", "0")
    assert shown.ring("Rectangle 1, size").get_attribute("aria-label") == f"Rectangle 1, size: width {width:g} ft, depth {depth:g} ft"


def test_arrow_keys_nudge_and_keep_their_point(plan: Any) -> None:
    """Arrow keys move by half a foot, with Shift by five times that, and the point has the focus after the plan is new."""
    shown, _ = plan
    before = shown.page.locator("[data-slot=drawing]").inner_text()
    shown.ring("Place to read 1").focus()
    for key in ("ArrowLeft", "ArrowLeft", "ArrowUp", "Shift+ArrowDown"):
        shown.page.keyboard.press(key)
    assert (shown.box("probes[0].x"), shown.box("probes[0].y")) == ("21", "12")
    poll(lambda: "x 21 ft, y 12 ft" in (shown.ring("Place to read 1").get_attribute("aria-label") or ""))
    poll(lambda: shown.page.evaluate("document.activeElement.dataset.point") == "probes[0].x")
    assert before


def test_points_speak_the_chosen_system(plan: Any) -> None:
    """In SI a nudge is 0.1 m, in the boxes of the table too, which carry no unit of their own."""
    shown, _ = plan
    system = shown.page.locator("[data-units][value=si]").first
    system.scroll_into_view_if_needed()
    shown.page.wait_for_timeout(200)  # fields take their own height when they come near
    system.check(force=True)
    poll(lambda: "width 9.144 m" in (shown.ring("Rectangle 1, size").get_attribute("aria-label") or ""))
    shown.ring("Rectangle 1, size").focus()
    shown.page.keyboard.press("ArrowRight")
    assert shown.box("slab[0].width") == "9.2"
