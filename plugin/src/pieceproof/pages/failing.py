"""What a writer sees of a pattern that has problems, while the site is served.

In: the problems as text, and the page as it last was right, if it ever was. Out: the page with the
problems above it. A site that is built never has such pages: it is not built.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from pieceproof.pages.page import Page, render_html, render_page


def failing_page(slug: str, problems: Sequence[str], last: Page | None) -> Page:
    """The page of a pattern with problems; ``last`` is its last good one."""
    words = {"slug": slug, "problems": problems, "last": last is not None}
    if last is None:
        return render_page("failing.md", words)
    return above(render_html("pages/failing.html", words), last)


def failing_catalogue(links: Mapping[str, str], catalogue: Page) -> Page:
    """The catalogue with the patterns that have problems above it, by the addresses of pages."""
    return above(render_html("pages/failing-list.html", {"links": links}), catalogue)


def above(html: str, page: Page) -> Page:
    """The page with some HTML above its first fragment."""
    first, *others = page.fragments
    return replace(page, fragments=(html + first, *others))
