"""The cover's pictures arranged: as large as the room for them allows.

In: how wide a top is for its height, how many colourways, the room. Out: places in millimetres.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

GAP = 7.0
_LEAST = 0.3
"""The least width of another picture to the first."""


@dataclass(frozen=True)
class Spot:
    """Where a picture lies in the room, its name below it."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True)
class Wall:
    """Room for pictures that are ``ratio`` times as wide as high; ``name`` is a name's height."""

    width: float
    height: float
    ratio: float
    name: float


def spots(wall: Wall, count: int) -> tuple[Spot, ...]:
    """A place for each picture, the first one first, all of them in the middle of the wall."""
    ways = (_beside, _below, _stacked) if count > 1 else (_stacked,)
    found = [tuple(way(wall, count - 1)) for way in ways]
    clear = [each for each in found if each[-1].width > _LEAST * each[0].width]
    return _in_the_middle(wall, max(clear or found, key=_area))


def _beside(wall: Wall, others: int) -> Iterator[Spot]:
    """The others in a column beside the first, as high together as it is."""
    between = (others - 1) * (GAP + wall.name)
    most, share = (0.62, 0.0) if others == 1 else (1 / others, between / others)
    height = (wall.width - GAP + wall.ratio * share) / (wall.ratio * (1 + most))
    height = min(height, wall.height - wall.name)
    small = height * most - share
    yield Spot(0, 0, height * wall.ratio, height)
    for at in range(others):
        top = height - small if others == 1 else at * (small + wall.name + GAP)
        yield Spot(height * wall.ratio + GAP, top, small * wall.ratio, small)


def _below(wall: Wall, others: int) -> Iterator[Spot]:
    """The others in a line below the first, as wide together as it is."""
    gaps = (others - 1) * GAP / others
    free = wall.height - 2 * wall.name - GAP + gaps / wall.ratio
    width = min(wall.width, free * wall.ratio / (1 + 1 / others))
    small = width / others - gaps
    yield Spot(0, 0, width, width / wall.ratio)
    for at in range(others):
        top = width / wall.ratio + wall.name + GAP
        yield Spot(at * (small + GAP), top, small, small / wall.ratio)


def _stacked(wall: Wall, others: int) -> Iterator[Spot]:
    """All of one size, one below the other."""
    count = others + 1
    height = (wall.height - others * GAP) / count - wall.name
    width = min(wall.width, height * wall.ratio)
    for at in range(count):
        yield Spot(0, at * (width / wall.ratio + wall.name + GAP), width, width / wall.ratio)


def _area(found: Sequence[Spot]) -> float:
    """What the pictures cover; the first one counts more."""
    first, *others = (spot.width * spot.height for spot in found)
    return 1.5 * first + sum(others)


def _in_the_middle(wall: Wall, found: Sequence[Spot]) -> tuple[Spot, ...]:
    def free(room: float, end: Callable[[Spot], float]) -> float:
        return (room - max(map(end, found))) / 2

    dx = free(wall.width, lambda spot: spot.left + spot.width)
    dy = free(wall.height, lambda spot: spot.top + spot.height + wall.name)
    return tuple(Spot(s.left + dx, s.top + dy, s.width, s.height) for s in found)
