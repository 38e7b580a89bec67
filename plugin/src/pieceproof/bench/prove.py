"""Proves a publication: sews every make and holds it against the drawing and the lists.

In: a `Publication` and the `Drawing` of the same size. Out: all disagreements, in the order in
which a maker meets them: cutting list, makes from the first, counts, finishing.

Each make is sewn once, from cut pieces and earlier makes; its number of rounds is only counted.
Makes with a trimming step are sewn a second time from pieces of the exact needed size: then
nothing must be left to trim. Where an earlier make is wrong, later ones are sewn with one as
drawn instead, so that each mistake is reported where it is made and hides no other.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from pieceproof.bench.comparing import compare
from pieceproof.bench.counting import prove_counts
from pieceproof.bench.cross_cuts import prove_segments
from pieceproof.bench.cutting_list import prove_cutting_list
from pieceproof.bench.finishing import prove_finishing
from pieceproof.bench.sections import prove_sections
from pieceproof.bench.sewing import Sewn, Shop, sew
from pieceproof.bench.table import Face, Flat, cloth, framed
from pieceproof.bench.words import Disagreement, describe
from pieceproof.published import Drawing, Make, Picture, Piece, Publication
from pieceproof.steps import Step, Take, Trim, TrimToFoundation

_EXACT = " when its pieces are cut to the exact needed size"


def prove(publication: Publication, drawing: Drawing) -> tuple[Disagreement, ...]:
    """Everything in which the sewn cloth, the drawing and the published numbers differ."""
    return (
        *prove_cutting_list(publication),
        *_prove_makes(publication, drawing),
        *prove_segments(publication),
        *prove_sections(publication),
        *prove_counts(publication),
        *prove_finishing(publication, drawing),
    )


def _prove_makes(publication: Publication, drawing: Drawing) -> Iterable[Disagreement]:
    published = {p.letter: cloth(p.fabric, p.letter, p.short, p.long) for p in publication.pieces}
    needed = {p.letter: _exact_cloth(p) for p in publication.pieces}
    shop = Shop(published, publication.seam)
    for make in publication.makes:
        picture = drawing.pictures.get(make.name)
        sewn = sew(make.steps, shop)
        wrong = _judge(make, sewn, picture, shop)
        if not wrong and any(isinstance(step, Trim | TrimToFoundation) for step in make.steps):
            wrong = _judge_untrimmed(make, picture, Shop({**shop.sources, **needed}, shop.seam))
        yield from wrong
        result = _as_drawn(picture, shop.seam) if wrong else sewn.finished[0]
        if result is not None:
            shop = Shop({make.name: result, **shop.sources}, shop.seam)


def _exact_cloth(piece: Piece) -> Flat:
    return cloth(piece.fabric, piece.letter, piece.needed_short, piece.needed_long)


def _judge_untrimmed(make: Make, picture: Picture | None, exact: Shop) -> Sequence[Disagreement]:
    """What is wrong with a make sewn from exact pieces, with nothing to trim."""
    wrong = _judge(make, sew([_untrimmed(step) for step in make.steps], exact), picture, exact)
    return [replace(d, expected=d.expected + _EXACT) for d in wrong]


def _untrimmed(step: Step) -> Step:
    if not isinstance(step, Trim):
        return step
    zero = Fraction(0)
    return replace(step, off_left=zero, off_top=zero, off_right=zero, off_bottom=zero)


def _judge(make: Make, sewn: Sewn, picture: Picture | None, shop: Shop) -> Sequence[Disagreement]:
    """What is wrong with a make as it was sewn."""
    if sewn.snag is not None:
        step, snag = make.steps[sewn.step - 1], sewn.snag
        letters = ", ".join(_letters(step, make.steps, shop))
        doing = describe(step)
        return [
            Disagreement(make.name, sewn.step, doing, letters, snag.expected, snag.found, snag.by)
        ]
    if picture is None:
        return [Disagreement(make.name, 0, "", "", "a drawing of it", "nothing to compare", "")]
    if len(sewn.finished) != make.each or not sewn.finished:
        found = f"{len(sewn.finished)} from one round"
        return [Disagreement(make.name, 0, "", "", f"{make.each} from one round", found, "")]
    different = [t for i, t in enumerate(sewn.finished) if t not in sewn.finished[:i]]
    return [d for thing in different for d in compare(make, thing, picture, shop.seam)]


def _letters(step: Step, steps: Sequence[Step], shop: Shop) -> list[str]:
    """The pieces that a step that failed has to do with: its own, or all taken by the make."""
    if isinstance(step, Take):
        sources = {step.source}
    else:
        sources = {s.source for s in steps if isinstance(s, Take)}
    letters = {face.letter for source in shop.sources.values() for face in source.faces}
    return sorted(sources & letters)


def _as_drawn(picture: Picture | None, seam: Fraction) -> Flat | None:
    """A stand-in for a make: the drawing with unnamed cloth as its outer seam allowance."""
    if picture is None:
        return None
    faces = tuple(Face(patch.fabric, "", patch.outline) for patch in picture.patches)
    return framed(faces, picture.width, picture.height, seam)
