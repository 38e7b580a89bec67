"""A plan made shorter a part at a time.

Goes in: a vertex. Comes out: cuts that make every piece. The vertex is rounded down and what is
missing planned afresh, until nothing is missing. Then the strips that hold nothing but a few kinds
are taken out, those few first that lose most, and their pieces are planned afresh: with few kinds
the shortest plan is soon met.
"""

from itertools import combinations

from pieceproof.cutting.board import Board, Cut, Filling, length, yields
from pieceproof.cutting.effort import Effort, GaveUpError
from pieceproof.cutting.meeting import meet, meeting_of
from pieceproof.cutting.relaxed import Vertex, relaxed

TOGETHER = (4, 5, 6, 7, 8)  # kinds in a part
SHARE = 1 / 4  # of the effort that is left, for one part at most
FILLINGS, HEAPS = 2000, 100_000  # for one part and length
LONGER = (0, 1, 2, 3, 4, 6, 8, 11, 15)  # than the bound of a part


def rough(vertex: Vertex, effort: Effort) -> list[Cut]:
    """Cuts a little longer than the vertex.

    Raises GaveUpError when the arithmetic of a vertex loses its footing.
    """
    board, cuts = vertex.board, _rounded(vertex)
    while any(need := _missing(board, cuts)):
        kinds = [kind for kind, n in enumerate(need) if n]
        part, heights = _part(board, need, kinds)
        found = relaxed(part, effort)
        if found is None:
            raise GaveUpError
        cuts += _whole(_rounded(found), heights, kinds)
    return cuts


def improved(vertex: Vertex, cuts: list[Cut], effort: Effort) -> list[Cut]:
    """Part after part, until no part that is left could save anything or the effort is spent."""
    board = vertex.board
    tried: set[tuple[Cut, ...]] = set()
    for together in TOGETHER:
        while not effort.spent and (part := _worst(vertex, cuts, together, tried, effort)):
            tried.add(tuple(part))
            rest = [cut for cut in cuts if cut not in part]
            with effort.share(SHARE) as share:
                afresh = _afresh(board, _missing(board, rest), length(board, part), share)
            cuts = cuts if afresh is None else rest + afresh
    return cuts


def _rounded(vertex: Vertex) -> list[Cut]:
    """Whole strips of the vertex; one strip of the filling of which most is left, if there are
    none.
    """
    strips = vertex.strips
    whole = [(n // vertex.scale, *what) for what, n in strips.items() if n >= vertex.scale]
    return whole or [(1, *max(strips, key=lambda what: strips[what]))]


def _worst(
    vertex: Vertex, cuts: list[Cut], together: int, tried: set[tuple[Cut, ...]], effort: Effort
) -> list[Cut] | None:
    """The strips of few kinds that lose most together, if that is a unit of length or more."""
    board = vertex.board
    losses = []
    for strips, height, filling in cuts:
        made = yields(filling)
        worth = sum(vertex.worth[kind] * n for kind, n in made.items())
        losses.append((strips * (board.heights[height] * vertex.scale - worth), frozenset(made)))
    found: list[tuple[int, tuple[int, ...]]] = []
    for chosen in combinations(range(len(board.need)), min(together, len(board.need))):
        kinds = frozenset(chosen)
        lost = sum(loss for loss, made in losses if made <= kinds)
        if lost >= vertex.scale:
            found.append((-lost, chosen))
    effort.spend(100 * len(cuts) * (1 + len(found)))
    for _, chosen in sorted(found):
        part = [cut for cut in cuts if set(yields(cut[2])) <= set(chosen)]
        if tuple(part) not in tried:
            return part
    return None


def _missing(board: Board, cuts: list[Cut]) -> list[int]:
    """Pieces of each kind that the cuts do not make."""
    need = list(board.need)
    for strips, _, filling in cuts:
        for kind, n in yields(filling).items():
            need[kind] -= strips * n
    return [max(0, n) for n in need]


def _afresh(board: Board, need: list[int], known: int, effort: Effort) -> list[Cut] | None:
    """Shorter cuts for these pieces alone."""
    kinds = [kind for kind, n in enumerate(need) if n]
    if not kinds:
        return []
    part, heights = _part(board, need, kinds)
    try:
        vertex = relaxed(part, effort)
    except GaveUpError:
        return None
    meeting = vertex and meeting_of(vertex)
    if not vertex or not meeting:
        return None
    for longer in LONGER:
        least = vertex.bound + longer
        if least >= known or effort.spent:
            break
        _, plans = meet(meeting, least, FILLINGS, HEAPS, effort)
        if plans:
            return _whole(plans[0], heights, kinds)
    return None


def _part(board: Board, need: list[int], kinds: list[int]) -> tuple[Board, list[int]]:
    """The board with these kinds alone, and which of its heights are left."""
    place = {kind: number for number, kind in enumerate(kinds)}
    slots = [
        tuple(slot._replace(kind=place[slot.kind]) for slot in some if slot.kind in place)
        for some in board.slots
    ]
    heights = [height for height, some in enumerate(slots) if some]
    part = board._replace(
        heights=tuple(board.heights[height] for height in heights),
        need=tuple(need[kind] for kind in kinds),
        slots=tuple(slots[height] for height in heights),
    )
    return part, heights


def _whole(cuts: list[Cut], heights: list[int], kinds: list[int]) -> list[Cut]:
    """Cuts of a part as cuts of the whole board."""
    return [(n, heights[height], _renamed(filling, kinds)) for n, height, filling in cuts]


def _renamed(filling: Filling, kinds: list[int]) -> Filling:
    return tuple((slot._replace(kind=kinds[slot.kind]), often) for slot, often in filling)
