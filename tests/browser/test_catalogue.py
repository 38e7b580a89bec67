"""The catalogue in a real browser: searching, narrowing, sorting, passing a view on."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def address(site: Path) -> str:
    return (site / "patterns" / "index.html").as_uri()


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.set_default_timeout(5000)
    page.goto(address)
    yield page
    page.close()


def shown(page: Page) -> list[str]:
    return [h.inner_text() for h in page.locator(".pattern-card h2").all() if h.is_visible()]


def narrow(page: Page) -> None:
    page.get_by_text("Narrow down").click()


def test_all_cards_by_name_at_first(page: Page) -> None:
    names = shown(page)
    assert len(names) >= 10
    assert names == sorted(names)
    assert page.locator(".found").inner_text().split()[0] == str(len(names))


def test_search_finds_words_in_any_order(page: Page) -> None:
    page.get_by_label("Search the patterns").fill("landing HERONS")
    assert shown(page) == ["Heron Landing"]
    page.get_by_label("Search the patterns").fill("zeppelin")
    assert shown(page) == []
    assert page.get_by_text("No pattern is like that").is_visible()
    page.get_by_role("button", name="Show all").click()
    assert len(shown(page)) >= 10


def test_facets_narrow_together(page: Page) -> None:
    narrow(page)
    page.get_by_label("Technique").select_option(label="quarter circle")
    assert shown(page) == ["Oxbow"]
    page.get_by_label("What it makes").select_option(label="baby quilt")
    assert shown(page) == []
    page.get_by_label("Technique").select_option(label="any")
    assert shown(page) == ["Weir Pool"]


def test_skill_precuts_and_forgiving_seams_narrow(page: Page) -> None:
    narrow(page)
    page.get_by_label("Skill").select_option(label="experienced")
    assert {"Last Ferry", "Pilot Star"} <= set(shown(page))
    assert "Weir Pool" not in shown(page)
    page.get_by_label("Skill").select_option(label="any")
    page.get_by_label("Blocks from precuts").select_option(label='2 1/2" strips')
    assert shown(page) == ["Ferry House"]
    page.get_by_label("Blocks from precuts").select_option(label="any")
    page.get_by_label("Points stay whole").check()
    assert "Heron Landing" in shown(page)
    assert "Pilot Star" not in shown(page)


def test_scraps_and_fabrics_narrow(page: Page) -> None:
    narrow(page)
    page.get_by_label("Blocks from scraps").check()
    assert shown(page) == ["Heron Landing", "Pilot Star", "Weir Pool"]
    page.locator("select[name=fabrics]").select_option(label="3 fabrics")
    assert shown(page) == ["Weir Pool"]


def test_sorting_by_finished_size_and_skill(page: Page) -> None:
    page.get_by_label("Sort by").select_option(label="largest first")
    assert shown(page)[0] == "Ferry House"  # 93 x 93 in
    page.get_by_label("Sort by").select_option(label="easiest first")
    names = shown(page)
    assert names.index("Weir Pool") < names.index("Pilot Star")


def test_a_view_can_be_passed_on(page: Page, browser: Browser) -> None:
    narrow(page)
    page.get_by_label("What it makes").select_option(label="table runner")
    page.get_by_label("Sort by").select_option(label="largest first")
    stranger = browser.new_page()
    stranger.goto(page.url)
    assert shown(stranger) == shown(page) == ["Heron Landing", "Oxbow"]  # 1287 and 1275 sq in
    assert stranger.get_by_label("What it makes").is_visible()
    stranger.goto(page.url.split("#")[0] + "#kind=<script>&q=&sort=nonsense")
    stranger.reload()
    assert len(shown(stranger)) >= 10
    stranger.close()


def test_keyboard_alone_will_do(page: Page) -> None:
    page.get_by_label("Search the patterns").focus()
    page.keyboard.type("runner")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.get_by_label("Technique").is_visible()
    assert len(shown(page)) < 10


def test_without_script_all_cards_and_no_filters(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}#q=nothing")
    assert len(shown(page)) >= 10
    assert not page.locator(".filters").is_visible()
    context.close()
