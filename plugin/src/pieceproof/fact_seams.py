"""Facts of the seam check: the test strips, what comes of each seam, which seams ask for care.

In: a design, its publication and its seam check. Out: facts. Lengths that are not on half the
ruler's step, as a wide seam may give them, are published to the nearest half step.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from quicktions import Fraction

from pieceproof.bench.ranking import SeamEffect
from pieceproof.facts import Fact, called, name_of
from pieceproof.instructions import show_length
from pieceproof.lengths import Number, Surd, floor_to, show_exact
from pieceproof.model import Design, Measure
from pieceproof.published import Make, Publication
from pieceproof.seam_check import SeamCheck, SeamRow
from pieceproof.tips import in_words


def seam_facts(design: Design, publication: Publication, check: SeamCheck) -> tuple[Fact, ...]:
    """The test, then a few lines for each seam, then a line for each group of seams."""
    return (
        _length(design, "seam check, cut three strips", check.strip),
        *(fact for row in check.rows for fact in _row(design, publication, row)),
        *_care(design, publication, check),
        *_uneven(design, publication, check),
    )


def is_outcome(fact: Fact) -> bool:
    """Whether a fact says what comes of seams that are off: no size that anything should have."""
    return fact.key.startswith(_OUTCOMES) or fact.key.endswith(_DIFFER)


def nearest(measure: Measure, exact: Number) -> Fraction:
    """To half a ruler's step: what can be told apart on a ruler."""
    step = measure.step / 2
    return floor_to(exact + step / 2, step)


def _row(design: Design, publication: Publication, row: SeamRow) -> Iterator[Fact]:
    name = f"own seam {design.measure.show(row.own)}"
    makes = {make.name: make for make in publication.makes}
    yield _length(design, f"{name}, three strips measure", row.three)
    yield _length(design, f"{name}, the middle strip measures", row.middle)
    if row.error != 0:
        yield from _outcome(design, makes, name, row)


def _outcome(design: Design, makes: Mapping[str, Make], name: str, row: SeamRow) -> Iterator[Fact]:
    """What differs from what is published; with the pattern's own seam nothing does."""
    for size in row.sizes:
        made = f"{name}, {name_of(makes[size.make])}, unfinished"
        yield _length(design, f"{made}, width", size.width)
        yield _length(design, f"{made}, height", size.height)
    for tip in row.tips:
        where = f"{in_words(tip.group, called(design))}, {name_of(makes[tip.group.make])}"
        if tip.clearance is None:
            yield Fact(f"{name}, clearance of {where}", "gone", "gone", "gone")
        else:
            yield _length(design, f"{name}, clearance of {where}", tip.clearance)
    for fit in row.fits:
        key = f"{name}, {name_of(makes[fit.make])}, {fit.what} too long by"
        yield _length(design, key, fit.excess)
    yield _length(design, f"{name}, seams out of line by", row.out_of_line)
    if row.not_followed:
        names = ", ".join(row.not_followed)
        yield Fact(f"{name}, not followed", names, names, names)


def _care(design: Design, publication: Publication, check: SeamCheck) -> Iterator[Fact]:
    """What each group of seams asks for, and what it does when it alone is off."""
    makes = {make.name: make for make in publication.makes}
    yield _length(design, "seams ranked, each alone off by", check.error)
    for effect in check.seams:
        seam = effect.seam
        group = f" {seam.group}" if seam.group else ""
        key = f"{name_of(makes[seam.make])}, step {seam.step}, seams{group}"
        yield Fact(key, effect.care.value, effect.care.value, effect.care.value)
        for what, length in effect_lengths(effect):
            yield _length(design, f"{key}, {what}", length)


def effect_lengths(effect: SeamEffect) -> Iterator[tuple[str, Number]]:
    """What a group of seams changes, and by how much; nothing that it leaves alone."""
    found = zip(_DIFFER, (effect.cut, effect.misfit, effect.size), strict=True)
    yield from ((what, length) for what, length in found if length > 0)


def _uneven(design: Design, publication: Publication, check: SeamCheck) -> Iterator[Fact]:
    makes = {make.name: make for make in publication.makes}
    for found in check.uneven:
        name = f"uneven seams, {name_of(makes[found.make])}"
        yield _length(design, f"{name}, standard deviation", found.deviation)
        yield _count(f"{name}, sewn", found.repeats)
        yield _count(f"{name}, all tips whole", found.whole)
        for side, (least, most) in (("width", found.widths), ("height", found.heights)):
            yield _length(design, f"{name}, unfinished, least {side}", least)
            yield _length(design, f"{name}, unfinished, largest {side}", most)


def _count(key: str, count: int) -> Fact:
    return Fact(key, str(count), str(count), str(count))


def _length(design: Design, key: str, exact: Number) -> Fact:
    measure = design.measure
    shown = nearest(measure, exact)
    text = show_exact(exact) if isinstance(exact, Surd) else measure.show(exact)
    return Fact(key, text, measure.show(shown), show_length(measure, shown))


_OUTCOMES = ("own seam ", "uneven seams", "seams ranked")
_DIFFER = ("tips cut off by", "edges differ by", "top differs by")
"""What a group of seams may change."""
