"""Where a line runs through cloth, and how far cloth reaches beyond it.

In: faces and a line. Out: stretches of the line and distances. Needed to tell whether a seam
holds two layers together, runs across the whole of both, and leaves a proper allowance.
"""

from __future__ import annotations

from fractions import Fraction

from pieceproof.bench.table import Faces, Stack
from pieceproof.lengths import Number
from pieceproof.shapes import Line, cut

Stretches = tuple[tuple[Number, Number], ...]
"""Separate stretches of a line in order, as positions measured along it."""


def stretches_inside(faces: Faces, line: Line) -> Stretches:
    """Where the line has cloth on both of its sides."""
    return _shared(_touching(faces, line, line), _touching(faces, line.flipped(), line))


def seam_stretches(stack: Stack, line: Line) -> Stretches:
    """Where the line goes through both layers."""
    return _shared(stretches_inside(stack.lower, line), stretches_inside(stack.upper, line))


def allowance_is(faces: Faces, line: Line, seam: Fraction) -> bool:
    """Whether cloth on the positive side of the line makes a proper seam allowance.

    An edge along the seam must be exactly one allowance away; cloth that ends in a point there
    (a corner not yet cut away) must reach at least as far.
    """
    reach, is_edge = _furthest(faces, line)
    wanted = seam * seam * (line.a * line.a + line.b * line.b)
    return reach > 0 and (reach * reach == wanted if is_edge else reach * reach >= wanted)


def _furthest(faces: Faces, line: Line) -> tuple[Number, bool]:
    """The largest value of the line on the cloth, and whether an edge or a point has it."""
    values = [(line.at(p), p) for face in faces for p in face.outline]
    reach = max(value for value, _ in values)
    return reach, len({p for value, p in values if value == reach}) > 1


def _touching(faces: Faces, side: Line, along: Line) -> Stretches:
    """Where cloth on the positive side comes up to the line, measured one way for both sides."""
    stretches = []
    for face in faces:
        part = cut(face.outline, side)
        places = [along.b * p[0] - along.a * p[1] for p in part if side.at(p) == 0]
        if len(places) > 1:
            stretches.append((min(places), max(places)))
    return _united(stretches)


def _united(stretches: list[tuple[Number, Number]]) -> Stretches:
    result: list[tuple[Number, Number]] = []
    for start, end in sorted(stretches):
        if result and start <= result[-1][1]:
            result[-1] = (result[-1][0], max(end, result[-1][1]))
        else:
            result.append((start, end))
    return tuple(result)


def _shared(first: Stretches, second: Stretches) -> Stretches:
    both = [(max(a, c), min(b, d)) for a, b in first for c, d in second]
    return tuple((start, end) for start, end in both if start < end)
