"""How many cuts the strips of a plan take, one layer at a time.

In: a plan. Out: counts by kind. One cut parts each strip from the cloth; a strip that is cut up has
one end trued first; cuts across part its segments; what is left are the cuts that part the pieces
of a segment and take off what is too tall. A strip that stays whole needs none of these.
"""

from __future__ import annotations

from quicktions import Fraction

from pieceproof.cutting.plan import Plan, Segment, Strip, used_across


def end_count(plan: Plan) -> int:
    """How many ends of strips are trued."""
    return sum(strip.count * ends_of(strip, plan.width) for strip in plan.strips)


def trim_count(plan: Plan) -> int:
    """How many cuts are made within segments."""
    return sum(strip.count * trims_of(strip) for strip in plan.strips)


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
