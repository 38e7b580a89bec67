"""Proves what belongs to the whole quilt: finished size, binding, backing, batting, pictures.

In: a `Publication` and its `Drawing`. Out: disagreements.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from pieceproof.bench.counting import things_of
from pieceproof.bench.words import Disagreement, excess, length, size, size_excess
from pieceproof.published import BindingFacts, Drawing, Publication


def prove_finishing(publication: Publication, drawing: Drawing) -> Iterable[Disagreement]:
    """The finished size against the sewn top, and all that follows from the finished size."""
    yield from _prove_finished_size(publication)
    yield from _prove_pictures(publication, drawing)
    if publication.binding is not None:
        yield from _prove_binding(publication.binding, publication)
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
    if binding.extra < 0:
        yield _wrong("binding", "no less than the edge", f"{length(binding.extra)} beyond it")
    if binding.cut_width <= 4 * publication.seam:
        # Folded double it must cover one seam allowance on the front and one on the back.
        expected_width = f"wider than {length(4 * publication.seam)}, four seam allowances"
        yield _wrong("binding", expected_width, length(binding.cut_width))
    if publication.step > 0 and (binding.cut_width / publication.step).denominator != 1:
        expected_width = f"a multiple of {length(publication.step)}"
        yield _wrong("binding", expected_width, length(binding.cut_width))


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
