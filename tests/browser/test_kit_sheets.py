"""Kit sheets on paper and on a phone: nothing wider than the page, no label cut short."""

from __future__ import annotations

from pathlib import Path

import pytest
from names_for_all import violations
from playwright.sync_api import Browser
from small_shop import built_shop

BATCHES = (
    "eddy-runner-large-low-water-12",
    "eddy-runner-large-low-water-12-lamp-gold",
    "odd-names-one_size-one-3-110-wide",
)
PAPER_MM = {"Letter": 215.9, "A4": 210}
MARGINS_MM = 30
LOOKS = Path(__file__).parents[2] / "site_src" / "assets" / "css" / "ferrygate.css"


@pytest.fixture(scope="module")
def counter(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shop's own pages."""
    return built_shop(tmp_path_factory, PIECEPROOF_SHOP="true") / "site" / "shop"


SHORT_LABELS = """
    [...document.querySelectorAll('.kit-labels > li')]
        .filter(li => li.scrollHeight > li.clientHeight || li.scrollWidth > li.clientWidth)
        .map(li => li.innerText)
"""


@pytest.mark.parametrize("name", BATCHES)
def test_on_paper(counter: Path, browser: Browser, name: str) -> None:
    """At the width of the paper between its margins; 96 px are an inch (CSS Values 3, 6.2)."""
    page = browser.new_page()
    page.emulate_media(media="print")
    page.goto((counter / name / "index.html").as_uri())
    for paper in PAPER_MM.values():
        width = int((paper - MARGINS_MM) / 25.4 * 96)
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.evaluate(SHORT_LABELS) == []
        assert not page.locator(".screen-only >> visible=true").count()
    page.close()


@pytest.mark.parametrize(
    ("name", "scheme"), [(BATCHES[1], "slate"), ("proof/eddy-runner", "default")]
)
def test_axe_finds_nothing(counter: Path, browser: Browser, name: str, scheme: str) -> None:
    """In the shop's own looks, light and dark."""
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((counter / name / "index.html").as_uri())
    page.add_style_tag(path=LOOKS)
    page.add_style_tag(content="*{transition:none!important}")  # Colours half way are none.
    page.evaluate(f"document.body.dataset.mdColorScheme = '{scheme}'")
    assert violations(page) == []
    page.close()


@pytest.mark.parametrize("name", ["", *BATCHES])
def test_never_wider_than_the_screen(counter: Path, browser: Browser, name: str) -> None:
    """320 px: WCAG 2.2, success criterion 1.4.10."""
    page = browser.new_page()
    page.goto((counter / name / "index.html").as_uri())
    for width in (320, 390, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()
