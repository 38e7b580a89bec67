"""The catalogue: one picture card for each pattern, and what readers narrow and sort it by.

In: patterns without problems and how the site addresses pages. Out: a `Page` that shows all cards;
its script narrows and sorts them by their ``data-`` attributes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.compile import Pattern, Sized
from pieceproof.fact_skill import LEVELS
from pieceproof.lengths import ceil_to
from pieceproof.model import Measure
from pieceproof.pages.choices import Axis, Option, Variant
from pieceproof.pages.chooser import dots_of
from pieceproof.pages.head import cloth_count, finished_size, techniques
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.pictures import Pictured
from pieceproof.requirements import CM_PER_INCH
from pieceproof.skill import Level
from pieceproof.stash import PRECUTS, precuts_for, scraps_serve

LONGEST_SIDES = (
    # Usual bounds of table and wall pieces, lap quilts, throws and bed quilts: common practice.
    (Fraction(24), 'up to 24" (60 cm)'),
    (Fraction(48), 'up to 48" (120 cm)'),
    (Fraction(72), 'up to 72" (180 cm)'),
    (Fraction(10**6), 'over 72" (180 cm)'),
)

SORTS = (
    Option("name", "name"),
    Option("small", "smallest first"),
    Option("large", "largest first"),
    Option("fabrics", "fewest fabrics first"),
    Option("skill", "easiest first"),
)


@dataclass(frozen=True)
class Way:
    """A colourway: its name, the colours of its cloths, the smallest size in it."""

    name: str
    colours: tuple[str, ...]
    picture: Pictured


@dataclass(frozen=True)
class Card:
    """One pattern; sizes are finished, the smallest and the largest by area.

    ``filed`` are the labels it is filed under by facet; ``order`` is what it is sorted by: whole
    numbers, areas in square inches.
    """

    name: str
    href: str
    picture: Pictured
    kind: str
    sizes: int
    smallest: str
    largest: str
    summary: str
    fabrics: str
    skill: str
    techniques: tuple[str, ...]
    colourways: tuple[Way, ...]
    filed: Mapping[str, tuple[str, ...]]
    order: Mapping[str, int]


def card(pattern: Pattern, href: str, pictures: Sequence[Pictured]) -> Card:
    """A pattern's card; ``pictures`` are those of its colourways."""
    sizes = sorted(pattern.sizes, key=_area)
    design = pattern.sizes[0].design
    cloths = sorted({cloth_count(s, key) for s in sizes for key in design.colourways})
    levels = sorted({sized.skill.level for sized in sizes})
    return Card(
        design.name,
        href,
        pictures[0],
        design.kind,
        len(sizes),
        finished_size(sizes[0]),
        finished_size(sizes[-1]),
        design.summary,
        " or ".join(str(count) for count in cloths),
        " to ".join(LEVELS[level] for level in dict.fromkeys((levels[0], levels[-1]))),
        techniques(pattern.sizes),
        tuple(
            Way(way.name, dots_of(design, way), picture)
            for way, picture in zip(design.colourways.values(), pictures, strict=True)
        ),
        {
            "kind": (design.kind,),
            "side": _of(sizes, lambda sized: (_longest_side(sized),)),
            "technique": techniques(pattern.sizes),
            "fabrics": tuple(f"{count} fabrics" for count in cloths),
            "skill": tuple(LEVELS[level] for level in levels),
            "precut": _of(sizes, lambda sized: precuts_for(sized.publication)),
            "forgiving": _of(sizes, lambda sized: ("yes",) if sized.skill.forgives else ()),
            "scraps": _of(sizes, lambda s: ("yes",) if scraps_serve(s.publication) else ()),
        },
        {
            "small": int(_area(sizes[0])),
            "large": -int(_area(sizes[-1])),
            "fabrics": cloths[0],
            "skill": int(levels[0]),
        },
    )


def catalogue_page(cards: Sequence[Card]) -> Page:
    """The page."""
    facets = _facets(cards)
    words = {
        "selects": [axis for axis in facets if len(axis.options) > 1],
        "boxes": [axis for axis in _YES if any(card.filed[axis.key] for card in cards)],
        "sorts": SORTS,
        "cards": [(_filed(card, (*facets, *_YES)), card) for card in cards],
    }
    return render_page("catalogue.md", words)


_YES = (
    Axis("forgiving", "Points stay whole though seams are a little wide", (Option("1", "yes"),)),
    Axis("scraps", 'Blocks from scraps, 5" x 8" or less', (Option("1", "yes"),)),
)


def _facets(cards: Sequence[Card]) -> tuple[Axis, ...]:
    return (
        _facet("kind", "What it makes", _found(cards, "kind")),
        _facet("side", "Longest side", (label for _, label in LONGEST_SIDES)),
        _facet("technique", "Technique", _found(cards, "technique")),
        _facet("fabrics", "Fabrics", sorted(_found(cards, "fabrics"), key=_number)),
        _facet("skill", "Skill", (LEVELS[level] for level in Level)),
        _facet("precut", "Blocks from precuts", (cut.name for cut in PRECUTS)),
    )


def _facet(key: str, question: str, labels: Iterable[str]) -> Axis:
    options = (Option(str(number), label) for number, label in enumerate(labels, start=1))
    return Axis(key, question, tuple(options))


def _found(cards: Sequence[Card], key: str) -> list[str]:
    return sorted({label for card in cards for label in card.filed[key]}, key=str.casefold)


def _number(label: str) -> int:
    return int(label.split(maxsplit=1)[0])


def _filed(card: Card, facets: Sequence[Axis]) -> Variant[None]:
    """What the filters go by."""
    return Variant(
        {
            axis.key: tuple(o.token for o in axis.options if o.label in card.filed[axis.key])
            for axis in facets
        },
        None,
    )


def _of(sizes: Sequence[Sized], labels: Callable[[Sized], tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(label for sized in sizes for label in labels(sized)))


def _inches(sized: Sized, length: Fraction) -> Fraction:
    return length if sized.design.measure is Measure.INCH else length / CM_PER_INCH


def _longest_side(sized: Sized) -> str:
    longest = _inches(sized, max(sized.publication.width, sized.publication.height))
    return next(label for bound, label in LONGEST_SIDES if longest <= bound)


def _area(sized: Sized) -> Fraction:
    sides = (sized.publication.width, sized.publication.height)
    width, height = (_inches(sized, side) for side in sides)
    return ceil_to(width * height, Fraction(1))
