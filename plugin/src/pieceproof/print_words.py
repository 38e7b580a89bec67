"""What prints ask of the cloth and of its pieces, in words and facts.

In: a design and its publication. Out: what to look for when a cloth is bought; for a print that
runs one way, which way up the pieces of each letter end in the top, or why that is left open.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pieceproof.demands import standing_counts
from pieceproof.instructions import show_length
from pieceproof.model import Design, Fabric, Measure, Print
from pieceproof.published import Piece, Publication
from pieceproof.standing import first_askew

Line = tuple[str, str]


def print_words(measure: Measure, fabric: Fabric) -> Sequence[str]:
    """What the print of a cloth that plays this part is taken to be; nothing where any will do."""
    motif = fabric.motif
    words = ["a print that runs one way, along the selvage"] if _runs(fabric) else []
    if motif is not None:
        across, along = (show_length(measure, apart) for apart in (motif.across, motif.along))
        words.append(f"a print with a motif every {across} across and {along} along")
    return words


def print_lines(
    design: Design, publication: Publication, called: Mapping[str, str]
) -> Iterator[Line]:
    """Keys and words, fabric by fabric; none where no print is planned for."""
    askew = first_askew(publication) if any(map(_runs, design.fabrics.values())) else {}
    for name, fabric in design.fabrics.items():
        for words in print_words(design.measure, fabric):
            yield f"cloth for {called[name]}", words
        pieces = [p for p in publication.pieces if p.fabric == name and _runs(fabric)]
        for piece in pieces:
            yield (
                f"piece {piece.letter}, {called[name]}, stands",
                _stands(design, publication, piece, askew),
            )


def _runs(fabric: Fabric) -> bool:
    return fabric.print is Print.DIRECTIONAL


def _stands(
    design: Design, publication: Publication, piece: Piece, askew: Mapping[str, str]
) -> str:
    counts = standing_counts(design, publication, piece)
    if counts is not None:
        return " and ".join(f"{n} {'upright' if up else 'lying'}" for _, n, up in counts)
    if piece.letter in askew:
        return f"any way up: askew in {askew[piece.letter]}"
    return "any way up: a square"
