"""Is there a plan that is hardly longer than the vertex? The cuts, a proof that not, or neither.

Goes in: a vertex, a length. Every plan is the vertex's own fillings and some others. What the
others hold together must differ from what is asked for by whole fillings of the vertex: their
residues add up to a given one (the group of Gomory, Linear Algebra Appl. 2 (1969) 451-558), and
each loses some length, together no more than the length allows. So heaps of other fillings are
made up that lose at most half of it (Horowitz and Sahni, J. ACM 21 (1974) 277-292), each residue
once; two of them, and one filling between, meet in the plan. Amounts of the vertex's fillings may
come out below zero: then such rows are watched as well, and the heaps made up again.
"""

from dataclasses import dataclass
from typing import Any, NamedTuple

from pieceproof.cutting.board import Cut
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.exact import residues_of
from pieceproof.cutting.knapsack import fillings_within
from pieceproof.cutting.packing import Verdict
from pieceproof.cutting.relaxed import Made, Surplus, Vector, Vertex, best_of, vector_of

COLUMNS = 4000  # fillings of one height
SHARES = (6, 2)  # of the loss that a heap may lose, one after the other
CROWD = 200  # heaps of one residue
PLANS = 12  # of one length that are looked at
FAILURES = 8  # heaps that meet below zero before the rows are watched


class Other(NamedTuple):
    """A filling or a surplus outside the vertex, and the length that one of it loses."""

    loss: int
    vector: Vector
    what: Made | Surplus


class _Step(NamedTuple):
    loss: int
    residue: int
    watched: int
    other: Other


Label = tuple[int, int, int, Any]  # loss, watched, number of the last step, label before it
START: Label = (0, 0, 0, None)
Heaps = dict[int, list[Label]]  # by residue; none is better than another in all respects


@dataclass(frozen=True, slots=True)
class _Group:
    """Residues packed into one number: adding them, and taking off what is too much, is quick.

    `guard` is the top bit of every field, `moduli` the fields' moduli, `bias` guard - moduli.
    """

    moduli: int
    guard: int
    bias: int
    low: int
    rows: tuple[tuple[int, ...], ...]
    each: tuple[int, ...]
    bits: int

    def of(self, vector: Vector) -> int:
        """The residue of a vector."""
        total = 0
        for field, (modulus, row) in enumerate(zip(self.each, self.rows, strict=True)):
            entry = sum(row[place] * n for place, n in vector.items()) % modulus
            total += entry << (field * self.bits)
        return total


def group_of(vertex: Vertex) -> _Group:
    """The residues of pieces modulo the vertex's fillings."""
    rows = len(vertex.basis)
    matrix = [[vector.get(row, 0) for vector in vertex.vectors] for row in range(rows)]
    found = residues_of(matrix, vertex.scale)
    bits = max(found.moduli, default=1).bit_length() + 1
    fields = range(len(found.moduli))
    moduli = sum(modulus << (field * bits) for field, modulus in enumerate(found.moduli))
    guard = sum(1 << (field * bits + bits - 1) for field in fields)
    return _Group(moduli, guard, guard - moduli, bits - 1, found.rows, found.moduli, bits)


def others(vertex: Vertex, loss: int, most: int, effort: Effort) -> tuple[list[Other], bool]:
    """All that loses at most so much; fewer, and False, where a height has more than `most`."""
    board = vertex.board
    inside = {tuple(sorted(vector.items())) for vector in vertex.vectors}
    best: dict[tuple[tuple[int, int], ...], Other] = {}
    complete = True
    for height, cost in enumerate(board.heights):
        found, least = best_of(vertex, height, effort)
        if least > loss:
            continue
        fillings = fillings_within(found, loss - least, most, effort)
        share = loss - least
        while fillings is None:
            complete, share = False, share // 4
            fillings = fillings_within(found, share, most, effort) if share else []
        for filling in fillings:
            made = Made(height, filling)
            vector = vector_of(made)
            name = tuple(sorted(vector.items()))
            if name not in inside:
                lost = cost * vertex.scale - sum(vertex.worth[row] * n for row, n in name)
                if name not in best or best[name].loss > lost:
                    best[name] = Other(lost, vector, made)
    for kind, lost in enumerate(vertex.worth):
        if kind not in vertex.basis and lost <= loss:
            best[(kind, -1),] = Other(lost, vector_of(kind), kind)
    return sorted(
        best.values(), key=lambda other: (other.loss, sorted(other.vector.items()))
    ), complete


@dataclass(slots=True)
class Meeting:
    """The search for one vertex; rows once watched stay watched."""

    vertex: Vertex
    group: _Group
    watch: set[int]


def meet(
    meeting: Meeting, some: list[Other], loss: int, most: int, effort: Effort
) -> tuple[Verdict, list[list[Cut]]]:
    """Plans that lose at most `loss`; unknown where that takes more than `most` heaps.

    Small heaps come first: where there are many plans, they often meet. A refusal is a proof if
    the others are complete.
    """
    share = 0
    while share < len(SHARES):
        rows = sorted(meeting.watch)
        steps = _steps(meeting, some, loss, rows)
        heaps = _heaps(meeting, steps, loss, loss // SHARES[share], most, effort)
        if heaps is None:
            return "unknown", []
        plans, below = _joined(meeting, steps, *heaps, loss, rows, effort)
        if plans:
            return "packed", plans
        meeting.watch |= below
        share += not below
    return "impossible", []


def _steps(meeting: Meeting, some: list[Other], loss: int, rows: list[int]) -> list[_Step]:
    """The others by residue, those that lose most first, without those that another beats."""
    vertex, group = meeting.vertex, meeting.group
    guard, bits = _watch_guard(vertex, rows), _watch_bits(vertex)
    by_residue: dict[int, list[_Step]] = {}
    for other in some:
        if not _is_of_use(vertex, other, loss):
            continue
        residue = group.of(other.vector)
        watched = 0
        for field, row in enumerate(rows):
            shares = vertex.inverse[row]
            watched += sum(shares[k] * n for k, n in other.vector.items()) << (field * bits)
        if not residue and (watched + guard) & guard == guard:
            continue
        same = by_residue.setdefault(residue, [])
        if not any((watched - step.watched + guard) & guard == guard for step in same):
            same.append(_Step(other.loss, residue, watched, other))
    steps = [step for same in by_residue.values() for step in same]
    return sorted(steps, key=lambda step: (-step.loss, step.residue, step.watched))


def _is_of_use(vertex: Vertex, other: Other, loss: int) -> bool:
    """Whether one of it is not too many already: pieces too many lose their worth."""
    return all(
        n - vertex.board.need[kind] <= (loss - other.loss) // vertex.worth[kind]
        for kind, n in other.vector.items()
        if vertex.worth[kind]
    )


def _watch_bits(vertex: Vertex) -> int:
    return vertex.scale.bit_length() + 40


def _watch_guard(vertex: Vertex, rows: list[int]) -> int:
    bits = _watch_bits(vertex)
    return sum(1 << (field * bits + bits - 1) for field in range(len(rows)))


@dataclass(slots=True)
class _Making:
    """Heaps while they are made: `small` lose at most `half`, `large` are one filling beyond."""

    group: _Group
    loss: int
    half: int
    watch: int
    small: Heaps
    large: Heaps
    count: int


def _heaps(
    meeting: Meeting, steps: list[_Step], loss: int, half: int, most: int, effort: Effort
) -> tuple[Heaps, Heaps] | None:
    """Heaps that lose at most half, and those that one filling takes beyond it.

    None when they are more than `most`.
    """
    watch = _watch_guard(meeting.vertex, sorted(meeting.watch))
    making = _Making(meeting.group, loss, half, watch, {0: [START]}, {}, 1)
    for number, step in enumerate(steps):
        limit = loss - step.loss
        front = [
            (residue, label)
            for residue, labels in making.small.items()
            for label in labels
            if label[0] <= limit
        ]
        effort.spend(2 * making.count)
        while front:
            after = _with_one_more(making, front, number, step, effort)
            if after is None or making.count > most or effort.spent:
                return None
            front = after
    return making.small, making.large


def _with_one_more(
    making: _Making, front: list[tuple[int, Label]], number: int, step: _Step, effort: Effort
) -> list[tuple[int, Label]] | None:
    """Adds the step to every heap in front; the small new ones, to which it may be added again.

    None when too many heaps of one residue are kept apart by what is watched.
    """
    group, half, watch = making.group, making.half, making.watch
    moduli, guard, bias, low = group.moduli, group.guard, group.bias, group.low
    limit = min(half, making.loss - step.loss)
    after, count, work = [], 0, 15 * len(front)
    for old, before in front:
        loss, watched, residue = before[0] + step.loss, before[1] + step.watched, old + step.residue
        if over := (residue + bias) & guard:
            residue -= (over - (over >> low)) & moduli
        heaps = making.small if loss <= half else making.large
        labels = heaps.setdefault(residue, [])
        work += 4 * len(labels)
        for label in labels:
            if label[0] <= loss and (watched - label[1] + watch) & watch == watch:
                break
        else:
            if labels:
                work += 10 * len(labels)
                labels[:] = [
                    label
                    for label in labels
                    if label[0] < loss or (label[1] - watched + watch) & watch != watch
                ]
            new = loss, watched, number, before
            labels.append(new)
            count += 1
            if loss <= limit:
                after.append((residue, new))
            if len(labels) > CROWD:
                effort.spend(work)
                return None
    making.count += count
    effort.spend(work)
    return after


def _joined(
    meeting: Meeting,
    steps: list[_Step],
    small: Heaps,
    large: Heaps,
    loss: int,
    rows: list[int],
    effort: Effort,
) -> tuple[list[list[Cut]], set[int]]:
    """Plans from two heaps that together have the residue asked for; and rows in which such fall
    below zero.
    """
    vertex, group = meeting.vertex, meeting.group
    watch, bits = _watch_guard(vertex, rows), _watch_bits(vertex)
    right = dict(enumerate(vertex.board.need))
    goal = group.of(right) + group.moduli
    moduli, guard, bias, low = group.moduli, group.guard, group.bias, group.low
    amounts = watch
    for field, row in enumerate(rows):
        amounts += sum(vertex.inverse[row][k] * n for k, n in right.items()) << (field * bits)
    plans: list[list[Cut]] = []
    below: set[int] = set()
    failures = 0
    effort.spend(6 * (len(large) + 1))
    for r, labels in [(0, [START]), *large.items()]:
        q = goal - r
        if over := (q + bias) & guard:
            q -= (over - (over >> low)) & moduli
        partners = small.get(q)
        if partners is None:
            continue
        effort.spend(6 * len(labels) * len(partners))
        for label in labels:
            for partner in partners:
                if (
                    label[0] + partner[0] > loss
                    or (amounts - label[1] - partner[1]) & watch != watch
                ):
                    continue
                effort.spend(40 * len(vertex.basis) ** 2)
                cuts, short = _lifted(vertex, [*_traced(steps, label), *_traced(steps, partner)])
                if short:
                    below |= short
                    failures += 1
                else:
                    plans.append(cuts)
                if len(plans) == PLANS or (failures >= FAILURES and not plans):
                    return plans, below
    return plans, below


def _traced(steps: list[_Step], label: Label) -> list[Other]:
    """The others in a heap."""
    heap = []
    while label[3] is not None:
        heap.append(steps[label[2]].other)
        label = label[3]
    return heap


def _lifted(vertex: Vertex, heap: list[Other]) -> tuple[list[Cut], set[int]]:
    """The heap and the vertex's fillings that complete it, or the rows that fall below zero."""
    left = list(vertex.board.need)
    for other in heap:
        for row, n in other.vector.items():
            left[row] -= n
    amounts = [
        sum(share * n for share, n in zip(shares, left, strict=True)) for shares in vertex.inverse
    ]
    short = {row for row, amount in enumerate(amounts) if amount < 0}
    strips: dict[Made, int] = {}
    for what, amount in zip(vertex.basis, amounts, strict=True):
        if isinstance(what, Made) and amount:
            strips[what] = amount // vertex.scale
    for other in heap:
        if isinstance(other.what, Made):
            strips[other.what] = strips.get(other.what, 0) + 1
    return [(n, *made) for made, n in sorted(strips.items()) if n > 0], short
