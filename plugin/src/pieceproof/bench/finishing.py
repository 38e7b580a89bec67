"""Proves what belongs to the whole quilt: finished size, pictures, and what goes round the top.

In: a `Publication` and its `Drawing`. Out: disagreements.
"""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from pieceproof.bench.bias import bias_strip
from pieceproof.bench.counting import things_of
from pieceproof.bench.words import Disagreement, excess, length, size, size_excess
from pieceproof.published import (
    BattingFacts,
    BindingFacts,
    Drawing,
    Publication,
    SleeveFacts,
)


def prove_finishing(publication: Publication, drawing: Drawing) -> Iterable[Disagreement]:
    """The finished size against the sewn top, and all that follows from the finished size."""
    yield from _prove_finished_size(publication)
    yield from _prove_pictures(publication, drawing)
    if publication.binding is not None:
        yield from _prove_binding(publication.binding, publication)
    if publication.batting is not None:
        yield from _prove_package(publication.batting, publication)
    if publication.sleeve is not None:
        yield from _prove_sleeve(publication.sleeve, publication)
    for name, sheet in (("backing", publication.backing), ("batting", publication.batting)):
        if sheet is not None:
            found = (sheet.width, sheet.height)
            yield from _prove_sheet(name, found, sheet.beyond, publication)


def _prove_finished_size(publication: Publication) -> Iterable[Disagreement]:
    if publication.makes:
        top = publication.makes[-1]
        seams = 2 * publication.seam
        yield from _prove_size(
            "finished size",
            (publication.width, publication.height),
            (top.width - seams, top.height - seams),
        )


def _prove_pictures(publication: Publication, drawing: Drawing) -> Iterable[Disagreement]:
    names = {thing.name for make in publication.makes for thing in things_of(make)}
    for name in sorted(set(drawing.pictures) - names):
        yield _wrong(name, "steps that make what is drawn", "a drawing only")
    for name, picture in sorted(drawing.pictures.items()):
        if picture.name != name:
            yield _wrong(name, "a drawing of that name", f"one named {picture.name}")


def _prove_binding(binding: BindingFacts, publication: Publication) -> Iterable[Disagreement]:
    expected = 2 * (publication.width + publication.height) + binding.extra
    if binding.length != expected:
        by = excess(binding.length, expected, "too long", "too short")
        yield _wrong("binding", f"{length(expected)} in length", length(binding.length), by)
    if binding.extra < binding.cut_width:
        # Its ends are joined on the diagonal, which takes as much as it is wide.
        least = f"at least {length(binding.cut_width)} beyond the edge, to join its ends"
        yield _wrong("binding", least, length(binding.extra))
    yield from _prove_binding_width(binding, publication)
    yield from _prove_square(binding, publication.seam)


def _prove_binding_width(binding: BindingFacts, publication: Publication) -> Iterable[Disagreement]:
    """Sewn on, it goes over the front and over the back, with a hem or in two layers."""
    layers = {"double": 2, "single": 1}.get(binding.fold)
    if layers is None:
        yield _wrong("binding", "folded double or single", binding.fold)
        return
    sewn, over, hem = publication.seam, 2 * publication.seam, publication.seam
    least = layers * (sewn + over) + (hem if layers == 1 else 0)
    if binding.cut_width <= least:
        wider = f"wider than {length(least)}, to reach round the edge and cover the seam"
        yield _wrong("binding", wider, length(binding.cut_width))
    if publication.step > 0 and (binding.cut_width / publication.step).denominator != 1:
        expected_width = f"a multiple of {length(publication.step)}"
        yield _wrong("binding", expected_width, length(binding.cut_width))


def _prove_square(binding: BindingFacts, seam: Fraction) -> Iterable[Disagreement]:
    """The square of a bias binding, cut up and measured; one that is 1 less is too small."""
    if binding.grain not in ("straight", "bias"):
        yield _wrong("binding", "cut straight or on the bias", binding.grain)
    if (binding.square is None) != (binding.grain == "straight"):
        yield _wrong("binding", "a square if it is cut on the bias", binding.grain)
    if binding.square is None:
        return
    if binding.square.denominator != 1:
        yield _wrong("binding", "a square with a whole number as its side", length(binding.square))
    for side, is_enough in ((binding.square, True), (binding.square - 1, False)):
        found = bias_strip(side, binding.cut_width, seam)
        if (found >= binding.length) != is_enough:
            needed = "at least" if is_enough else "less than"
            expected = f"{needed} {length(binding.length)} from a square of {length(side)}"
            yield _wrong("binding", expected, length(found))


def _prove_package(batting: BattingFacts, publication: Publication) -> Iterable[Disagreement]:
    """The smallest of the common packages from which the batting of every top can be cut."""
    able = [p for p in _PACKAGES if _lay(p, batting, publication) >= publication.quantity]
    smallest = min(able, key=lambda p: p[0] * p[1], default=None)
    package = batting.package
    found = None if package is None else (package.short, package.long)
    if found != smallest:
        shown = [size(*p) if p else "none" for p in (smallest, found)]
        yield _wrong("batting package", *shown)


_PACKAGES = tuple(
    # In inches: check value 92, BATT; the smaller where two pages differ.
    (Fraction(short), Fraction(long))
    for short, long in ((45, 60), (72, 90), (81, 96), (90, 108), (120, 120))
)


def _lay(
    package: tuple[Fraction, Fraction], batting: BattingFacts, publication: Publication
) -> int:
    """Rectangles cut from a package in rows, all one way; 2.54 cm are an inch."""
    unit = Fraction(254, 100) if publication.measure == "centimetre" else Fraction(1)
    counts = []
    for width, height in (package, package[::-1]):
        across = int(width * unit / batting.width)
        counts.append(across * int(height * unit / batting.height))
    return max(counts)


def _prove_sleeve(sleeve: SleeveFacts, publication: Publication) -> Iterable[Disagreement]:
    """Sewn to a tube it loses two allowances and lies flat on half of the rest."""
    flat = (sleeve.cut_width - 2 * publication.seam) / 2
    if flat != sleeve.depth:
        by = excess(flat, sleeve.depth, "too deep", "too shallow")
        yield _wrong("sleeve", f"{length(sleeve.depth)} deep", length(flat), by)
    room = publication.width - sleeve.length - sleeve.shorter
    if not 0 <= room < publication.step:
        expected = f"{length(publication.width - sleeve.shorter)} or just less in length"
        yield _wrong("sleeve", expected, length(sleeve.length))
    if sleeve.length <= 0 or sleeve.shorter < 0:
        yield _wrong("sleeve", "some length, no longer than the top", length(sleeve.length))
    for side in (sleeve.cut_width, sleeve.length):
        if publication.step > 0 and (side / publication.step).denominator != 1:
            yield _wrong("sleeve", f"a multiple of {length(publication.step)}", length(side))


def _prove_sheet(
    name: str, found: tuple[Fraction, Fraction], beyond: Fraction, publication: Publication
) -> Iterable[Disagreement]:
    if beyond < 0:
        yield _wrong(name, "no smaller than the top", f"{length(beyond)} beyond it")
    expected = (publication.width + 2 * beyond, publication.height + 2 * beyond)
    yield from _prove_size(name, found, expected)


def _prove_size(
    where: str, found: tuple[Fraction, Fraction], expected: tuple[Fraction, Fraction]
) -> Iterable[Disagreement]:
    if found != expected:
        yield _wrong(where, size(*expected), size(*found), size_excess(found, expected))


def _wrong(where: str, expected: str, found: str, by: str = "") -> Disagreement:
    return Disagreement(where, 0, "", "", expected, found, by)
