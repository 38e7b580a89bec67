"""How the side of a cut comes about: parts that add up, so that a writer can ask why.

In: exact lengths with a few words. Out: a sum that gives the published number. Nothing of a page
or a proof depends on it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.lengths import Number, ceil_to, show_exact


@dataclass(frozen=True)
class Share:
    """A part of a side: ``exact`` as the seams ask for it, ``taken`` as it is added up."""

    words: str
    exact: Number
    taken: Number


@dataclass(frozen=True)
class Way:
    """Shares that add up to a side, and why it is cut larger than the ruler's next step."""

    shares: tuple[Share, ...]
    reason: str = ""

    @property
    def exact(self) -> Number:
        """What the seams ask for."""
        return sum((share.exact for share in self.shares), Fraction(0))

    def on_ruler(self, step: Fraction) -> Fraction:
        """The shares as they are taken, added up, and the sum rounded up to the ruler's step."""
        return ceil_to(sum((share.taken for share in self.shares), Fraction(0)), step)


UNTOLD = Way(())


def exactly(words: str, length: Number) -> Share:
    """A share that is taken as it is."""
    return Share(words, length, length)


def allowances(length: Number, seam: Fraction) -> Share:
    """A share told in seam allowances."""
    return exactly(_in_seams(length, seam), length)


def allowances_on_ruler(length: Number, seam: Fraction, step: Fraction) -> Share:
    """A share told in seam allowances and rounded up before it is added."""
    return Share(_in_seams(length, seam), length, ceil_to(length, step))


def because(way: Way, reason: str) -> Way:
    """The way to a side that is cut larger for a reason."""
    return replace(way, reason=reason)


def _in_seams(length: Number, seam: Fraction) -> str:
    many = length / seam
    return "1 seam allowance" if many == 1 else f"{show_exact(many)} seam allowances"
