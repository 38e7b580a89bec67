"""The handbook's made pages in the built site: one for every method, fit for every screen."""

from __future__ import annotations

from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from page_tree import read_page
from playwright.sync_api import Browser

from pieceproof.methods import METHODS

FILES = {method.name: f"{method.name.replace(' ', '-')}.html" for method in METHODS}


def test_every_method_has_a_page_and_a_picture_in_the_index(site: Path) -> None:
    folder = site / "handbook" / "methods"
    cards = [e for e in read_page(folder / "index.html").all("section") if list(e.all("svg"))]
    linked = [link.attributes["href"] for card in cards for link in card.all("a")]
    assert linked == list(FILES.values())
    for name, file in FILES.items():
        root = read_page(folder / file)
        ids = [e.attributes["id"] for e in root.all() if "id" in e.attributes]
        assert len(ids) == len(set(ids)), name


def test_pages_of_methods_fit_every_screen(site: Path, browser: Browser) -> None:
    """320 px: WCAG 2.2, success criterion 1.4.10."""
    page = browser.new_page(viewport={"width": 320, "height": 800})
    for name in ("index.html", "applique.html", "foundation-piecing.html", "strip-sets.html"):
        page.goto((site / "handbook" / "methods" / name).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, name
    page.close()


def test_a_page_of_a_method_serves_everyone(site: Path, browser: Browser) -> None:
    page = browser.new_page(color_scheme="light")
    for name in ("index.html", "strip-sets.html"):
        page.goto((site / "handbook" / "methods" / name).as_uri())
        found = Axe().run(page, context={"exclude": [["svg > *"]]})
        assert found.response["violations"] == [], name
    page.close()
