"""Links, codes and kept texts that somebody else made, in a real browser: only ever text, and nothing of the reader's is lost."""

import json
import zlib
from base64 import urlsafe_b64encode
from urllib.parse import quote

import pytest

from calculators.practice import mark
from calculators.practice import paper as papers
from conftest import poll, ready

MARKUP = "<img src=x onerror=document.title='hit'><script>document.title='hit'</script>"
PAPER = papers.compose(number=6, parts=["water-and-pump"], seed="s")
BOMB = zlib.compress(b'{"v":1,"t":["' + b"a" * 5_000_000 + b'"]}', 9)
LINKS = {
    "markup": MARKUP, "empty": "", "not base64": "%%%E0%A4%A", "cut": PAPER.code()[:-4], "endless": "A" * 60_000,
    "unpacks to too much": urlsafe_b64encode(BOMB + zlib.crc32(BOMB).to_bytes(4, "big")).decode().rstrip("="),
    "unknown problem": papers.packed({"v": 1, "t": [MARKUP], "s": "1", "u": "us", "m": 0}),
    "another thing": papers.packed({"h": 1, "p": 1, "n": MARKUP, "r": []}),
}
JUNK = {
    "no JSON": "{", "a list": "[1, 2]", "null": "null", "a number": "7", "markup": json.dumps(MARKUP), "endless": "9" * 300_000,
    "rows of nothing": json.dumps({"pump-head": None, MARKUP: {"slips": None}, "airing": {"row": "x", "tries": -1, "due": 5, "slips": {MARKUP: 9}}}),
    "prototype": '{"__proto__": {"row": 1}, "constructor": {"slips": {"a": 9}}, "file": {"title": {"x": 1}}, "mark": 5}',
}
KEYS = ("/.__palette", "underslab:practice", "underslab:units", "underslab:class", "underslab:job-now", "underslab:job:x", "underslab:paper")
PAGES = ("", "07-pipe-and-fan/pipe-loss/", "job-sheet/", "practice/", "set-a-paper/")


def unharmed(page) -> None:
    """No script of the text ran and nothing of it became an element."""
    assert page.title() not in ("", "hit")
    assert page.locator("main img[src=x], [onerror]").count() == 0
    assert page.evaluate("({}).row === undefined && ({}).slips === undefined")


def start(page, url: str) -> None:
    page.goto(url)
    ready(page)


def test_any_link_of_a_paper_is_refused_in_words(page, site_server):
    """Each bent link is answered in words, in time; then a good link still opens its paper."""
    start(page, site_server.url + "practice/")
    for name, code in LINKS.items():
        page.evaluate("hash => { location.hash = hash; }", "#p=" + quote(code, safe="%"))
        poll(lambda: page.locator("[data-slot=paper]").is_visible())
        if page.locator("[data-act=begin]").count():
            page.fill("#learner", "A. Learner")
            page.click("[data-act=begin]")
            poll(lambda: page.locator("[data-slot=paper] [role=status]").inner_text(), 30)
        else:
            assert "too long" in page.locator("[data-slot=paper]").inner_text(), name
        unharmed(page)
        assert page.locator("[data-slot=paper] section").count() == 0, name
    page.evaluate("hash => { location.hash = hash; }", "#p=" + PAPER.code())
    page.fill("#learner", "A. Learner")
    page.click("[data-act=begin]")
    poll(lambda: page.locator("[data-slot=paper] section[data-problem]").count() == 6, 30)


def test_answers_of_a_paper_outlive_a_reload(page, site_server):
    """Half an hour of answers is there again after a reload, under the same name and only there."""
    page.goto(site_server.url + "practice/#p=" + PAPER.code())
    page.fill("#learner", "A. Learner")
    page.click("[data-act=begin]")
    box = page.locator("[data-slot=paper] input[type=text][data-answer]").first
    box.wait_for(timeout=60_000)
    box.fill("12 gpm")
    page.reload()
    assert page.input_value("#learner") == "A. Learner"
    page.click("[data-act=begin]")
    box.wait_for(timeout=60_000)
    assert box.input_value() == "12 gpm"
    page.reload()
    page.fill("#learner", "B. Other")
    page.click("[data-act=begin]")
    box.wait_for(timeout=60_000)
    assert box.input_value() == ""


def test_any_hand_in_code_is_a_row_or_refused(page, site_server):
    """Names and slips with markup stand as text in the trainer's table; what is no code is listed as refused."""
    marks = [mark(problem, "") for problem in PAPER.problems("x")]
    rows = [["slip", 0.5, "<b onclick=alert(1)>x</b>"]] * 6
    named = papers.packed({"h": 1, "p": zlib.crc32(PAPER.code().encode()), "n": MARKUP[:60], "r": rows})
    codes = [papers.hand_in(PAPER, "Fine", marks), named, MARKUP.replace(" ", "_"), "A" * 3000, PAPER.code()]
    start(page, site_server.url + "set-a-paper/")
    page.locator("#paper-code").fill(PAPER.code())
    page.locator("#codes").fill("\n".join(codes))
    page.click("[data-act=collect]")
    poll(lambda: page.locator("[data-slot=table] tbody tr").count() == 2, 30)
    assert MARKUP[:40] in page.locator("[data-slot=table]").inner_text()
    assert page.locator("[data-slot=table] b, [data-slot=table] img, [onclick]").count() == 0
    unharmed(page)


@pytest.mark.parametrize("name", JUNK)
def test_whatever_the_browser_keeps_pages_work(browser, site_server, name):
    """With every key of ours holding the same junk each page opens without an error, and practice can be chosen."""
    context = browser.new_context(service_workers="block")
    keys, junk = json.dumps(KEYS), json.dumps(JUNK[name])
    context.add_init_script(f"if (!sessionStorage.planted) {{ for (const key of {keys}) localStorage.setItem(key, {junk}); sessionStorage.planted = 1; }}")
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    for address in PAGES:
        page.goto(site_server.url + address)
        page.wait_for_timeout(300)
        unharmed(page)
        assert page.locator("main h1").count() == 1
        if address == "practice/":
            poll(lambda: page.locator("[data-template] button").count() == page.locator("[data-template]").count() > 50)
    assert not wrong, wrong
    assert page.evaluate("localStorage.getItem('underslab:job:x')") == JUNK[name]
    context.close()


FORBIDDEN = {
    "markup put beside an element": "document.body.insertAdjacentHTML('beforeend', '<b>x</b>')",
    "a script's own text": "document.createElement('script').text = 'window.hit = true'",
    "a script of another folder of the host": "document.createElement('script').src = new URL('../else.js', window.__md_scope)",
    "a worker of another folder of the host": "new Worker(new URL('../else.js', window.__md_scope))",
    "a script from outside": "document.createElement('script').src = 'https://example.org/else.js'",
    "a second rule": "trustedTypes.createPolicy('other', {createHTML: (html) => html})",
}
SET_MARKUP = """<p class="c" id="d" onclick="hit()">a <mark data-md-highlight="">b</mark> <a href="javascript:hit()">c</a></p><img src="x">
<iframe srcdoc="x"></iframe><svg><script>hit()</script></svg>"""


def test_the_page_refuses_what_could_become_a_script(browser, serve, site):
    """Whatever slips in: only scripts below the site's start are loaded, no text becomes one, and no second rule is made."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(serve(site, "/some/folder/").url)
    tried = {name: page.evaluate(f"() => {{ try {{ {code}; return 'done'; }} catch (error) {{ return error.name; }} }}")
             for name, code in FORBIDDEN.items()}
    context.close()
    assert tried == dict.fromkeys(FORBIDDEN, "TypeError")


def test_markup_is_cut_down_to_words(browser, site_server):
    """Markup that a script sets, as the theme's search does, keeps words, lists and marks: no link, picture, frame or handler."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(site_server.url)
    left = page.evaluate("(html) => Object.assign(document.createElement('div'), {innerHTML: html}).innerHTML", SET_MARKUP)
    context.close()
    assert "".join(left.split("\n")) == '<p class="c">a <mark data-md-highlight="">b</mark> c</p>hit()'
