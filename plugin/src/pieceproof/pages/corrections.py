"""Corrections of earlier editions: on the pattern's own page where they matter, and all on one.

In: compiled patterns. Out: the edition in words, notices by stage for each size, and the page of
all corrections. What a notice says is worked out in `review.remedies`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.compile import Pattern, Sized
from pieceproof.lengths import parse_length
from pieceproof.model import Stage
from pieceproof.pages.choices import Axis, Variant
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.tokens import token, width_token
from pieceproof.review.remedies import Notice, notices

PLACES: Mapping[str, tuple[Stage, ...]] = {
    "materials": (Stage.CHOOSING, Stage.SHOPPING),
    "cutting": (Stage.CUTTING, Stage.TEMPLATES),
    "sewing": (Stage.SEWING,),
}
"""The places of a pattern's page with the stages whose notices stand there."""


@dataclass(frozen=True)
class Corrected:
    """A pattern's corrections with the names of the sizes that each concerns."""

    slug: str
    name: str
    edition: str
    date: str
    notices: tuple[tuple[str, Notice], ...]


def edition_words(sized: Sized) -> str:
    """``edition 1.1, 5 October 2026``, or that there is none yet."""
    release = sized.design.release
    if release is None:
        return "draft, not released yet"
    return f"edition {release.edition}, {' '.join(release.date.split())}"


def notices_by_place(
    axis: Axis, sizes: Sequence[Sized]
) -> Mapping[str, tuple[Variant[Notice], ...]]:
    """The notices for each place of the page, marked with the sizes they hold for."""
    found = _of(sizes)
    return {
        place: tuple(_variant(axis, notice) for notice in found if notice.stage in stages)
        for place, stages in PLACES.items()
    }


def corrections_page(patterns: Iterable[Pattern]) -> Page:
    """All corrections of all patterns, in order of name."""
    corrected = [_corrected(pattern) for pattern in patterns]
    return render_page("corrections.md", {"patterns": [one for one in corrected if one.notices]})


def _of(sizes: Sequence[Sized]) -> tuple[Notice, ...]:
    return notices(sizes[0].design, {sized.design.size: sized.facts for sized in sizes})


def _variant(axis: Axis, notice: Notice) -> Variant[Notice]:
    tokens = tuple(token(size) for size in notice.sizes)
    holds = {} if set(tokens) == set(axis.tokens) else {axis.key: tokens}
    width = parse_length(notice.width) if notice.width else None
    return Variant(holds if width is None else {**holds, "width": (width_token(width),)}, notice)


def _corrected(pattern: Pattern) -> Corrected:
    sizes, design = pattern.sizes, pattern.sizes[0].design
    labels = {sized.design.size: sized.design.label for sized in sizes}
    named = (
        ("" if len(n.sizes) == len(sizes) else ", ".join(labels[s] for s in n.sizes), n)
        for n in _of(sizes)
    )
    release = design.release
    edition, day = (release.edition, release.date) if release else ("", "")
    return Corrected(pattern.slug, design.name, edition, day, tuple(named))
