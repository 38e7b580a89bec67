"""Flying geese, four at a time from one large square and four small ones, without waste.

Two small squares of side q lie on opposite corners of a square of side L, sewn s on both sides of
the diagonal and cut on it; each half opens to a heart. A third and a fourth small square go on the
corners that are left, sewn and cut in the same way. The tip of a goose lies L/2 - s*root 2 above
its base's raw edge and must lie H + s above it: L = W + s*(2 + 2*root 2). The height of a unit is
q - s*root 2: q = H + s*(2 + root 2).

The first two small squares overlap in the middle by 2q - L. Above 2s nothing of a unit is missing
at its tip; up to s*2*root 2 the overlap stays inside the seam allowances of the second round.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from quicktions import Fraction

from pieceproof.lengths import floor_to, square_root
from pieceproof.methods.geese import Geese, geese_alike, geese_fault, geese_floating, geese_patches
from pieceproof.methods.method import (
    Cut,
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
    cut_square,
)
from pieceproof.methods.oversize import Oversized, larger
from pieceproof.methods.triangle_squares import two_by_the_diagonal
from pieceproof.model import Measure
from pieceproof.steps import Corner, Layer, Press, Slope, Step, Take, Trim, Turn, Yield
from pieceproof.ways import because


@dataclass(frozen=True)
class FlyingGeeseFour(Oversized, Geese):
    """A large triangle, the goose, between two small ones, the sky; four at a time."""


def _recipe(unit: FlyingGeeseFour, room: Workroom) -> Recipe:
    seam = room.seam
    large, small = _squares(unit, room)
    hearts = (("first", Corner.TOP_RIGHT, (2, 1)), ("second", Corner.BOTTOM_LEFT, (3, 0)))
    steps = (
        Take("large", "goose"),
        Take("small one", "sky"),
        Take("small two", "sky"),
        Layer("large", "small one", Corner.TOP_LEFT),
        Layer("large", "small two", Corner.BOTTOM_RIGHT),
        *two_by_the_diagonal("large", Slope.FALLING, seam, Press.ONTO_ADDED, ("first", "second")),
        *(step for heart in hearts for step in _two_geese(*heart, room)),
        *(_trimmed(f"{half} {part}", unit, large, small, room) for half, part in _MADE),
        Yield(tuple(f"{half} {part}" for half, part in _MADE)),
    )
    return Recipe((large, small), 4, steps)


_MADE = (("first", "upper"), ("first", "lower"), ("second", "upper"), ("second", "lower"))


def _squares(unit: FlyingGeeseFour, room: Workroom) -> tuple[Cut, Cut]:
    """The large and the small square, their overlap neither too narrow nor too wide."""
    seam, root = room.seam, square_root(2)
    large = cut_square("goose", unit.goose, unit.size.width, seam * (2 + 2 * root), room)
    small = cut_square("sky", unit.sky, unit.size.height, seam * (2 + root), room)
    large, small = (larger(cut, unit.oversize, room) for cut in (large, small))
    while 2 * small.width - large.width < 2 * seam:
        small = _larger(small, room)
    while 2 * small.width - large.width > 2 * root * seam:
        large = _larger(large, room)
    return large, small


def _larger(cut: Cut, room: Workroom) -> Cut:
    way = because(cut.across, "so that the squares overlap neither too little nor too much")
    side = cut.width + room.step
    return replace(cut, width=side, height=side, across=way, down=way)


def _two_geese(
    heart: str, corner: Corner, turns: tuple[int, int], room: Workroom
) -> tuple[Step, ...]:
    small = "small three" if heart == "first" else "small four"
    upper, lower = f"{heart} upper", f"{heart} lower"
    return (
        Take(small, "sky"),
        Layer(heart, small, corner),
        *two_by_the_diagonal(heart, Slope.RISING, room.seam, Press.ONTO_ADDED, (upper, lower)),
        *(Turn(item, turn) for item, turn in zip((upper, lower), turns, strict=True) if turn),
    )


def _trimmed(item: str, unit: FlyingGeeseFour, large: Cut, small: Cut, room: Workroom) -> Trim:
    """The same off both sides and the base, which keeps the tip in its place."""
    seam, root = room.seam, square_root(2)
    width, height = unit.size.width + 2 * seam, unit.size.height + 2 * seam
    side = (large.width - 2 * seam * root - width) / 2
    above = small.width - seam * root - side - height
    return Trim(item, width, height, side, above, side, side)


def _fault(unit: FlyingGeeseFour, measure: Measure, seam: Fraction) -> Fault | None:
    """The small squares overlap too much if both kinds are cut much larger alike."""
    room = Workroom(seam, measure.step, {})
    if geese_fault(unit, measure, seam) or _has_room(unit, unit.oversize, room):
        return geese_fault(unit, measure, seam)
    most = floor_to(unit.oversize, room.step)
    while not _has_room(unit, most, room):
        most -= room.step
    return Fault(
        "oversize",
        f"an oversize of {measure.show(unit.oversize)}",
        f"at most {measure.show(most)}, so that the small squares overlap as they must",
        f"write {measure.show(most)}",
    )


def _has_room(unit: FlyingGeeseFour, oversize: Fraction, room: Workroom) -> bool:
    """Whether the squares can overlap as they must without growing two steps of the ruler more."""
    cuts = _squares(replace(unit, oversize=oversize), room)
    return all(cut.width - cut.needed_width < oversize + 2 * room.step for cut in cuts)


_LESSON = Lesson(
    "Many geese of the same two fabrics: four at a time, and next to no cloth is cut away.",
    """\
size: 4 x 2
goose: slate
sky: mist
""",
)

METHOD = Method(
    "flying geese four at a time",
    FlyingGeeseFour,
    lambda u: u.size,
    geese_patches,
    _recipe,
    _fault,
    floating=geese_floating,
    pressing=Pressing.LATER,
    alike=partial(geese_alike, FlyingGeeseFour),
    lesson=_LESSON,
)
