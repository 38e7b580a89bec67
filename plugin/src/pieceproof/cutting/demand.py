"""What has to be cut from one cloth: cut sizes in, one unit throughout (inches or centimetres).

Goes in: rectangles and long strips at cut size. Comes out: plain frozen data, and the list of
what is wrong with it. Nothing here chooses a plan.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from quicktions import Fraction

Join = Literal["straight", "diagonal"]
Way = Literal["crosswise", "lengthwise"]

EIGHTH_INCH = Fraction(1, 8)  # the grid of an inch ruler
MILLIMETRE = Fraction(1, 10)  # the grid of a centimetre ruler

MOST_PIECES = 5_000_000  # per cloth: a thousand large quilts
MOST_SIZES = 200
FINEST_GRID = 20_000  # steps across the cloth


@dataclass(frozen=True, slots=True)
class Want:
    """`count` rectangles, `across` the cloth's width by `along` its length.

    A turnable one may also be cut with the two exchanged.
    """

    letter: str
    across: Fraction
    along: Fraction
    count: int
    turnable: bool


@dataclass(frozen=True, slots=True)
class Long:
    """`count` strips of `width` by `length`, usually longer than the cloth is wide.

    Crosswise ones are cut as strips across the cloth, sewn end to end into one run with `join`
    and the given seam, and cut to length. Lengthwise ones are cut whole along the selvage.
    """

    letter: str
    width: Fraction
    length: Fraction
    count: int
    join: Join
    seam: Fraction
    way: Way = "crosswise"


@dataclass(frozen=True, slots=True)
class Demand:
    """Everything to be cut from one cloth.

    `usable_width` is without selvages, `step` the ruler's grid, `squaring` the length lost to
    the first straight cut across the cloth.
    """

    wants: tuple[Want, ...]
    longs: tuple[Long, ...]
    usable_width: Fraction
    step: Fraction
    squaring: Fraction


def demand_problems(demand: Demand) -> tuple[str, ...]:
    """What stops the demand from being planned, each as one sentence; empty when nothing does."""
    cloth = tuple(_cloth_problems(demand))
    if cloth:
        return cloth
    return (
        *_list_problems(demand),
        *(problem for want in demand.wants for problem in _want_problems(want, demand)),
        *(problem for long in demand.longs for problem in _long_problems(long, demand)),
    )


def join_loss(long: Long) -> Fraction:
    """Length that one join eats.

    Straight: each strip gives one seam allowance, so two seams. Diagonal: the strips overlap at
    a right angle in a square as wide as the strip and are sewn corner to corner; along one edge
    the first strip keeps its whole length and the second loses the square's side, along the
    other edge it is the other way round, so the run is one strip width shorter than the two.
    """
    return long.width if long.join == "diagonal" else 2 * long.seam


def on_grid(length: Fraction, step: Fraction) -> bool:
    """Whether a ruler with this grid can measure the length."""
    return (length / step).denominator == 1


def shown(length: Fraction) -> str:
    """A length as a mixed number: 3 1/2."""
    sign = "-" if length < 0 else ""
    whole, rest = divmod(abs(length), 1)
    parts = [str(whole)] if whole or not rest else []
    return sign + " ".join(parts + ([str(rest)] if rest else []))


def _cloth_problems(demand: Demand) -> Iterator[str]:
    if demand.step <= 0:
        yield f"the ruler's grid is {shown(demand.step)}; it must be more than 0"
    elif demand.usable_width < demand.step:
        yield f"the usable width is {shown(demand.usable_width)}; it must be more than 0"
    elif demand.usable_width / demand.step > FINEST_GRID:
        yield (
            f"the usable width {shown(demand.usable_width)} is more than {FINEST_GRID} steps of "
            f"the ruler's grid {shown(demand.step)}; are both in the same unit?"
        )
    if demand.squaring < 0:
        yield f"the squaring allowance is {shown(demand.squaring)}; it must not be negative"


def _list_problems(demand: Demand) -> Iterator[str]:
    items: tuple[Want | Long, ...] = (*demand.wants, *demand.longs)
    letters = [item.letter for item in items]
    for letter in sorted({letter for letter in letters if letters.count(letter) > 1}):
        yield f"{letter}: used for {letters.count(letter)} sizes; each size needs its own letter"
    if len(letters) > MOST_SIZES:
        yield f"{len(letters)} sizes from one cloth; at most {MOST_SIZES} can be planned together"
    pieces = sum(item.count for item in items if item.count > 0)
    if pieces > MOST_PIECES:
        yield f"{pieces} pieces from one cloth; at most {MOST_PIECES}: plan a smaller batch"


def _want_problems(want: Want, demand: Demand) -> Iterator[str]:
    yield from _size_problems(want.letter, (want.across, want.along), want.count, demand.step)
    width = demand.usable_width
    size = f"{want.letter}: {shown(want.across)} x {shown(want.along)}"
    if want.across > width and want.along > width:
        yield f"{size} is larger than the usable width {shown(width)} both ways; it must be pieced"
    elif want.across > width and not want.turnable:
        yield (
            f"{size} is wider than the usable width {shown(width)} and may not be turned; "
            "allow turning, or piece it from joined strips"
        )


def _long_problems(long: Long, demand: Demand) -> Iterator[str]:
    yield from _size_problems(long.letter, (long.width, long.length), long.count, demand.step)
    if long.seam < 0:
        yield f"{long.letter}: the seam is {shown(long.seam)}; it must not be negative"
    if long.way == "lengthwise" and long.width > demand.usable_width:
        yield (
            f"{long.letter}: {shown(long.width)} wide does not fit into the usable width "
            f"{shown(demand.usable_width)} along the selvage"
        )
    if long.way == "crosswise" and 2 * join_loss(long) >= demand.usable_width:
        yield (
            f"{long.letter}: each join eats {shown(join_loss(long))} of the usable width "
            f"{shown(demand.usable_width)}; too little is left to sew"
        )
    if long.way == "crosswise" and long.width > 0:
        strips = long.length * long.count / demand.usable_width
        if strips > MOST_PIECES:
            yield f"{long.letter}: more than {MOST_PIECES} strips; plan a smaller batch"


def _size_problems(
    letter: str, sides: tuple[Fraction, Fraction], count: int, step: Fraction
) -> Iterator[str]:
    for side in sides:
        if side <= 0:
            yield f"{letter}: a side of {shown(side)}; every side must be more than 0"
        elif not on_grid(side, step):
            yield f"{letter}: {shown(side)} is not on the ruler's grid of {shown(step)}"
    if count <= 0:
        yield f"{letter}: {count} pieces; leave the piece out or ask for at least one"
