"""Everything a pattern publishes for one size, as plain data.

The drawing-down side fills it, the bench proves it, facts files, pages and drawings show it.
Every number here is proved a second time by `bench`; a number that nobody proves has no place
here. Lengths are in the pattern's unit, on its ruler's grid where they are to be cut.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.shapes import Point, Polygon
from pieceproof.steps import Step, Trim, Yield


class Numbering(Enum):
    """The way round in which the marks of a template are numbered, seen from its right side."""

    CLOCKWISE = "clockwise"
    ANTICLOCKWISE = "anticlockwise"


@dataclass(frozen=True)
class Arc:
    """A part of a circle in a template's seam lines, from corner ``first`` to corner ``last``.

    Corners count from 0, ``last`` on beyond the end where the arc runs over it. All corners of an
    arc lie exactly on the circle; the straight stretches between them stand for the circle.
    """

    first: int
    last: int
    centre: Point
    radius: Number
    degrees: int


@dataclass(frozen=True)
class Template:
    """The shape that a piece is cut to, out of its rectangle; right side up.

    ``cut`` is the raw edge, its extent at the origin; ``seam_lines`` is the finished outline in
    it, ``allowance`` inside the raw edge; both go clockwise. The straight grain of the cloth runs
    with the sides of the extent. A tip of 60 degrees or less is cut off from where each raw edge
    meets the other edge's seam line drawn on. Where an arc ends, its raw edge and its seam line go
    straight on.

    Marks are the corners of the seam lines that do not lie inside an arc, numbered from 1 the way
    round of ``numbering``, from the first corner or, anticlockwise, from the last one back. A mark
    may lie in a straight side, where another seam meets it.
    """

    cut: Polygon
    seam_lines: Polygon
    allowance: Fraction
    arcs: tuple[Arc, ...] = ()
    numbering: Numbering = Numbering.CLOCKWISE


@dataclass(frozen=True)
class Piece:
    """One line of the cutting list: a rectangle, listed short side first.

    ``needed_short`` and ``needed_long`` are the exact sizes the seams ask for, before rounding up
    to the ruler's grid; by ``oversize`` more the short side is cut on purpose, and the long one in
    proportion, to be trimmed away later. ``uses`` names the makes that take it. A piece with a
    ``template`` is cut to that shape from the rectangle, which is its extent rounded up.
    """

    letter: str
    fabric: str
    short: Fraction
    long: Fraction
    needed_short: Number
    needed_long: Number
    count: int
    uses: tuple[str, ...]
    template: Template | None = None
    oversize: Fraction = Fraction(0)


class MakeKind(Enum):
    """What a make is called on the page.

    A triangle is cut from a square and not yet sewn: its size and picture are those of the cut.
    """

    TRIANGLE = "triangle"
    UNIT = "unit"
    BLOCK = "block"
    CENTRE = "centre"
    BORDER = "border"
    TOP = "top"


@dataclass(frozen=True)
class Extra:
    """What the rounds of a make give besides, such as mirror images or units out of offcuts.

    ``each`` come out of one round, the quilt uses ``wanted`` (often none), the rest is announced
    as spare. ``width`` and ``height`` are unfinished.
    """

    name: str
    wanted: int
    each: int
    width: Fraction
    height: Fraction


@dataclass(frozen=True)
class Make:
    """Something sewn, and how often: ``rounds`` times the steps, ``each`` per round.

    ``wanted`` is what the quilt uses; what is made beyond that is announced as spare.
    ``extras`` come out of the same rounds. ``width`` and ``height`` are unfinished. ``method`` is
    the method's name, "" for assemblies. ``oversize`` is how much larger than needed its pieces
    are cut, so that it can be trimmed.
    """

    name: str
    kind: MakeKind
    method: str
    wanted: int
    rounds: int
    each: int
    width: Fraction
    height: Fraction
    steps: tuple[Step, ...]
    extras: tuple[Extra, ...] = ()
    oversize: Fraction = Fraction(0)

    @property
    def spare(self) -> int:
        """How many are left over."""
        return self.rounds * self.each - self.wanted

    @property
    def trim(self) -> Trim | None:
        """How the make itself is trimmed, extras aside; what its first one loses, all lose."""
        besides = self.besides
        trims = (s for s in self.steps if isinstance(s, Trim) and s.item not in besides)
        return next(trims, None)

    @property
    def besides(self) -> Mapping[str, str]:
        """The things of one round that are finished as extras, with the names of these."""
        yields = (s for s in self.steps if isinstance(s, Yield) and s.extra)
        return {item: step.extra for step in yields for item in step.items}

    @property
    def other_hand(self) -> Extra | None:
        """The mirror images of the make itself, where its rounds give these besides."""
        return next((extra for extra in self.extras if extra.name == f"{self.name} mirrored"), None)

    def spare_of(self, extra: Extra) -> int:
        """How many of an extra are left over."""
        return self.rounds * extra.each - extra.wanted


@dataclass(frozen=True)
class BindingFacts:
    """Strips joined on the diagonal; ``length`` covers the edge of one top and ``extra``.

    ``fold`` is "double" or "single". A ``grain`` of "bias" means one continuous strip from a
    ``square`` of this side, which is None for "straight" strips.
    """

    fabric: str
    cut_width: Fraction
    extra: Fraction
    length: Fraction
    fold: str = "double"
    grain: str = "straight"
    square: Fraction | None = None


@dataclass(frozen=True)
class BackingFacts:
    """The back's least size, top plus overhang on each side."""

    fabric: str
    beyond: Fraction
    width: Fraction
    height: Fraction


@dataclass(frozen=True)
class Package:
    """Batting as it is packed, in inches whatever the pattern's unit."""

    short: Fraction
    long: Fraction


@dataclass(frozen=True)
class BattingFacts:
    """The batting's least size.

    ``package`` is the smallest that is enough for all tops, None if it must be bought by length.
    """

    beyond: Fraction
    width: Fraction
    height: Fraction
    package: Package | None = None


@dataclass(frozen=True)
class SleeveFacts:
    """A hanging sleeve ``depth`` deep, of a strip ``cut_width`` by ``length`` as it is cut.

    It is ``shorter`` than the finished top is wide, or by less than a ruler's step more.
    """

    fabric: str
    depth: Fraction
    shorter: Fraction
    cut_width: Fraction
    length: Fraction


@dataclass(frozen=True)
class Publication:
    """One size of one pattern. ``width`` and ``height`` of the top are finished."""

    slug: str
    size: str
    measure: str
    step: Fraction
    seam: Fraction
    width: Fraction
    height: Fraction
    pieces: tuple[Piece, ...]
    makes: tuple[Make, ...]
    binding: BindingFacts | None
    backing: BackingFacts | None
    batting: BattingFacts | None
    quantity: int = 1
    """How many tops there are; sizes of binding, backing, batting and sleeve are for one."""
    sleeve: SleeveFacts | None = None


@dataclass(frozen=True)
class Patch:
    """A visible area of one fabric, finished.

    Patches of layer 0 fill their picture; one of a higher layer lies on those below it.
    """

    fabric: str
    outline: Polygon
    layer: int = 0


@dataclass(frozen=True)
class Picture:
    """A finished unit, block or top as drawn: its patches in a width x height rectangle."""

    name: str
    width: Fraction
    height: Fraction
    patches: tuple[Patch, ...]


@dataclass(frozen=True)
class Drawing:
    """The finished pictures of one size, by the names of its makes; the last make is the top."""

    pictures: Mapping[str, Picture]
