"""Labels for piles and bags.

In: what a bag holds, how many bags, the most pieces in a pile. Out: one label for each pile and the
numbers of the bags. What a label looks like is for the pages.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pieceproof.kits.contents import BagCloth, Parcel


@dataclass(frozen=True)
class Pile:
    """``count`` pieces of a parcel: pile ``number`` of ``of``, from 1. ``cloth`` is its place."""

    cloth: int
    parcel: Parcel
    number: int
    of: int
    count: int


def piles(bag: Sequence[BagCloth], kits: int, most: int | None) -> tuple[Pile, ...]:
    """All piles of the batch, cloth by cloth."""
    return tuple(
        pile
        for at, cloth in enumerate(bag)
        for parcel in cloth.parcels
        for pile in _piles(at, parcel, parcel.each_bag * kits, most)
    )


def bag_numbers(kits: int) -> tuple[int, ...]:
    """The number of every bag, from 1."""
    return tuple(range(1, kits + 1))


def _piles(cloth: int, parcel: Parcel, count: int, most: int | None) -> Iterator[Pile]:
    """Full piles first; the last one holds what is left."""
    size = count if most is None else most
    of = -(-count // size)
    for number in range(1, of + 1):
        yield Pile(cloth, parcel, number, of, min(size, count - (number - 1) * size))
