"""Everything that the patterns add to the site, by its path in the site's source.

In: compiled patterns and how the site addresses pages. Out: pages and files. What was published
of a pattern is kept as long as its bytes are the same, and longer while it has problems; these then
stand above its page.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pieceproof.pages.catalogue import catalogue_page
from pieceproof.pages.corrections import corrections_page
from pieceproof.pages.downloads import booklet_files
from pieceproof.pages.failing import failing_catalogue, failing_page
from pieceproof.pages.page import Page
from pieceproof.pages.pattern import Published, publish_pattern
from pieceproof.shelf import Shelved, problem_texts
from pieceproof.workers import each

FOLDER = "patterns"
CATALOGUE = f"{FOLDER}/index.md"
CORRECTIONS = f"{FOLDER}/corrections.md"


@dataclass(frozen=True)
class Site:
    """Pages and files by path, and what was published of each pattern."""

    pages: Mapping[str, Page]
    files: Mapping[str, bytes]
    published: Mapping[str, tuple[Shelved, Published]]

    @property
    def notices(self) -> tuple[str, ...]:
        """What could not be made on this machine, each once."""
        made = self.published.values()
        return tuple(dict.fromkeys(notice for _, p in made for notice in p.notices))


NOTHING = Site({}, {}, {})


def publish_site(
    shelf: Mapping[str, Shelved], last: Site, page_name: str, booklets: Mapping[str, bytes]
) -> Site:
    """The patterns' part of the site. A pattern with problems keeps what was published last.

    ``page_name`` ends the address of a folder's page: "" or "index.html". ``booklets`` are PDF
    files by name.
    """
    published = _published(shelf, last, booklets)
    made = {slug: latest for slug, (_, latest) in published.items()}
    catalogue = catalogue_page([pattern.card(page_name) for pattern in made.values()])
    pages = {
        f"{FOLDER}/{slug}/{path}": page
        for slug, pattern in made.items()
        for path, page in {"index.md": pattern.page, **pattern.more}.items()
    }
    failing = {slug: shelved for slug, shelved in shelf.items() if shelved.problems}
    for slug, shelved in failing.items():
        address = f"{FOLDER}/{slug}/index.md"
        texts = tuple(problem_texts(shelved, shelved.problems))
        pages[address] = failing_page(slug, texts, pages.get(address))
    if failing:
        links = {slug: f"{slug}/{page_name}" for slug in failing}
        catalogue = failing_catalogue(links, catalogue)
    corrections = corrections_page(pattern.pattern for pattern in made.values())
    files = {
        f"{FOLDER}/{slug}/{name}": content
        for slug, pattern in made.items()
        for name, content in pattern.files.items()
    }
    return Site(
        {CATALOGUE: catalogue, CORRECTIONS: corrections, **pages},
        files,
        published,
    )


def _published(
    shelf: Mapping[str, Shelved], last: Site, booklets: Mapping[str, bytes]
) -> dict[str, tuple[Shelved, Published]]:
    kept = {
        slug: last.published[slug]
        for slug, shelved in shelf.items()
        if slug in last.published and (last.published[slug][0] is shelved or shelved.problems)
    }
    new = [slug for slug, shelved in shelf.items() if slug not in kept and not shelved.problems]
    work = [(shelf[slug], booklet_files(shelf[slug].pattern, booklets)) for slug in new]
    made = zip(new, each(_publish, work), strict=True)
    drawn = {slug: (shelf[slug], published) for slug, published in made}
    return {slug: (kept | drawn)[slug] for slug in shelf if slug in kept or slug in drawn}


def _publish(work: tuple[Shelved, Mapping[str, bytes]]) -> Published:
    shelved, booklets = work
    return publish_pattern(shelved.pattern, shelved.prose, shelved.folder, booklets)
