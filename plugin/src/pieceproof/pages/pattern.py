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
from pieceproof.instructions import show_length, show_size
from pieceproof.pages.catalogue import Card, card
from pieceproof.pages.choices import Option, Variant, choice_rules, variants
from pieceproof.pages.chooser import Axes, axes_of, questions
from pieceproof.pages.cloths import Cut, cloths, width_token
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
    cuts = [Cut(sized, subject(sized.design, sized.publication, sized.drawing)) for sized in sizes]
    scenes = {cut.sized.design.size: plates(cut.subject) for cut in cuts}
    axes = axes_of(sizes, _widths(sizes[0]))
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
        "usable": [Variant({"width": (o.token,)}, o.label) for o in axes.width.options],
        "cloths": cloths(axes, cuts),
        "batting": _batting(axes, sizes),
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


def _widths(sized: Sized) -> list[Option]:
    measure = sized.design.measure
    widths = sized.requirements.usable_widths
    return [Option(width_token(width), show_length(measure, width)) for width in widths]


def _batting(axes: Axes, sizes: Sequence[Sized]) -> tuple[Variant[str], ...]:
    cases = [
        ((token(s.design.size),), show_size(s.design.measure, batting.width, batting.height))
        for s in sizes
        if (batting := s.publication.batting) is not None
    ]
    return variants((axes.size,), cases)


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
