"""Where a line runs through cloth, and how far cloth reaches beyond it.

In: faces and a line. Out: stretches of the line and distances. Needed to tell whether a seam
holds two layers together, runs across the whole of both, and leaves a proper allowance.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.table import Faces, Stack
from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.shapes import Line, Polygon

Stretches = tuple[tuple[Number, Number], ...]
"""Separate stretches of a line in order, as positions measured along it."""


def stretches_inside(faces: Faces, line: Line) -> Stretches:
    """Where the line has cloth on both of its sides."""
    contacts = [_contact(face.outline, line) for face in faces]
    before = _united([c.stretch for c in contacts if c.stretch and c.has_more])
    behind = _united([c.stretch for c in contacts if c.stretch and c.has_less])
    return _shared(before, behind)


def seam_stretches(stack: Stack, line: Line) -> Stretches:
    """Where the line goes through both layers."""
    return _shared(stretches_inside(stack.lower, line), stretches_inside(stack.upper, line))


def allowance_is(faces: Faces, line: Line, seam: Fraction) -> bool:
    """Whether cloth on the positive side of the line makes a proper seam allowance.

    An edge along the seam must be exactly one allowance away; cloth that ends in a point there
    (a corner not yet cut away) must reach at least as far.
    """
    reach, is_edge = _furthest(faces, line)
    wanted = seam * seam * _square_of_length(line)
    return reach > 0 and (reach * reach == wanted if is_edge else reach * reach >= wanted)


def allowance_of(faces: Faces, line: Line) -> Number | None:
    """How far the cloth reaches beyond the line; None where that is a root of a root."""
    square = _square_of_length(line)
    return None if isinstance(square, Surd) else _furthest(faces, line)[0] / square_root(square)


def _square_of_length(line: Line) -> Number:
    return line.a * line.a + line.b * line.b


def _furthest(faces: Faces, line: Line) -> tuple[Number, bool]:
    """The largest value of the line on the cloth, and whether an edge or a point has it."""
    values = [(line.at(p), p) for face in faces for p in face.outline]
    reach = max(value for value, _ in values)
    return reach, len({p for value, p in values if value == reach}) > 1


@dataclass(frozen=True)
class _Contact:
    """Where a polygon meets a line, and on which sides of the line it has more of itself."""

    stretch: tuple[Number, Number] | None
    has_more: bool
    has_less: bool


def _contact(outline: Polygon, line: Line) -> _Contact:
    """Positions are measured along the line, in one direction for every polygon."""
    values = [line.at(p) for p in outline]
    signs = [sign(value) for value in values]
    places = [line.b * p[0] - line.a * p[1] for p in outline]
    met = [place for place, side in zip(places, signs, strict=True) if side == 0]
    for i, side in enumerate(signs):
        if side * signs[i - 1] < 0:
            share = values[i] / (values[i] - values[i - 1])
            met.append(places[i] + share * (places[i - 1] - places[i]))
    stretch = (min(met), max(met)) if len(met) > 1 else None
    return _Contact(stretch, 1 in signs, -1 in signs)


def _united(stretches: Iterable[tuple[Number, Number]]) -> Stretches:
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
