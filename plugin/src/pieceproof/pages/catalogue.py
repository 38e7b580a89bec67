"""The catalogue: one picture card for each pattern.

In: patterns without problems and how the site addresses pages. Out: a `Page` that reads the same
without JavaScript.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from pieceproof.compile import Pattern
from pieceproof.pages.choices import Axis, Option, Variant, choice_rules
from pieceproof.pages.chooser import dots_of, question
from pieceproof.pages.head import cloth_count, finished_size, techniques
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.pictures import Pictured

ANY = Option("any", "any")


@dataclass(frozen=True)
class Card:
    """One pattern; sizes are finished, the smallest and the largest by area."""

    name: str
    href: str
    picture: Pictured
    kind: str
    sizes: int
    smallest: str
    largest: str
    summary: str
    fabrics: str
    techniques: tuple[str, ...]
    colourways: tuple[tuple[str, tuple[str, ...]], ...]


def card(pattern: Pattern, href: str, picture: Pictured) -> Card:
    """A pattern's card."""
    sizes = sorted(pattern.sizes, key=lambda s: s.publication.width * s.publication.height)
    design = pattern.sizes[0].design
    cloths = sorted({cloth_count(s, key) for s in sizes for key in design.colourways})
    return Card(
        design.name,
        href,
        picture,
        design.kind,
        len(sizes),
        finished_size(sizes[0]),
        finished_size(sizes[-1]),
        design.summary,
        " or ".join(str(count) for count in cloths),
        techniques(pattern.sizes),
        tuple((way.name, dots_of(design, way)) for way in design.colourways.values()),
    )


def catalogue_page(cards: Sequence[Card]) -> tuple[Page, str]:
    """The page, and the style rules by which its filters work."""
    kind = _filter("kind", "What it makes", (card.kind for card in cards))
    technique = _filter("technique", "Technique", (t for card in cards for t in card.techniques))
    filters = tuple(axis for axis in (kind, technique) if len(axis.options) > 2)
    words = {
        "filters": [question(axis) for axis in filters],
        "cards": [(_filed(card, kind, technique), card) for card in cards],
    }
    narrowing = [replace(axis, options=axis.options[1:]) for axis in filters]
    return render_page("catalogue.md", words), choice_rules(narrowing) + "\n"


def _filter(key: str, words: str, values: Iterable[str]) -> Axis:
    found = enumerate(sorted(set(values), key=str.casefold), start=1)
    return Axis(key, words, (ANY, *(Option(str(number), value) for number, value in found)))


def _filed(card: Card, kind: Axis, technique: Axis) -> Variant[None]:
    """What the filters go by."""
    return Variant(
        {
            "kind": tuple(o.token for o in kind.options if o.label == card.kind),
            "technique": tuple(o.token for o in technique.options if o.label in card.techniques),
        },
        None,
    )
