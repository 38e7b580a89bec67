"""The shortest plan for a board, and its proof.

Goes in: the board, the length of a plan that is known, how hard to try. Comes out: shorter cuts,
if there are any, and a length that no plan can beat.

Length after length from the relaxed program's bound up is proved to be too short, or met
(meeting); where that takes long, by cases of which roundings raise the bound (branching). Where
that takes too much, a plan is shortened part by part (improve). A plan of few strips is
searched by their numbers first (few): among equals that finds the simpler one. Plans of few strips
are also made strip after strip (successive), and those of many sizes before all else.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from pieceproof.cutting.board import Board, Cut, length
from pieceproof.cutting.branching import cases_of, followed
from pieceproof.cutting.effort import Effort, GaveUpError
from pieceproof.cutting.few.search import searched
from pieceproof.cutting.improve import improved, rough
from pieceproof.cutting.meeting import FILLINGS, HEAPS, meet, meeting_of
from pieceproof.cutting.relaxed import Vertex, relaxed
from pieceproof.cutting.successive import successive

MANY = 12  # sizes; of more a plan is made strip after strip first
LEARNT_FIRST, LEARNT = 0.3, 0.15  # of the effort that is left, for that at most
FEW = 28  # strips
COUNTED = 12  # strips; for fewer of them is only looked in plans of no more
COUNTING = 0.2  # of the effort that is left, for that at most
FIRST = 0.1  # of the effort that is spent on numbers of strips at first, at most
CLIMB, CLIMB_FEW = 0.1, 0.3  # of what is left then that is spent without cases, at most
UNSHORTENED = 0.5  # of the effort for cases is kept until a plan is shortened
SHORTENED = 0.4  # of that is spent on shortening it, at most


class Shortest(NamedTuple):
    """Plans of equal length, shorter than the known one, if any; a length that none can beat."""

    plans: list[list[Cut]]
    bound: int


def shortest(board: Board, known: int, effort: Effort) -> Shortest:
    """The shortest plans, in units of the board; `known` is the length of a plan at hand."""
    if len(board.need) <= MANY:
        return _by_program(board, known, effort)
    with effort.share(LEARNT_FIRST) as part:
        learnt = _strip_after_strip(board, known, part)
    known = _shorter(board, known, learnt)
    found = _by_program(board, known, effort)
    return Shortest(found.plans or learnt, found.bound)


def _by_program(board: Board, known: int, effort: Effort) -> Shortest:
    if board.width * sum(len(slots) for slots in board.slots) > effort.left:
        return Shortest([], 0)
    try:
        vertex = relaxed(board, effort)
    except GaveUpError:
        vertex = None
    if vertex is None:
        return Shortest([], 0)
    strips = sum(vertex.strips.values()) // vertex.scale
    ways = _FEW_STRIPS if strips < FEW else _MANY_STRIPS
    return _one_way_after_the_other(ways, vertex, known, effort)


def of_fewer_strips(board: Board, known: int, strips: int, effort: Effort) -> list[Cut] | None:
    """Cuts of the known length with fewer strips than that, where strips are not many.

    A height counts so many times that no saving of strips outweighs a unit of length.
    """
    if not 1 < strips <= COUNTED:
        return None
    times = strips + 1
    counted = board._replace(heights=tuple(times * height + 1 for height in board.heights))
    with effort.share(COUNTING) as part:
        return searched(counted, times * known + strips, part).cuts


_Way = Callable[[Vertex, int, int, Effort], Shortest]


def _one_way_after_the_other(
    ways: Sequence[tuple[float, _Way]], vertex: Vertex, known: int, effort: Effort
) -> Shortest:
    """Each with its share of what is left, until the plan at hand is proven."""
    found = Shortest([], vertex.bound)
    for share, way in ways:
        with effort.share(share) as part:
            more = way(vertex, known, found.bound, part)
        found = Shortest(more.plans or found.plans, max(found.bound, more.bound))
        known = _shorter(vertex.board, known, more.plans)
        if found.bound >= known:
            break
    return found


def _shorter(board: Board, known: int, plans: list[list[Cut]]) -> int:
    """The length of the shortest plan at hand."""
    return min([known, *(length(board, cuts) for cuts in plans)])


def _learnt(vertex: Vertex, known: int, bound: int, effort: Effort) -> Shortest:
    """By plans made strip after strip, unless sizes are many: then they were made first."""
    if len(vertex.board.need) > MANY:
        return Shortest([], bound)
    return Shortest(_strip_after_strip(vertex.board, known, effort), bound)


def _strip_after_strip(board: Board, known: int, effort: Effort) -> list[list[Cut]]:
    cuts = successive(board, effort)
    return [cuts] if cuts and length(board, cuts) < known else []


def _searched(vertex: Vertex, known: int, bound: int, effort: Effort) -> Shortest:
    """By numbers of strips."""
    found = searched(vertex.board, known, effort)
    return Shortest([found.cuts] if found.cuts else [], max(bound, found.bound))


def _by_cases(vertex: Vertex, known: int, bound: int, effort: Effort) -> Shortest:
    """Case after case; a plan is shortened in between where that takes long."""
    cases = cases_of(vertex.board, bound, effort)
    if cases is None:
        return Shortest(_shortened(vertex, known, effort), bound)
    plans = followed(cases, known, int(UNSHORTENED * effort.left))
    shorter: list[list[Cut]] = []
    if not plans and cases.level < known:
        with effort.share(SHORTENED) as part:
            shorter = _shortened(vertex, known, part)
        known = _shorter(vertex.board, known, shorter)
        plans = followed(cases, known, 0)
    return Shortest(plans or shorter, min(known, cases.level))


def _climbed(vertex: Vertex, known: int, bound: int, effort: Effort) -> Shortest:
    """Length after length from the bound up: each is proved to be too short, or the answer."""
    meeting, bound = meeting_of(vertex), min(known, bound)
    while meeting and bound < known and not effort.spent:
        verdict, plans = meet(meeting, bound, FILLINGS, HEAPS, effort)
        if plans:
            return Shortest(plans, bound)
        if verdict == "unknown":
            break
        bound += 1
    return Shortest([], bound)


def _shortened(vertex: Vertex, known: int, effort: Effort) -> list[list[Cut]]:
    """A plan shorter than the known one, by rounding and shortening."""
    try:
        cuts = improved(vertex, rough(vertex, effort), effort)
    except GaveUpError:
        return []
    return [cuts] if length(vertex.board, cuts) < known else []


_FEW_STRIPS: tuple[tuple[float, _Way], ...] = (
    (FIRST, _searched),
    (CLIMB_FEW, _climbed),
    (LEARNT, _learnt),
    (1.0, _searched),
    (1.0, _by_cases),
)
_MANY_STRIPS: tuple[tuple[float, _Way], ...] = ((CLIMB, _climbed), (1.0, _by_cases))
