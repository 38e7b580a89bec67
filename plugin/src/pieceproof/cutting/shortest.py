"""The shortest plan for a board, and its proof.

Goes in: the board, the length of a plan that is known, how hard to try. Comes out: shorter cuts,
if there are any, and a length that no plan can beat.

A plan of few strips is searched by numbers of strips (few). Where there are many, length after
length from the relaxed program's bound up is proved to be too short, or met (meeting); where that
takes too much, a plan is shortened part by part (improve). Either goes on where the other ends.
"""

from typing import NamedTuple

from pieceproof.cutting.board import Board, Cut, length
from pieceproof.cutting.effort import Effort, GaveUpError
from pieceproof.cutting.few import full_supply, searched
from pieceproof.cutting.improve import improved
from pieceproof.cutting.meeting import Meeting, group_of, meet, others
from pieceproof.cutting.relaxed import Made, Vertex, relaxed
from pieceproof.cutting.supply import rounded

FEW = 28  # strips
CLIMB = 0.6  # of the effort that is spent on climbing, at most
FILLINGS = 4000  # of one height that are looked at for one length
HEAPS = 400_000  # of fillings that are made up for one length
ROUGH = 20  # a plan to be shortened may be so much longer at first: 1 / ROUGH
IMPROVE = 0.5  # of what is left that is spent on shortening a plan, at most


class Shortest(NamedTuple):
    """Plans of equal length, shorter than the known one, if any; a length that none can beat."""

    plans: list[list[Cut]]
    bound: int


def shortest(board: Board, known: int, effort: Effort) -> Shortest:
    """The shortest plans, in units of the board; `known` is the length of a plan at hand."""
    if board.width * sum(len(slots) for slots in board.slots) > effort.left:
        return Shortest([], 0)
    aside = Effort(effort.left)
    try:
        vertex = relaxed(board, aside)
    except GaveUpError:
        vertex = None
    if vertex is None or _strips(vertex) < FEW:
        return _few(board, vertex, known, effort)
    return _many(vertex, known, effort)


def _strips(vertex: Vertex) -> int:
    """How many strips the relaxed program cuts."""
    amounts = (
        sum(share * n for share, n in zip(shares, vertex.board.need, strict=True))
        for what, shares in zip(vertex.basis, vertex.inverse, strict=True)
        if isinstance(what, Made)
    )
    return sum(amounts) // vertex.scale


def _few(board: Board, vertex: Vertex | None, known: int, effort: Effort) -> Shortest:
    aside = Effort(effort.left)
    found = searched(board, known, effort)
    plans = [found.cuts] if found.cuts else []
    known = min([known, *(length(board, cuts) for cuts in plans)])
    if vertex is None or found.bound >= known:
        return Shortest(plans, found.bound)
    met = _climbed(vertex, known, found.bound, aside)
    return Shortest(met.plans or plans, met.bound)


def _many(vertex: Vertex, known: int, effort: Effort) -> Shortest:
    board = vertex.board
    with effort.share(CLIMB) as part:
        met = _climbed(vertex, known, 0, part)
    if met.plans or met.bound >= known:
        return met
    with effort.share(IMPROVE) as part:
        plans = _shortened(vertex, known, part)
    known = min([known, *(length(board, cuts) for cuts in plans)])
    found = searched(board, known, effort)
    return Shortest([found.cuts] if found.cuts else plans, max(met.bound, found.bound))


def _climbed(vertex: Vertex, known: int, bound: int, effort: Effort) -> Shortest:
    """Length after length from the bound up: each is proved to be too short, or the answer."""
    meeting = Meeting(vertex, group_of(vertex), set())
    bound = min(known, max(bound, vertex.bound))
    while bound < known and not effort.spent:
        loss = bound * vertex.scale - vertex.value
        some, complete = others(vertex, loss, FILLINGS, effort)
        verdict, plans = meet(meeting, some, loss, HEAPS, effort)
        if plans:
            return Shortest(plans, bound)
        if verdict == "unknown" or not complete:
            break
        bound += 1
    return Shortest([], bound)


def _shortened(vertex: Vertex, known: int, effort: Effort) -> list[list[Cut]]:
    """A plan shorter than the known one, by rounding and shortening."""
    board = vertex.board
    try:
        cuts = rounded(full_supply(board, effort), {}, known + known // ROUGH)
    except GaveUpError:
        return []
    if cuts:
        cuts = improved(vertex, cuts, effort)
    return [cuts] if cuts and length(board, cuts) < known else []
