"""From a plan to the length that is published, the room in it, and the mistakes it forgives.

Goes in: a plan, the room the pattern states, the step in which cloth is sold. Comes out: exact
lengths in the plan's unit. It prints nothing and converts no units.
"""

from dataclasses import dataclass
from math import ceil

from quicktions import Fraction

from pieceproof.cutting.plan import Plan, left_overs, settings

EIGHTH_YARD_IN = Fraction(9, 2)  # 36 in / 8
FIVE_CM = Fraction(5)


@dataclass(frozen=True, slots=True)
class Spare:
    """How many more pieces of a letter can be cut, if only this letter's pieces go wrong."""

    letter: str
    from_ends: int
    from_room: int


@dataclass(frozen=True, slots=True)
class Again:
    """How many more strips of a height the room holds."""

    height: Fraction
    strips: int


@dataclass(frozen=True, slots=True)
class Yardage:
    """`needed` = plan + squaring; `published` = needed + stated room, rounded up to what is sold.

    `room` is what remains of the published length when everything has been cut.
    """

    needed: Fraction
    published: Fraction
    room: Fraction
    spares: tuple[Spare, ...]
    again: tuple[Again, ...]


def published_length(plan: Plan, room: Fraction, step: Fraction) -> Yardage:
    """The length to publish when cloth is sold in multiples of `step`."""
    needed = plan.length + plan.squaring
    published = rounded_up(needed + room, step)
    left = published - needed
    return Yardage(
        needed,
        published,
        left,
        tuple(_spare(plan, letter, left) for letter in _ways(plan)),
        tuple(Again(setting.height, left // setting.height) for setting in settings(plan)),
    )


def rounded_up(length: Fraction, step: Fraction) -> Fraction:
    """The smallest multiple of `step` that is not shorter."""
    return ceil(length / step) * step


def _spare(plan: Plan, letter: str, room: Fraction) -> Spare:
    ways = _ways(plan)[letter]
    ends = [
        left.count * max((left.across // across) * (left.along // along) for across, along in ways)
        for left in left_overs(plan)
    ]
    per_room = max((plan.width // across) * (room // along) for across, along in ways)
    return Spare(letter, sum(ends), per_room)


def _ways(plan: Plan) -> dict[str, tuple[tuple[Fraction, Fraction], ...]]:
    """Letter by letter, the ways its pieces lie in the plan; parts of joined strips left out."""
    joined = {run.letter for run in plan.joined}
    found = {
        (cut.letter, cut.across, cut.along)
        for strip in plan.strips
        for segment in strip.segments
        for cut in segment.cuts
        if cut.letter not in joined
    }
    ways: dict[str, tuple[tuple[Fraction, Fraction], ...]] = {}
    for letter, across, along in sorted(found):
        ways[letter] = (*ways.get(letter, ()), (across, along))
    return ways
