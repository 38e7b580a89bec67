"""Auditions and colourways in a real browser: each copy of the one drawing in its own colours."""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from chromium import pictured
from made_page import made
from PIL import Image
from playwright.sync_api import Browser, Locator
from small_shop import PLAIN

from pieceproof.colours import grey
from pieceproof.drawing.style import MARGIN

BRICK, OCHRE, SLATE = "#a8482f", "#d09a3e", "#3b5166"


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("pages"), PLAIN)


def colours(drawing: Locator) -> set[str]:
    """The colours that fill more than a fiftieth of a drawing."""
    picture = pictured(drawing)
    found = picture.getcolors(picture.width * picture.height) or []
    return {
        "#{:02x}{:02x}{:02x}".format(*colour)
        for count, colour in found
        if count > picture.width * picture.height / 50
    }


def test_every_top_shows_its_own_candidates(browser: Browser, shop: Path) -> None:
    """Rows by star centre (ochre, rose), columns by border (slate, brick, ochre)."""
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((shop / "auditions" / "index.html").as_uri())
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
    page.goto((shop / name / "index.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()


def test_colourways_stand_side_by_side(browser: Browser, shop: Path) -> None:
    page = browser.new_page()
    page.goto((shop / "colours" / "index.html").as_uri())
    ways = page.locator("section.colourway").all()
    assert [way.locator("h2").inner_text() for way in ways] == ["Low Water", "Boathouse"]
    assert BRICK in colours(ways[1].locator(".colourway-tops svg").first)
    assert "Boathouse Brick" in ways[1].locator("table").inner_text()
    page.close()


def test_a_print_is_drawn_at_its_true_scale(browser: Browser, tmp_path: Path) -> None:
    """Stripes of half the print's 2 in: on the top, 22 in wide, their edges lie an inch apart."""
    text = PLAIN.replace(
        'colour: "#3b5166"}', 'colour: "#3b5166", swatch: {file: stripe.png, width: 2}}'
    )
    stripe = Image.new("RGB", (100, 100), "#ff0000")
    stripe.paste("#0000ff", (50, 0, 100, 100))
    data = BytesIO()
    stripe.save(data, "PNG")
    folder = made(tmp_path, text, {"stripe.png": data.getvalue()})
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((folder / "colours" / "index.html").as_uri())
    page.wait_for_load_state("load")
    drawing = page.locator(".colourway-tops svg").first
    picture = pictured(drawing)
    row = [picture.getpixel((x, int(picture.height * 0.9))) for x in range(picture.width)]
    changes = [x for x in range(1, len(row)) if (row[x - 1][0] > 127) != (row[x][0] > 127)]
    gaps = sorted(b - a for a, b in pairwise(changes))
    width = float((drawing.get_attribute("viewBox") or "").split()[2])
    inch = (width - 2 * MARGIN) / 22 * picture.width / width
    assert gaps[len(gaps) // 2] == pytest.approx(inch, abs=1.5)
    page.close()
