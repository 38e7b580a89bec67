"""A comparison as one HTML file that asks for no other: facts in tables, drawings side by side.

In: compared patterns and what the two editions are called. Out: HTML. Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from pieceproof.model import Stage
from pieceproof.pages.page import render_html
from pieceproof.review.compare import Compared
from pieceproof.review.compared_text import FOLDED, HEADINGS, summary
from pieceproof.review.drawn import Picture, Redrawn
from pieceproof.review.marked import marked_svg
from pieceproof.review.rows import Row, names, rows

WIDTH_PX = 420


@dataclass(frozen=True)
class Pair:
    """A drawing, old and new; empty where it does not exist."""

    name: str
    where: str
    old: Markup
    new: Markup


@dataclass(frozen=True)
class Shown:
    """One pattern as the page lays it out."""

    slug: str
    name: str
    summary: str
    names: tuple[str, ...]
    stages: tuple[tuple[str, tuple[Row, ...]], ...]
    folded: tuple[Row, ...]
    pairs: tuple[Pair, ...]
    strips: tuple[Pair, ...]
    undrawn: str
    prose: bool


def compared_html(compared: Sequence[Compared], old: str, new: str) -> str:
    """The whole page."""
    shown = [_shown(one) for one in compared]
    words = {"patterns": shown, "old": old, "new": new, "folded": FOLDED}
    return render_html("pages/compare.html", words)


def _shown(one: Compared) -> Shown:
    pairs = [
        (drawing.name.startswith("strips "), _pair(one, drawing, at))
        for at, drawing in enumerate(one.drawings, 1)
    ]
    return Shown(
        one.slug,
        one.name,
        summary(one),
        tuple(line.replace("`", '"') for line in names(one.changes)),
        tuple(_stages(one)),
        rows(one.changes.reckoned, one.changes, one.labels),
        tuple(pair for of_strips, pair in pairs if not of_strips),
        tuple(pair for of_strips, pair in pairs if of_strips),
        one.undrawn,
        one.prose,
    )


def _stages(one: Compared) -> Iterator[tuple[str, tuple[Row, ...]]]:
    """What reads otherwise, by stage."""
    for stage in Stage:
        printed = [change for change in one.changes.at(stage) if change.is_printed]
        if printed:
            yield HEADINGS[stage], rows(printed, one.changes, one.labels)


def _pair(one: Compared, drawing: Redrawn, number: int) -> Pair:
    where = ", ".join(one.labels.get(size, size) for size in drawing.sizes)
    ident = f"d-{one.slug}-{number}"
    name = f"{drawing.name}, {drawing.colourway}" if drawing.colourway else drawing.name
    return Pair(name, where, _svg(drawing.old, f"{ident}-old"), _svg(drawing.new, f"{ident}-new"))


def _svg(picture: Picture | None, ident: str) -> Markup:
    return Markup() if picture is None else Markup(marked_svg(picture, ident, WIDTH_PX))
