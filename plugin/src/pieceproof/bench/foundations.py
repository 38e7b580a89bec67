"""Sewing on a foundation: sections covered one after the other, trimmed at the end.

In: a printed foundation, pieces, `Cover` steps. Out: the thing as it comes off, or a snag where a
section cannot be covered as the step says or stays partly bare.

Whatever cloth lies beyond the line of a section is trimmed when that section is covered.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.bench.printed import Lie, Printed, allowance_beyond, lie_of, total_area
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import (
    Faces,
    Flat,
    carried,
    covered,
    cut_faces,
    flat,
    is_rectangle,
    pared,
)
from pieceproof.bench.words import excess, length
from pieceproof.shapes import (
    Line,
    Motion,
    apart,
    area,
    bounds,
    line_through,
    overlap,
    rectangle,
)
from pieceproof.steps import Cover, Guide

_ZERO = Fraction(0)


@dataclass(frozen=True)
class Covered:
    """A foundation seen from its cloth side, the first ``count`` sections covered by faces."""

    printed: Printed
    count: int = 0
    faces: Faces = ()


def with_cover(thing: Covered, added: Flat, step: Cover, seam: Fraction) -> Covered:
    """The next section covered by a piece."""
    count = len(thing.printed.sections)
    if step.section != thing.count + 1 or step.section > count:
        expected = f"section {thing.count + 1} next, of {count}"
        raise CannotSew(expected, f"section {step.section}")
    if not is_rectangle(added):
        raise CannotSew("a rectangular piece", "another outline")
    lie = lie_of(thing.printed, step.section, seam)
    _check_covers(added, lie, step.section)
    laid = carried(added.faces, _laying(added, lie, step.section))
    if step.section == 1:
        return replace(thing, count=1, faces=laid)
    line = line_through(*thing.printed.edge(step.section))
    _check_beneath(thing, line, step, seam)
    faces = (*cut_faces(thing.faces, line.flipped()), *cut_faces(laid, line))
    return replace(thing, count=step.section, faces=faces)


def trimmed_to_foundation(thing: Covered) -> Flat:
    """Everything beyond the foundation's edges cut off."""
    printed, count = thing.printed, len(thing.printed.sections)
    if thing.count != count:
        raise CannotSew(f"all {count} sections covered", f"{thing.count} covered")
    faces = pared(Flat(thing.faces, printed.width, printed.height), _ZERO, _ZERO, _ZERO, _ZERO)
    if covered(faces) != printed.width * printed.height:
        raise CannotSew("a foundation without bare spots", "a bare spot")
    return flat(faces)


def _laying(added: Flat, lie: Lie, number: int) -> Motion:
    """From the piece as it was taken, its top toward the seam, to its place."""
    left = (lie.low + lie.high - added.width) / 2
    top = lie.near if number > 1 else (lie.near + lie.far - added.height) / 2
    (x, y), (cos, sin) = lie.start, lie.way
    return Motion(
        cos, -sin, sin, cos,
        x + cos * left - sin * top, y + sin * left + cos * top,
    )  # fmt: skip


def _check_covers(added: Flat, lie: Lie, number: int) -> None:
    for found, least, what in (
        (added.width, lie.long, "long"),
        (added.height, lie.deep, "deep"),
    ):
        if found < least:
            raise CannotSew(
                f"a piece at least {length(least)} {what} for section {number}",
                length(found),
                excess(found, least, "", "too small"),
            )


def _check_beneath(thing: Covered, line: Line, step: Cover, seam: Fraction) -> None:
    """Cloth beneath the seam: a whole allowance of it; just that where its edge is the guide."""
    strip = allowance_beyond(thing.printed.edge(step.section), seam)
    there = overlap(strip, rectangle(thing.printed.width, thing.printed.height))
    near = (f.outline for f in thing.faces if not apart(bounds([f.outline]), bounds([there])))
    under = (overlap(outline, there) for outline in near)
    if total_area(part for part in under if part) != area(there):
        raise CannotSew(
            f"cloth one seam allowance beyond the line of section {step.section}",
            "an edge that stops short",
        )
    if step.guide is Guide.EDGE and not _ends_at(thing.faces, line, seam):
        raise CannotSew(
            f"a raw edge {length(seam)} beyond the line of section {step.section}",
            "an edge elsewhere",
        )


def _ends_at(faces: Faces, line: Line, seam: Fraction) -> bool:
    """Whether an edge of the cloth lies just this far beyond a line, and nothing further."""
    values = {p: line.at(p) for face in faces for p in face.outline}
    reach = max(values.values())
    wanted = seam * seam * (line.a * line.a + line.b * line.b)
    return reach > 0 and reach * reach == wanted and list(values.values()).count(reach) > 1
