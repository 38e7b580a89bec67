"""The pages of the handbook that are made from the program itself.

Out: Markdown by address below the site's sources.
"""

from __future__ import annotations

from collections.abc import Mapping

from pieceproof.methods import METHODS
from pieceproof.writing.explaining import reference_page
from pieceproof.writing.format_page import format_page

FRONT = "handbook/index.md"
"""The page that a site has if it has a handbook."""


def handbook_pages() -> Mapping[str, str]:
    """The reference of the file format and that of problems."""
    return {
        "handbook/format.md": format_page(METHODS),
        "handbook/problems.md": reference_page(),
    }
