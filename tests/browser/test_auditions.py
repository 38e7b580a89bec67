"""Auditions and colourways in a real browser: each copy of the one drawing in its own colours."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, Locator
from small_shop import build, open_shop

from pieceproof.colours import grey

BRICK, OCHRE, SLATE = "#a8482f", "#d09a3e", "#3b5166"


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = open_shop(tmp_path_factory.mktemp("shop"))
    done = build(folder, folder / "site")
    assert done.returncode == 0, done.stderr
    return folder / "site" / "patterns"


def colours(drawing: Locator) -> set[str]:
    """The colours that fill more than a fiftieth of a drawing."""
    picture = Image.open(BytesIO(drawing.screenshot())).convert("RGB")
    found = picture.getcolors(picture.width * picture.height) or []
    return {
        "#{:02x}{:02x}{:02x}".format(*colour)
        for count, colour in found
        if count > picture.width * picture.height / 50
    }


def test_every_top_shows_its_own_candidates(browser: Browser, shop: Path) -> None:
    """Rows by star centre (ochre, rose), columns by border (slate, brick, ochre)."""
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((shop / "eddy-runner" / "auditions" / "index.html").as_uri())
    in_colour, in_grey = page.locator("ul.audition").all()
    tops = in_colour.locator("figure svg").all()
    assert len(tops) == 6
    assert SLATE in colours(tops[0])
    assert {BRICK, OCHRE} <= colours(tops[1])
    assert BRICK not in colours(tops[2])
    assert grey(BRICK) in colours(in_grey.locator("figure svg").nth(1))
    assert BRICK not in colours(in_grey.locator("figure svg").nth(1))
    assert "As it is in the pattern." in in_colour.locator("li").first.inner_text()
    page.close()


@pytest.mark.parametrize("name", ["auditions", "colours"])
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_never_wider_than_the_screen(browser: Browser, shop: Path, name: str, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto((shop / "eddy-runner" / name / "index.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()


def test_colourways_stand_side_by_side(browser: Browser, shop: Path) -> None:
    page = browser.new_page()
    page.goto((shop / "eddy-runner" / "index.html").as_uri())
    page.get_by_role("link", name="All colourways side by side").click()
    ways = page.locator("section.colourway").all()
    assert [way.locator("h2").inner_text() for way in ways] == ["Low Water", "Boathouse"]
    assert BRICK in colours(ways[1].locator(".colourway-tops svg").first)
    assert "Boathouse Brick" in ways[1].locator("table").inner_text()
    page.get_by_role("link", name="Back to the pattern").click()
    page.get_by_role("link", name="Cloths tried out").click()
    assert page.locator("ul.audition").count() == 2
    page.close()
