"""A pattern's page and the files beside it.

In: a pattern without problems, and its prose. Out: a `Page` and files that stand beside it.
Everything is decided here; templates only lay out what they are given.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from pieceproof.compile import Pattern, Sized
from pieceproof.converted import at_least
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.subject import Subject, subject, values
from pieceproof.drawing.scene import Scene
from pieceproof.instructions import show_length
from pieceproof.pages.auditions import PAGE as AUDITIONS
from pieceproof.pages.auditions import auditions_page, seen_by_customers
from pieceproof.pages.catalogue import Card, card
from pieceproof.pages.choices import Option, Variant, choice_rules
from pieceproof.pages.chooser import Axes, axes_of, questions
from pieceproof.pages.cloths import Cut, cloths
from pieceproof.pages.colourways import PAGE as COLOURWAYS
from pieceproof.pages.colourways import colourways_page, values_by_colourway
from pieceproof.pages.corrections import edition_words, notices_by_place
from pieceproof.pages.downloads import (
    booklet_links,
    hatched,
    links,
    picture_files,
    pictures,
    shown,
)
from pieceproof.pages.finishing import finishing
from pieceproof.pages.head import head
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.passages import Told, told
from pieceproof.pages.pictures import Pictured, colour_rules, hatches, print_rules
from pieceproof.pages.points import points
from pieceproof.pages.room import precut_tables
from pieceproof.pages.sewing import Sewn, sewn
from pieceproof.pages.terms import TERMS
from pieceproof.pages.tokens import token, width_token
from pieceproof.prose import Prose
from pieceproof.published import MakeKind

STYLESHEET = "choices.css"


SECTIONS_OF_MAKES = (
    ("units", "Units", (MakeKind.TRIANGLE, MakeKind.UNIT)),
    ("blocks", "Blocks", (MakeKind.BLOCK,)),
    ("top", "Quilt top", (MakeKind.CENTRE, MakeKind.BORDER, MakeKind.TOP)),
)
"""Anchor, heading and what is made below it: together everything that is made."""


@dataclass(frozen=True)
class Published:
    """A pattern as it goes on the site: its page, and the files beside it by name.

    ``covers`` are the pictures of its first size, one for each colourway. ``notices`` say what
    could not be made on this machine. ``more`` are further pages, by their path below its folder.
    """

    pattern: Pattern
    page: Page
    files: Mapping[str, bytes]
    covers: tuple[Pictured, ...]
    notices: tuple[str, ...]
    more: Mapping[str, Page]

    def card(self, page: str) -> Card:
        """Its card in the catalogue; ``page`` is the page's name in its folder."""
        folder = f"{self.pattern.slug}/"
        covers = [replace(cover, src=folder + cover.src) for cover in self.covers]
        return card(self.pattern, folder + page, covers)


@dataclass(frozen=True)
class Part:
    """A section of the page with makes in it."""

    anchor: str
    heading: str
    makes: tuple[Sewn, ...]


def publish_pattern(
    pattern: Pattern, prose: Prose, folder: Mapping[str, bytes], booklets: Mapping[str, bytes]
) -> Published:
    """The page and its files. ``folder`` has the pictures that the prose shows.

    ``booklets`` are its PDF files by name.
    """
    sizes = pattern.sizes
    design = sizes[0].design
    cuts = [Cut(sized, subject(sized.design, sized.publication, sized.drawing)) for sized in sizes]
    scenes = {cut.sized.design.size: plates(cut.subject) for cut in cuts}
    axes = axes_of(sizes, _widths(sizes[0]))
    tops = pictures(
        [sized.design for sized in sizes],
        {size: named["top"] for size, named in scenes.items()},
        pattern.prints,
    )
    files, notices = picture_files(tops)
    covers = shown(axes, tops)
    all_cloths = cloths(axes, cuts)
    parts = _parts(axes, sizes, scenes)
    words = {
        "slug": pattern.slug,
        "stylesheet": STYLESHEET,
        "head": head(axes, sizes, covers, hatched(axes, tops)),
        "told": defaultdict(Told, told(axes.size, prose)),
        "terms": TERMS,
        "hatches": hatches(),
        "chooser": questions(axes, design),
        "measures": axes.measure.options,
        "usable": [Variant({"width": (o.token,)}, o.label) for o in axes.width.options],
        "cloths": all_cloths,
        "precuts": precut_tables(axes.size, sizes),
        "finishing": finishing(axes, sizes),
        "values": values_by_colourway(axes.colourway, sizes[0]),
        "auditions": seen_by_customers(design),
        "points": points(axes.size, sizes, [cut.subject for cut in cuts]),
        "parts": parts,
        "edition": edition_words(sizes[0]),
        "notices": notices_by_place(axes.size, sizes),
        "sections": _sections(parts),
        "downloads": (*booklet_links(axes, pattern, booklets), *links(axes, tops, files.keys())),
    }
    return Published(
        pattern,
        render_page("pattern.md", words),
        {
            **{name: folder[name] for name in prose.pictures},
            **files,
            **{found.file: found.picture.data for found in pattern.prints.values()},
            **booklets,
            **{name: data for cloth in all_cloths for name, data in cloth.files.items()},
            STYLESHEET: _stylesheet(axes, sizes[0]).encode(),
        },
        tuple(cover.content for cover in covers[: len(design.colourways)]),
        notices,
        _more(pattern, cuts[0].subject),
    )


def _more(pattern: Pattern, first: Subject) -> Mapping[str, Page]:
    """Pages below the pattern's own."""
    auditions = auditions_page(pattern.sizes[0], first, pattern.prints)
    return {
        COLOURWAYS: colourways_page(pattern.sizes, first, pattern.prints),
        **({AUDITIONS: auditions} if auditions else {}),
    }


def _widths(sized: Sized) -> list[Option]:
    measure = sized.design.measure
    widths = sized.requirements.usable_widths
    return [
        Option(width_token(width), f"{show_length(measure, width)} ({at_least(measure, width)})")
        for width in widths
    ]


def _sections(parts: Iterable[Part]) -> tuple[tuple[str, str], ...]:
    return (
        ("before-you-start", "Before you start"),
        ("materials", "Materials"),
        ("cutting", "Cutting"),
        ("points-and-seams", "Points and seams"),
        *((part.anchor, part.heading) for part in parts),
        ("finishing", "Finishing"),
        ("downloads", "Downloads"),
    )


def _parts(
    axes: Axes, sizes: Sequence[Sized], scenes: Mapping[str, Mapping[str, Scene]]
) -> tuple[Part, ...]:
    makes = sewn(axes.size, sizes, scenes)
    parts = (
        Part(anchor, heading, tuple(make for make in makes if make.kind in of_kind))
        for anchor, heading, of_kind in SECTIONS_OF_MAKES
    )
    return tuple(part for part in parts if part.makes)


def _stylesheet(axes: Axes, sized: Sized) -> str:
    colours = {token(key): palette(sized.design, key) for key in sized.design.colourways}
    colouring = f"{colour_rules(axes.colourway, colours)}\n{print_rules(values(sized.design))}"
    return f"{choice_rules(axes.all)}\n{colouring}\n"
