"""The system's Chromium: how tests start it and take pictures with it."""

from __future__ import annotations

import os
import shutil
from io import BytesIO

from PIL import Image
from playwright.sync_api import Browser, Error, Locator, Page, Playwright, sync_playwright

TRIES = 5


def started(playwright: Playwright) -> Browser:
    """Chromium without a graphics card. Root may not use its sandbox (Chromium's own rule)."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    sandbox = ["--no-sandbox"] if os.geteuid() == 0 else []
    return playwright.chromium.launch(executable_path=chromium, args=["--disable-gpu", *sandbox])


def pictured(seen: Page | Locator) -> Image.Image:
    """What is seen, as RGB.

    A busy machine's Chromium sometimes says that it is `Unable to capture screenshot`, before it
    has any picture: then it is asked again.
    """
    for left in reversed(range(TRIES)):
        try:
            return Image.open(BytesIO(seen.screenshot())).convert("RGB")
        except Error as error:
            if left == 0 or "Unable to capture screenshot" not in str(error):
                raise
    raise AssertionError("unreachable")


def drawn_by_chromium(svg: str, size: tuple[int, int]) -> Image.Image:
    """An SVG drawing, in pixels."""
    with sync_playwright() as playwright:
        browser = started(playwright)
        page = browser.new_page(viewport={"width": size[0], "height": size[1]})
        page.set_content(f"<style>body{{margin:0}}svg{{display:block}}</style>{svg}")
        picture = pictured(page)
        browser.close()
    return picture
