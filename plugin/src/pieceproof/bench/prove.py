"""Proves a publication: sews every make and holds it against the drawing and the lists.

In: a `Publication` and the `Drawing` of the same size. Out: all disagreements, in the order in
which a maker meets them: cutting list, makes from the first, counts, finishing.

Each make is sewn once, from cut pieces and earlier makes; its number of rounds is only counted.
Makes with a trimming step are sewn a second time from pieces of the exact needed size: then
nothing must be left to trim, or only what the step says. Where an earlier make is wrong, later
ones are sewn with one as drawn instead, so that each mistake is reported where it is made and
hides no other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from quicktions import Fraction

from pieceproof.bench.comparing import compare
from pieceproof.bench.counting import prove_counts
from pieceproof.bench.cross_cuts import prove_segments
from pieceproof.bench.cutting_list import prove_cutting_list
from pieceproof.bench.diagonal import spare_beyond
from pieceproof.bench.finishing import prove_finishing
from pieceproof.bench.marks import cut_cloth
from pieceproof.bench.sections import prove_sections
from pieceproof.bench.sewing import Sewn, Shop, sew
from pieceproof.bench.table import Face, Flat, cloth, framed
from pieceproof.bench.words import Disagreement, describe, excess
from pieceproof.published import Drawing, Make, MakeKind, Picture, Piece, Publication
from pieceproof.steps import (
    AssembleOnPoint,
    Step,
    Take,
    Trim,
    TrimEven,
    TrimLike,
    TrimToFoundation,
    Yield,
)

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
    published = {piece.letter: cut_cloth(piece) for piece in publication.pieces}
    needed = {p.letter: _exact_cloth(p) for p in publication.pieces}
    shop, exact = Shop(published, publication.seam), Shop(needed, publication.seam)
    for make in publication.makes:
        sewn = sew(make.steps, shop)
        wrong = _judge(make, _products(make), sewn, drawing, shop)
        trims = (Trim, TrimEven, TrimToFoundation)
        if not wrong and any(isinstance(step, trims) for step in make.steps):
            wrong = _judge_untrimmed(make, drawing, exact) or list(_prove_edge(make, exact))
        yield from wrong
        for name, product in _products(make).items():
            picture = drawing.pictures.get(product.name)
            result = _as_drawn(make, picture, shop.seam) if wrong else _things(sewn, name)[0]
            if result is not None:
                shop = Shop({product.name: result, **shop.sources}, shop.seam)
                if make.kind is MakeKind.TRIANGLE:
                    result = next(iter(sew(make.steps, exact).finished), result)
                exact = Shop({product.name: result, **exact.sources}, exact.seam)


def _things(sewn: Sewn, extra: str) -> Sequence[Flat]:
    """The finished things of one extra, "" for the make itself."""
    return [t for name, t in sewn.extras if name == extra] if extra else sewn.finished


def _products(make: Make) -> Mapping[str, Make]:
    """What comes out of a round by the name it is finished as: the make and its extras."""
    extras = {
        extra.name: replace(
            make, name=extra.name, each=extra.each, width=extra.width, height=extra.height
        )
        for extra in make.extras
    }
    return {"": make, **extras}


def _exact_cloth(piece: Piece) -> Flat:
    if piece.template is not None:
        return cut_cloth(piece)
    return cloth(piece.fabric, piece.letter, piece.needed_short, piece.needed_long)


def _judge_untrimmed(make: Make, drawing: Drawing, exact: Shop) -> Sequence[Disagreement]:
    """What is wrong with a make sewn from exact pieces, with nothing to trim; extras aside."""
    sewn = sew(_untrimmed(make.steps), exact)
    wrong = _judge(make, {"": make}, sewn, drawing, exact)
    return [replace(d, expected=d.expected + _EXACT) for d in wrong]


def _prove_edge(make: Make, exact: Shop) -> Iterable[Disagreement]:
    """Pieces at an uneven edge, cut to the exact needed size, just reach the size to trim to."""
    join = next((step for step in make.steps if isinstance(step, AssembleOnPoint)), None)
    trim = next((step for step in make.steps if isinstance(step, TrimEven)), None)
    if join is not None and trim is not None:
        for source, over in sorted(spare_beyond(join, trim, exact.sources).items()):
            if over != 0:
                expected = f"{source} to reach just to the size to trim to{_EXACT}"
                by = excess(over, Fraction(0), "too far", "too short")
                yield Disagreement(make.name, 0, "", source, expected, by, "")


def _untrimmed(steps: Sequence[Step]) -> Sequence[Step]:
    """Steps with nothing to trim off the make; its extras stay as they are."""
    extras = {n for step in steps if isinstance(step, Yield) and step.extra for n in step.items}
    return [
        _untrimmed_step(step)
        for step in steps
        if not (isinstance(step, Trim) and step.item in extras)
    ]


def _untrimmed_step(step: Step) -> Step:
    zero = Fraction(0)
    if isinstance(step, TrimEven):
        return replace(step, off_sides=step.least_sides, off_ends=step.least_ends)
    if isinstance(step, Trim | TrimLike):
        return replace(step, off_left=zero, off_top=zero, off_right=zero, off_bottom=zero)
    return step


def _judge(
    make: Make, products: Mapping[str, Make], sewn: Sewn, drawing: Drawing, shop: Shop
) -> Sequence[Disagreement]:
    """What is wrong with a make, and its extras among ``products``, as they were sewn."""
    if sewn.snag is not None:
        step, snag = make.steps[sewn.step - 1], sewn.snag
        letters = ", ".join(_letters(step, make.steps, shop))
        doing = describe(step)
        return [
            Disagreement(make.name, sewn.step, doing, letters, snag.expected, snag.found, snag.by)
        ]
    known = {extra.name for extra in make.extras}
    unknown = sorted({name for name, _ in sewn.extras} - known)
    return [
        *(_wrong(make, "no extra of that name", f"“{name}” finished") for name in unknown),
        *(
            wrong
            for name, product in products.items()
            for wrong in _judge_product(product, _things(sewn, name), drawing, shop)
        ),
    ]


def _judge_product(
    product: Make, things: Sequence[Flat], drawing: Drawing, shop: Shop
) -> Sequence[Disagreement]:
    picture = drawing.pictures.get(product.name)
    if picture is None:
        return [_wrong(product, "a drawing of it", "nothing to compare")]
    if len(things) != product.each or not things:
        return [_wrong(product, f"{product.each} from one round", f"{len(things)} from one round")]
    different = [t for i, t in enumerate(things) if t not in things[:i]]
    return [d for thing in different for d in compare(product, thing, picture, shop.seam)]


def _wrong(make: Make, expected: str, found: str) -> Disagreement:
    return Disagreement(make.name, 0, "", "", expected, found, "")


def _letters(step: Step, steps: Sequence[Step], shop: Shop) -> list[str]:
    """The pieces that a step that failed has to do with: its own, or all taken by the make."""
    if isinstance(step, Take):
        sources = {step.source}
    else:
        sources = {s.source for s in steps if isinstance(s, Take)}
    letters = {face.letter for source in shop.sources.values() for face in source.faces}
    return sorted(sources & letters)


def _as_drawn(make: Make, picture: Picture | None, seam: Fraction) -> Flat | None:
    """A stand-in for a make: the drawing with unnamed cloth as its outer seam allowance."""
    if picture is None:
        return None
    faces = tuple(Face(patch.fabric, "", patch.outline, patch.layer) for patch in picture.patches)
    if make.kind is MakeKind.TRIANGLE:
        return Flat(faces, make.width, make.height)
    return framed(faces, picture.width, picture.height, seam)
