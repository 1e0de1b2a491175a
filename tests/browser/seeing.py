"""What is looked for on every page: axe's findings, room for the page, names, targets."""

from axe_playwright_python.sync_playwright import Axe

TAGS = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]
FULL = {"resultTypes": ["violations"], "runOnly": {"type": "tag", "values": TAGS}}
COLOURS = {
    "resultTypes": ["violations"],
    "runOnly": {"type": "rule", "values": ["color-contrast"]},
}
WIDE, PHONE, NARROWEST = 1280, 390, 320
HEIGHT = 800
BENCH_TARGET = 44
SMALL = """least => [...document.querySelectorAll('main :is(input:not([type=hidden]), select, .btn, summary)')]
  .filter(it => it.checkVisibility())
  .map(it => [it.closest('label.tick, .box') ?? it, it])
  .filter(([target]) => target.getBoundingClientRect().height < least - 0.5)
  .map(([target, it]) => `${it.id || it.textContent.trim()}: ${target.getBoundingClientRect().height} px`)"""


def findings(page, options):
    """What axe finds, one line each: the rule and the first place."""
    found = Axe().run(page, options=options).response["violations"]
    return [
        f"{it['id']} ({len(it['nodes'])}): {it['nodes'][0]['html'][:160]}"
        for it in found
    ]


def too_wide(page):
    """By how many pixels the page is wider than its window."""
    return page.evaluate(
        "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    )


def small_targets(page, least=BENCH_TARGET):
    return page.evaluate(SMALL, least)


def look(page, where):
    """Every finding on the open page, in both themes and at each width, with where it was."""
    at_width(page, WIDE)
    in_theme(page, "light")
    found = {"wide, light": [*names(page), *findings(page, FULL), *scrolls(page)]}
    in_theme(page, "dark")
    found["wide, dark"] = findings(page, COLOURS)
    at_width(page, PHONE)
    found["phone, dark"] = [*findings(page, FULL), *scrolls(page)]
    in_theme(page, "light")
    found["phone, light"] = findings(page, COLOURS)
    at_width(page, NARROWEST)
    found["narrowest"] = scrolls(page)
    at_width(page, WIDE)
    return [f"{where}, {how}: {it}" for how, those in found.items() for it in those]


def at_width(page, width):
    page.set_viewport_size({"width": width, "height": HEIGHT})


def in_theme(page, theme):
    page.emulate_media(color_scheme=theme, reduced_motion="reduce")


def names(page):
    """A page is told by its title and by one heading."""
    heads = page.locator("h1").all_inner_texts()
    wrong = []
    if len(heads) != 1 or not heads[0].strip():
        wrong.append(f"headings of the first order: {heads}")
    if len(page.title().strip(" -")) < 6 or page.title().startswith(" -"):
        wrong.append(f"title: {page.title()!r}")
    return wrong


def scrolls(page):
    over = too_wide(page)
    return [f"scrolls sideways by {over} px"] if over > 0 else []
