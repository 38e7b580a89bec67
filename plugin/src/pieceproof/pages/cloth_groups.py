"""The parts that one cloth plays, under the names by which a page and its files speak of them.

In: all sizes of a pattern. Out: groups of parts in order of use, each with its anchor; the names of
drawings of their strips.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pieceproof.compile import Sized
from pieceproof.demands import Group
from pieceproof.pages.choices import Axis, Combination, Variant, variants
from pieceproof.pages.tokens import token


@dataclass(frozen=True)
class NamedGroup:
    """A group; ``played`` are the sizes and colourways in which one cloth plays it."""

    anchor: str
    fabrics: Group
    played: Variant[None]


def named_groups(size: Axis, colourway: Axis, sizes: Sequence[Sized]) -> tuple[NamedGroup, ...]:
    """All groups, so that those of any one choice are in order of use."""
    order = list(sizes[0].design.fabrics)
    groups = dict.fromkeys(p.fabrics for sized in sizes for p in sized.requirements.played)
    ranked = sorted(groups, key=lambda group: [order.index(fabric) for fabric in group])
    found: list[NamedGroup] = []
    for group in ranked:
        choices = ((choice, None) for choice in _played(sizes, group))
        for played in variants((size, colourway), choices):
            anchor = f"cloth-{token(group[0])}"
            same = sum(named.anchor.startswith(anchor) for named in found)
            found.append(NamedGroup(f"{anchor}-{same + 1}", group, played))
    return tuple(found)


def strips_file(anchor: str, size: str, width: str, colourway: str, hand: str) -> str:
    """The drawing of a group's strips; all but the anchor are tokens of the page's choices."""
    return f"{anchor}-{size}-{width}-{colourway}-{hand}.svg"


def _played(sizes: Sequence[Sized], group: Group) -> Iterator[Combination]:
    for sized in sizes:
        for played in sized.requirements.played:
            if played.fabrics == group:
                yield token(sized.design.size), token(played.colourway)
