"""Everything that the patterns add to the site, by its path in the site's source.

In: compiled patterns and how the site addresses pages. Out: pages and files. What was published
of a pattern is kept as long as its bytes are the same, and longer while it has problems.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files as package_files

from pieceproof.pages.catalogue import catalogue_page
from pieceproof.pages.page import Page
from pieceproof.pages.pattern import Published, publish_pattern
from pieceproof.shelf import Shelved

FOLDER = "patterns"
CATALOGUE = f"{FOLDER}/index.md"
STYLES = "assets/pieceproof/pieceproof.css"
SCRIPT = "assets/pieceproof/pieceproof.js"


@dataclass(frozen=True)
class Site:
    """Pages and files by path, and what was published of each pattern."""

    pages: Mapping[str, Page]
    files: Mapping[str, bytes]
    published: Mapping[str, tuple[Shelved, Published]]


NOTHING = Site({}, {}, {})


def publish_site(shelf: Mapping[str, Shelved], last: Site, directory_urls: bool) -> Site:
    """The patterns' part of the site. A pattern with problems keeps what was published last."""
    published = {}
    for slug, shelved in shelf.items():
        before = last.published.get(slug)
        if before is not None and (before[0] is shelved or shelved.pattern.problems):
            published[slug] = before
        elif not shelved.pattern.problems:
            beside = "" if directory_urls else f"{slug}/"
            published[slug] = (shelved, publish_pattern(shelved.pattern, beside))
    ending = "/" if directory_urls else ".html"
    catalogue, rules = catalogue_page(
        [made.card(f"{slug}{ending}", f"{slug}/") for slug, (_, made) in published.items()]
    )
    return Site(
        {
            CATALOGUE: catalogue,
            **{f"{FOLDER}/{slug}.md": made.page for slug, (_, made) in published.items()},
        },
        {
            f"{FOLDER}/catalogue.css": rules.encode(),
            **_static(),
            **{
                f"{FOLDER}/{slug}/{name}": content
                for slug, (_, made) in published.items()
                for name, content in made.files.items()
            },
        },
        published,
    )


def _static() -> Mapping[str, bytes]:
    folder = package_files("pieceproof") / "static"
    return {path: (folder / path.rsplit("/")[-1]).read_bytes() for path in (STYLES, SCRIPT)}
