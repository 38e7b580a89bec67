"""A cutting plan: full-width strips, cross-cuts, trimming; plain data and what can be read off it.

A person with a rotary cutter squares the end of the cloth, cuts strips across its full usable
width, cuts each strip across into segments, and cuts a segment into pieces of one size, one
above the other; what remains above the topmost piece is trimmed off. All lengths are exact and
in the demand's unit. Nothing here decides anything.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from quicktions import Fraction

from pieceproof.cutting.demand import Join


@dataclass(frozen=True, slots=True)
class Cut:
    """`count` pieces of one letter stacked in a segment, each `across` by `along` as they lie.

    `turned` pieces lie with the two sides of the demand exchanged.
    """

    letter: str
    count: int
    turned: bool
    across: Fraction
    along: Fraction


@dataclass(frozen=True, slots=True)
class Segment:
    """`count` neighbouring cross-cuts of a strip, each `length` across the cloth.

    All cuts of a segment have the segment's length across and the same length along.
    """

    length: Fraction
    count: int
    cuts: tuple[Cut, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """`count` equal strips of `height` by the usable width; segments from the squared end on."""

    height: Fraction
    count: int
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class Joined:
    """Strips of one letter sewn end to end into one run, and what is cut from it.

    `strips` parts lose `loss` at each join; `count` lengths of `length` are cut from the run.
    """

    letter: str
    strips: int
    join: Join
    loss: Fraction
    run: Fraction
    length: Fraction
    count: int


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan for one cloth.

    `length` is what the strips use, without squaring; `bound` is a length no plan of this kind
    can beat; `proven` says that the two are equal. `gap` is how much shorter a plan might be.
    """

    width: Fraction
    squaring: Fraction
    strips: tuple[Strip, ...]
    joined: tuple[Joined, ...]
    length: Fraction
    bound: Fraction
    proven: bool

    @property
    def gap(self) -> Fraction:
        """The length that a shorter plan might save, as a share of the bound; 0 when proven."""
        return self.length / self.bound - 1 if self.bound else Fraction(0)


@dataclass(frozen=True, slots=True)
class Setting:
    """All strips of one height: the ruler is set once and `count` strips are cut."""

    height: Fraction
    count: int
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """One piece where it lies: `left` from the squared selvage end, `top` from the squared edge.

    `strip` counts the plan's strips one by one from 0 in cutting order.
    """

    letter: str
    turned: bool
    left: Fraction
    top: Fraction
    across: Fraction
    along: Fraction
    strip: int


@dataclass(frozen=True, slots=True)
class LeftOver:
    """Cloth left at the end of `count` strips, `across` the cloth by `along` it."""

    across: Fraction
    along: Fraction
    count: int


def settings(plan: Plan) -> tuple[Setting, ...]:
    """The plan's strips by height, in cutting order."""
    return tuple(
        Setting(height, sum(strip.count for strip in strips), strips)
        for height, group in groupby(plan.strips, key=lambda strip: strip.height)
        for strips in (tuple(group),)
    )


def strip_count(plan: Plan) -> int:
    """How many full-width strips are cut."""
    return sum(strip.count for strip in plan.strips)


def cross_cuts(plan: Plan) -> int:
    """How many cuts across strips; a segment that ends where the strip ends needs none."""
    return sum(strip.count * cross_cuts_of(strip, plan.width) for strip in plan.strips)


def cross_cuts_of(strip: Strip, width: Fraction) -> int:
    """How many cuts across one such strip."""
    segments = sum(segment.count for segment in strip.segments)
    return segments - (used_across(strip) == width)


def used_across(strip: Strip) -> Fraction:
    """How much of the strip's width its segments use."""
    return sum((s.length * s.count for s in strip.segments), Fraction(0))


def left_overs(plan: Plan) -> tuple[LeftOver, ...]:
    """The whole rectangles left at the ends of the strips, in cutting order."""
    return tuple(
        LeftOver(plan.width - used_across(strip), strip.height, strip.count)
        for strip in plan.strips
        if used_across(strip) < plan.width
    )


def pieces_cut(plan: Plan) -> dict[str, int]:
    """How many pieces of each letter the plan cuts, by letter in order."""
    counts: dict[str, int] = {}
    for strip in plan.strips:
        for segment in strip.segments:
            for cut in segment.cuts:
                pieces = strip.count * segment.count * cut.count
                counts[cut.letter] = counts.get(cut.letter, 0) + pieces
    return dict(sorted(counts.items()))


def waste(plan: Plan) -> Fraction:
    """The share of the plan's cloth that does not become a piece."""
    cloth = plan.length * plan.width
    pieces = sum(
        (
            strip.count * segment.count * cut.count * cut.across * cut.along
            for strip in plan.strips
            for segment in strip.segments
            for cut in segment.cuts
        ),
        Fraction(0),
    )
    return 1 - pieces / cloth if cloth else Fraction(0)


def placed(plan: Plan) -> Iterator[Placed]:
    """Every piece where it lies, strip by strip; the squared edge is at 0."""
    top, number = Fraction(0), 0
    for strip in plan.strips:
        for _ in range(strip.count):
            yield from placed_in_strip(strip, top, number)
            top, number = top + strip.height, number + 1


def placed_in_strip(strip: Strip, top: Fraction, number: int) -> Iterator[Placed]:
    """The pieces of one strip whose upper edge lies at `top`."""
    left = Fraction(0)
    for segment in strip.segments:
        for _ in range(segment.count):
            yield from _placed_in_segment(segment, left, top, number)
            left += segment.length


def _placed_in_segment(
    segment: Segment, left: Fraction, top: Fraction, number: int
) -> Iterator[Placed]:
    for cut in segment.cuts:
        for _ in range(cut.count):
            yield Placed(cut.letter, cut.turned, left, top, cut.across, cut.along, number)
            top += cut.along
