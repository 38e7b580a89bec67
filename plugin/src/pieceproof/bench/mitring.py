"""Four strips sewn round a rectangle, their corners mitred.

In: flat things as they lie. Out: one flat rectangle. Each strip is sewn on by itself, turned so
that its side of the thing is at the top; then neighbours are folded onto each other at each
corner: they must be equally deep, and the line that halves the corner must have cloth of both
along its whole length and one seam allowance beyond it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import (
    Faces,
    Flat,
    carried,
    cut_faces,
    flat,
    is_rectangle,
    pared,
    turned,
)
from pieceproof.bench.words import excess, length
from pieceproof.lengths import Number, square_root
from pieceproof.shapes import Line, quarter_turns, shift
from pieceproof.steps import JoinMitred

_SIDES = ("left", "top", "right", "bottom")
_CORNERS = ("bottom left", "top left", "top right", "bottom right")
"""Each is where the side of the same number follows the one before it, clockwise."""


@dataclass(frozen=True)
class _Strip:
    """A strip sewn to the top of ``base`` as turned, and how deep it is beyond the seam."""

    base: Flat
    faces: Faces
    depth: Number


def mitred(base: Flat, strips: Sequence[Flat], step: JoinMitred) -> Flat:
    """``strips`` come as left, top, right, bottom, each lying as it is sewn on."""
    a = step.allowance
    sewn = [_sewn_on(base, strip, side, step) for side, strip in enumerate(strips)]
    for side, strip in enumerate(sewn):
        _check_fold(sewn[side - 1], strip, _CORNERS[side])
        _check_cloth(strip, step.beyond_sides if side % 2 == 0 else step.beyond_ends, a, side)
    around = [face for side, strip in enumerate(sewn) for face in _cut_back(strip, a, side)]
    return flat((*pared(base, a, a, a, a), *around))


def _sewn_on(base: Flat, strip: Flat, side: int, step: JoinMitred) -> _Strip:
    """The strip in its place on a base that is turned so that its side is at the top."""
    a = step.allowance
    thing, added = turned(base, 1 - side), turned(strip, 1 - side)
    for flat_thing in (thing, added):
        if not is_rectangle(flat_thing):
            raise CannotSew("rectangles to sew round and with", "another outline")
    if not 0 < a < min(added.height, thing.width / 2, thing.height / 2):
        raise CannotSew("a seam allowance narrower than the cloth", length(a))
    beyond = step.beyond_sides if side % 2 == 0 else step.beyond_ends
    found = (added.width - thing.width) / 2
    if found != beyond:
        raise CannotSew(
            f"a strip that reaches {length(beyond)} beyond both ends of the {_SIDES[side]} edge",
            length(found),
            excess(found, beyond, "too far", "too little"),
        )
    faces = carried(added.faces, shift(-beyond, 2 * a - added.height))
    return _Strip(thing, cut_faces(faces, _above(a)), added.height - a)


def _check_fold(first: _Strip, second: _Strip, corner: str) -> None:
    """Folded on the diagonal, the outer edges of the two strips must lie on each other."""
    if first.depth != second.depth:
        raise CannotSew(
            f"strips of one width at the {corner} corner: {length(first.depth)} beyond the seam",
            length(second.depth),
            excess(second.depth, first.depth, "too wide", "too narrow"),
        )


def _check_cloth(strip: _Strip, beyond: Number, allowance: Fraction, side: int) -> None:
    """At its outer edge the seam lies ``depth`` beyond the seam corner, the cut root 2 a more."""
    reach = beyond + allowance
    wanted = strip.depth + square_root(2) * allowance
    if reach < wanted:
        raise CannotSew(
            f"a {_SIDES[side]} strip that reaches {length(wanted - allowance)} beyond, for its "
            "mitres and their seam allowances",
            length(beyond),
            excess(reach, wanted, "", "too short"),
        )


def _cut_back(strip: _Strip, allowance: Fraction, side: int) -> Faces:
    """The strip between the mitres of its two corners, turned to where its side is."""
    one, right = Fraction(1), strip.base.width - allowance
    mitres = (
        Line(one, -one, Fraction(0)),
        Line(-one, -one, -right - allowance),
    )
    faces = strip.faces
    for mitre in mitres:
        faces = cut_faces(faces, mitre)
    width, height = strip.base.width, strip.base.height
    return carried(faces, quarter_turns(side - 1, width, height))


def _above(y: Fraction) -> Line:
    return Line(Fraction(0), Fraction(-1), -y)
