"""By keyboard alone: the way past the header, the menu, the search, light and dark, and the contents."""

import pytest

from conftest import poll

PAGE = "07-pipe-and-fan/pipe-loss/"
# What has focus: its words, whether it can be seen where it stands, whether a ring shows it, which part of the page it is in.
FOCUS = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const place = one.closest(".pick") ?? one, box = place.getBoundingClientRect();
  const top = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, 20));
  const rings = [one, one.nextElementSibling].filter(Boolean).flatMap((part) => [getComputedStyle(part), getComputedStyle(part, "::after")]);
  return {
    words: one.getAttribute("aria-label") || one.textContent.trim() || one.labels?.[0]?.textContent.trim() || "",
    path: one.dataset.path ?? one.closest("[data-path]")?.dataset.path ?? "",
    seen: Boolean(top && (place.contains(top) || top.contains(place)) && box.width > 1 && box.height > 1),
    ring: rings.some((style) => style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2),
    inside: [".md-sidebar--primary", ".md-search", "form.numbers", "main", ".foot", ".turn", ".reach"].find((part) => one.closest(part)) ?? "",
  };
}"""
DRAWER, SEARCH = (f"document.getElementById('{name}').checked" for name in ("__drawer", "__search"))


class Keys:
    """A page and the Tab key."""

    def __init__(self, page, address):
        self.page = page
        page.goto(address)

    def focus(self):
        return self.page.evaluate(FOCUS)

    def tab(self, key="Tab"):
        """Press, and give what has focus; it can be seen and shows its ring, after a moment in which things may slide."""
        self.page.keyboard.press(key)
        poll(lambda: (self.focus() or {}).get("seen"), seconds=5)
        now = self.focus()
        assert now["ring"], f"no ring on {now['words']!r} {now['path']}"
        return now

    def to(self, words, most=40):
        """Tab until what has focus is called so."""
        for _ in range(most):
            now = self.tab()
            if now["words"] == words:
                return now
        raise AssertionError(f"{words!r} was not reached")


@pytest.fixture
def phone(page, site_server):
    """A page with a calculator, 390 px wide."""
    page.set_viewport_size({"width": 390, "height": 844})
    return Keys(page, site_server.url + PAGE)


def test_everything_that_takes_focus_is_in_sight(phone):
    """From the top of a phone's page no stop of the Tab key lies in a closed menu or search, and each shows a ring."""
    stops = [phone.tab() for _ in range(12)]
    assert [stop["words"] for stop in stops[:5]] == ["Skip to content", "Menu", "Change to dark", "Search", "To the numbers"]
    assert not {".md-sidebar--primary", ".md-search"} & {stop["inside"] for stop in stops}


def test_skip_link_passes_the_header(phone):
    """The first stop leads past header and menu into the text."""
    phone.tab()
    phone.page.keyboard.press("Enter")
    assert phone.tab()["inside"] == "main"


def test_menu_is_opened_walked_and_left(phone):
    """Enter opens the menu with the focus in it; Tab goes through all of it and, past its end, closes it; Escape closes it too."""
    page = phone.page
    phone.to("Menu")
    page.keyboard.press("Enter")
    poll(lambda: (phone.focus() or {}).get("inside") == ".md-sidebar--primary")
    names = [phone.focus()["words"]]
    while (now := phone.tab())["inside"] == ".md-sidebar--primary":
        names.append(now["words"])
        assert page.evaluate(DRAWER)
    parts = page.locator(".md-nav--primary > .md-nav__list > .md-nav__item").count()
    assert len(names) > parts >= 15 and names[-1] == "How this is checked"
    assert not page.evaluate(DRAWER)
    assert page.get_by_role("button", name="Menu").get_attribute("aria-expanded") == "false"
    page.get_by_role("button", name="Menu").focus()
    page.keyboard.press("Enter")
    poll(lambda: (phone.focus() or {}).get("inside") == ".md-sidebar--primary")
    phone.tab()
    page.keyboard.press("Escape")
    assert not page.evaluate(DRAWER)
    assert phone.focus()["words"] == "Menu"


def test_menu_leads_to_a_page(phone):
    """Enter on a name in the menu opens that page."""
    phone.to("Menu")
    phone.page.keyboard.press("Enter")
    phone.to("5 The sump")
    phone.page.keyboard.press("Enter")
    phone.page.wait_for_url("**/05-the-sump/")


@pytest.mark.parametrize("width", [390, 1280])
def test_search_is_opened_used_and_left(page, site_server, width):
    """The search opens, finds, leads to what is found by arrows and Enter; Escape leaves it with the focus in sight."""
    page.set_viewport_size({"width": width, "height": 844})
    keys = Keys(page, site_server.url + PAGE)
    keys.to("Search")
    if width == 390:
        page.keyboard.press("Enter")
    poll(lambda: (keys.focus() or {}).get("inside") == ".md-search")
    page.keyboard.type("frost", delay=20)
    poll(lambda: page.locator(".md-search-result__link").count() > 0, 15)
    page.keyboard.press("Escape")
    poll(lambda: not page.evaluate(SEARCH))
    if width == 390:
        assert keys.focus()["words"] == "Search" and keys.focus()["seen"]
    keys.tab()
    page.keyboard.press("/")
    poll(lambda: (keys.focus() or {}).get("inside") == ".md-search")
    poll(lambda: page.evaluate(SEARCH) and page.locator(".md-search-result__link").count() > 0)
    assert keys.tab("ArrowDown")["inside"] == ".md-search"
    assert page.evaluate("document.activeElement.matches('.md-search-result__link')")
    page.keyboard.press("Enter")
    page.wait_for_url("**/frost/")


def test_enter_before_the_search_has_come_sends_nothing(page, site_server):
    """On a slow line the search's script is still under way when Enter is pressed: the page stays, its policy unbroken."""
    page.set_viewport_size({"width": 1280, "height": 844})
    page.goto(site_server.url + PAGE)
    script = page.locator("form[name=search]").get_attribute("data-script")
    page.route(f"**/{script.rpartition('/')[2]}", lambda route: None)
    page.locator("form[name=search] input").first.focus()
    page.keyboard.type("frost")
    page.keyboard.press("Enter")
    page.wait_for_timeout(200)
    assert page.url == site_server.url + PAGE


def test_tab_leaves_the_search_for_something_in_sight(phone):
    """On a phone the search covers the page: the Tab key that leaves it closes it, and leads on into the text."""
    phone.to("Search")
    phone.page.keyboard.press("Enter")
    poll(lambda: (phone.focus() or {}).get("inside") == ".md-search")
    assert phone.to("To the numbers", most=4)["inside"] == "main"
    assert not phone.page.evaluate(SEARCH)


def test_shade_is_changed_by_a_key(phone):
    """Light and dark are one button; Enter and Space change the shade and the focus stays on it."""
    phone.to("Change to dark")
    for key, shade, name in (("Enter", "slate", "Change to light"), ("Space", "default", "Change to dark")):
        phone.page.keyboard.press(key)
        assert phone.page.evaluate("document.body.getAttribute('data-md-color-scheme')") == shade
        assert phone.focus()["words"] == name and phone.focus()["seen"]


def test_contents_say_whether_they_are_open(page, site_server):
    """On a wide screen the button beside a part's name opens its list by Enter and Space, and says so."""
    page.set_viewport_size({"width": 1280, "height": 900})
    keys = Keys(page, site_server.url + PAGE)
    keys.to("Pages of 7 Pipe and fan")
    button = page.get_by_role("button", name="Pages of 7 Pipe and fan")
    inner = page.locator(".md-nav--primary").get_by_role("link", name="What the gauge says")
    for key, said in (("Enter", "false"), ("Space", "true")):
        assert button.get_attribute("aria-expanded") != said
        page.keyboard.press(key)
        assert button.get_attribute("aria-expanded") == said
        poll(lambda said=said: inner.is_visible() is (said == "true"))
