"""Everything that a plan hardly longer than the vertex may hold beside the vertex's fillings.

Goes in: a vertex, the length that may be lost. Comes out: fillings and surplus pieces as arrays,
those that lose least first.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pieceproof.cutting.effort import Effort
from pieceproof.cutting.knapsack import Tables, filling_of, fillings_within
from pieceproof.cutting.relaxed import Made, Surplus, Vertex
from pieceproof.cutting.remainders import Ints, Remainders
from pieceproof.cutting.roundings import Limit, Rounding

HANDY, PER_FILLING = 20_000, 40  # fillings beyond so many take so many steps of effort each
SPREAD = 0x9E3779B97F4A7C15  # Knuth, The Art of Computer Programming 3, 6.4


@dataclass(frozen=True, slots=True)
class Others:
    """One entry for each: the length it loses, its remainder, its pieces (a row each), what it
    takes of the amounts of the vertex (a column each); all lengths and amounts in 1 / scale.

    `heights` is -1 - kind for a surplus piece; `places` is the row in `fillings` of the height.
    """

    losses: Ints
    remainders: Ints
    vectors: Ints
    takes: Ints
    heights: Ints
    places: Ints
    fillings: dict[int, tuple[Tables, Ints]]
    complete: bool

    def what(self, number: int) -> Made | Surplus:
        """The filling or the kind of the surplus piece."""
        height = int(self.heights[number])
        if height < 0:
            return -1 - height
        found, counts = self.fillings[height]
        return Made(height, filling_of(found, counts[self.places[number]]))


def others(vertex: Vertex, remainders: Remainders, loss: int, most: int, effort: Effort) -> Others:
    """All that loses at most so much; not complete where a height has more than `most` of them."""
    fillings: dict[int, tuple[Tables, Ints]] = {}
    complete = True
    for height, found in enumerate(vertex.best):
        share = loss - (vertex.costs[height] - found.top)
        counts = None
        while share >= 0 and counts is None:
            counts = fillings_within(found, share, most, effort)
            complete = complete and counts is not None
            share = share // 4 if share else -1
        if counts is not None:
            fillings[height] = found, counts
    many = sum(len(counts) for _, counts in fillings.values()) - HANDY
    effort.spend(PER_FILLING * max(0, many))
    return _arranged(vertex, remainders, loss, fillings, complete)


def _arranged(
    vertex: Vertex,
    remainders: Remainders,
    loss: int,
    fillings: dict[int, tuple[Tables, Ints]],
    complete: bool,
) -> Others:
    board, rows = vertex.board, len(vertex.need)
    worth = np.array(vertex.worth, np.int64)
    surplus = [row for row in range(rows) if row not in vertex.basis]
    vectors, heights, places = (
        [-np.eye(rows, dtype=np.int64)[surplus]],
        [-1 - np.array(surplus, np.int64)],
        [np.zeros(len(surplus), np.int64)],
    )
    costs = [np.zeros(len(surplus), np.int64)]
    for height, (found, counts) in fillings.items():
        vectors.append(_vectors(vertex, height, found, counts))
        heights.append(np.full(len(counts), height))
        places.append(np.arange(len(counts)))
        costs.append(np.full(len(counts), board.heights[height] * vertex.scale))
    made = np.concatenate(vectors)
    losses = np.concatenate(costs) - made @ worth
    which = _useful(vertex, made, losses, loss)
    made = made[which]
    inverse = np.array(vertex.inverse, np.int64)
    return Others(
        losses[which],
        remainders.of_all(made),
        made,
        inverse @ made.T,
        np.concatenate(heights)[which],
        np.concatenate(places)[which],
        fillings,
        complete,
    )


def _vectors(vertex: Vertex, height: int, found: Tables, counts: Ints) -> Ints:
    """The pieces of fillings of a height and what they count for rules, a row each."""
    kinds = len(vertex.board.need)
    vectors = np.zeros((len(counts), len(vertex.need)), np.int64)
    for number, item in enumerate(found.items):
        pieces = counts[:, number] * item.slot.stack
        vectors[:, item.slot.kind] += pieces
        for row, rule in enumerate(vertex.rules, kinds):
            if isinstance(rule, Rounding) and rule.kind == item.slot.kind:
                vectors[:, row] += rule.of_all(pieces)
    for row, rule in enumerate(vertex.rules, kinds):
        if isinstance(rule, Limit):
            vectors[:, row] = rule.of_height(height)
    return vectors


def _useful(vertex: Vertex, vectors: Ints, losses: Ints, loss: int) -> Ints:
    """Those that lose at most `loss`, even if their pieces beyond what is needed lose their worth;
    of equal vectors one that loses least, none of the vertex's own. Those that lose least first.
    """
    worth = np.array(vertex.worth, np.int64)
    need = np.array(vertex.need)
    beyond = np.maximum(vectors - need, 0) @ np.where(need < 0, 0, worth)
    within = np.nonzero(losses + beyond <= loss)[0]
    order = within[_sorted(losses[within], vectors[within])]
    inside = np.zeros((len(vertex.vectors), vectors.shape[1]), np.int64)
    for row, vector in enumerate(vertex.vectors):
        for kind, n in vector.items():
            inside[row, kind] = n
    new = _new(np.concatenate([inside, vectors[order]]))
    return np.asarray(order[new[len(inside) :]])


def _sorted(losses: Ints, vectors: Ints) -> Ints:
    """The order of losses; of equal ones, the order of vectors."""
    order = np.argsort(losses, kind="stable")
    equal = losses[order[1:]] == losses[order[:-1]]
    tied = np.nonzero(np.append(equal, False) | np.append(False, equal))[0]
    some = order[tied]
    order[tied] = some[np.lexsort((*vectors[some].T[::-1], losses[some]))]
    return order


def _new(vectors: Ints) -> NDArray[np.bool_]:
    """Whether no vector before it is equal; now and then one that is not new may be called so."""
    odd = [pow(SPREAD, 2 * row + 1, 1 << 62) for row in range(vectors.shape[1])]
    order = np.argsort(vectors @ np.array(odd, np.int64), kind="stable")
    new = np.ones(len(vectors), np.bool_)
    new[order[1:]] = (vectors[order[1:]] != vectors[order[:-1]]).any(axis=1)
    return new
