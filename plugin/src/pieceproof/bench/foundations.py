"""Sewing on a foundation: sections covered one after the other, trimmed at the end.

In: a `Foundation` as printed, pieces, `Cover` steps. Out: the thing as it comes off, or a snag
where sections do not fill the foundation, cannot be sewn in this order, or stay partly bare.

The foundation is worked on from its other side, so all printed outlines are turned over first.
Each section after the first has one line between it and all sections before it. Whatever cloth
lies beyond that line is trimmed when the section is covered.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

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
from pieceproof.bench.words import counted, excess, length, size
from pieceproof.lengths import Number, Surd, sign, square_root
from pieceproof.shapes import (
    Box,
    Line,
    Motion,
    Point,
    Polygon,
    apart,
    area,
    bounds,
    cut,
    is_convex,
    line_through,
    mirror_left_right,
    overlap,
    rectangle,
)
from pieceproof.steps import Cover, Foundation, Guide

_ZERO = Fraction(0)


@dataclass(frozen=True)
class Lie:
    """How a section with its seam allowances lies to its seam, section 1 to that of section 2.

    ``start`` and ``way`` give the seam line, walked with the later section on the right hand;
    ``way`` is of unit length. What is needed of cloth reaches from ``low`` to ``high`` along it
    and from ``near`` to ``far`` square to it, both measured from ``start``.
    """

    start: Point
    way: Point
    low: Number
    high: Number
    near: Number
    far: Number

    @property
    def long(self) -> Number:
        return self.high - self.low

    @property
    def deep(self) -> Number:
        return self.far - self.near


@dataclass(frozen=True)
class Covered:
    """A foundation seen from its cloth side, the first ``count`` sections covered by faces."""

    width: Fraction
    height: Fraction
    sections: tuple[Polygon, ...]
    count: int
    faces: Faces


def laid_out(step: Foundation) -> Covered:
    """A bare foundation, turned over; its sections must fill it and lie in a sewable order."""
    sections = turned_over_sections(step)
    whole = step.width * step.height
    if len(sections) < 2 or not all(len(s) > 2 and is_convex(s) for s in sections):
        raise CannotSew("two or more sections with straight sides", "other outlines")
    box = bounds(sections)
    if box != Box(_ZERO, _ZERO, step.width, step.height):
        expected = f"sections that fill {size(step.width, step.height)}"
        raise CannotSew(expected, size(box.width, box.height))
    if _total(sections) != whole or _overlapping(sections):
        raise CannotSew("sections that fill the foundation side by side", "gaps or overlaps")
    for number in range(2, len(sections) + 1):
        seam_edge(sections, number)
    return Covered(step.width, step.height, sections, 0, ())


def turned_over_sections(step: Foundation) -> tuple[Polygon, ...]:
    """The outlines as seen from the side that is not printed."""
    mirror = mirror_left_right(step.width)
    return tuple(mirror.polygon(section) for section in step.sections)


def with_cover(thing: Covered, added: Flat, step: Cover, seam: Fraction) -> Covered:
    """The next section covered by a piece."""
    if step.section != thing.count + 1 or step.section > len(thing.sections):
        expected = f"section {thing.count + 1} next, of {len(thing.sections)}"
        raise CannotSew(expected, f"section {step.section}")
    if not is_rectangle(added):
        raise CannotSew("a rectangular piece", "another outline")
    lie = lie_of(thing.sections, step.section, seam)
    _check_covers(added, lie, step.section)
    laid = carried(added.faces, _laying(added, lie, step.section))
    if step.section == 1:
        return replace(thing, count=1, faces=laid)
    start, end = seam_edge(thing.sections, step.section)
    line = line_through(start, end)
    _check_beneath(thing, line, step, seam)
    faces = (*cut_faces(thing.faces, line.flipped()), *cut_faces(laid, line))
    return replace(thing, count=step.section, faces=faces)


def trimmed_to_foundation(thing: Covered) -> Flat:
    """Everything beyond the foundation's edges cut off."""
    if thing.count != len(thing.sections):
        raise CannotSew(f"all {len(thing.sections)} sections covered", f"{thing.count} covered")
    zero, wide = _ZERO, Flat(thing.faces, thing.width, thing.height)
    faces = pared(wide, zero, zero, zero, zero)
    if covered(faces) != thing.width * thing.height:
        raise CannotSew("a foundation without bare spots", "a bare spot")
    return flat(faces)


def seam_edge(sections: Sequence[Polygon], number: int) -> tuple[Point, Point]:
    """The edge along which a section meets the ones before it; they all lie beyond its line."""
    section, before = sections[number - 1], sections[: number - 1]
    for i, start in enumerate(section):
        end = section[(i + 1) % len(section)]
        line = line_through(start, end)
        beyond = all(line.at(p) <= 0 for other in before for p in other)
        if beyond and any(_shared(start, end, other) for other in before):
            return start, end
    expected = f"one line between section {number} and {counted(number - 1, 'section')} before it"
    raise CannotSew(expected, "another place")


def lie_of(sections: Sequence[Polygon], number: int, seam: Fraction) -> Lie:
    """How a section and the allowances that its cloth gives to seams lie to its own seam."""
    start, end = seam_edge(sections, max(number, 2))
    way = _unit(end[0] - start[0], end[1] - start[1])
    needed = [*sections[number - 1], *_given(sections, number, seam)]
    from_start = [(x - start[0], y - start[1]) for x, y in needed]
    along = [x * way[0] + y * way[1] for x, y in from_start]
    across = [y * way[0] - x * way[1] for x, y in from_start]
    near = min(across) if number == 1 else -seam
    return Lie(start, way, min(along), max(along), near, max(across))


def _given(sections: Sequence[Polygon], number: int, seam: Fraction) -> Iterable[Point]:
    """Corners of what lies under later seams: the cloth shown there until then, one allowance."""
    box = bounds(sections)
    shown = rectangle(box.width, box.height, (box.left, box.top))
    if number > 1:
        shown = cut(shown, line_through(*seam_edge(sections, number)))
    for later in range(number + 1, len(sections) + 1):
        edge = seam_edge(sections, later)
        under = overlap(shown, _strip(*edge, seam)) if shown else ()
        yield from under
        shown = cut(shown, line_through(*edge).flipped()) if shown else ()


def _unit(dx: Number, dy: Number) -> Point:
    """A direction scaled to length 1."""
    if dx == 0:
        return (_ZERO, Fraction(sign(dy)))
    steepness = dy / dx
    if isinstance(steepness, Surd):
        raise CannotSew("a line that can be measured exactly", "one of irrational steepness")
    whole = sign(dx) * square_root(1 + steepness * steepness)
    return (1 / whole, steepness / whole)


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
    strip = _strip(*seam_edge(thing.sections, step.section), seam)
    there = overlap(strip, rectangle(thing.width, thing.height))
    near = (f.outline for f in thing.faces if not apart(bounds([f.outline]), bounds([there])))
    under = (overlap(outline, there) for outline in near)
    if _total(part for part in under if part) != area(there):
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


def _strip(start: Point, end: Point, seam: Fraction) -> Polygon:
    """The allowance beyond a seam, on the side of the section that is sewn on there."""
    way = _unit(end[0] - start[0], end[1] - start[1])
    dx, dy = -way[1] * seam, way[0] * seam
    return (start, end, (end[0] + dx, end[1] + dy), (start[0] + dx, start[1] + dy))


def _shared(start: Point, end: Point, other: Polygon) -> tuple[Point, Point] | None:
    """The stretch that an edge shares with an outline on its other side."""
    line = line_through(start, end)
    on_line = [p for p in other if line.at(p) == 0]
    if len(on_line) < 2:
        return None

    def place(p: Point) -> Number:
        return (p[0] - start[0]) * (end[0] - start[0]) + (p[1] - start[1]) * (end[1] - start[1])

    low = max(start, min(on_line, key=place), key=place)
    high = min(end, max(on_line, key=place), key=place)
    return (low, high) if place(low) < place(high) else None


def _total(outlines: Iterable[Polygon]) -> Number:
    total: Number = _ZERO
    for outline in outlines:
        total = total + area(outline)
    return total


def _overlapping(sections: Sequence[Polygon]) -> bool:
    return any(overlap(a, b) for i, a in enumerate(sections) for b in sections[:i])
