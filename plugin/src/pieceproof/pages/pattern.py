"""A pattern's page and the files beside it.

In: a pattern without problems and how the site addresses pages. Out: a `Page` and files by name.
Everything is decided here; templates only lay out what they are given.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from pieceproof.compile import Pattern, Sized
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.subject import subject
from pieceproof.drawing.scene import Scene
from pieceproof.pages.catalogue import Card, card
from pieceproof.pages.choices import Option, choice_rules
from pieceproof.pages.chooser import Axes, axes_of, questions
from pieceproof.pages.downloads import Pictured, links, picture_files, pictures, shown
from pieceproof.pages.head import head
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.pictures import colour_rules
from pieceproof.pages.sewing import Sewn, sewn
from pieceproof.pages.tokens import token
from pieceproof.published import MakeKind

STYLESHEET = "choices.css"


@dataclass(frozen=True)
class Published:
    """A pattern as it goes on the site: its page, and files that stand in a folder of its name.

    ``notices`` say what could not be made on this machine.
    """

    pattern: Pattern
    page: Page
    files: Mapping[str, bytes]
    cover: Pictured
    notices: tuple[str, ...]

    def card(self, href: str, beside: str) -> Card:
        """Its card in the catalogue, with a picture of the first size and colourway."""
        return card(self.pattern, href, replace(self.cover, src=beside + self.cover.src))


@dataclass(frozen=True)
class Part:
    """A section of the page with makes in it."""

    anchor: str
    heading: str
    makes: tuple[Sewn, ...]


def publish_pattern(pattern: Pattern, beside: str) -> Published:
    """The page and its files. ``beside`` leads from the page to the folder of its files."""
    sizes = pattern.sizes
    design = sizes[0].design
    scenes = {s.design.size: plates(subject(s.design, s.publication, s.drawing)) for s in sizes}
    axes = axes_of(sizes, [Option("42", '42"')])
    tops = pictures(
        [sized.design for sized in sizes], {size: named["top"] for size, named in scenes.items()}
    )
    files, notices = picture_files(tops)
    parts = _parts(axes, sizes, scenes)
    words = {
        "slug": pattern.slug,
        "stylesheet": beside + STYLESHEET,
        "head": head(axes, sizes, shown(axes, tops, beside)),
        "chooser": questions(axes, design),
        "parts": parts,
        "sections": _sections(parts),
        "downloads": links(axes, tops, files.keys(), beside),
    }
    return Published(
        pattern,
        render_page("pattern.md", words),
        {**files, STYLESHEET: _stylesheet(axes, sizes[0]).encode()},
        shown(axes, tops, "")[0].content,
        notices,
    )


def _sections(parts: Iterable[Part]) -> tuple[tuple[str, str], ...]:
    return (
        ("before-you-start", "Before you start"),
        ("materials", "Materials"),
        ("cutting", "Cutting"),
        *((part.anchor, part.heading) for part in parts),
        ("finishing", "Finishing"),
        ("downloads", "Downloads"),
    )


def _parts(
    axes: Axes, sizes: Sequence[Sized], scenes: Mapping[str, Mapping[str, Scene]]
) -> tuple[Part, ...]:
    makes = sewn(axes.size, sizes, scenes)
    kinds = (
        ("units", "Units", (MakeKind.UNIT,)),
        ("blocks", "Blocks", (MakeKind.BLOCK,)),
        ("top", "Quilt top", (MakeKind.CENTRE, MakeKind.TOP)),
    )
    parts = (
        Part(anchor, heading, tuple(make for make in makes if make.kind in of_kind))
        for anchor, heading, of_kind in kinds
    )
    return tuple(part for part in parts if part.makes)


def _stylesheet(axes: Axes, sized: Sized) -> str:
    colours = {token(key): palette(sized.design, key) for key in sized.design.colourways}
    return f"{choice_rules(axes.all)}\n{colour_rules(axes.colourway, colours)}\n"
