"""Kit sheets on paper and on a phone: nothing wider than the page, no label cut short."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
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


@pytest.mark.parametrize("paper", PAPER_MM)
@pytest.mark.parametrize("kits", [1, 12])
def test_what_stays_together_on_paper(
    counter: Path, browser: Browser, tmp_path: Path, paper: str, kits: int
) -> None:
    """No label is cut by the end of a page or alone on one; rows of strips have their heads.

    Two bags' lists share a sheet.
    """
    size = "small" if kits == 1 else "large"
    sheet = counter / f"eddy-runner-{size}-low-water-{kits}" / "index.html"
    page = browser.new_page()
    page.goto(sheet.as_uri())
    page.add_style_tag(path=LOOKS)
    page.pdf(path=tmp_path / "sheet.pdf", format=paper)
    page.close()
    texts = [
        " ".join(sheet.get_textpage().get_text_bounded().split())
        for sheet in pypdfium2.PdfDocument(tmp_path / "sheet.pdf")
    ]
    for text in texts:
        piles, bags = (len(re.findall(words, text)) for words in PARTS_OF_LABELS)
        assert text.count(" in each bag") == piles
        assert text.count("finished ") == bags
        assert piles + bags != 1
        if re.search(r"stacks? of \d|left whole", text):
            assert "and stack" in text
    lists = [text.count("In each bag of ") for text in texts]
    assert [count for count in lists if count] == [1 if kits == 1 else 2]
    assert sum(text.count("Pieces of cloth in all") for text in texts) == sum(lists)
    assert sum(len(re.findall(PARTS_OF_LABELS[1], text)) for text in texts) == kits
    assert f"page 1 of {len(texts)}" in texts[0]
    assert not any(text.removesuffix(f"of {len(texts)}").count(" ") < 10 for text in texts)


PARTS_OF_LABELS = (r"in pile \d+ of \d+", r"Kit \d+ of \d+")


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


@pytest.mark.parametrize("paper", PAPER_MM)
def test_two_colourways_share_a_sheet(
    counter: Path, browser: Browser, tmp_path: Path, paper: str
) -> None:
    """Each with its drawings, its cloths and its verdict in one piece."""
    page = browser.new_page()
    page.goto((counter.parent / "patterns" / "eddy-runner" / "colours" / "index.html").as_uri())
    page.add_style_tag(path=LOOKS)
    page.pdf(path=tmp_path / "colours.pdf", format=paper)
    page.emulate_media(media="print")
    for way in page.locator("section.colourway").all():
        assert way.evaluate("way => getComputedStyle(way).breakInside") == "avoid"
    page.close()
    (text,) = (
        " ".join(sheet.get_textpage().get_text_bounded().split())
        for sheet in pypdfium2.PdfDocument(tmp_path / "colours.pdf")
    )
    assert all(name in text for name in ("Low Water", "Boathouse"))
