"""Binding, backing, batting and hanging sleeve of one size, worked out from the finished top.

In: a design and the finished size of its top. Out: their published facts, and problems where
what the writer states cannot work. How much cloth they take is for `requirements`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from quicktions import Fraction

from pieceproof.bias import square_for
from pieceproof.lengths import ceil_to, floor_to
from pieceproof.model import BindingFold, BindingGrain, Design, Measure, Size
from pieceproof.problems import Problem
from pieceproof.published import (
    BackingFacts,
    BattingFacts,
    BindingFacts,
    Package,
    Publication,
    SleeveFacts,
)
from pieceproof.wording import quoted

PACKAGES_IN = (
    # Common packages of batting in inches, the smaller where sources differ: 81 x 96 or 84 x 96,
    # 120 x 120 or 120 x 124 (check value 92: BATT, pages of two makers).
    Package(Fraction(45), Fraction(60)),
    Package(Fraction(72), Fraction(90)),
    Package(Fraction(81), Fraction(96)),
    Package(Fraction(90), Fraction(108)),
    Package(Fraction(120), Fraction(120)),
)
_CM_PER_INCH = Fraction(254, 100)  # exact since 1959 (check value 108: YARD)

_SEAMS_ACROSS: Mapping[BindingFold, int] = {
    # Once to be sewn, once over the front, once over the back; folded double, all that twice;
    # folded once, one hem more. What is more than that goes round the batting.
    BindingFold.DOUBLE: 6,
    BindingFold.SINGLE: 4,
}


def binding_of(design: Design, top: Size) -> BindingFacts | None:
    """Strips 2 1/2 in wide, the edge all round plus 10 in: common practice.

    Sources print 8, 10, 20 and 24 in beyond the edge (check value 79: BIND), so it is a setting.
    """
    binding = design.binding
    if binding is None:
        return None
    width = _or(binding.cut_width, _usual_width(design))
    extra = _or(binding.extra, _usual(design, Fraction(10), Fraction(25)))
    length = 2 * (top.width + top.height) + extra
    square = None
    if binding.grain is BindingGrain.BIAS:
        square = square_for(length, width, design.seam)
    return BindingFacts(
        binding.fabric, width, extra, length, binding.fold.value, binding.grain.value, square
    )


def backing_of(design: Design, top: Size) -> BackingFacts | None:
    """4 in beyond the top on each side: common practice; sources print 2 to 4 (check value 89)."""
    backing = design.backing
    if backing is None:
        return None
    beyond = _or(backing.beyond, _usual(design, Fraction(4), Fraction(10)))
    return BackingFacts(backing.fabric, beyond, top.width + 2 * beyond, top.height + 2 * beyond)


def batting_of(design: Design, top: Size) -> BattingFacts | None:
    """The least size, and the smallest package that has the batting of all tops in it."""
    batting = design.batting
    if batting is None:
        return None
    beyond = _or(batting.beyond, _usual(design, Fraction(4), Fraction(10)))
    width, height = top.width + 2 * beyond, top.height + 2 * beyond
    unit = Fraction(1) if design.measure is Measure.INCH else 1 / _CM_PER_INCH
    sides = Size(width * unit, height * unit)
    able = (p for p in PACKAGES_IN if _held(p, sides) >= design.quantity)
    package = min(able, key=lambda p: p.short * p.long, default=None)
    return BattingFacts(beyond, width, height, package)


def sleeve_of(design: Design, top: Size) -> SleeveFacts | None:
    """A strip 8 1/2 in wide for a sleeve 4 in deep, 2 in shorter than the top is wide.

    Common practice; shows have rules of their own, so both are settings.
    """
    sleeve = design.sleeve
    if sleeve is None:
        return None
    depth = _or(sleeve.depth, _usual(design, Fraction(4), Fraction(10)))
    shorter = _or(sleeve.shorter, _usual(design, Fraction(2), Fraction(5)))
    length = floor_to(top.width - shorter, design.measure.step)
    return SleeveFacts(sleeve.fabric, depth, shorter, 2 * depth + 2 * design.seam, length)


def finishing_problems(design: Design, publication: Publication) -> tuple[Problem, ...]:
    """What the writer states about the finishing and cannot work."""
    return (
        *_binding_problems(design, publication),
        *_backing_problems(design, publication),
        *_sleeve_problems(design, publication),
    )


def _or(stated: Fraction | None, usual: Fraction) -> Fraction:
    return usual if stated is None else stated


def _usual(design: Design, inches: Fraction, centimetres: Fraction) -> Fraction:
    return inches if design.measure is Measure.INCH else centimetres


def _usual_width(design: Design) -> Fraction:
    """2 1/2 in folded double; folded once, four seam allowances and 1/4 in to go round."""
    assert design.binding is not None
    if design.binding.fold is BindingFold.DOUBLE:
        return _usual(design, Fraction(5, 2), Fraction(13, 2))
    room = _usual(design, Fraction(1, 4), Fraction(1, 2))
    return ceil_to(4 * design.seam + room, design.measure.step)


def _held(package: Package, sides: Size) -> int:
    """How many of these lie in a package side by side, all one way."""
    upright = (package.short // sides.width) * (package.long // sides.height)
    level = (package.long // sides.width) * (package.short // sides.height)
    return max(upright, level)


def _binding_problems(design: Design, publication: Publication) -> Iterator[Problem]:
    stated, facts = design.binding, publication.binding
    if stated is None or facts is None:
        return
    show, step = design.measure.show, design.measure.step
    seams = _SEAMS_ACROSS[stated.fold]
    least = floor_to(seams * design.seam, step) + step
    if facts.cut_width <= seams * design.seam:
        yield Problem(
            stated.at["cut width"],
            "binding-too-narrow",
            f"a binding cut {show(facts.cut_width)} wide and folded {stated.fold.value}",
            f"more than {seams} seam allowances, {show(seams * design.seam)}, to reach round the "
            "edge and cover the seam on the back",
            f"write `cut width: {show(least)}` or more",
        )
    if (facts.cut_width / step).denominator != 1:
        low = floor_to(facts.cut_width, step)
        yield Problem(
            stated.at["cut width"],
            "off-the-ruler",
            f"a binding cut {show(facts.cut_width)} wide",
            f"cut sizes in steps of {show(step)}",
            f"write {show(low)} or {show(low + step)}",
        )
    if facts.extra < facts.cut_width:
        yield Problem(
            stated.at["extra"],
            "binding-too-short",
            f"a binding {show(facts.extra)} longer than the edge",
            f"at least {show(facts.cut_width)}, its own width, which the join of its ends takes",
            "delete `extra` for the usual one, or write a larger one",
        )


def _backing_problems(design: Design, publication: Publication) -> Iterator[Problem]:
    """Seams that leave no cloth; and what else is to be cut from extra-wide cloth, another bolt."""
    backing = design.backing
    if backing is None:
        return
    show = design.measure.show
    deepest = _usual(design, Fraction(2), Fraction(5))
    if backing.seam is not None and backing.seam > deepest:
        yield Problem(
            backing.at["seam"],
            "backing-seam",
            f"a back sewn with a seam allowance of {show(backing.seam)}",
            f"at most {show(deepest)}",
            "write a smaller one, or delete it for the usual one",
        )
    narrowest = _usual(design, Fraction(20), Fraction(50))
    if backing.usable_width is None:
        return
    if backing.usable_width < narrowest:
        yield Problem(
            backing.at["usable width"],
            "backing-cloth",
            f"a back of cloth {show(backing.usable_width)} wide",
            f"the width of a whole cloth, at least {show(narrowest)}",
            "write what is left of its width without the selvages, or delete it for the usual ones",
        )
    others = [other for other in _other_uses(design, publication) if other[0] == backing.fabric]
    if others:
        yield Problem(
            backing.at["fabric"],
            "wide-backing-shared",
            f"the fabric {quoted(backing.fabric)} of the extra-wide back, also used for "
            f"{others[0][1]}",
            "a fabric that is only the back's, because extra-wide cloth is a bolt of its own",
            "declare another fabric for the back, or delete `usable width`",
        )


def _other_uses(design: Design, publication: Publication) -> Iterable[tuple[str, str]]:
    yield from ((piece.fabric, f"piece {piece.letter}") for piece in publication.pieces)
    if design.binding is not None:
        yield design.binding.fabric, "the binding"
    if design.sleeve is not None:
        yield design.sleeve.fabric, "the hanging sleeve"


def _sleeve_problems(design: Design, publication: Publication) -> Iterator[Problem]:
    stated, facts = design.sleeve, publication.sleeve
    if stated is None or facts is None:
        return
    show, step = design.measure.show, design.measure.step
    if facts.length <= 0:
        yield Problem(
            stated.at["shorter"],
            "sleeve-too-short",
            f"a sleeve {show(facts.shorter)} shorter than a top {show(publication.width)} wide",
            "a sleeve with some length",
            "write a smaller `shorter`, or leave the sleeve out of this size",
        )
    if (facts.cut_width / step).denominator != 1:
        low = floor_to(facts.cut_width, step) / 2 - design.seam
        yield Problem(
            stated.at["depth"],
            "off-the-ruler",
            f"a sleeve {show(facts.depth)} deep, which would be cut {show(facts.cut_width)} wide",
            f"cut sizes in steps of {show(step)}",
            f"use a depth of {show(low)} or {show(low + step / 2)}",
        )
