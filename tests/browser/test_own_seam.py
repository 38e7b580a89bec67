"""The reader's own seam on a pattern's page, with and without script."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from made_page import made
from playwright.sync_api import Browser, Page
from small_shop import HOSTILE, PLAIN

MEASURED = "My three strips measure"


@pytest.fixture(scope="module")
def runner(tmp_path_factory: pytest.TempPathFactory) -> str:
    return (made(tmp_path_factory.mktemp("runner"), PLAIN) / "index.html").as_uri()


@pytest.fixture
def page(browser: Browser, runner: str) -> Iterator[Page]:
    context = browser.new_context()
    page = context.new_page()
    page.goto(runner)
    yield page
    context.close()


def test_three_strips_tell_the_seam_and_what_comes_of_it(page: Page) -> None:
    """3 1/4 from three of 1 1/2: (4 1/2 - 3 1/4) / 4 is 5/16."""
    form = page.locator("form.seam-check")
    assert "just what this pattern asks for" in form.inner_text()
    page.get_by_label(MEASURED).select_option('3 1/4"')
    said = form.inner_text()
    assert 'Your seam is 5/16": 1/16" too wide.' in said
    assert 'The star block comes out 9 1/4" x 9 1/4" instead of 9 1/2" x 9 1/2"' in said
    assert form.locator("[data-measured]:visible").count() == 1


def test_the_seam_is_remembered_and_follows_the_size(page: Page) -> None:
    page.get_by_label(MEASURED).select_option('3" or less')
    page.reload()
    assert 'Your seam is 3/8"' in page.locator("form.seam-check").inner_text()
    before = page.locator("form.seam-check").inner_text()
    page.locator("label:has(#pp-size-large)").click()
    assert page.locator("form.seam-check").inner_text() != before


def test_a_metric_pattern_has_metric_strips(browser: Browser, tmp_path: Path) -> None:
    """Six seams of 0.75 cm: 4.5 cm strips, 10.5 cm together."""
    page = browser.new_page()
    page.goto((made(tmp_path, HOSTILE) / "index.html").as_uri())
    page.get_by_label(MEASURED).select_option("9.9 cm")
    assert "Your seam is 0.9 cm: 0.15 cm too wide." in page.locator("form.seam-check").inner_text()
    page.close()


def test_without_script_the_table_says_it(browser: Browser, runner: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(runner)
    assert not page.locator("form.seam-check").is_visible()
    rows = page.locator(".seam-table .table-frame >> visible=true").locator("tbody tr").all()
    assert [row.locator("th").inner_text().split("seam")[0].strip() for row in rows] == [
        *('3 3/4"', '3 1/2"', '3 1/4"', '3"')
    ]
    assert '9 1/4" x 9 1/4"' in rows[2].inner_text()
    context.close()
