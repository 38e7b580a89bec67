"""Where links in a pattern's prose may lead: to a place of its page, or a picture of its folder.

In: facts, and the prose with its headings. Out: the names of places on the page. Whether a link
leads to one of them is checked in `prose_markup`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from pieceproof.methods.method import SET_B

_OF_EVERY_PAGE = (
    *("before-you-start", "materials", "light-and-dark", "cutting", "points-and-seams"),
    *("top", "finishing", "downloads"),
)
_MAKE = re.compile(r"(?:(unit|block) )?(.+), make")
_HEADING = re.compile(r"^#{3,6}[ \t]+([^\n]*?)[ \t#]*$", re.MULTILINE)


def anchors(text: str, keys: Iterable[str]) -> tuple[str, ...]:
    """All places of the page. ``keys`` are those of the facts of all sizes.

    >>> anchors("### The river, twice", ["block star, make"])[-3:]
    ('blocks', 'make-star', 'the-river-twice')
    """
    found = (*_OF_EVERY_PAGE, *_of_makes(keys), *_of_headings(text))
    return tuple(dict.fromkeys(found))


def _of_makes(keys: Iterable[str]) -> Iterator[str]:
    for match in filter(None, map(_MAKE.fullmatch, keys)):
        if match[1]:
            yield f"{match[1]}s"
        if not match[2].endswith(SET_B):  # on the page with the first set
            yield f"make-{match[2].replace(' ', '_')}"


def _of_headings(text: str) -> Iterator[str]:
    """As the page's table of contents names them: Python-Markdown's documented rule."""
    for match in _HEADING.finditer(text):
        plain = re.sub(r"[^\w\s-]", "", match[1]).strip().lower()
        yield re.sub(r"[-\s]+", "-", plain)
