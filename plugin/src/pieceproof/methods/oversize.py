"""Pieces cut larger than the seams ask for, so that the finished unit can be trimmed to size.

The exactly needed size stays what the seams ask for; the surplus is cut besides, rounded up to the
ruler with it once, and comes off again in the steps that trim.
"""

from __future__ import annotations

from abc import ABC
from dataclasses import dataclass, field, replace
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import ceil_to
from pieceproof.methods.method import Cut, Workroom
from pieceproof.model import Unit, ZeroToo
from pieceproof.ways import because


@dataclass(frozen=True)
class Oversized(Unit, ABC):
    """A unit that is trimmed, so that its pieces may be cut larger."""

    oversize: Annotated[
        Fraction,
        "How much larger than needed its pieces are cut, to be trimmed off the sewn unit",
        ZeroToo(),
    ] = field(kw_only=True, default=Fraction(0))


def larger(cut: Cut, oversize: Fraction, room: Workroom) -> Cut:
    """A square cut larger by this much, and by what it takes to the ruler's next step."""
    if not oversize:
        return cut
    way = because(cut.across, REASON)
    side = ceil_to(cut.needed_width + oversize, room.step)
    return replace(cut, width=side, height=side, across=way, down=way, oversize=oversize)


REASON = "so that there is cloth to trim away"
