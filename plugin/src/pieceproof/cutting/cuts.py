"""How many cuts a plan takes, one layer at a time.

In: a plan. Out: counts by kind. One cut squares the cloth and one parts each strip from it; a strip
that is cut up has one end trued first; cuts across part its segments; what is left are the cuts
that part the pieces of a segment and take off what is too tall. A strip that stays whole needs
none of these.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.cutting.plan import Plan, Segment, Strip, cross_cuts_of, strip_count, used_across


@dataclass(frozen=True, slots=True)
class Cuts:
    """Cuts by kind, in the order in which they are made.

    ``lengths`` are those of the whole width, for a back or for motifs, and ``around`` the cuts
    around pieces that show a motif.
    """

    squaring: int
    lengths: int
    around: int
    strips: int
    ends: int
    across: int
    trims: int

    @property
    def total(self) -> int:
        """All cuts."""
        return (
            self.squaring
            + self.lengths
            + self.around
            + self.strips
            + self.ends
            + self.across
            + self.trims
        )


def cuts_of(plan: Plan, lengths: int, around: int) -> Cuts:
    """The cuts of a plan for one cloth, with those counted elsewhere."""
    strips = plan.strips
    return Cuts(
        1,
        lengths,
        around,
        strip_count(plan),
        sum(strip.count * ends_of(strip, plan.width) for strip in strips),
        sum(strip.count * cross_cuts_of(strip, plan.width) for strip in strips),
        sum(strip.count * trims_of(strip) for strip in strips),
    )


def ends_of(strip: Strip, width: Fraction) -> int:
    """Whether one end of the strip is trued: 1, or 0 where one segment is all of it."""
    whole = len(strip.segments) == 1 and strip.segments[0].count == 1
    return 0 if whole and used_across(strip) == width else 1


def trims_of(strip: Strip) -> int:
    """Cuts within the segments of one strip."""
    return sum(segment.count * _trims(strip, segment) for segment in strip.segments)


def _trims(strip: Strip, segment: Segment) -> int:
    """Cuts that part the pieces of one segment and take off what is left above them."""
    pieces = sum(cut.count for cut in segment.cuts)
    height = sum(cut.count * cut.along for cut in segment.cuts)
    return pieces - (height == strip.height)
