"""Quarter-square triangles: a square of four triangles, sewn from half-square triangle units.

Two units of side h, laid with their seams crossed and sewn s on both sides of the other diagonal,
open to two of side h - s*root 2; the units themselves come from squares of h + s*root 2. For an
unfinished side of F + 2s the squares need F + s*(2 + 2*root 2). A plain half is a square of
F + s*(2 + root 2) in place of the second unit; the first is trimmed to its size.

The two things that come from one pair of layers are mirror images. Where two opposite triangles
of four are alike they show the same; otherwise a round gives as many mirrored units as units.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, square_root
from pieceproof.methods.alike import quarters_in
from pieceproof.methods.method import (
    MIRRORED,
    Cut,
    Fault,
    Lesson,
    Method,
    Recipe,
    Workroom,
    cut_square,
    press_to_darker,
)
from pieceproof.methods.oversize import Oversized, larger
from pieceproof.methods.triangle_squares import pair, trim_alike, two_by_the_diagonal
from pieceproof.model import FabricName, Measure, Size
from pieceproof.published import Patch, Picture
from pieceproof.shapes import Polygon, mirror_left_right, quarter_turns, rectangle
from pieceproof.steps import (
    Corner,
    Layer,
    Press,
    Slope,
    Step,
    Take,
    TrimLike,
    Turn,
    Yield,
)
from pieceproof.ways import because

_Quarters = tuple[str, str, str, str]
"""The fabrics from the top clockwise."""


@dataclass(frozen=True)
class QuarterSquareTriangles(Oversized):
    """A square of four triangles that meet in the middle, of two to four fabrics."""

    size: Annotated[Fraction, "Finished side"]
    top: Annotated[FabricName, "The triangle at the top"]
    right: Annotated[FabricName, "The triangle on the right"]
    bottom: Annotated[FabricName, "The triangle at the bottom"]
    left: Annotated[FabricName, "The triangle on the left"]

    def fabrics(self) -> tuple[str, ...]:
        return _quarters(self)


@dataclass(frozen=True)
class _View:
    """The unit turned back by ``turn`` quarters, so that a plain half, if any, is bottom left."""

    turn: int
    quarters: _Quarters

    @property
    def has_plain_half(self) -> bool:
        return self.quarters[2] == self.quarters[3]

    @property
    def is_its_mirror_image(self) -> bool:
        alike = self.quarters[0] == self.quarters[2] or self.sides_are_alike
        return alike and not self.has_plain_half

    @property
    def sides_are_alike(self) -> bool:
        return self.quarters[1] == self.quarters[3]

    @property
    def has_equal_halves(self) -> bool:
        return self.quarters[:2] == self.quarters[2:]


def _quarters(unit: QuarterSquareTriangles) -> _Quarters:
    return (unit.top, unit.right, unit.bottom, unit.left)


def _view(unit: QuarterSquareTriangles) -> _View:
    top, right, bottom, left = _quarters(unit)
    views = (
        _View(0, (top, right, bottom, left)),
        _View(1, (right, bottom, left, top)),
        _View(2, (bottom, left, top, right)),
        _View(3, (left, top, right, bottom)),
    )
    return next((view for view in views if view.has_plain_half), views[0])


def _patches(unit: QuarterSquareTriangles) -> tuple[Patch, ...]:
    view, side = _view(unit), unit.size
    corners, middle = rectangle(side, side), (side / 2, side / 2)
    outlines: list[Polygon] = [(corners[i], corners[(i + 1) % 4], middle) for i in range(4)]
    if view.has_plain_half:
        outlines[2:] = [corners[2:] + corners[:1]]
    motion = quarter_turns(view.turn, side, side)
    return tuple(
        Patch(fabric, motion.polygon(outline))
        for fabric, outline in zip(view.quarters, outlines, strict=False)
    )


def _extras(unit: QuarterSquareTriangles) -> tuple[Picture, ...]:
    if _view(unit).is_its_mirror_image:
        return ()
    mirror = mirror_left_right(unit.size)
    patches = (Patch(p.fabric, mirror.polygon(p.outline)) for p in _patches(unit))
    return (Picture(MIRRORED, unit.size, unit.size, tuple(patches)),)


def _recipe(unit: QuarterSquareTriangles, room: Workroom) -> Recipe:
    view = _view(unit)
    if view.has_plain_half:
        return _with_plain_half(unit, view, room)
    if view.has_equal_halves:
        return _from_one_pair(unit, view, room)
    return _from_two_pairs(unit, view, room)


def _from_one_pair(unit: QuarterSquareTriangles, view: _View, room: Workroom) -> Recipe:
    top, right, _, _ = view.quarters
    cuts = (_pair_cut("top", top, unit, room), _pair_cut("right", right, unit, room))
    steps = (
        *pair("top", "right", room.seam, press_to_darker(top, right, room), ("one", "two")),
        Turn("two", 3),
        *_crossed("one", "two", view, room.seam, ("first", "second")),
        *_finished(
            unit.size, view, _off(cuts[0].width, unit.size, 2, room), room, (("first", "second"),)
        ),
    )
    return Recipe(cuts, 2, steps)


def _from_two_pairs(unit: QuarterSquareTriangles, view: _View, room: Workroom) -> Recipe:
    top, right, bottom, left = view.quarters
    slots = (("top", top), ("right", right), ("left", left), ("bottom", bottom))
    cuts = tuple(_pair_cut(slot, fabric, unit, room) for slot, fabric in slots)
    made = (("first", "second"), ("third", "fourth"))
    steps = (
        *pair("top", "right", room.seam, press_to_darker(top, right, room), ("one", "two")),
        *pair("left", "bottom", room.seam, press_to_darker(left, bottom, room), ("three", "four")),
        Turn("three", 1),
        Turn("four", 1),
        *_crossed("one", "three", view, room.seam, made[0]),
        *_crossed("two", "four", view, room.seam, made[1]),
        *_finished(unit.size, view, _off(cuts[0].width, unit.size, 2, room), room, made),
    )
    return Recipe(cuts, 4 if view.is_its_mirror_image else 2, steps)


def _with_plain_half(unit: QuarterSquareTriangles, view: _View, room: Workroom) -> Recipe:
    top, right, half, _ = view.quarters
    root = square_root(2)
    plain = cut_square("plain half", half, unit.size, room.seam * (2 + root), room)
    plain = larger(plain, unit.oversize, room)
    least = plain.width + room.seam * root
    cuts = tuple(
        _at_least(_pair_cut(slot, fabric, unit, room), least, room)
        for slot, fabric in (("top", top), ("right", right))
    )
    off = (cuts[0].width - least) / 2
    made = (("first", "second"), ("third", "fourth"))
    layers = (("one", "plain one", made[0]), ("two", "plain two", made[1]))
    steps: tuple[Step, ...] = (
        *pair("top", "right", room.seam, press_to_darker(top, right, room), ("one", "two")),
        *(
            step
            for lower, upper, names in layers
            for step in (
                Take(upper, "plain half"),
                TrimLike(lower, upper, off, off, off, off),
                *_crossed(lower, upper, view, room.seam, names),
            )
        ),
        *_finished(unit.size, view, _off(plain.width, unit.size, 1, room), room, made),
    )
    return Recipe((*cuts, plain), 2, steps)


def _pair_cut(slot: str, fabric: str, unit: QuarterSquareTriangles, room: Workroom) -> Cut:
    exact = cut_square(slot, fabric, unit.size, room.seam * (2 + 2 * square_root(2)), room)
    return larger(exact, unit.oversize, room)


def _at_least(cut: Cut, least: Number, room: Workroom) -> Cut:
    side = max(cut.width, ceil_to(least, room.step))
    way = because(cut.across, "so that what is sewn first is as large as the plain square")
    return replace(cut, width=side, height=side, across=way, down=way)


def _off(cut: Fraction, size: Fraction, seams: int, room: Workroom) -> Number:
    """What one side of a finished unit is trimmed by, after this many seams on the diagonal."""
    return (cut - seams * room.seam * square_root(2) - size - 2 * room.seam) / 2


def _crossed(
    lower: str, upper: str, view: _View, seam: Fraction, names: tuple[str, str]
) -> tuple[Step, ...]:
    """Two things from two layers; the second, the mirror image, is turned as that is drawn."""
    return (
        Layer(lower, upper, Corner.TOP_LEFT),
        *two_by_the_diagonal(lower, Slope.FALLING, seam, Press.ONTO_ADDED, names),
        Turn(names[1], 1 if view.sides_are_alike or not view.is_its_mirror_image else 3),
    )


def _finished(
    size: Fraction, view: _View, off: Number, room: Workroom, made: tuple[tuple[str, str], ...]
) -> tuple[Step, ...]:
    """All turned as drawn and trimmed; the second of each two is a mirror image."""
    firsts, seconds = tuple(pair[0] for pair in made), tuple(pair[1] for pair in made)
    side = size + 2 * room.seam
    if view.is_its_mirror_image:
        items = firsts + seconds
        return (*_turned(items, view.turn), *_trimmed(items, side, off), Yield(items))
    return (
        *_turned(firsts, view.turn),
        *_turned(seconds, -view.turn % 4),
        *_trimmed(firsts + seconds, side, off),
        Yield(firsts),
        Yield(seconds, MIRRORED),
    )


def _turned(items: tuple[str, ...], turn: int) -> tuple[Step, ...]:
    return tuple(Turn(item, turn) for item in items if turn)


def _trimmed(items: tuple[str, ...], side: Fraction, off: Number) -> tuple[Step, ...]:
    return tuple(trim_alike(item, side, off) for item in items)


def _fault(unit: QuarterSquareTriangles, _measure: Measure, _seam: Fraction) -> Fault | None:
    top, right, bottom, left = _quarters(unit)
    if not ((top == right and bottom == left) or (right == bottom and left == top)):
        return None
    return Fault(
        "top",
        "two halves of one fabric each",
        "a seam from the middle to at least three corners",
        "change a fabric, or use half-square triangles, or a plain patch if all are alike",
    )


def _alike(picture: Picture) -> tuple[QuarterSquareTriangles, ...]:
    """A square whose four sides have a fabric each."""
    if picture.width != picture.height:
        return ()
    return (QuarterSquareTriangles(picture.width, *quarters_in(picture)),)


_LESSON = Lesson(
    "Hourglasses, and squares of three or four fabrics. Where opposite triangles "
    "differ, every second unit is a mirror image and may be spare.",
    """\
size: 3
top: mist
right: slate
bottom: mist
left: slate
""",
)


def _toward(unit: QuarterSquareTriangles, pressed: Sequence[Press]) -> Mapping[frozenset[int], int]:
    """The halves are sewn first, the long seam last.

    Where two units come from one pair of layers, the long seam runs along one diagonal in the one
    and along the other in the other one: then only what both have in common is told.
    """
    view = _view(unit)
    upper, long = ((0, 1), pressed[0]), pressed[-1]
    if view.has_plain_half:
        return _holders(upper, ((1, 2), long), ((0, 2), long))
    lower = ((2, 3), pressed[0]) if view.has_equal_halves else ((3, 2), pressed[1])
    first = _holders(upper, lower, ((1, 2), long), ((0, 3), long))
    if not view.is_its_mirror_image:
        return first
    mirror = _FLIPPED if view.sides_are_alike else _TURNED_OVER
    second = {frozenset(mirror[n] for n in pair): mirror[to] for pair, to in first.items()}
    return {pair: holder for pair, holder in first.items() if second.get(pair) == holder}


_FLIPPED = (0, 3, 2, 1)
"""Where the quarters lie in the left-right mirror image."""
_TURNED_OVER = (2, 1, 0, 3)
"""Where they lie in the one turned top to bottom."""


def _holders(*seams: tuple[tuple[int, int], Press]) -> Mapping[frozenset[int], int]:
    """Of a quarter and the one added to it, the one with the allowance; none of an open seam."""
    return {
        frozenset((base, added)): added if press is Press.ONTO_ADDED else base
        for (base, added), press in seams
        if press is not Press.OPEN
    }


METHOD = Method(
    "quarter-square triangles",
    QuarterSquareTriangles,
    lambda u: Size(u.size, u.size),
    _patches,
    _recipe,
    _fault,
    _extras,
    toward=_toward,
    alike=_alike,
    lesson=_LESSON,
)
