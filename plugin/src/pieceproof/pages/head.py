"""The top of a pattern's page: what it is, in words, pictures and key numbers.

In: all sizes of a pattern. Out: a `Head`. Numbers are those of the publication.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from pieceproof.compile import Sized
from pieceproof.converted import about
from pieceproof.fact_skill import skill_sentence
from pieceproof.instructions import show_length, show_size
from pieceproof.model import Design, Measure
from pieceproof.pages.choices import Variant, variants
from pieceproof.pages.chooser import Axes
from pieceproof.pages.pictures import Pictured
from pieceproof.pages.tokens import token

Shown = TypeVar("Shown")

_DRAFTED = {
    Measure.INCH: "This pattern is drafted in inches: cut and measure with an inch ruler. Pieces "
    "whose sizes are turned into centimetres no longer fit each other. Cloth is given in metres.",
    Measure.CENTIMETRE: "This pattern is drafted in centimetres: cut and measure it with a metric "
    "ruler. Pieces whose sizes are turned into inches no longer fit each other. Cloth is given in "
    "yards.",
}
_INFANTS = re.compile(r"\b(baby|babies|infant|cot|crib|cradle|pram|nursery|newborn)", re.I)


@dataclass(frozen=True)
class Head:
    """What stands above the first section. ``hatched`` is for paper.

    ``infant`` says that the work may be for a baby.
    """

    name: str
    kind: str
    summary: str
    techniques: tuple[str, ...]
    pictures: tuple[Variant[Pictured], ...]
    hatched: tuple[Variant[Pictured], ...]
    finished: tuple[Variant[str], ...]
    converted: tuple[Variant[str], ...]
    quantities: tuple[Variant[int], ...]
    fabrics: tuple[Variant[int], ...]
    pieces: tuple[Variant[int], ...]
    skill: tuple[Variant[str], ...]
    seam: str
    inches: bool
    infant: bool
    drafted: str


def head(
    axes: Axes,
    sizes: Sequence[Sized],
    pictures: tuple[Variant[Pictured], ...],
    hatched: tuple[Variant[Pictured], ...],
) -> Head:
    """The top of the page."""
    design = sizes[0].design
    return Head(
        design.name,
        design.kind,
        design.summary,
        techniques(sizes),
        pictures,
        hatched,
        _by_size(axes, sizes, finished_size),
        _converted(axes, sizes),
        _by_size(axes, sizes, lambda sized: sized.publication.quantity) if _is_set(sizes) else (),
        variants(
            (axes.size, axes.colourway),
            (
                ((token(sized.design.size), token(key)), cloth_count(sized, key))
                for sized in sizes
                for key in design.colourways
            ),
        ),
        _by_size(axes, sizes, lambda sized: sum(p.count for p in sized.publication.pieces)),
        _by_size(axes, sizes, lambda sized: skill_sentence(sized.design, sized.skill)),
        show_length(design.measure, design.seam),
        design.measure is Measure.INCH,
        any(is_for_infants(sized.design) for sized in sizes),
        _DRAFTED[design.measure],
    )


def finished_size(sized: Sized) -> str:
    """The finished size of the top."""
    publication = sized.publication
    return show_size(sized.design.measure, publication.width, publication.height)


def cloth_count(sized: Sized, colourway: str) -> int:
    """How many cloths one colourway needs."""
    return sum(played.colourway == colourway for played in sized.requirements.played)


def techniques(sizes: Sequence[Sized]) -> tuple[str, ...]:
    """The methods by which units are made, in sewing order."""
    made = (make.method for sized in sizes for make in sized.publication.makes)
    return tuple(dict.fromkeys(method for method in made if method))


def is_for_infants(design: Design) -> bool:
    """Whether the work may end up with a baby, by what it is called."""
    return _INFANTS.search(f"{design.kind} {design.name} {design.label}") is not None


def _converted(axes: Axes, sizes: Sequence[Sized]) -> tuple[Variant[str], ...]:
    """The finished size in the unit that is not the pattern's own, for who chose that."""
    other = axes.measure.tokens[1]
    cases = (((token(s.design.size), other), in_other_unit(s)) for s in sizes)
    return variants((axes.size, axes.measure), cases)


def in_other_unit(sized: Sized) -> str:
    """The finished size of the top, about."""
    publication = sized.publication
    return about(sized.design.measure, publication.width, publication.height)


def _is_set(sizes: Sequence[Sized]) -> bool:
    return any(sized.publication.quantity > 1 for sized in sizes)


def _by_size(
    axes: Axes, sizes: Sequence[Sized], show: Callable[[Sized], Shown]
) -> tuple[Variant[Shown], ...]:
    return variants((axes.size,), (((token(s.design.size),), show(s)) for s in sizes))
