"""Pictures, pages and booklets that still show a cloth for which another one stands in.

In: a pattern, and one of its sizes with its own cloths and with those really used, each in one
colourway. Out: names of files and addresses of pages, as the site has them. Nothing is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.compile import Pattern
from pieceproof.kits.orders import Ordered
from pieceproof.model import Cloth, Design, FabricName
from pieceproof.pages.chooser import HANDS, axes_of, dots_of
from pieceproof.pages.cloth_groups import named_groups, strips_file
from pieceproof.pages.tokens import token, width_token
from pieceproof.requirements import groups_played, need_for

CATALOGUE = "patterns/index.html"
COLOURS, AUDITIONS = "colours/", "auditions/"


@dataclass(frozen=True)
class Outdated:
    """``pictures`` lie beside the pattern's page; ``pages`` are addresses from the site's top.

    ``booklets`` are the names that their files have, wherever the shop keeps them.
    """

    pictures: tuple[str, ...]
    pages: tuple[str, ...]
    booklets: tuple[str, ...]


def outdated(pattern: Pattern, before: Ordered, after: Ordered) -> Outdated:
    """All that is not as in the bag; hatched pictures and outlines stay true."""
    return Outdated(
        (*_tops(before, after), *_strips(pattern, before, after)),
        tuple(_pages(pattern, before, after)),
        tuple(_booklets(before)),
    )


def cloth_of(design: Design, fabric: str) -> Cloth:
    """The cloth that plays a part in a design of one colourway."""
    (way,) = design.colourways.values()
    return design.cloths[way.parts[FabricName(fabric)]]


def _tops(before: Ordered, after: Ordered) -> Iterator[str]:
    if _top_differs(before, after):
        for kind in ("svg", "png"):
            yield f"top-{token(before.order.size)}-{token(before.order.colourway)}.{kind}"


def _strips(pattern: Pattern, before: Ordered, after: Ordered) -> Iterator[str]:
    """Strips of cloths that look otherwise, or are cut otherwise because they play other parts."""
    axes = axes_of(pattern.sizes, ())
    choice = {"size": token(before.order.size), "colourway": token(before.order.colourway)}
    found = before.sized.requirements
    new = {played.fabrics for played in groups_played(after.design, after.sized.publication)}
    for named in named_groups(axes.size, axes.colourway, pattern.sizes):
        is_here = all(choice[key] in tokens for key, tokens in named.played.holds.items())
        group = named.fabrics
        if is_here and (group not in new or _colour(before, group[0]) != _colour(after, group[0])):
            for width in found.usable_widths:
                if need_for(found, group, width).plan.strips:
                    for hand in HANDS:
                        yield strips_file(
                            named.anchor,
                            choice["size"],
                            width_token(width),
                            choice["colourway"],
                            hand.token,
                        )


def _pages(pattern: Pattern, before: Ordered, after: Ordered) -> Iterator[str]:
    """Pages with drawings, swatches or names of the cloths."""
    folder = f"patterns/{pattern.slug}/"
    colourway = before.order.colourway
    first = pattern.sizes[0].design
    is_cover = before.sized is pattern.sizes[0] and colourway == next(iter(first.colourways))
    if (is_cover and _top_differs(before, after)) or _dots(before) != _dots(after):
        yield CATALOGUE
    yield f"{folder}index.html"
    yield f"{folder}{COLOURS}index.html"
    auditioned = {a.colourway or next(iter(first.colourways)) for a in first.auditions.values()}
    if colourway in auditioned:
        yield f"{folder}{AUDITIONS}index.html"


def _booklets(before: Ordered) -> Iterator[str]:
    """Those with a cover and a list of cloths."""
    for edition in Edition:
        if edition is not Edition.SHEETS:
            for paper in Paper:
                yield Copy(edition, paper).file_name(before.order.pattern, before.order.size)


def _top_differs(before: Ordered, after: Ordered) -> bool:
    """Whether a part that is seen in the finished top has another colour or photograph."""
    last = before.sized.publication.makes[-1].name
    seen = {patch.fabric for patch in before.sized.drawing.pictures[last].patches}
    return any(_looks(before, fabric) != _looks(after, fabric) for fabric in seen)


def _looks(ordered: Ordered, fabric: str) -> tuple[str, object]:
    return _colour(ordered, fabric), cloth_of(ordered.design, fabric).swatch


def _colour(ordered: Ordered, fabric: str) -> str:
    return cloth_of(ordered.design, fabric).colour.lower()


def _dots(ordered: Ordered) -> tuple[str, ...]:
    (way,) = ordered.design.colourways.values()
    return dots_of(ordered.design, way)
