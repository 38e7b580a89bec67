"""Half-rectangle triangles: a rectangle of two triangles, two at a time from two rectangles.

The seam of a finished unit W x H runs from corner to corner, so it slants as H to W. Rectangles
are cut from corner to corner and the triangles sewn by their long edges; the slant is right only
if the rectangles have the proportions W : H, so both sides are rounded up together.

A cut triangle has its three edges s outside the finished ones: it is larger by s in the radius of
the circle inside it, W*H/(W + H + D) with the diagonal D. A rectangle needs W + s*(W + H + D)/H by
H + s*(W + H + D)/W; for W = H that is the half-square triangle's s*(2 + root 2).

The two triangles meet at the seam points of their sharp ends. Larger rectangles make larger units
of the same slant about the same middle, so the unit is trimmed alike left and right, above and
below, after the tips that stick out beyond the short edges.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, square_root
from pieceproof.methods.method import (
    Cut,
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
    press_to_darker,
)
from pieceproof.methods.oversize import REASON, Oversized
from pieceproof.model import FabricName, Measure, Size
from pieceproof.published import Patch
from pieceproof.shapes import Motion, mirror_left_right, rectangle
from pieceproof.steps import (
    Corner,
    CutApart,
    Diagonal,
    JoinEdges,
    Meeting,
    Press,
    Side,
    Slope,
    Step,
    Take,
    Trim,
    TrimTips,
    Turn,
    Yield,
    mirror_step,
)
from pieceproof.ways import Way, exactly

_MOST_PARTS = 8
"""Up to 8 to 7 parts, a side grows by less than 8 steps of the ruler to keep the slant."""


@dataclass(frozen=True)
class HalfRectangleTriangles(Oversized):
    """A rectangle of two triangles, its seam from corner to corner."""

    size: Annotated[Size, "Finished width x height"]
    upper: Annotated[FabricName, "The triangle above the seam"]
    lower: Annotated[FabricName, "The triangle below the seam"]
    slant: Annotated[Slope, "Which way the seam runs"] = Slope.RISING

    def fabrics(self) -> tuple[str, ...]:
        return (self.upper, self.lower)


def _patches(unit: HalfRectangleTriangles) -> tuple[Patch, ...]:
    width, height = unit.size.width, unit.size.height
    top_left, top_right, bottom_right, bottom_left = rectangle(width, height)
    motion = Motion() if unit.slant is Slope.RISING else mirror_left_right(width)
    return (
        Patch(unit.upper, motion.polygon((top_left, top_right, bottom_left))),
        Patch(unit.lower, motion.polygon((top_right, bottom_right, bottom_left))),
    )


def _recipe(unit: HalfRectangleTriangles, room: Workroom) -> Recipe:
    """Written for a rising seam; a falling one is its mirror image."""
    width, height = unit.size.width, unit.size.height
    cuts = tuple(
        _cut(slot, fabric, unit, room)
        for slot, fabric in (("upper", unit.upper), ("lower", unit.lower))
    )
    press = press_to_darker(unit.upper, unit.lower, room)
    ends = (Side.LEFT, Side.RIGHT) if width > height else (Side.TOP, Side.BOTTOM)
    across = (cuts[0].width - cuts[0].needed_width) / 2
    down = (cuts[0].height - cuts[0].needed_height) / 2
    seams = 2 * room.seam
    made = ("first", "second")
    steps = (
        *_halved("upper", made),
        *_halved("lower", ("third", "fourth")),
        _joined("first", "fourth", Corner.BOTTOM_RIGHT, Corner.TOP_LEFT, room, press),
        _joined("second", "third", Corner.TOP_LEFT, Corner.BOTTOM_RIGHT, room, press),
        Turn("second", 2),
        *(TrimTips(item, end) for item in made for end in ends),
        *(Trim(item, width + seams, height + seams, across, down, across, down) for item in made),
        Yield(made),
    )
    rising = unit.slant is Slope.RISING
    return Recipe(cuts, 2, steps if rising else tuple(mirror_step(step) for step in steps))


def _cut(slot: str, fabric: str, unit: HalfRectangleTriangles, room: Workroom) -> Cut:
    """The smallest rectangle on the ruler's grid that is large enough and keeps the slant."""
    width, height = unit.size.width, unit.size.height
    diagonal = square_root(width * width + height * height)
    allowance = room.seam * (width + height + diagonal)
    needed_width: Number = width + allowance / height
    needed_height: Number = height + allowance / width
    across, down = _parts(unit.size)
    part = ceil_to(needed_width / across + unit.oversize / min(across, down), room.step)
    told = "room for seams along the slant"
    reason = f"so that the slant stays {across} to {down}"
    reason = f"{REASON}, and {reason}" if unit.oversize else reason
    ways = (
        Way((exactly("finished width", width), exactly(told, allowance / height)), reason),
        Way((exactly("finished height", height), exactly(told, allowance / width)), reason),
    )
    sides = (part * across, part * down)
    return Cut(slot, fabric, needed_width, needed_height, *sides, None, *ways, unit.oversize)


def _parts(size: Size) -> tuple[int, int]:
    """Width to height in lowest terms."""
    return (size.width / size.height).as_integer_ratio()


def _halved(slot: str, names: tuple[str, str]) -> tuple[Step, ...]:
    return (Take(slot, slot), CutApart(slot, Diagonal(Slope.RISING, Fraction(0)), *names))


def _joined(
    item: str, added: str, edge: Corner, added_edge: Corner, room: Workroom, press: Press
) -> JoinEdges:
    return JoinEdges(item, added, edge, added_edge, Meeting.SEAM_POINTS, room.seam, press)


def _fault(unit: HalfRectangleTriangles, measure: Measure, _seam: Fraction) -> Fault | None:
    show, size = measure.show, unit.size
    found = f"{show(size.width)} x {show(size.height)}"
    if size.width == size.height:
        remedy = "change the size, or use half-square triangles"
        return Fault("size", found, "a width that differs from the height", remedy)
    parts = _parts(size)
    if max(parts) <= _MOST_PARTS:
        return None
    return Fault(
        "size",
        f"{found}, {parts[0]} to {parts[1]} parts",
        f"a width to height of at most {_MOST_PARTS} parts, such as 2 to 1 or 3 to 2, as a cut "
        "rectangle keeps the slant only in the same proportions",
        f"write {_nearest(size, measure)}",
    )


def _nearest(size: Size, measure: Measure) -> str:
    """The size on the ruler, as high as this one, whose width is nearest in simple parts."""
    simple = {
        Fraction(across, down)
        for across in range(1, _MOST_PARTS + 1)
        for down in range(1, _MOST_PARTS + 1)
        if across != down
    }
    widths = sorted(
        width
        for width in (ratio * size.height for ratio in simple)
        if (width / measure.step).denominator == 1
    )
    nearest = min(
        widths, key=lambda width: (abs(width - size.width), width), default=2 * size.height
    )
    return f"{measure.show(nearest)} x {measure.show(size.height)}"


_LESSON = Lesson(
    "Long points and slanting lines that squares cannot give. A unit and its mirror "
    "image are two things: no turn makes one of the other.",
    """\
size: 2 x 4
upper: mist
lower: slate
""",
)

METHOD = Method(
    "half-rectangle triangles",
    HalfRectangleTriangles,
    lambda u: u.size,
    _patches,
    _recipe,
    _fault,
    pressing=Pressing.DARKER,
    lesson=_LESSON,
)
