"""One stage of a make as it lies on the table.

In: a snapshot of the bench. Out: items in cloth units, and the cloth's extent. It writes no
captions and does not arrange stages.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import hypot

from quicktions import Fraction

from pieceproof.bench.table import Face, Faces, covered
from pieceproof.bench.watch import Lying, Mark, MarkKind, Moment, Snapshot
from pieceproof.diagrams.legible import letter_fits, room_in
from pieceproof.diagrams.subject import WRONG_SIDE, Subject, area
from pieceproof.drawing.scene import (
    Area,
    AreaKind,
    Arrow,
    ArrowKind,
    Item,
    Letter,
    Line,
    LineKind,
)
from pieceproof.lengths import Number
from pieceproof.shapes import (
    Box,
    Point,
    Polygon,
    bounds,
    cut,
    line_through,
    rectangle,
    reflection,
    shift,
)
from pieceproof.shapes import area as area_of

_APART = 9.0
_ARROW = 12.0
_ALONG = 0.3
_PEEL = Fraction(1, 3)
_LEADER = 13.0
_LETTER_STEP = 14.0
_SHORT = 2
"""How many times its width a shortened thing is drawn tall."""

_LINES = {
    MarkKind.PENCIL: LineKind.DRAWN,
    MarkKind.SEAM: LineKind.SEAM,
    MarkKind.CUT: LineKind.CUT,
}


def things_of(snapshot: Snapshot, pixel: float) -> Sequence[Lying]:
    """What is drawn of a snapshot: parts just cut, moved apart; else things that are alike once.

    Of long strips side by side only the upper part is drawn, with a slanting break.
    """
    kept: list[Lying] = []
    all_parts = snapshot.moment is Moment.CUT
    for thing in map(_shortened, snapshot.lying):
        if thing.over or all_parts or not any(_alike(thing, other) for other in kept):
            kept.append(_moved_apart(thing, Fraction(_APART * pixel)))
    return kept


def extent(things: Iterable[Lying]) -> Box:
    """The upright rectangle around all cloth."""
    return bounds(face.outline for thing in things for face in (*thing.faces, *thing.over))


def items_of(
    subject: Subject, things: Sequence[Lying], shown: set[MarkKind], pixel: float
) -> list[Item]:
    """The cloth of all things, their lines of the kinds ``shown``, arrows and letters."""
    items: list[Item] = []
    letters: list[Item] = []
    for thing in things:
        items += _cloth(subject, thing)
        items += _marks(thing, shown, pixel)
        if thing.name:
            letters += _letters(thing, extent(things), pixel)
    return [*items, *_once(letters, _LETTER_STEP * pixel)]


def _once(letters: Sequence[Item], near: float) -> Iterator[Item]:
    """Of equal letters that would run into each other only the first."""
    kept: list[Letter] = []
    for item in letters:
        if isinstance(item, Letter):
            if any(item.text == other.text and _far(item, other) < near for other in kept):
                continue
            kept.append(item)
        yield item


def _far(letter: Letter, other: Letter) -> float:
    return max(abs(float(a) - float(b)) for a, b in zip(letter.at, other.at, strict=True))


def _shortened(thing: Lying) -> Lying:
    box = extent([thing])
    limit = box.top + _SHORT * box.width
    runs = all(bounds([face.outline]).height == box.height for face in thing.faces)
    if thing.over or not runs or limit + box.width >= box.bottom:
        return thing
    return replace(
        thing,
        faces=tuple(replace(f, outline=_broken(bounds([f.outline]), limit)) for f in thing.faces),
        marks=tuple(
            replace(m, start=(m.start[0], box.top), end=(m.end[0], limit)) for m in thing.marks
        ),
    )


def _broken(box: Box, limit: Number) -> Polygon:
    """The upper part of an upright rectangle; its lower edge falls to the right."""
    left, right = (box.left, limit - box.width / 4), (box.right, limit)
    return ((box.left, box.top), (box.right, box.top), right, left)


def _alike(thing: Lying, other: Lying) -> bool:
    """Whether two flat things are of the same pieces in the same sizes."""

    def pieces(faces: Faces) -> list[tuple[str, float]]:
        return sorted((face.letter, float(area_of(face.outline))) for face in faces)

    return bool(thing.name) and not other.over and pieces(thing.faces) == pieces(other.faces)


def _moved_apart(thing: Lying, far: Fraction) -> Lying:
    x, y = thing.apart
    long = hypot(float(x), float(y))
    if long == 0:
        return thing
    dx, dy = far * Fraction(float(x) / long), far * Fraction(float(y) / long)
    motion = shift(dx, dy)
    return replace(
        thing,
        faces=_shifted(thing.faces, dx, dy),
        over=_shifted(thing.over, dx, dy),
        marks=tuple(
            replace(m, start=motion.point(m.start), end=motion.point(m.end)) for m in thing.marks
        ),
    )


def _shifted(faces: Faces, dx: Fraction, dy: Fraction) -> Faces:
    motion = shift(dx, dy)
    return tuple(replace(face, outline=motion.polygon(face.outline)) for face in faces)


def _cloth(subject: Subject, thing: Lying) -> Iterator[Area]:
    if not thing.name:
        for face in (*thing.faces, *thing.over):
            yield Area(face.outline, kind=AreaKind.OFFCUT)
        return
    for face in thing.faces:
        yield area(subject, face.fabric, face.outline, AreaKind.PIECE, face.layer)
    corner = _peeled(thing)
    for face in thing.over:
        flat = _less(face.outline, corner)
        if flat:
            yield Area(flat, face.fabric + WRONG_SIDE, None, AreaKind.PIECE, 1)
        beyond = cut(face.outline, line_through(corner[1], corner[0])) if corner else ()
        if corner and beyond:
            flap = reflection(line_through(*corner)).polygon(beyond)
            yield area(subject, face.fabric, flap, AreaKind.PIECE, 2)


def _peeled(thing: Lying) -> tuple[Point, Point] | None:
    """The fold of a corner turned back where the upper layer hides a whole rectangle.

    The corner lies to the left of who walks the fold, and as far from seams as possible.
    """
    if not (_is_rectangle(thing.over) and _is_rectangle(thing.faces)):
        return None
    box = bounds(face.outline for face in thing.over)
    if box != bounds(face.outline for face in thing.faces):
        return None
    outline = rectangle(box.width, box.height, (box.left, box.top))
    leg = _PEEL * Fraction(min(float(box.width), float(box.height)))
    index = max(range(4), key=lambda i: (_clear(thing, outline[i]), i == 2))
    corner, before, after = outline[index], outline[index - 1], outline[(index + 1) % 4]
    return _on_the_way(corner, before, leg), _on_the_way(corner, after, leg)


def _is_rectangle(faces: Faces) -> bool:
    box = bounds(face.outline for face in faces) if faces else None
    return box is not None and covered(faces) == box.width * box.height


def _clear(thing: Lying, place: Point) -> float:
    ends = [end for mark in thing.marks for end in (mark.start, mark.end)]
    far = [hypot(float(x - place[0]), float(y - place[1])) for x, y in ends]
    return round(min(far, default=0.0), 6)


def _on_the_way(start: Point, end: Point, far: Fraction) -> Point:
    dx, dy = float(end[0] - start[0]), float(end[1] - start[1])
    share = far / Fraction(hypot(dx, dy))
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _less(outline: Polygon, corner: tuple[Point, Point] | None) -> Polygon:
    return cut(outline, line_through(*corner)) if corner else outline


def _marks(thing: Lying, shown: set[MarkKind], pixel: float) -> Iterator[Item]:
    for mark in thing.marks:
        if mark.kind is MarkKind.PRESSED:
            yield _arrow(mark, pixel)
        elif mark.kind in shown:
            yield Line((mark.start, mark.end), _LINES[mark.kind])


def _arrow(mark: Mark, pixel: float) -> Arrow:
    """Across the seam, off its middle so that letters stay clear."""
    ends = zip(mark.start, mark.end, strict=True)
    x, y = (float(a) + _ALONG * (float(b) - float(a)) for a, b in ends)
    dx, dy = (float(v) for v in mark.toward or _across(mark))
    reach = _ARROW * pixel / hypot(dx, dy)
    kind = ArrowKind.PRESS if mark.toward else ArrowKind.PRESS_OPEN
    return Arrow((x - dx * reach, y - dy * reach), (x + dx * reach, y + dy * reach), kind)


def _across(mark: Mark) -> tuple[float, float]:
    return float(mark.end[1] - mark.start[1]), float(mark.start[0] - mark.end[0])


def _letters(thing: Lying, box: Box, pixel: float) -> Iterator[Item]:
    """A letter for every piece where it can be seen, beside the cloth if it has no room."""
    told: set[str] = set()
    for face, parts in _visible(thing):
        place, room = max((room_in(part) for part in parts), key=lambda found: round(found[1], 9))
        if letter_fits(room, pixel, face.letter):
            told.add(face.letter)
            yield Letter(place, face.letter)
    outside: list[tuple[str, tuple[float, float]]] = []
    for face, parts in _visible(thing):
        if face.letter not in told:
            told.add(face.letter)
            place, _ = max((room_in(part) for part in parts), key=lambda found: found[1])
            outside.append((face.letter, place))
    middle = float(box.left + box.right) / 2
    lowest = float(box.bottom)
    yield from _beside([o for o in outside if o[1][0] < middle], (float(box.left), lowest), -pixel)
    yield from _beside([o for o in outside if o[1][0] >= middle], (float(box.right), lowest), pixel)


def _beside(
    letters: Sequence[tuple[str, tuple[float, float]]], corner: tuple[float, float], outward: float
) -> Iterator[Item]:
    """Letters beyond an edge, one below the other, none below the cloth's lower ``corner``.

    ``outward`` is a pixel, left of the cloth a negative one.
    """
    edge, lowest = corner
    ordered = sorted(letters, key=lambda found: found[1][1])
    heights: list[float] = []
    for _, (_, y) in ordered:
        before = heights[-1] + _LETTER_STEP * abs(outward) if heights else y
        heights.append(max(y, before))
    up = max(0.0, max(heights, default=lowest) - lowest)
    for (letter, place), height in zip(ordered, heights, strict=True):
        yield Line((place, (edge + _LEADER / 2 * outward, height - up)), LineKind.LEADER)
        yield Letter((edge + _LEADER * 1.2 * outward, height - up), letter)


def _visible(thing: Lying) -> Iterator[tuple[Face, Sequence[Polygon]]]:
    """Faces with the convex parts of them that can be seen, seams left aside."""
    corner = _peeled(thing)
    upper = [_less(face.outline, corner) for face in thing.over]
    for face in thing.faces:
        if corner:
            shown = cut(face.outline, line_through(corner[1], corner[0]))
            if shown:
                yield face, [shown]
            continue
        parts = _beside_shapes(face, thing.faces)
        for outline in upper:
            parts = [rest for part in parts for rest in _outside(part, outline)]
        if parts:
            yield face, parts
    for face, outline in zip(thing.over, upper, strict=True):
        parts = [outline] if outline else []
        for mark in thing.marks:
            line = line_through(mark.start, mark.end)
            parts = [
                p for part in parts for side in (line, line.flipped()) if (p := cut(part, side))
            ]
        yield face, parts


def _beside_shapes(face: Face, faces: Faces) -> list[Polygon]:
    """What of a face lies beside all that is laid on it, roughly; the whole if nothing does."""
    above = [other.outline for other in faces if other.layer > face.layer]
    if not above:
        return [face.outline]
    box = bounds(above)
    covered_by = rectangle(box.width, box.height, (box.left, box.top))
    return _outside(face.outline, covered_by) or [face.outline]


def _outside(part: Polygon, outline: Polygon) -> list[Polygon]:
    """What of a part lies beyond each edge of an outline; pieces may overlap."""
    edges = zip(outline, (*outline[1:], outline[0]), strict=True)
    return [rest for p, q in edges if (rest := cut(part, line_through(p, q).flipped()))]
