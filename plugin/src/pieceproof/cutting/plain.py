"""Strips as a person would cut them, where the search has piled equal pieces up in one tall strip.

Goes in: strips in cutting order. Comes out: the same pieces from the same length. A strip that
holds nothing but one pile of equal pieces is cut as so many low strips instead: the ruler is set
once, and no long cut is made down the middle of a tall strip.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from pieceproof.cutting.plan import Strip


def plain_strips(strips: Sequence[Strip]) -> tuple[Strip, ...]:
    """Piles that are a strip of their own taken apart; highest first, equal ones together."""
    return _in_order(_apart(strip) if _is_one_pile(strip) else strip for strip in strips)


def low_strips(strips: Sequence[Strip]) -> tuple[Strip, ...]:
    """Piles taken apart wherever a strip holds nothing but piles of one height: low strips find
    room more easily where cloth is short.
    """
    return _in_order(map(_apart, strips))


def _in_order(strips: Iterable[Strip]) -> tuple[Strip, ...]:
    return tuple(_together(sorted(strips, key=lambda strip: -strip.height)))


def _is_one_pile(strip: Strip) -> bool:
    return len(strip.segments) == 1 and strip.segments[0].count == 1


def _apart(strip: Strip) -> Strip:
    piles = {tuple((cut.count, cut.along) for cut in segment.cuts) for segment in strip.segments}
    if len(piles) > 1 or len(pile := piles.pop()) > 1:
        return strip
    ((pieces, along),) = pile
    if pieces * along != strip.height:
        return strip
    segments = tuple(
        replace(segment, cuts=(replace(segment.cuts[0], count=1),)) for segment in strip.segments
    )
    return Strip(along, strip.count * pieces, segments)


def _together(strips: Sequence[Strip]) -> Iterator[Strip]:
    """Neighbours that are cut up alike, counted as one."""
    for _, alike in groupby(strips, key=lambda strip: (strip.height, strip.segments)):
        first, *more = alike
        yield replace(first, count=first.count + sum(strip.count for strip in more))
