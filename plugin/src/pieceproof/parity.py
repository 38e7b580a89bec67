"""Two ways for each of many things, so that pairs that should agree or differ do.

In: pairs with their weights, and what each thing would rather be. Out: a way for each. Where not
all pairs can have what they want, the pairs that go without have the least weight in all; for a
group of more than `MOST_TRIED` things joined by pairs that is sought step by step and may be
missed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

MOST_TRIED = 12

Ways = dict[str, bool]


@dataclass(frozen=True)
class Pair:
    """Two things that should differ, or else agree, and how much that matters."""

    first: str
    second: str
    differ: bool
    weight: int

    def holds(self, ways: Mapping[str, bool]) -> bool:
        """Whether the two do what they should."""
        return (ways[self.first] != ways[self.second]) == self.differ


@dataclass(frozen=True)
class Wish:
    """What a thing would rather be, and how much."""

    way: bool
    weight: int


def solve(pairs: Sequence[Pair], wishes: Mapping[str, Wish], fixed: Mapping[str, bool]) -> Ways:
    """A way for every thing that has a wish or is fixed."""
    ways: Ways = dict(fixed)
    for group in _groups(pairs, wishes, fixed):
        inside = [p for p in pairs if p.first in group and p.second in group]
        ways |= _settled(group, inside, wishes, {t: fixed[t] for t in group if t in fixed})
    return ways


def _groups(
    pairs: Sequence[Pair], wishes: Mapping[str, Wish], fixed: Mapping[str, bool]
) -> Iterator[tuple[str, ...]]:
    """Free things that pairs join, in the order of the wishes, with what is fixed beside them."""
    beside: dict[str, list[str]] = {thing: [] for thing in (*fixed, *wishes)}
    for pair in pairs:
        beside[pair.first].append(pair.second)
        beside[pair.second].append(pair.first)
    seen: set[str] = set()
    for thing in wishes:
        if thing in seen or thing in fixed:
            continue
        group = {thing: None}
        waiting = [thing]
        for member in waiting:
            for other in beside[member]:
                if other not in group:
                    group[other] = None
                    waiting += [] if other in fixed else [other]
        seen.update(group)
        yield tuple(group)


def _settled(
    group: tuple[str, ...],
    pairs: Sequence[Pair],
    wishes: Mapping[str, Wish],
    fixed: Mapping[str, bool],
) -> Ways:
    first = _followed(group, pairs, wishes, fixed)
    if all(pair.holds(first) for pair in pairs):
        if fixed:
            return first
        other = {thing: not way for thing, way in first.items()}
        return min((first, other), key=lambda ways: _cost(ways, pairs, wishes))
    free = [thing for thing in group if thing not in fixed]
    if len(free) > MOST_TRIED:
        return _improved(first, free, pairs, wishes)
    tried = (
        {**fixed, **dict(zip(free, ways, strict=True))}
        for ways in product((True, False), repeat=len(free))
    )
    return min(tried, key=lambda ways: _cost(ways, pairs, wishes))


def _cost(
    ways: Mapping[str, bool], pairs: Sequence[Pair], wishes: Mapping[str, Wish]
) -> tuple[int, int]:
    """Pairs that go without, then wishes that do."""
    without = sum(pair.weight for pair in pairs if not pair.holds(ways))
    against = sum(wishes[t].weight for t in ways if t in wishes and wishes[t].way != ways[t])
    return without, against


def _followed(
    group: tuple[str, ...],
    pairs: Sequence[Pair],
    wishes: Mapping[str, Wish],
    fixed: Mapping[str, bool],
) -> Ways:
    """From what is fixed, or the first thing's wish, along the pairs, the weightiest first."""
    order = sorted(pairs, key=lambda pair: -pair.weight)
    ways: Ways = dict(fixed) or {group[0]: wishes[group[0]].way}
    while len(ways) < len(group):
        pair = next(p for p in order if (p.first in ways) != (p.second in ways))
        known, new = (pair.first, pair.second) if pair.first in ways else (pair.second, pair.first)
        ways[new] = ways[known] != pair.differ
    return ways


def _improved(
    ways: Ways, free: Sequence[str], pairs: Sequence[Pair], wishes: Mapping[str, Wish]
) -> Ways:
    """One thing after the other turned round as long as that helps."""
    best = _cost(ways, pairs, wishes)
    turning = True
    while turning:
        turning = False
        for thing in free:
            other = {**ways, thing: not ways[thing]}
            cost = _cost(other, pairs, wishes)
            if cost < best:
                ways, best, turning = other, cost, True
    return ways
