"""Practice and papers in a real browser: answers are marked, progress stays, a paper travels in its link."""

from calculators.practice import templates
from calculators.units import from_si
from conftest import poll, ready


def start(page, url):
    """The practice page, its engine running."""
    page.goto(url + "practice/")
    ready(page)


def open_problem(page, id):
    """One problem of a template; the problem that Python makes of the same seed."""
    page.click(f"[data-template={id}] button")
    poll(lambda: page.locator(f"section[data-problem^='{id}/']").count())
    name, seed, units = page.locator("section[data-problem]").get_attribute("data-problem").split("/")
    return templates()[name].problem(seed, units)


def test_an_answer_is_marked_and_progress_stays(page, site_server):
    """A slip is named, the key is not shown before it is asked for, a right answer counts after a reload."""
    start(page, site_server.url)
    problem = open_problem(page, "pump-head")
    slip = problem.slips[0]
    page.fill("[data-answer]", f"{from_si(slip.value, problem.answer.unit):.6g}")
    page.keyboard.press("Enter")
    said = poll(lambda: page.locator(".diagnosis").is_visible() and page.locator(".diagnosis").inner_text())
    assert slip.because.split(".")[0] in said
    assert problem.answer.printed() not in said
    page.fill("[data-answer]", f"{from_si(problem.answer.value, problem.answer.unit):.6g}")
    page.keyboard.press("Enter")
    poll(lambda: "Right" in page.locator(".diagnosis").inner_text())
    page.click("[data-act=working]")
    poll(lambda: problem.answer.printed() in page.locator(".diagnosis").inner_text())
    page.reload()
    poll(lambda: "practised" in page.locator("[data-template=pump-head]").inner_text())


def test_a_wrong_clock_puts_no_repeat_out_of_reach(page, site_server):
    """What was practised under a clock years ahead is due again when the clock is right; what is due in days is not."""
    page.clock.set_fixed_time("2037-01-01")
    start(page, site_server.url)
    problem = open_problem(page, "pump-head")
    page.fill("[data-answer]", f"{from_si(problem.answer.value, problem.answer.unit):.6g}")
    page.keyboard.press("Enter")
    item = page.locator("[data-template=pump-head]")
    poll(lambda: "practised" in item.inner_text())
    page.clock.set_fixed_time("2036-12-31")
    page.reload()
    assert "practised" in item.inner_text()
    page.clock.set_fixed_time("2026-01-01")
    page.reload()
    assert "due again" in item.inner_text()


def test_an_unreadable_answer_loses_nothing(page, site_server):
    """Text that is no number is explained, stays in the box and does not count."""
    start(page, site_server.url)
    open_problem(page, "pump-head")
    page.fill("[data-answer]", "<img src=x onerror=alert(1)>")
    page.keyboard.press("Enter")
    poll(lambda: page.locator(".diagnosis").is_visible() and "Not read" in page.locator(".diagnosis").inner_text())
    assert page.input_value("[data-answer]").startswith("<img")
    assert page.locator(".diagnosis img").count() == 0
    assert page.evaluate("localStorage.getItem('underslab:practice')") in (None, "{}")


def test_a_paper_travels_in_its_link(page, site_server):
    """Trainer to learner to trainer: link, hand-in code, table; a bent code and a bent link are refused with words."""
    page.goto(site_server.url + "set-a-paper/")
    ready(page)
    page.fill("#number", "3")
    page.click("text=Make the paper")
    poll(lambda: page.locator(".qr path").count())
    link = page.locator(".link-line a").get_attribute("href")
    learner = page.context.new_page()
    learner.goto(link)
    poll(lambda: learner.locator("#learner").is_visible(), 60)
    learner.click("[data-act=begin]")
    poll(lambda: "Write your name first" in learner.locator("[data-slot=paper] [role=status]").inner_text(), 60)
    learner.fill("#learner", "<b>Ann</b>")
    learner.click("[data-act=begin]")
    poll(lambda: learner.locator("section[data-problem]").count() == 3, 60)
    learner.click("[data-act=hand-in]")
    poll(lambda: learner.locator("#hand-in-code").count())
    code = learner.input_value("#hand-in-code")
    page.fill("#codes", f"{code}\n{code[:-3]}abc")
    page.click("[data-act=collect]")
    poll(lambda: page.locator("[data-slot=table] tbody tr").count() == 1)
    assert page.locator("[data-slot=table] tbody th").inner_text() == "<b>Ann</b>"
    assert "was changed" in page.locator("[data-slot=table]").inner_text()
    page.reload()
    poll(lambda: "Ready" in page.locator("[data-slot=said]").inner_text(), 60)
    page.fill("#paper-code", link)  # another day: the whole link is enough to read the codes
    page.fill("#codes", code)
    page.click("[data-act=collect]")
    poll(lambda: page.locator("[data-slot=table] tbody tr").count() == 1)
    learner.goto(link[:-4])
    learner.reload()
    poll(lambda: learner.locator("[data-act=begin]").is_visible(), 60)
    learner.click("[data-act=begin]")
    poll(lambda: "was changed" in learner.locator("[data-slot=paper] [role=status]").inner_text())


def test_a_practice_house_by_keyboard_alone(page, site_server):
    """On a phone's width and without a mouse: open, decide on each, hand in, read what each choice counted and why."""
    page.set_viewport_size({"width": 390, "height": 844})
    start(page, site_server.url)
    page.focus("[data-template=house-with-drain] button")
    page.keyboard.press("Enter")
    poll(lambda: page.locator("section[data-problem^='house-with-drain/']").count())
    name, seed, units = page.locator("section[data-problem]").get_attribute("data-problem").split("/")
    decisions = templates()[name].problem(seed, units).answer.decisions
    assert page.locator("[data-decision]").count() == len(decisions)

    def decide(places):
        page.focus("section[data-problem] h3")
        for place in places:
            page.keyboard.press("Tab")
            for _ in range(place):
                page.keyboard.press("ArrowDown")
            if place == 0:
                page.keyboard.press("Space")
        page.keyboard.press("Enter")

    page.focus("section[data-problem] h3")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    said = poll(lambda: page.locator(".diagnosis").is_visible() and page.locator(".diagnosis").inner_text())
    assert "Not yet decided" in said and decisions[1].name in said
    page.click("[data-act=again]")
    poll(lambda: page.locator("section[data-problem]").get_attribute("data-problem") != f"{name}/{seed}/{units}")
    name, seed, units = page.locator("section[data-problem]").get_attribute("data-problem").split("/")
    decisions = templates()[name].problem(seed, units).answer.decisions
    worst = min(range(len(decisions[0].ways)), key=lambda i: decisions[0].ways[i].credit)
    decide([worst, *(decision.best()[0] for decision in decisions[1:])])
    said = poll(lambda: page.locator(".diagnosis").is_visible() and page.locator(".diagnosis").inner_text())
    assert "In part." in said and decisions[0].ways[worst].because in said
    assert decisions[0].ways[decisions[0].best()[0]].because not in said
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    decide([decision.best()[0] for decision in decisions])


def test_ready_for_the_first_job(page, site_server):
    """The view counts by part, knows the questions on what stops the work, and brings back a slip that came twice."""
    start(page, site_server.url)
    assert page.locator("[data-ready]").count() == 11
    row = page.locator("[data-ready=water-and-pump]")
    assert row.locator("[data-slot=right]").inner_text().startswith("0 of ")
    for _ in range(2):
        problem = open_problem(page, "pump-head")
        slip = problem.slips[0]
        page.fill("[data-answer]", f"{from_si(slip.value, problem.answer.unit):.6g}")
        page.keyboard.press("Enter")
        poll(lambda: page.locator(".diagnosis").is_visible())
        page.evaluate("document.querySelector('section[data-problem]').remove()")
    assert row.locator("[data-slot=back]").inner_text() != "none"
    problem = open_problem(page, "pump-stops")
    right = next(i for i, option in enumerate(problem.answer.options) if option.right)
    page.locator("section[data-problem] label.pick").nth(right).click()
    page.click("section[data-problem] [type=submit]")
    poll(lambda: row.locator("[data-slot=stops]").inner_text().startswith("1 of "))
    assert row.locator("[data-slot=right]").inner_text().startswith("1 of ")
    assert "Fewer than 4 problems right in 11 parts" in page.locator("[data-slot=ready-say]").inner_text()
    assert "Your trainer and your state" in page.locator("[data-slot=ready-say]").inner_text()


def test_practice_works_without_a_network(page, serve, site):
    """After one visit and with the server stopped, problems are made and marked."""
    server = serve(site)
    page.goto(server.url + "practice/")
    poll(lambda: page.locator("#offline-state").inner_text().startswith("Ready"), 90)
    server.stop()
    page.reload()
    ready(page)
    open_problem(page, "relief-hole-flow")
    assert page.locator("[data-answer]").count() == 1
