"""Strips as a person would cut them, where the search has piled equal pieces up in one tall strip.

Goes in: strips in cutting order. Comes out: the same pieces from the same length. A strip that
holds nothing but one pile of equal pieces is cut as so many low strips instead: the ruler is set
once, and no long cut is made down the middle of a tall strip.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from pieceproof.cutting.plan import Strip


def plain_strips(strips: Sequence[Strip]) -> tuple[Strip, ...]:
    """Piles taken apart; highest strips first, equal ones together."""
    apart = sorted((_apart(strip) for strip in strips), key=lambda strip: -strip.height)
    return tuple(_together(apart))


def _apart(strip: Strip) -> Strip:
    (first, *more) = strip.segments
    (cut, *others) = first.cuts
    if more or others or first.count > 1 or cut.count * cut.along != strip.height:
        return strip
    segment = replace(first, cuts=(replace(cut, count=1),))
    return Strip(cut.along, strip.count * cut.count, (segment,))


def _together(strips: Sequence[Strip]) -> Iterator[Strip]:
    """Neighbours that are cut up alike, counted as one."""
    for _, alike in groupby(strips, key=lambda strip: (strip.height, strip.segments)):
        first, *more = alike
        yield replace(first, count=first.count + sum(strip.count for strip in more))
