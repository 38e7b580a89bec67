"""Length after length, and by cases where that takes long.

Goes in: the board, a length that none beats. Comes out: plans of the least length, or a higher
length that none beats. Every case is the program of strips with
roundings and some limits on how many strips of some heights are cut. The case that may hold the
shortest plan goes first: its length is proved to be too short there, or met, or the case is split
by a number of strips that the program breaks; on both sides the bound is higher.
"""

from dataclasses import dataclass
from heapq import heappop, heappush
from math import floor, prod

from pieceproof.cutting.board import Board, Cut
from pieceproof.cutting.effort import Effort, GaveUpError
from pieceproof.cutting.meeting import FILLINGS, HEAPS, Meeting, Verdict, meet, meeting_of
from pieceproof.cutting.relaxed import (
    Strips,
    add_rule,
    copied,
    settle,
    started,
    strips_of,
    tighten,
    vertex_of,
)
from pieceproof.cutting.roundings import Limit
from pieceproof.cutting.simplex import value

FIRST_ROUNDS, ROUNDS = 10, 3  # of roundings
FIRST_TRY, TRY = 12_000_000, 3_000_000  # steps for one length of one case
HARDER = 4  # times as many where a case cannot be split
BROKEN = 0.02  # how far from whole
TRIED = 8  # numbers of strips
LEAST_GAIN, MOST_GAIN = 0.01, 50.0  # of length, as far as they tell one number from another
PER_CASE = 1_000_000  # steps


@dataclass(slots=True)
class _Case:
    level: int  # no plan of the case is shorter
    strips: Strips
    meeting: Meeting | None
    tries: int


@dataclass(slots=True)
class Cases:
    """All cases that are left, the one of the lowest level first, of equals the newest."""

    queue: list[tuple[int, int, _Case]]
    made: int
    effort: Effort

    @property
    def level(self) -> int:
        """No plan is shorter."""
        return self.queue[0][0]

    def add(self, case: _Case) -> None:
        """A further case."""
        self.made += 1
        heappush(self.queue, (case.level, -self.made, case))


def cases_of(board: Board, bound: int, effort: Effort) -> Cases | None:
    """The whole as one case; None where the arithmetic loses its footing."""
    cases = Cases([], 0, effort)
    try:
        cases.add(_case(started(board, effort), FIRST_ROUNDS, bound, FIRST_TRY))
    except GaveUpError:
        return None
    return cases


def followed(cases: Cases, known: int, left: int) -> list[list[Cut]]:
    """Plans of the least length, if they are met before the level reaches the known length or no
    more than so much effort is left.
    """
    effort = cases.effort
    while effort.left > left and cases.level < known:
        _, _, case = heappop(cases.queue)
        verdict, plans = _tried(case, effort)
        if plans:
            cases.add(case)
            return plans
        if verdict == "impossible":
            case.level += 1
        for child in [case] if verdict == "impossible" else _split(case):
            cases.add(child)
    return []


def _case(strips: Strips, rounds: int, level: int, tries: int) -> _Case:
    strips.effort.spend(PER_CASE)
    tighten(strips, rounds)
    vertex = vertex_of(strips)
    if vertex is None:
        return _Case(level, strips, None, tries)
    return _Case(max(level, vertex.bound), strips, meeting_of(vertex), tries)


def _tried(case: _Case, effort: Effort) -> tuple[Verdict, list[list[Cut]]]:
    if case.meeting is None:
        effort.spend(PER_CASE)
        return "unknown", []
    with effort.share(min(1.0, case.tries / max(1, effort.left))) as part:
        return meet(case.meeting, case.level, FILLINGS, HEAPS, part)


def _split(case: _Case) -> list[_Case]:
    """The two sides of the number of strips that promises most; the case itself, to be tried
    harder, where there is none.
    """
    case.tries *= HARDER
    best: tuple[float, list[Strips]] = (0.0, [])
    try:
        for heights, amount in _broken(case.strips)[:TRIED]:
            sides = [_side(case.strips, limit) for limit in _sides(heights, amount)]
            gains = [value(side.lp) - value(case.strips.lp) for side in sides]
            promise = prod(min(max(gain, LEAST_GAIN), MOST_GAIN) for gain in gains)
            if promise > best[0]:
                best = promise, sides
        return [_case(side, ROUNDS, case.level, TRY) for side in best[1]] or [case]
    except GaveUpError:
        return [case]


def _side(strips: Strips, limit: Limit) -> Strips:
    side = copied(strips)
    add_rule(side, limit)
    settle(side)
    return side


def _sides(heights: frozenset[int], amount: float) -> tuple[Limit, Limit]:
    fewer = floor(amount)
    return Limit(heights, -1, fewer), Limit(heights, 1, fewer + 1)


def _broken(strips: Strips) -> list[tuple[frozenset[int], float]]:
    """Sets of heights of which no whole number of strips is cut, the most broken first."""
    counts: dict[int, float] = {}
    for amount, made in strips_of(strips):
        counts[made.height] = counts.get(made.height, 0.0) + amount
    heights = range(len(strips.board.heights))
    sets = {frozenset([height]) for height in counts}
    sets |= {frozenset(range(height, len(heights))) for height in counts}
    found = []
    for some in sets:
        total = sum(counts.get(height, 0.0) for height in sorted(some))
        part = total - floor(total)
        if BROKEN < part < 1 - BROKEN:
            found.append((abs(part - 0.5), sorted(some), total))
    return [(frozenset(some), total) for _, some, total in sorted(found)]
