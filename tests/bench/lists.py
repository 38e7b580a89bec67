"""Five hundred made-up cutting lists: one to twelve sizes, 4 to 240 pieces of each, six widths.

`lists(500)` is always the same: a generator of its own, so that no library's random numbers can
change it. The sizes are those that patchwork asks for: what is finished on the half inch, cut with
1/2 in more for squares, rectangles and sashing, 7/8 for half-square triangles, 1 1/4 for
quarter-square ones (check values 5 and 6: L1, NHQ, APQ). Nothing is taken from any pattern.
"""

from collections.abc import Iterator

from quicktions import Fraction

from pieceproof.cutting.demand import EIGHTH_INCH, Demand, Want

WIDTHS = (40, 42, 43, 44, 54, 108)  # inches: quilting cottons, furnishing cloth, extra-wide backs
SEED = 20260
GROUPS = ((1, 4), (5, 8), (9, 12))  # sizes in a list; how the results are grouped

_SEAMS = Fraction(1, 2)
_EXTRA = (_SEAMS, _SEAMS, Fraction(7, 8), Fraction(5, 4))


def lists(count: int) -> Iterator[Demand]:
    """The first lists of the series, in a fixed order."""
    draw = _numbers(SEED)
    for _ in range(count):
        yield _list(draw)


def _numbers(seed: int) -> Iterator[int]:
    """Numbers from 1 to 2**31 - 2: Park and Miller, Comm. ACM 31 (1988) 1192-1201."""
    while True:
        seed = seed * 16807 % (2**31 - 1)
        yield seed


def _below(draw: Iterator[int], most: int) -> int:
    return (next(draw) >> 7) % most


def _list(draw: Iterator[int]) -> Demand:
    width = Fraction(WIDTHS[_below(draw, len(WIDTHS))])
    sizes: dict[tuple[Fraction, Fraction], Want] = {}
    wanted = 1 + _below(draw, 12) if _below(draw, 4) else 1 + _below(draw, 4)
    while len(sizes) < wanted:
        want = _want(draw, chr(ord("A") + len(sizes)))
        sizes.setdefault((want.across, want.along), want)
    return Demand(tuple(sizes.values()), (), width, EIGHTH_INCH, Fraction(1))


def _want(draw: Iterator[int], letter: str) -> Want:
    """Two squares in five, two rectangles, one strip of sashing; one in six lies as asked."""
    shape = _below(draw, 5)
    finished = Fraction(2 + _below(draw, 16), 2)
    if shape < 2:
        short = long = finished + _EXTRA[_below(draw, 4)]
    elif shape < 4:
        short = finished + _SEAMS
        long = short + Fraction(1 + _below(draw, 12), 2)
    else:
        short = Fraction(2 + _below(draw, 5), 2) + _SEAMS
        long = Fraction(16 + _below(draw, 21), 2) + _SEAMS
    count = 4 + _below(draw, 237)
    return Want(letter, short, long, count, turnable=_below(draw, 6) > 0)
