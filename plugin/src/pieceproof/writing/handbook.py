"""The pages of the handbook that are made from the program itself.

Out: pages by address below the site's sources. They are the same for every site.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from pieceproof.methods import METHODS
from pieceproof.pages.page import Page
from pieceproof.writing.explaining import reference_page
from pieceproof.writing.format_page import format_page
from pieceproof.writing.method_pages import INDEX, method_pages

FRONT = "handbook/index.md"
"""The page that a site has if it has a handbook."""

FORMAT, PROBLEMS = "handbook/format.md", "handbook/problems.md"

IN_NAVIGATION = (FORMAT, PROBLEMS, INDEX)
"""Pages that a site may name in its navigation; the others are reached from these."""


@cache
def handbook_pages() -> Mapping[str, Page]:
    """The reference of the file format, that of problems, and a page for every method."""
    return {
        FORMAT: Page(format_page(METHODS), ()),
        PROBLEMS: Page(reference_page(), ()),
        **method_pages(),
    }
