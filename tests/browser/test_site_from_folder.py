"""The built site opened from a folder, as from a USB stick, with no server."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

PAGES = (
    "index.html",
    "patterns/index.html",
    "patterns/heron-landing/index.html",
    "handbook/index.html",
    "about.html",
)


@pytest.mark.parametrize("name", PAGES)
def test_asks_nobody_and_breaks_nothing(site: Path, browser: Browser, name: str) -> None:
    page = browser.new_page()
    asked: list[str] = []
    broken: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("requestfailed", lambda request: broken.append(request.url))
    page.on("pageerror", lambda error: broken.append(str(error)))
    page.goto((site / name).as_uri(), wait_until="load")
    page.close()
    local = (site.as_uri(), "data:", "blob:")
    assert [url for url in asked if not url.startswith(local)] == []
    assert broken == []


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_never_wider_than_the_screen(site: Path, browser: Browser, name: str, width: int) -> None:
    """320 px: WCAG 2.2, success criterion 1.4.10."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto((site / name).as_uri())
    wide = page.evaluate("document.documentElement.scrollWidth")
    page.close()
    assert wide <= width


def test_dark_stays_dark_and_is_all_that_is_stored(site: Path, browser: Browser) -> None:
    page = browser.new_page(color_scheme="light")
    page.goto((site / "index.html").as_uri())
    page.get_by_title("Switch to dark").click()
    page.goto((site / "handbook" / "index.html").as_uri())
    assert page.locator("body").get_attribute("data-md-color-scheme") == "slate"
    kept = page.evaluate("[...Object.keys(localStorage), ...Object.keys(sessionStorage)]")
    page.close()
    assert [key.rpartition(".")[2] for key in kept] == ["__palette"]


def test_search_finds_without_a_server(site: Path, browser: Browser) -> None:
    page = browser.new_page(viewport={"width": 1280, "height": 800})
    page.goto((site / "about.html").as_uri())
    page.locator(".md-search__input").click()
    page.keyboard.type("unfinished")
    found = page.locator(".md-search-result__link").first
    found.wait_for()
    assert "handbook/index.html" in (found.get_attribute("href") or "")
    page.close()
