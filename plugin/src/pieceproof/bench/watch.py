"""Watches the bench at work: what lies on the table after each step worth a picture.

In: a publication that is proved, and one of its makes. Out: one to five snapshots of the make,
with the very polygons that the proof sews. A publication that cannot be sewn raises `CannotSew`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from itertools import takewhile

from quicktions import Fraction

from pieceproof.bench.edges import seam_along
from pieceproof.bench.foundations import Covered
from pieceproof.bench.marks import cut_cloth, laid_out, straight_seam
from pieceproof.bench.outlines import Marked
from pieceproof.bench.part_seams import (
    PartSewn,
    as_it_lies,
    half_seam,
    hanging_side,
    last_half,
    seam_to_part,
)
from pieceproof.bench.sewing import _STEPS, Shop, _facing, _Table, sew
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.stitching import stretches_inside
from pieceproof.bench.table import Faces, Flat, Stack, Thing, cut_faces, line_on
from pieceproof.lengths import Number
from pieceproof.published import Make, Publication
from pieceproof.shapes import Line, Point, bounds
from pieceproof.steps import (
    CloseSeam,
    Cover,
    CrossCut,
    CutApart,
    Diagonal,
    Join,
    JoinEdges,
    JoinMarks,
    JoinPart,
    LayOn,
    Open,
    Press,
    SeamLine,
    Sew,
    Side,
    Step,
    Trim,
    TrimLike,
    TrimTips,
    TrimToFoundation,
    Turn,
    TurnEdge,
    TurnEighths,
    Yield,
)


class Moment(Enum):
    """What has just been done."""

    SEWN = "sewn"
    CUT = "cut"
    PRESSED = "pressed"
    JOINED = "joined"
    TRIMMED = "trimmed"
    LAID = "laid"
    SLICED = "cut across"
    CLOSED = "open seam finished"
    COVERED = "section covered"


class MarkKind(Enum):
    """What a stretch on the cloth stands for."""

    PENCIL = "drawn line"
    SEAM = "stitching"
    CUT = "cut to make next"
    PRESSED = "seam just pressed"


@dataclass(frozen=True)
class Mark:
    """A straight stretch on a thing. ``toward`` is where pressed allowances go; None: open."""

    kind: MarkKind
    start: Point
    end: Point
    toward: Point | None = None


@dataclass(frozen=True)
class Lying:
    """A thing as it lies: faces that show their right side, and over them those that do not.

    ``name`` is "" for an offcut. ``apart`` says which way a part just cut lies from the other
    one, (0, 0) where it stays.
    """

    name: str
    faces: Faces
    over: Faces
    marks: tuple[Mark, ...]
    apart: Point


@dataclass(frozen=True)
class Snapshot:
    """The table after some steps; ``steps`` are those since the snapshot before."""

    moment: Moment
    steps: tuple[Step, ...]
    lying: tuple[Lying, ...]


def watch(publication: Publication, make: Make) -> tuple[Snapshot, ...]:
    """Snapshots of one round of a make without its extras, the last one as it is finished."""
    before = publication.makes[: publication.makes.index(make)]
    shop = Shop(sewn_makes(publication, before), publication.seam)
    besides = make.besides
    steps = [s for s in make.steps if isinstance(s, Yield) or _item(s) not in besides]
    return _picked(tuple(_snapshots(steps, shop)))


def _item(step: Step) -> str:
    return str(getattr(step, "item", ""))


def sewn_makes(publication: Publication, makes: Sequence[Make]) -> Mapping[str, Flat]:
    """All cut pieces by letter, and one of each of ``makes`` and their extras by name."""
    things = {piece.letter: cut_cloth(piece) for piece in publication.pieces}
    for make in makes:
        sewn = sew(make.steps, Shop(things, publication.seam))
        if sewn.snag is not None:
            raise CannotSew(sewn.snag.expected, sewn.snag.found, sewn.snag.by)
        for name, thing in ((make.name, sewn.finished[0]), *sewn.extras):
            things.setdefault(name, thing)
    return things


@dataclass
class _Since:
    """What has happened since the last snapshot: steps, seams pressed, parts as they were cut.

    ``middles`` are twice the middles of what the parts were cut from at first.
    """

    steps: list[Step] = field(default_factory=list)
    pressed: dict[str, Mark] = field(default_factory=dict)
    parts: dict[str, Thing] = field(default_factory=dict)
    apart: dict[str, Point] = field(default_factory=dict)
    middles: dict[str, Point] = field(default_factory=dict)
    offcuts: list[Lying] = field(default_factory=list)


def _snapshots(steps: Sequence[Step], shop: Shop) -> Iterator[Snapshot]:
    table, since = _Table({}, ()), _Since()
    for number, step in enumerate(steps):
        if isinstance(step, Yield):
            return
        before, table = table, _STEPS[type(step)](table, step, shop)
        since.steps.append(step)
        _note(step, before, table, since)
        moment = _moment(step, steps[number + 1])
        if moment is not None:
            coming = tuple(takewhile(lambda s: isinstance(s, CutApart), steps[number + 1 :]))
            shown = _handled(moment, since.steps, table)
            things = {name: _seen(thing) for name, thing in shown.items()}
            lying = [_lying(name, thing, since, coming) for name, thing in things.items()]
            yield Snapshot(moment, tuple(since.steps), (*lying, *since.offcuts))
            since = _Since()


def _handled(
    moment: Moment, steps: Sequence[Step], table: _Table
) -> Mapping[str, Thing | PartSewn | Covered | Marked]:
    """What the last steps were done to; everything once it is finished."""
    if moment in (Moment.LAID, Moment.SLICED):
        return table.things
    last = list(takewhile(lambda step: type(step) is type(steps[-1]), reversed(steps)))
    names = {getattr(step, part, "") for step in last for part in ("item", "first", "second")}
    return {name: thing for name, thing in table.things.items() if name in names}


def _seen(thing: Thing | PartSewn | Covered | Marked) -> Thing:
    if isinstance(thing, Marked):
        return laid_out(thing)
    if isinstance(thing, PartSewn):
        return as_it_lies(thing)
    return _spread_out(thing) if isinstance(thing, Covered) else thing


def _spread_out(thing: Covered) -> Flat:
    """Cloth on a foundation, that foundation's size."""
    return Flat(thing.faces, thing.printed.width, thing.printed.height)


def _moment(step: Step, following: Step) -> Moment | None:
    """What is worth a snapshot: the last of a run of equal steps, each joining, the end."""
    if type(step) is type(following) and not isinstance(step, _EACH):
        return None
    return _MOMENTS.get(type(step)) or (Moment.LAID if isinstance(following, Yield) else None)


_EACH = (Join, JoinEdges, JoinMarks, LayOn)

_MOMENTS: Mapping[type, Moment] = {
    Sew: Moment.SEWN,
    CutApart: Moment.CUT,
    Open: Moment.PRESSED,
    Join: Moment.JOINED,
    JoinEdges: Moment.JOINED,
    JoinMarks: Moment.JOINED,
    LayOn: Moment.JOINED,
    Trim: Moment.TRIMMED,
    TrimToFoundation: Moment.TRIMMED,
    CrossCut: Moment.SLICED,
    JoinPart: Moment.JOINED,
    CloseSeam: Moment.CLOSED,
    Cover: Moment.COVERED,
}


def _again(before: Sequence[Snapshot], snapshot: Snapshot) -> bool:
    if snapshot.moment is Moment.JOINED:
        return any(
            s.moment is Moment.JOINED and _joined_of(s) == _joined_of(snapshot) for s in before
        )
    repeats = (Moment.CUT, Moment.PRESSED, Moment.TRIMMED)
    return snapshot.moment in repeats and [s.moment for s in before[-1:]] == [snapshot.moment]


def _joined_of(snapshot: Snapshot) -> list[str]:
    return sorted(face.letter for thing in snapshot.lying for face in thing.faces)


def _note(step: Step, before: _Table, after: _Table, since: _Since) -> None:
    match step:
        case CutApart():
            _note_cut(step, before, since)
        case Open():
            since.pressed[step.item] = _opened(step, before.stack(step.item), after.flat(step.item))
        case Join() if not isinstance(before.any(step.item), PartSewn):
            base, added = before.flat(step.item), before.flat(step.added)
            since.pressed[step.item] = _joined(step, base, added)
        case Join() | JoinPart() | CloseSeam():
            since.pressed[step.item] = _part_seam(step, before, after)
        case JoinEdges():
            base, joined = before.flat(step.item), after.flat(step.item)
            since.pressed[step.item] = _joined_edges(step, base, joined)
        case JoinMarks():
            _note_marks(step, before, since)
        case Turn() | TurnEighths() | TurnEdge() | Trim() | TrimTips() | TrimLike() | CrossCut():
            since.pressed.pop(step.item, None)
        case _:
            pass


def _part_seam(step: Join | JoinPart | CloseSeam, before: _Table, after: _Table) -> Mark:
    """A seam of a thing whose first seam is sewn in two goes."""
    match step:
        case JoinPart():
            seam, side = half_seam(after.part_sewn(step.item)), step.side
        case Join():
            things = before.part_sewn(step.item), after.part_sewn(step.item)
            seam, side = seam_to_part(*things, step.side), step.side
        case CloseSeam():
            thing = before.part_sewn(step.item)
            seam, side = last_half(thing), hanging_side(thing)
    return Mark(MarkKind.PRESSED, *seam, _toward(step.press, _OUTWARD[side]))


_OUTWARD = {
    Side.LEFT: (Fraction(-1), Fraction(0)),
    Side.TOP: (Fraction(0), Fraction(-1)),
    Side.RIGHT: (Fraction(1), Fraction(0)),
    Side.BOTTOM: (Fraction(0), Fraction(1)),
}


def _note_marks(step: JoinMarks, before: _Table, since: _Since) -> None:
    """Every seam is shown where it is sewn, not again with the next one."""
    since.pressed.pop(step.item, None)
    seam = straight_seam(before.marked(step.item), before.marked(step.added), step)
    if seam is not None:
        start, end, across = seam
        since.pressed[step.item] = Mark(MarkKind.PRESSED, start, end, _toward(step.press, across))


def _note_cut(step: CutApart, before: _Table, since: _Since) -> None:
    """The parts where they were cut: the bench itself moves single layers to their place."""
    thing = since.parts.pop(step.item, None) or before.thing(step.item)
    middle = since.middles.get(step.item) or _twice_the_middle(_lower(thing))
    line = _known(thing, step.line)
    for name, side in ((step.first, line), (step.second, line.flipped())):
        part = _part(thing, side)
        if not name:
            since.offcuts.append(_layers("", part, (), (side.a, side.b)))
            continue
        since.parts[name], since.middles[name] = part, middle
        alone = "" in (step.first, step.second)
        since.apart[name] = (Fraction(0), Fraction(0)) if alone else _from(middle, _lower(part))


def _lower(thing: Thing) -> Faces:
    return thing.faces if isinstance(thing, Flat) else thing.lower


def _twice_the_middle(faces: Faces) -> Point:
    box = bounds(face.outline for face in faces)
    return box.left + box.right, box.top + box.bottom


def _from(middle: Point, faces: Faces) -> Point:
    """The way from a middle, given twice, to where most corners of the faces are."""
    corners = [corner for face in faces for corner in face.outline]
    x, y = (sum((2 * c[i] - middle[i] for c in corners), Fraction(0)) for i in (0, 1))
    return x, y


def _part(thing: Thing, side: Line) -> Thing:
    if isinstance(thing, Flat):
        return replace(thing, faces=cut_faces(thing.faces, side))
    return Stack(cut_faces(thing.lower, side), cut_faces(thing.upper, side), thing.seams)


def _opened(step: Open, stack: Stack, opened: Flat) -> Mark:
    beyond = _facing(stack.seams[0], step.toward)
    return _pressed(beyond, stack.lower, opened, step.press)


def _joined_edges(step: JoinEdges, base: Flat, joined: Flat) -> Mark:
    return _pressed(seam_along(base, step).flipped(), base.faces, joined, step.press)


def _pressed(beyond: Line, base: Faces, opened: Flat, press: Press) -> Mark:
    """The seam where it lies once the thing is opened."""
    (x, y), (old_x, old_y) = (
        faces[0].outline[0] for faces in (opened.faces, cut_faces(base, beyond.flipped()))
    )
    moved = Line(beyond.a, beyond.b, beyond.c + beyond.a * (x - old_x) + beyond.b * (y - old_y))
    (mark,) = _marks(MarkKind.PRESSED, moved, opened.faces)
    return replace(mark, toward=_toward(press, (beyond.a, beyond.b)))


def _joined(step: Join, base: Flat, added: Flat) -> Mark:
    upright = step.side in (Side.LEFT, Side.RIGHT)
    first = added if step.side in (Side.LEFT, Side.TOP) else base
    place = (first.width if upright else first.height) - step.allowance
    zero, toward = Fraction(0), _toward(step.press, _OUTWARD[step.side])
    if upright:
        return Mark(MarkKind.PRESSED, (place, zero), (place, base.height), toward)
    return Mark(MarkKind.PRESSED, (zero, place), (base.width, place), toward)


def _toward(press: Press, added: Point) -> Point | None:
    if press is Press.OPEN:
        return None
    return added if press is Press.ONTO_ADDED else (-added[0], -added[1])


def _lying(name: str, thing: Thing, since: _Since, coming: Sequence[Step]) -> Lying:
    marks = [since.pressed[name]] if name in since.pressed else []
    shown = since.parts.get(name, thing)
    if isinstance(shown, Stack):
        marks += [m for line in shown.seams for m in _marks(MarkKind.SEAM, line, shown.upper)]
        if name not in since.parts:
            marks += _drawn(name, shown, (*since.steps, *coming))
            marks += _coming_cuts(name, shown, coming)
    return _layers(name, shown, marks, since.apart.get(name, (Fraction(0), Fraction(0))))


def _layers(name: str, thing: Thing, marks: Iterable[Mark], apart: Point) -> Lying:
    if isinstance(thing, Flat):
        return Lying(name, thing.faces, (), tuple(marks), apart)
    return Lying(name, thing.lower, thing.upper, tuple(marks), apart)


def _drawn(name: str, stack: Stack, steps: Sequence[Step]) -> Iterator[Mark]:
    """The diagonals drawn on the upper layer to measure from, unless a seam lies on them."""
    names = {name}
    for step in steps:
        if isinstance(step, CutApart) and step.item in names:
            names |= {step.first, step.second}
    lines = [s.line for s in steps if isinstance(s, Sew | CutApart) and s.item in names]
    sewn = [s.line for s in steps if isinstance(s, Sew)]
    for slope in dict.fromkeys(line.slope for line in lines if isinstance(line, Diagonal)):
        middle = Diagonal(slope, Fraction(0))
        if middle not in sewn:
            yield from _marks(MarkKind.PENCIL, _known(stack, middle), stack.upper)


def _coming_cuts(name: str, stack: Stack, coming: Sequence[Step]) -> Iterator[Mark]:
    for step in coming:
        if isinstance(step, CutApart) and step.item == name:
            line = _known(stack, step.line)
            yield from _marks(MarkKind.CUT, line, (*stack.lower, *stack.upper))


def _marks(kind: MarkKind, line: Line, faces: Faces) -> Iterator[Mark]:
    """The line where it runs inside cloth."""
    for start, end in stretches_inside(faces, line):
        yield Mark(kind, *(_at(line, along) for along in (start, end)))


def _at(line: Line, along: Number) -> Point:
    """The point of a line by its position b x - a y along it."""
    a, b, c = line.a, line.b, line.c
    n = a * a + b * b
    return ((a * c + b * along) / n, (b * c - a * along) / n)


def _known(thing: Thing, place: SeamLine) -> Line:
    line = line_on(thing, place)
    if line is None:
        raise CannotSew("a line that can be measured exactly", "another one")
    return line


def _picked(snapshots: tuple[Snapshot, ...]) -> tuple[Snapshot, ...]:
    """At most five: three of the first seam, the start of the second, and the end.

    Things done alike one after the other are shown once, and things joined alike at any time.
    """
    if len(snapshots) <= 5:
        return snapshots
    new = [i for i in range(len(snapshots)) if not _again(snapshots[:i], snapshots[i])]
    sewn = [i for i in new if snapshots[i].moment is Moment.SEWN and i > 0]
    second = sewn[0] if sewn else [*new, len(snapshots) - 1][3:4][0]
    kept = sorted({*(i for i in new[:3] if i < second), second, len(snapshots) - 1})
    starts = [0, *(index + 1 for index in kept[:-1])]
    return tuple(
        replace(
            snapshots[index],
            steps=tuple(step for s in snapshots[start : index + 1] for step in s.steps),
        )
        for start, index in zip(starts, kept, strict=True)
    )
