"""Sews the steps of one make, one small function per kind of step.

In: steps, the cut pieces and earlier makes as flat cloth by letter or name, and the seam
allowance. Out: the finished things as they lie, or the step at which it cannot go on and why.
What comes out is not compared with anything here.

A new kind of step is one function and one line in the table at the end.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from quicktions import Fraction

from pieceproof.bench.covering import visible
from pieceproof.bench.cross_cuts import segments
from pieceproof.bench.diagonal import assembled_on_point, trimmed_even
from pieceproof.bench.edges import edges_joined, tips_trimmed
from pieceproof.bench.facing import line_facing
from pieceproof.bench.foundations import Covered, trimmed_to_foundation, with_cover
from pieceproof.bench.joining import assembled, joined
from pieceproof.bench.marks import (
    check_settled,
    edge_turned,
    laid_on,
    laid_out,
    marks_joined,
    taken_as,
)
from pieceproof.bench.mitring import mitred
from pieceproof.bench.outlines import Marked
from pieceproof.bench.part_seams import PartSewn, closed, joined_to_part, part_joined
from pieceproof.bench.printed import printed_of
from pieceproof.bench.snags import CannotSew, Snag
from pieceproof.bench.stitching import allowance_is, allowance_of, seam_stretches, stretches_inside
from pieceproof.bench.table import (
    Faces,
    Flat,
    Stack,
    Thing,
    carried,
    cut_faces,
    flat,
    laid_at,
    line_on,
    pared,
    turned,
    turned_by_eighths,
    turned_over,
)
from pieceproof.bench.unpicking import unpicked
from pieceproof.bench.words import describe_line, excess, length, size, size_excess
from pieceproof.lengths import Number
from pieceproof.shapes import Line, reflection
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    CloseSeam,
    Corner,
    Cover,
    CrossCut,
    CutApart,
    Foundation,
    Join,
    JoinEdges,
    JoinMarks,
    JoinMitred,
    JoinPart,
    Layer,
    LayOn,
    Open,
    SeamLine,
    Sew,
    Side,
    Step,
    Take,
    Trim,
    TrimEven,
    TrimLike,
    TrimTips,
    TrimToFoundation,
    Turn,
    TurnEdge,
    TurnEighths,
    Unpick,
    Yield,
    placed_in,
)

_Thing: TypeAlias = Thing | PartSewn | Covered | Marked


@dataclass(frozen=True)
class Shop:
    """What there is to sew with: flat cloth by letter or name, and the seam allowance."""

    sources: Mapping[str, Flat]
    seam: Fraction


@dataclass(frozen=True)
class Sewn:
    """Finished things; or, at step number ``step`` counted from 1, the snag that ended it."""

    finished: tuple[Flat, ...]
    step: int
    snag: Snag | None
    extras: tuple[tuple[str, Flat], ...] = ()
    """What the round gives besides, each with its name."""


@dataclass(frozen=True)
class _Table:
    things: Mapping[str, _Thing]
    finished: tuple[tuple[str, Flat], ...]
    """Each with the name of the extra that it is, "" for the make itself."""

    def any(self, name: str) -> _Thing:
        if name not in self.things:
            raise CannotSew(f"“{name}” on the table", "it is not there")
        return self.things[name]

    def marked(self, name: str) -> Marked:
        thing = self.any(name)
        if not isinstance(thing, Marked):
            raise CannotSew(f"“{name}” to have marks", "it has none")
        return thing

    def thing(self, name: str) -> Thing:
        thing = self.any(name)
        if isinstance(thing, PartSewn):
            raise CannotSew(f"“{name}” without an open seam", "a seam sewn in part")
        if isinstance(thing, Covered):
            raise CannotSew(f"“{name}” trimmed to its foundation", "one that is not trimmed yet")
        return laid_out(thing) if isinstance(thing, Marked) else thing

    def flat(self, name: str) -> Flat:
        thing = self.thing(name)
        if isinstance(thing, Stack):
            raise CannotSew(f"“{name}” to lie flat", "two layers that are not opened yet")
        return thing

    def stack(self, name: str) -> Stack:
        thing = self.thing(name)
        if isinstance(thing, Flat):
            raise CannotSew(f"“{name}” to be two layers", "a single layer")
        return thing

    def part_sewn(self, name: str) -> PartSewn:
        thing = self.any(name)
        if not isinstance(thing, PartSewn):
            raise CannotSew(f"“{name}” to have an open seam", "none")
        return thing

    def foundation(self, name: str) -> Covered:
        thing = self.any(name)
        if not isinstance(thing, Covered):
            raise CannotSew(f"“{name}” to be a foundation", "cloth")
        return thing

    def put(self, name: str, thing: _Thing) -> _Table:
        if name in self.things:
            raise CannotSew(f"no other “{name}” on the table", "two things of that name")
        return replace(self, things={**self.things, name: thing})

    def away(self, name: str) -> _Table:
        return replace(self, things={n: t for n, t in self.things.items() if n != name})

    def swap(self, name: str, thing: _Thing) -> _Table:
        return self.away(name).put(name, thing)


def sew(steps: Sequence[Step], shop: Shop) -> Sewn:
    """Sew one round of steps. Stops at the first step that cannot be done as published."""
    table = _Table({}, ())
    for number, step in enumerate(steps, start=1):
        try:
            table = _STEPS[type(step)](table, step, shop)
        except CannotSew as stop:
            return _sewn(table, number, stop.snag)
    if table.things:
        left = ", ".join(f"“{name}”" for name in table.things)
        return _sewn(table, len(steps), Snag("an empty table", f"{left} left lying", ""))
    return _sewn(table, 0, None)


def _sewn(table: _Table, step: int, snag: Snag | None) -> Sewn:
    main = tuple(thing for name, thing in table.finished if not name)
    extras = tuple((name, thing) for name, thing in table.finished if name)
    return Sewn(main, step, snag, extras)


def _take(table: _Table, step: Take, shop: Shop) -> _Table:
    source = _source(shop, step.source)
    if source.marked is None:
        return table.put(step.item, turned(source, step.turn))
    if step.turn:
        raise CannotSew("a template piece taken as it is listed", f"{step.turn} quarter turns")
    return table.put(step.item, taken_as(source.marked, step.item))


def _layer(table: _Table, step: Layer, _: Shop) -> _Table:
    below, upper = table.thing(step.lower), turned_over(table.flat(step.upper))
    if isinstance(below, Stack) and below.seams:
        raise CannotSew("layers that are not sewn yet", "a seam in them")
    lower, laid = (below, ()) if isinstance(below, Flat) else (flat(below.lower), below.upper)
    stack = Stack(lower.faces, (*laid, *laid_at(upper, lower, step.corner)), ())
    return table.away(step.upper).swap(step.lower, stack)


def _sew(table: _Table, step: Sew, _: Shop) -> _Table:
    stack = table.stack(step.item)
    line = _line(stack, step.line)
    if not seam_stretches(stack, line):
        raise CannotSew("a seam through both layers", "a line that misses one of them")
    return table.swap(step.item, replace(stack, seams=(*stack.seams, line)))


def _unpick(table: _Table, step: Unpick, _: Shop) -> _Table:
    return table.swap(step.item, unpicked(table.stack(step.item), step.toward))


def _cut_apart(table: _Table, step: CutApart, _: Shop) -> _Table:
    thing = table.thing(step.item)
    line = _line(thing, step.line)
    table = table.away(step.item)
    for name, side in ((step.first, line), (step.second, line.flipped())):
        part = _part(thing, side)
        if part is None:
            raise CannotSew("two parts", "a cut that misses the cloth")
        if name:
            _check_held(name, part)
            table = table.put(name, part)
    return table


def _part(thing: Thing, side: Line) -> Thing | None:
    if isinstance(thing, Flat):
        faces = cut_faces(thing.faces, side)
        return flat(faces) if faces else None
    lower, upper = cut_faces(thing.lower, side), cut_faces(thing.upper, side)
    if lower and upper:
        return _with_seams_inside(Stack(lower, upper, thing.seams))
    if lower:
        return flat(lower)
    return turned_over(flat(upper)) if upper else None


def _with_seams_inside(stack: Stack) -> Stack:
    return replace(stack, seams=tuple(s for s in stack.seams if seam_stretches(stack, s)))


def _check_held(name: str, part: Thing) -> None:
    if isinstance(part, Stack) and not part.seams:
        raise CannotSew(f"a seam that holds “{name}” together", "two loose layers")


def _open(table: _Table, step: Open, shop: Shop) -> _Table:
    stack = table.stack(step.item)
    if len(stack.seams) != 1:
        raise CannotSew(f"one seam to fold “{step.item}” over", f"{len(stack.seams)} seams")
    beyond = _facing(stack.seams[0], step.toward)
    _check_runs_across(stack, beyond)
    _check_allowance("lower", cut_faces(stack.lower, beyond), beyond, shop.seam)
    _check_allowance("upper", cut_faces(stack.upper, beyond), beyond, shop.seam)
    body = beyond.flipped()
    folded = visible(carried(cut_faces(stack.upper, body), reflection(body)))
    return table.swap(step.item, flat((*cut_faces(stack.lower, body), *folded)))


def _facing(line: Line, toward: Corner | Side) -> Line:
    """The line with its positive side toward a corner or side."""
    facing = line_facing(line, toward)
    if facing is None:
        raise CannotSew("a fold square to the seam", f"a fold toward the {toward.value}")
    return facing


def _check_runs_across(stack: Stack, line: Line) -> None:
    sewn = seam_stretches(stack, line)
    for name, faces in (("lower", stack.lower), ("upper", stack.upper)):
        if stretches_inside(faces, line) != sewn:
            raise CannotSew("a seam from edge to edge", f"a seam that ends inside the {name} layer")


def _check_allowance(layer: str, beyond: Faces, line: Line, seam: Fraction) -> None:
    if not allowance_is(beyond, line, seam):
        found = allowance_of(beyond, line)
        raise CannotSew(
            f"a seam allowance of {length(seam)} on the {layer} layer",
            "another" if found is None else length(found),
            "" if found is None else excess(found, seam, "too wide", "too narrow"),
        )


def _turn(table: _Table, step: Turn, _: Shop) -> _Table:
    return table.swap(step.item, turned(table.flat(step.item), step.turn))


def _turn_eighths(table: _Table, step: TurnEighths, _: Shop) -> _Table:
    return table.swap(step.item, turned_by_eighths(table.flat(step.item), step.eighths))


def _trim(table: _Table, step: Trim, _: Shop) -> _Table:
    return _trimmed(table, step, step.width, step.height)


def _trim_like(table: _Table, step: TrimLike, _: Shop) -> _Table:
    like = table.flat(step.like)
    return _trimmed(table, step, like.width, like.height)


def _trimmed(table: _Table, step: Trim | TrimLike, to_width: Number, to_height: Number) -> _Table:
    thing = table.flat(step.item)
    width = to_width + step.off_left + step.off_right
    height = to_height + step.off_top + step.off_bottom
    if min(step.off_left, step.off_top, step.off_right, step.off_bottom) < 0:
        raise CannotSew("something to trim on every side", "less than nothing to trim")
    if (thing.width, thing.height) != (width, height):
        raise CannotSew(
            f"{size(width, height)} before trimming",
            size(thing.width, thing.height),
            size_excess((thing.width, thing.height), (width, height)),
        )
    faces = pared(thing, step.off_left, step.off_top, step.off_right, step.off_bottom)
    if not faces:
        raise CannotSew("cloth left after trimming", "nothing")
    return table.swap(step.item, flat(faces))


def _trim_tips(table: _Table, step: TrimTips, _: Shop) -> _Table:
    return table.swap(step.item, tips_trimmed(table.flat(step.item), step.edge))


def _join(table: _Table, step: Join, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    base, added = table.any(step.item), table.flat(step.added)
    thing = (
        joined_to_part(base, added, step.side)
        if isinstance(base, PartSewn)
        else joined(table.flat(step.item), added, step.side, step.allowance)
    )
    return table.away(step.added).swap(step.item, thing)


def _join_edges(table: _Table, step: JoinEdges, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    thing = edges_joined(table.flat(step.item), table.flat(step.added), step)
    return table.away(step.added).swap(step.item, thing)


def _join_mitred(table: _Table, step: JoinMitred, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    names = (step.left, step.top, step.right, step.bottom)
    thing = mitred(table.flat(step.item), [table.flat(name) for name in names], step)
    for name in names:
        table = table.away(name)
    return table.swap(step.item, thing)


def _assemble(table: _Table, step: Assemble, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    return table.put(step.item, assembled(step, _piles(step, shop)))


def _assemble_on_point(table: _Table, step: AssembleOnPoint, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    return table.put(step.item, assembled_on_point(step, _piles(step, shop)))


def _trim_even(table: _Table, step: TrimEven, _: Shop) -> _Table:
    return table.swap(step.item, trimmed_even(table.flat(step.item), step))


def _yield(table: _Table, step: Yield, _: Shop) -> _Table:
    for name in step.items:
        _check_settled(table, name)
        done = (step.extra, table.flat(name))
        table = replace(table.away(name), finished=(*table.finished, done))
    return table


def _check_settled(table: _Table, name: str) -> None:
    thing = table.things.get(name)
    if isinstance(thing, Marked):
        check_settled(thing)


def _join_marks(table: _Table, step: JoinMarks, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    thing = marks_joined(table.marked(step.item), table.marked(step.added), step)
    return table.away(step.added).swap(step.item, thing)


def _turn_edge(table: _Table, step: TurnEdge, _: Shop) -> _Table:
    return table.swap(step.item, edge_turned(table.marked(step.item), step))


def _lay_on(table: _Table, step: LayOn, shop: Shop) -> _Table:
    thing = laid_on(table.flat(step.item), table.marked(step.added), step, shop.seam)
    return table.away(step.added).swap(step.item, thing)


def _piles(step: Step, shop: Shop) -> Mapping[str, Flat]:
    names = sorted({cell.source for cell in placed_in(step)})
    return {name: _source(shop, name) for name in names}


def _cross_cut(table: _Table, step: CrossCut, _: Shop) -> _Table:
    parts = segments(table.flat(step.item), step)
    table = table.away(step.item)
    for number, part in enumerate(parts, start=1):
        table = table.put(f"{step.item} {number}", part)
    return table


def _join_part(table: _Table, step: JoinPart, shop: Shop) -> _Table:
    _check_seam(step.allowance, shop)
    thing = part_joined(table.flat(step.item), table.flat(step.added), step)
    return table.away(step.added).swap(step.item, thing)


def _close_seam(table: _Table, step: CloseSeam, _: Shop) -> _Table:
    return table.swap(step.item, closed(table.part_sewn(step.item)))


def _foundation(table: _Table, step: Foundation, _: Shop) -> _Table:
    return table.put(step.item, Covered(printed_of(step)))


def _cover(table: _Table, step: Cover, shop: Shop) -> _Table:
    thing = with_cover(table.foundation(step.item), table.flat(step.added), step, shop.seam)
    return table.away(step.added).swap(step.item, thing)


def _trim_to_foundation(table: _Table, step: TrimToFoundation, _: Shop) -> _Table:
    return table.swap(step.item, trimmed_to_foundation(table.foundation(step.item)))


def _source(shop: Shop, name: str) -> Flat:
    if name not in shop.sources:
        raise CannotSew(f"“{name}” to be cut or made before", "there is none yet")
    return shop.sources[name]


def _check_seam(allowance: Fraction, shop: Shop) -> None:
    if allowance != shop.seam:
        raise CannotSew(
            f"a seam allowance of {length(shop.seam)}", f"a seam allowance of {length(allowance)}"
        )


def _line(thing: Thing, place: SeamLine) -> Line:
    line = line_on(thing, place)
    if line is None:
        raise CannotSew("a line that can be measured exactly", describe_line(place))
    return line


_STEPS: Mapping[type, Callable[[_Table, Any, Shop], _Table]] = {
    Take: _take,
    Layer: _layer,
    Sew: _sew,
    Unpick: _unpick,
    CutApart: _cut_apart,
    Open: _open,
    Turn: _turn,
    TurnEighths: _turn_eighths,
    Trim: _trim,
    TrimTips: _trim_tips,
    TrimLike: _trim_like,
    Join: _join,
    JoinEdges: _join_edges,
    JoinMitred: _join_mitred,
    Assemble: _assemble,
    AssembleOnPoint: _assemble_on_point,
    TrimEven: _trim_even,
    Yield: _yield,
    JoinMarks: _join_marks,
    TurnEdge: _turn_edge,
    LayOn: _lay_on,
    CrossCut: _cross_cut,
    JoinPart: _join_part,
    CloseSeam: _close_seam,
    Foundation: _foundation,
    Cover: _cover,
    TrimToFoundation: _trim_to_foundation,
}
