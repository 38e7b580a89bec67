"""Proves that pieces for a foundation have the size their sections ask for.

In: a `Publication`. Out: disagreements. The exact needed size of a piece is the extent of its
section, as it lies to its seam, and what the step says it has more.
"""

from __future__ import annotations

from collections.abc import Iterable

from pieceproof.bench.foundations import lie_of, turned_over_sections
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.words import Disagreement, describe, size, size_excess
from pieceproof.published import Make, Piece, Publication
from pieceproof.shapes import Polygon
from pieceproof.steps import Cover, Foundation, Take


def prove_sections(publication: Publication) -> Iterable[Disagreement]:
    """Every piece that covers a section against that section's extent."""
    pieces = {piece.letter: piece for piece in publication.pieces}
    for make in publication.makes:
        printed = [step for step in make.steps if isinstance(step, Foundation)]
        if len(printed) == 1:
            yield from _prove_covers(make, turned_over_sections(printed[0]), pieces)


def _prove_covers(
    make: Make, sections: tuple[Polygon, ...], pieces: dict[str, Piece]
) -> Iterable[Disagreement]:
    takes = {step.item: step for step in make.steps if isinstance(step, Take)}
    for number, step in enumerate(make.steps, start=1):
        if not isinstance(step, Cover) or not 1 <= step.section <= len(sections):
            continue
        take = takes.get(step.added)
        piece = pieces.get(take.source) if take is not None else None
        if take is None or piece is None:
            continue
        found = (piece.needed_short, piece.needed_long)
        if take.turn % 2 == 1:
            found = (piece.needed_long, piece.needed_short)
        try:
            lie = lie_of(sections, step.section)
        except CannotSew:
            continue  # The sewing reports it.
        expected = (lie.long + step.longer, lie.deep + step.deeper)
        if found != expected:
            yield Disagreement(
                make.name, number, describe(step), piece.letter,
                f"{size(*expected)} needed for section {step.section}", size(*found),
                size_excess(found, expected),
            )  # fmt: skip
