"""Proves a template as such: its raw edge, its seam lines, its arcs, the rectangle around it.

In: a piece with its template. Out: disagreements. Whether seam lines fit is for the sewing to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise

from quicktions import Fraction

from pieceproof.bench.outlines import NotMeasurable, marks_of, raw_outline
from pieceproof.bench.words import Disagreement, length, size
from pieceproof.lengths import Number, sign
from pieceproof.published import Arc, Piece, Template
from pieceproof.shapes import Point, area, bounds, canonical

_COSINE_SQUARED: Mapping[int, Fraction] = {45: Fraction(1, 2), 90: Fraction(0)}


def prove_template(piece: Piece, template: Template, step: Fraction) -> Iterable[Disagreement]:
    """What is wrong with a template, and where its rectangle is not its extent."""
    wrong = [*_prove_seam_lines(piece, template)]
    yield from wrong or _prove_raw_edge(piece, template)
    yield from _prove_extent(piece, template, step)


def _prove_seam_lines(piece: Piece, template: Template) -> Iterable[Disagreement]:
    corners = template.seam_lines
    if len(corners) < 3 or len(set(corners)) < len(corners) or area(corners) <= 0:
        yield _wrong(piece, "seam lines around some cloth, clockwise", "another outline")
        return
    if template.allowance < 0:
        yield _wrong(piece, "an allowance of nothing or more", length(template.allowance))
    for arc in template.arcs:
        yield from _prove_arc(piece, template, arc)
    if len(marks_of(template)) < 2:
        yield _wrong(piece, "two marks or more", "fewer")


def _prove_arc(piece: Piece, template: Template, arc: Arc) -> Iterable[Disagreement]:
    count = len(template.seam_lines)
    if not 0 <= arc.first < count or not 0 < arc.last - arc.first <= count or arc.radius <= 0:
        yield _wrong(piece, "an arc between two corners of the seam lines", "another")
        return
    places = [template.seam_lines[i % count] for i in range(arc.first, arc.last + 1)]
    rays = [(x - arc.centre[0], y - arc.centre[1]) for x, y in places]
    square = arc.radius * arc.radius
    if any(_dot(ray, ray) != square for ray in rays):
        yield _wrong(piece, f"corners {length(arc.radius)} from the arc's centre", "others")
    turns = {sign(_cross(first, second)) for first, second in pairwise(rays)}
    cosine = _dot(rays[0], rays[-1])
    known = _COSINE_SQUARED.get(arc.degrees)
    if turns not in ({1}, {-1}) or sign(cosine) < 0 or known is None:
        yield _wrong(piece, "an arc of 45 or 90 degrees", f"one of {arc.degrees}")
    elif cosine * cosine != known * square * square:
        yield _wrong(piece, f"an arc of {arc.degrees} degrees", "another")


def _prove_raw_edge(piece: Piece, template: Template) -> Iterable[Disagreement]:
    try:
        expected = raw_outline(template)
    except NotMeasurable:
        yield _wrong(piece, "seam lines that can be measured", "one of irrational steepness")
        return
    if canonical(expected) != canonical(template.cut):
        wanted = f"a raw edge {length(template.allowance)} outside the seam lines"
        yield _wrong(piece, wanted, "another raw edge")


def _prove_extent(piece: Piece, template: Template, step: Fraction) -> Iterable[Disagreement]:
    if len(template.cut) < 3:
        return
    box = bounds([template.cut])
    needed = (piece.needed_short, piece.needed_long)
    found = sorted((box.width, box.height))
    if tuple(found) != needed:
        yield _wrong(piece, f"{size(found[0], found[1])} needed, as the template", size(*needed))
    if max(piece.short - needed[0], piece.long - needed[1]) >= step:
        listed = size(piece.short, piece.long)
        yield _wrong(piece, f"{size(*needed)} rounded up to the ruler", listed)
    if box.left != 0 or box.top != 0:
        yield _wrong(piece, "the template's extent at the origin", "elsewhere")


def _wrong(piece: Piece, expected: str, found: str) -> Disagreement:
    return Disagreement("cutting list", 0, "", piece.letter, expected, found, "")


def _dot(p: Point, q: Point) -> Number:
    return p[0] * q[0] + p[1] * q[1]


def _cross(p: Point, q: Point) -> Number:
    return p[0] * q[1] - p[1] * q[0]
