"""The back of a quilt as lengths of cloth sewn side by side.

In: how large it must be, the cloth's usable width, how its seams may run. Out: both ways to make
it, the one that takes less cloth first.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from quicktions import Fraction

from pieceproof.lengths import ceil_to
from pieceproof.model import Design, Measure, MiddleSeam
from pieceproof.published import Publication

BACK_SEAM: Mapping[Measure, Fraction] = {
    # Backs are sewn with a deeper seam, pressed open: common practice.
    Measure.INCH: Fraction(1, 2),
    Measure.CENTIMETRE: Fraction(3, 2),
}


class Seams(Enum):
    """Which way a back's seams run in the quilt as drawn; the cloth's length runs with them."""

    UPRIGHT = "upright"
    LEVEL = "level"


@dataclass(frozen=True)
class BackPlan:
    """One way to make the backs of all tops from cloth of a usable ``width``.

    One back is ``panels`` lengths of cloth sewn side by side with ``seam``; ``halved`` of them (one
    or none) is cut in half along its middle first, and the halves lie left and right, so that no
    seam runs down the middle of the back. A back of one panel has no seam, and ``abreast`` of
    them lie side by side on one length. ``lengths`` pieces of cloth, full width, ``length`` long
    each, are ``total`` of cloth.
    """

    seams: Seams
    panels: int
    abreast: int
    lengths: int
    length: Fraction
    seam: Fraction
    total: Fraction
    width: Fraction
    halved: int = 0


@dataclass(frozen=True)
class Backs:
    """The back by the way that takes less cloth, and by the other one."""

    chosen: BackPlan
    other: BackPlan


@dataclass(frozen=True)
class _Cloth:
    """What a back is made of and how: the cloth's usable width, the seams between panels."""

    width: Fraction
    seam: Fraction
    middle: MiddleSeam


def plan_backs(design: Design, publication: Publication, usable_width: Fraction) -> Backs | None:
    """Both ways, fewer panels first where they take the same cloth; None if there is no back."""
    back = publication.backing
    if back is None:
        return None
    cloth = _cloth(design, usable_width)
    sides = {Seams.UPRIGHT: (back.width, back.height), Seams.LEVEL: (back.height, back.width)}
    ways = (_plan(publication, seams, *sides[seams], cloth) for seams in Seams)
    chosen, other = sorted(ways, key=lambda way: (way.total, way.panels))
    return Backs(chosen, other)


def _cloth(design: Design, usable_width: Fraction) -> _Cloth:
    stated, seam = design.backing, BACK_SEAM[design.measure]
    if stated is None:
        return _Cloth(usable_width, seam, MiddleSeam.ALLOWED)
    return _Cloth(
        usable_width if stated.usable_width is None else stated.usable_width,
        seam if stated.seam is None else stated.seam,
        stated.middle_seam,
    )


def _plan(
    publication: Publication, seams: Seams, across: Fraction, along: Fraction, cloth: _Cloth
) -> BackPlan:
    panels = _panels(across, cloth)
    abreast = cloth.width // across if panels == 1 else 1
    lengths = -(-publication.quantity // abreast) * panels
    length = ceil_to(along, publication.step)
    return BackPlan(
        seams,
        panels,
        abreast,
        lengths,
        length,
        cloth.seam,
        lengths * length,
        cloth.width,
        _halved(panels, cloth),
    )


def _panels(across: Fraction, cloth: _Cloth) -> int:
    """The fewest: n panels of width W with k seams of allowance s cover n W - 2 s k."""
    panels = 1
    while panels * cloth.width - 2 * cloth.seam * _joins(panels, cloth) < across:
        panels += 1
    return panels


def _joins(panels: int, cloth: _Cloth) -> int:
    """One seam less than there are parts; a panel cut in half is two parts."""
    return panels + _halved(panels, cloth) - 1


def _halved(panels: int, cloth: _Cloth) -> int:
    """An even number of panels has a seam in the middle, unless one of them is halved."""
    return int(cloth.middle is MiddleSeam.AVOIDED and panels % 2 == 0)
