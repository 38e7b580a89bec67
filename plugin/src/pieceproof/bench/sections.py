"""Proves that pieces for a foundation have the size their sections ask for.

In: a `Publication`. Out: disagreements. The exact needed size of a piece is the extent of its
section with its seam allowances, as it lies to its seam, and what the step says it has more.
"""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from pieceproof.bench.printed import Printed, lie_of, printed_of
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.words import Disagreement, describe, size, size_excess
from pieceproof.lengths import ceil_to
from pieceproof.published import Make, Piece, Publication
from pieceproof.steps import Cover, Foundation, Take


def prove_sections(publication: Publication) -> Iterable[Disagreement]:
    """Every piece that covers a section against that section's extent."""
    pieces = {piece.letter: piece for piece in publication.pieces}
    for make in publication.makes:
        printed = _printed(make)
        if printed is not None:
            yield from _prove_covers(make, printed, pieces, publication.seam)
    used = {letter for make in publication.makes for letter in _covering(make)}
    for piece in publication.pieces if publication.step > 0 else ():
        if piece.letter in used:
            yield from _prove_rounding(piece, publication.step)


def _covering(make: Make) -> set[str]:
    """Letters of pieces, or names, that cover sections."""
    items = {step.added for step in make.steps if isinstance(step, Cover)}
    return {step.source for step in make.steps if isinstance(step, Take) and step.item in items}


def _prove_covers(
    make: Make, printed: Printed, pieces: dict[str, Piece], seam: Fraction
) -> Iterable[Disagreement]:
    takes = {step.item: step for step in make.steps if isinstance(step, Take)}
    for number, step in enumerate(make.steps, start=1):
        if not isinstance(step, Cover) or not 1 <= step.section <= len(printed.sections):
            continue
        take = takes.get(step.added)
        piece = pieces.get(take.source) if take is not None else None
        if take is None or piece is None:
            continue
        found = (piece.needed_short, piece.needed_long)
        if take.turn % 2 == 1:
            found = (piece.needed_long, piece.needed_short)
        lie = lie_of(printed, step.section, seam)
        expected = (lie.long + step.longer, lie.deep + step.deeper)
        if found != expected:
            yield Disagreement(
                make.name, number, describe(step), piece.letter,
                f"{size(*expected)} needed for section {step.section}", size(*found),
                size_excess(found, expected),
            )  # fmt: skip


def _printed(make: Make) -> Printed | None:
    """The make's foundation; None without one, or with one that the sewing finds fault with."""
    steps = [step for step in make.steps if isinstance(step, Foundation)]
    try:
        return printed_of(steps[0]) if len(steps) == 1 else None
    except CannotSew:
        return None


def _prove_rounding(piece: Piece, step: Fraction) -> Iterable[Disagreement]:
    """What is trimmed away anyway is cut at the ruler's next step, not above it."""
    found = (piece.short, piece.long)
    expected = (ceil_to(piece.needed_short, step), ceil_to(piece.needed_long, step))
    if found != expected:
        yield Disagreement(
            "cutting list", 0, "", piece.letter, size(*expected), size(*found),
            size_excess(found, expected),
        )  # fmt: skip
