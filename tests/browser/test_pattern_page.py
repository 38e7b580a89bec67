"""A pattern's page in a real browser: choosing, remembering, fitting the screen, printing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import pictured
from page_tree import read_page
from playwright.sync_api import Browser, Locator, Page
from small_shop import built_shop

CHOICES = (
    ("small", "low-water", "42", "yards"),
    ("large", "boathouse", "40", "metres"),
)
AXES = ("size", "colourway", "width", "measure")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop's built site."""
    return built_shop(tmp_path_factory) / "site"


@pytest.fixture(scope="module")
def runner(shop: Path) -> str:
    return (shop / "patterns" / "eddy-runner" / "index.html").as_uri()


@pytest.fixture(params=[True, False], ids=["with script", "without script"])
def page(request: pytest.FixtureRequest, browser: Browser, runner: str) -> Iterator[Page]:
    context = browser.new_context(java_script_enabled=request.param)
    page = context.new_page()
    page.goto(runner)
    yield page
    context.close()


def choose(page: Page, choice: tuple[str, ...]) -> None:
    for axis, token in zip(AXES, choice, strict=True):
        page.locator(f"label:has(#pp-{axis}-{token})").click()


def seen(page: Page, selector: str) -> list[str]:
    """The texts of what is displayed, without what the style sheet hides in them."""
    found = page.locator(selector).all()
    return [" ".join(item.inner_text().split()) for item in found if item.is_visible()]


@pytest.mark.parametrize("choice", CHOICES, ids="-".join)
def test_choosing_shows_that_choice_and_no_other(
    page: Page, shop: Path, choice: tuple[str, ...]
) -> None:
    """The browser's own rules leave what the page's marks promise, with or without script."""
    choose(page, choice)
    left = read_page(shop / "patterns" / "eddy-runner" / "index.html")
    left = left.chosen(dict(zip(AXES, choice, strict=True)))
    rows = left.one("table", "materials").all("tbody")
    assert seen(page, ".materials tbody td") == [row.one("td").text for row in rows]
    pieces = [
        cell.text
        for table in left.all("table", "cutting-list")
        for cell in table.all("span", "size")
    ]
    assert seen(page, ".cutting-list .size") == pieces
    makes = [item.text for item in left.all("span", "make-count")]
    assert seen(page, ".make-count") == makes
    assert page.locator(".pattern-head img >> visible=true").count() == 1
    picture = page.locator(".pattern-head img >> visible=true").get_attribute("src")
    assert picture == f"top-{choice[0]}-{choice[1]}.svg"


def test_downloads_follow_the_choice(page: Page) -> None:
    choose(page, CHOICES[1])
    links = page.locator(".downloads a >> visible=true").all()
    assert [link.get_attribute("href") for link in links] == [
        "top-large-boathouse.svg",
        "top-large-boathouse.png",
        "top-large-ink.svg",
        "top-large-outline.svg",
    ]


def test_cautions_stand_before_what_can_hurt(page: Page) -> None:
    """Blades before cutting, iron and needles before sewing, pins before layering."""
    told = seen(page, ".pattern :is(h2, .caution strong)")
    assert told[told.index("Cutting") + 1] == "Blades."
    assert told[told.index("Units") + 1] == "Heat and needles."
    assert told[told.index("Finishing") + 1] == "Pins."


def test_numbers_change_with_each_choice(page: Page) -> None:
    choose(page, ("small", "low-water", "42", "yards"))
    before = {name: seen(page, name) for name in (".materials td", ".make-count", ".key-numbers")}
    choose(page, ("large", "low-water", "42", "yards"))
    assert seen(page, ".make-count") != before[".make-count"]
    assert seen(page, ".key-numbers") != before[".key-numbers"]
    large = seen(page, ".materials td")
    assert large != before[".materials td"]
    choose(page, ("large", "low-water", "42", "metres"))
    assert all(text.endswith(" m") for text in seen(page, ".materials td")[:-1])
    choose(page, ("large", "boathouse", "42", "yards"))
    assert "Boathouse Brick" in " ".join(seen(page, ".materials th"))
    assert "Wet Slate" not in " ".join(seen(page, ".materials th"))


def test_drawings_take_the_colours_of_the_colourway(page: Page) -> None:
    patch = page.locator("#make-point >> xpath=ancestor::li >> .pp-cloth-wing").first
    fill = "element => getComputedStyle(element).fill"
    choose(page, ("small", "low-water", "42", "yards"))
    assert patch.evaluate(fill) == "rgb(59, 81, 102)"  # slate, #3b5166
    choose(page, ("small", "boathouse", "42", "yards"))
    assert patch.evaluate(fill) == "rgb(168, 72, 47)"  # brick, #a8482f


def test_pictures_are_hatched_in_black_on_paper(page: Page) -> None:
    """The cutting drawings and the picture of the top; of both, only what is chosen."""
    strip = page.locator(".twofold >> visible=true").nth(1).locator("img")
    strip.scroll_into_view_if_needed()
    coloured = most_colourful(strip)
    page.emulate_media(media="print")
    top = page.locator(".pattern-head img >> visible=true")
    assert (top.get_attribute("src") or "") == "top-small-ink.svg"
    assert coloured > 30
    assert most_colourful(strip) < 15
    assert most_colourful(top) < 15


def most_colourful(picture: Locator) -> int:
    """How far the strongest of its three lights is from the weakest, at most, from 0 to 255."""
    shot = pictured(picture).resize((60, 60))
    return max(max(colour) - min(colour) for _, colour in shot.getcolors(3600) or [])


def test_keyboard_alone_will_do(page: Page) -> None:
    page.locator("#pp-size-small").focus()
    page.keyboard.press("ArrowRight")
    assert page.locator("#pp-size-large").is_checked()
    assert seen(page, ".make-count")[0] == "Make 12"


def test_the_choice_is_remembered_and_can_be_passed_on(browser: Browser, runner: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(runner)
    choose(page, CHOICES[1])
    assert page.url.endswith("#size=large&colourway=boathouse&width=40&measure=metres&hand=right")
    passed_on = page.url
    page.goto(runner)
    assert page.locator("#pp-size-large").is_checked()
    assert page.locator("#pp-measure-metres").is_checked()
    context.close()
    stranger = browser.new_page()
    stranger.goto(passed_on)
    assert stranger.locator("#pp-colourway-boathouse").is_checked()
    assert seen(stranger, ".make-count")[0] == "Make 12"
    stranger.close()


def test_an_address_with_nonsense_changes_nothing(browser: Browser, runner: str) -> None:
    page = browser.new_page()
    page.goto(f"{runner}#size=%22%3E%3Cscript%3E&colourway=low-water&__proto__=1")
    assert page.locator("#pp-size-small").is_checked()
    page.goto(f"{runner}#cutting")
    assert page.locator("#pp-size-small").is_checked()
    page.close()


def test_ticks_survive_a_reload_for_their_size_only(browser: Browser, runner: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(runner)
    page.locator('input[data-tick="make-point"]').check()
    page.reload()
    assert page.locator('input[data-tick="make-point"]').is_checked()
    choose(page, ("large", "low-water", "42", "yards"))
    assert not page.locator('input[data-tick="make-point"]').is_checked()
    choose(page, ("small", "low-water", "42", "yards"))
    assert page.locator('input[data-tick="make-point"]').is_checked()
    context.close()


def test_it_works_where_nothing_can_be_stored(browser: Browser, runner: str) -> None:
    context = browser.new_context()
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('no'); }});"
    )
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(error.stack or str(error)))
    page.goto(runner)
    choose(page, CHOICES[1])
    page.locator('input[data-tick="make-point"]').check()
    assert [error for error in errors if "pieceproof.js" in error] == []
    assert page.locator("#pp-size-large").is_checked()
    context.close()


def test_cloth_units_and_hand_hold_for_every_pattern(browser: Browser, shop: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto((shop / "patterns" / "eddy-runner" / "index.html").as_uri())
    choose(page, CHOICES[1])
    page.locator("label:has(#pp-hand-left)").click()
    page.goto((shop / "patterns" / "odd-names" / "index.html").as_uri())
    assert page.locator("#pp-measure-metres").is_checked()
    assert page.locator("#pp-hand-left").is_checked()
    context.close()


def test_cutting_drawings_and_words_follow_the_hand(page: Page) -> None:
    drawing = "section.beside figure >> visible=true"
    shown = page.locator(drawing).first.locator("img")
    assert (shown.get_attribute("src") or "").endswith("-right.svg")
    assert page.get_by_text("in the drawings it lies on the left").is_visible()
    page.locator("label:has(#pp-hand-left)").click()
    shown = page.locator(drawing).first.locator("img")
    assert (shown.get_attribute("src") or "").endswith("-left.svg")


def test_the_other_unit_converts_only_what_is_not_cut(page: Page, shop: Path) -> None:
    """37 x 16 1/2 in and the like: 1 in is 2.54 cm exactly."""
    assert "That is about" not in " ".join(seen(page, ".key-numbers"))
    sizes = seen(page, ".cutting-list .size")
    page.locator("label:has(#pp-measure-metres)").click()
    facts = (shop.parent / "patterns" / "eddy-runner" / "facts-small.txt").read_text("utf-8")
    line = next(line for line in facts.splitlines() if line.startswith("finished size, about = "))
    assert line.partition(" = ")[2] in " ".join(seen(page, ".key-numbers"))
    assert seen(page, ".cutting-list .size") == sizes
    assert "drafted in inches" in seen(page, ".note")[0]


def test_it_leads_back_to_where_she_stopped_and_forgets_when_asked(
    browser: Browser, runner: str
) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto(runner)
    assert not page.locator(".progress").is_visible()
    page.locator('input[data-tick="make-point"]').check()
    page.reload()
    page.get_by_role("button", name="Go on at: Star block").click()
    assert page.evaluate("document.activeElement.dataset.tick").startswith("make-star")
    page.get_by_role("button", name="Untick all").click()
    assert page.locator("input[data-tick]:checked").count() == 0
    page.reload()
    assert page.locator("input[data-tick]:checked").count() == 0
    context.close()


def test_the_shopping_list_is_copied_as_it_is_shown(browser: Browser, runner: str) -> None:
    context = browser.new_context(permissions=["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto(runner)
    choose(page, CHOICES[1])
    page.get_by_role("button", name="Copy the shopping list").click()
    page.get_by_text("Copied.").wait_for()
    copied = page.evaluate("navigator.clipboard.readText()")
    for length in seen(page, ".materials tbody td"):
        assert f"{length}  " in copied
    assert "Eddy Runner" in copied
    context.close()


def test_the_shopping_list_prints_alone(browser: Browser, runner: str) -> None:
    page = browser.new_page()
    page.goto(runner)
    page.evaluate("window.print = () => {}")
    page.get_by_role("button", name="Print the shopping list").click()
    page.emulate_media(media="print")
    assert page.locator(".materials").is_visible()
    assert not page.locator(".cutting-list").first.is_visible()
    assert not page.locator(".step").first.is_visible()
    page.close()


def test_drawings_open_large_by_keyboard(browser: Browser, runner: str) -> None:
    page = browser.new_page()
    page.goto(runner)
    button = page.locator(".step .enlarge >> visible=true").first
    place = button.locator("xpath=..")
    button.focus()
    page.keyboard.press("Enter")
    assert page.locator("dialog.large svg").is_visible()
    width = page.locator("dialog.large svg").bounding_box()
    page.get_by_role("button", name="Larger").press("Enter")
    wider = page.locator("dialog.large svg").bounding_box()
    assert width is not None
    assert wider is not None
    assert wider["width"] > width["width"]
    page.keyboard.press("Escape")
    assert place.locator("svg").is_visible()
    assert page.evaluate("document.activeElement.matches('.enlarge')")
    page.close()


def test_terms_are_explained_in_place_without_a_script(page: Page) -> None:
    page.locator(".step .term >> visible=true").first.press("Enter")
    assert page.locator("#term-unfinished").is_visible()
    page.keyboard.press("Escape")
    assert not page.locator("#term-unfinished").is_visible()


PATHS = ("index.html", "eddy-runner/index.html", "odd-names/index.html")


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_never_wider_than_the_screen(shop: Path, browser: Browser, path: str, width: int) -> None:
    """320 px: WCAG 2.2, success criterion 1.4.10. In every size and colourway."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto((shop / "patterns" / path).as_uri())
    for button in page.locator(".chooser input").all():
        button.check(force=True)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()


@pytest.mark.parametrize("path", PATHS)
def test_asks_nobody_and_runs_nothing_strange(shop: Path, browser: Browser, path: str) -> None:
    page = browser.new_page()
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("dialog", lambda dialog: said.append(dialog.message))
    page.goto((shop / "patterns" / path).as_uri(), wait_until="load")
    for button in page.locator(".chooser input").all():
        button.check(force=True)
    page.close()
    assert [url for url in asked if not url.startswith((shop.as_uri(), "data:", "blob:"))] == []
    assert [text for text in said if "alert" in text or text in "1234"] == []


def test_paper_has_the_choice_and_not_the_buttons(browser: Browser, runner: str) -> None:
    page = browser.new_page()
    page.goto(f"{runner}#size=large&colourway=boathouse")
    page.emulate_media(media="print")
    assert seen(page, ".make-count")[0] == "Make 12"
    assert "Three stars" in seen(page, ".chosen")[0]
    page.close()
