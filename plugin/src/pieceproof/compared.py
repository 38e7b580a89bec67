"""The methods that can make the same finished unit, side by side.

In: a design, a unit of it and how many are wanted. Out: for every method what it takes and leaves,
counted from the very pieces and steps that it would publish, proved on the bench like these. It
does not say which is best, and knows no method by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from quicktions import Fraction

from pieceproof.bench import prove
from pieceproof.bench.grain import bias_around
from pieceproof.construct import construct
from pieceproof.geometry import draw, looks, moved, with_mirror_images
from pieceproof.layout import lay_out
from pieceproof.lengths import Number
from pieceproof.lettering import publish
from pieceproof.methods import METHODS, method_of
from pieceproof.methods.method import Method
from pieceproof.methods.oversize import Oversized
from pieceproof.model import Cell, Design, Grid, Setting, Unit
from pieceproof.published import Drawing, Make, Picture, Publication
from pieceproof.steps import (
    Assemble,
    Cover,
    CutApart,
    Join,
    JoinEdges,
    JoinMarks,
    JoinPart,
    Sew,
    Step,
    Trim,
    TrimLike,
    TrimToFoundation,
)


@dataclass(frozen=True)
class Compared:
    """One method's way to a number of units that all look alike.

    ``cloth`` is the area of the pieces to cut, by fabric, in square units of the pattern;
    ``pieces`` how many there are; ``cuts_apart`` how often sewn layers are cut. ``seams`` are
    lines sewn, ``trims`` things trimmed to size. ``bias`` is how much of one unit's raw outer edge
    is not on the straight grain. ``made`` less the number wanted is ``spare``.
    """

    method: str
    chosen: bool
    each: int
    rounds: int
    made: int
    spare: int
    pieces: int
    cuts_apart: int
    seams: int
    trims: int
    cloth: Mapping[str, Fraction]
    bias: Number

    @property
    def area(self) -> Fraction:
        """Of all cloth together."""
        return sum(self.cloth.values(), Fraction(0))


def compared(design: Design, name: str, wanted: int) -> tuple[Compared, ...]:
    """The unit's own method and all others that show the same picture, in the house's order."""
    unit = design.units[name]
    if isinstance(unit, Grid):
        return ()
    found = ((method, _alike(design, method, unit)) for method in METHODS)
    rows = (_compared(design, method, other, wanted) for method, other in found if other)
    return tuple(
        replace(row, chosen=row.method == method_of(unit).name) for row in rows if row is not None
    )


def wanted_of(publication: Publication, name: str) -> int:
    """How many of a unit, its mirror images included, one size of a pattern uses."""
    makes = [make for make in publication.makes if make.name.split(" mirrored")[0] == name]
    extras = (extra for make in makes for extra in make.extras if extra.name == f"{name} mirrored")
    return sum(make.wanted for make in makes) + sum(extra.wanted for extra in extras)


def _alike(design: Design, method: Method, unit: Unit) -> Unit | None:
    """The unit itself, or one of this method that shows the same in some turn."""
    if isinstance(unit, method.design):
        return unit
    picture = _picture(method_of(unit), unit)
    for other in (_as_large(other, unit) for other in method.alike(picture)):
        if method.fault(other, design.measure, design.seam) is None and _shows(
            _picture(method, other), picture
        ):
            return other
    return None


def _as_large(other: Unit, unit: Unit) -> Unit:
    """The other one cut larger by as much, where both are trimmed."""
    if isinstance(other, Oversized) and isinstance(unit, Oversized):
        return replace(other, oversize=unit.oversize)
    return other


def _picture(method: Method, unit: Unit) -> Picture:
    size = method.size(unit)
    return Picture("", size.width, size.height, method.patches(unit))


def _shows(picture: Picture, wanted: Picture) -> bool:
    return any(
        looks(moved(picture, turn, mirrored)) == looks(wanted)
        for mirrored in (False, True)
        for turn in range(4)
    )


def _compared(design: Design, method: Method, unit: Unit, wanted: int) -> Compared | None:
    """None where the method's pieces leave the ruler's grid or do not come out as drawn."""
    sewn = _sewn(design, unit, wanted)
    if sewn is None:
        return None
    publication, _ = sewn
    units = publication.makes[:-1]
    main = units[-1] if units else None
    steps = list(_all_steps(units))
    cloth: dict[str, Fraction] = {}
    for piece in publication.pieces:
        area = piece.short * piece.long * piece.count
        cloth[piece.fabric] = cloth.get(piece.fabric, Fraction(0)) + area
    return Compared(
        method.name,
        False,
        main.each if main else 1,
        main.rounds if main else wanted,
        main.each * main.rounds if main else wanted,
        main.spare if main else 0,
        sum(piece.count for piece in publication.pieces),
        sum(times for step, times in steps if isinstance(step, CutApart)),
        sum(times * _seams(step) for step, times in steps),
        sum(times for step, times in steps if isinstance(step, Trim | TrimLike | TrimToFoundation)),
        cloth,
        bias_around(publication, main) if main else Fraction(0),
    )


def _sewn(design: Design, unit: Unit, wanted: int) -> tuple[Publication, Drawing] | None:
    """A row of nothing but this unit, taken the whole way."""
    alone = replace(
        design,
        units={"unit": unit},
        blocks={},
        setting=Setting(((Cell("unit"),),), wanted, 1),
        borders=(),
        quantity=1,
    )
    layouts, problems = lay_out(alone)
    if problems:
        return None
    drawing = draw(alone, layouts)
    draft, problems = construct(alone, layouts, drawing)
    if problems:
        return None
    (publication,) = publish([draft])
    drawing = with_mirror_images(drawing, draft.names)
    return None if prove(publication, drawing) else (publication, drawing)


def _all_steps(makes: Iterable[Make]) -> Iterator[tuple[Step, int]]:
    """The steps of all makes, each with its number of rounds."""
    for make in makes:
        besides = make.besides
        for step in make.steps:
            if getattr(step, "item", "") not in besides:
                yield step, make.rounds


def _seams(step: Step) -> int:
    """How many lines are sewn in a step."""
    match step:
        case Sew() | Join() | JoinEdges() | JoinMarks() | JoinPart():
            return 1
        case Cover():
            return int(step.section > 1)
        case Assemble():
            return len(step.rows) - 1 + sum(len(row) - 1 for row in step.rows)
        case _:
            return 0
