"""Facts of the tips: how much room each has, make by make, and up to which seam they stay whole.

In: a design, its publication and its tips. Out: facts. A length that is not on the ruler is
published rounded down to half a ruler's step, so that it never promises too much.
"""

from __future__ import annotations

from collections.abc import Iterator

from pieceproof.facts import Fact, called, name_of
from pieceproof.instructions import show_length
from pieceproof.lengths import Number, Surd, floor_to, show_exact
from pieceproof.model import Design
from pieceproof.published import MakeKind, Publication
from pieceproof.tips import TipKind, Tips, in_words


def tip_facts(design: Design, publication: Publication, tips: Tips) -> tuple[Fact, ...]:
    """A line for every group of tips, then what holds for all units."""
    makes = {make.name: make for make in publication.makes}
    names = called(design)
    return (
        *(
            _length(
                design,
                f"{name_of(makes[group.make])}, clearance of {in_words(group, names)}",
                group.clearance,
            )
            for group in tips.groups
        ),
        *_summary(design, tips),
    )


def whole_up_to(design: Design, tips: Tips) -> Fact | None:
    """Up to which seam the floating tips stay whole; None: nothing floats."""
    if tips.whole_up_to is None:
        return None
    return _length(design, "floating tips stay whole up to a seam of", tips.whole_up_to)


def _summary(design: Design, tips: Tips) -> Iterator[Fact]:
    units = [group for group in tips.groups if group.kind is MakeKind.UNIT]
    for kind in TipKind:
        count = sum(group.count for group in units if group.state is kind)
        yield Fact(f"tips of units, {kind.value}", str(count), str(count), str(count))
    up_to = whole_up_to(design, tips)
    if up_to is not None:
        yield up_to


def _length(design: Design, key: str, exact: Number) -> Fact:
    measure = design.measure
    shown = floor_to(exact, measure.step / 2) if isinstance(exact, Surd) else exact
    text = show_exact(exact) if isinstance(exact, Surd) else measure.show(exact)
    return Fact(key, text, measure.show(shown), show_length(measure, shown))
