"""How far every tip keeps from the seam line that could swallow it.

In: a design, its publication and its drawing. Out: `Tips`, the same in words, and problems where
the writer demands more room than a unit gives. It never sews: `bench.points` finds the same
distances on the sewn cloth, and tests hold the two together.

A tip toward a side is a corner of a patch from which both of its edges lead away from that side:
the point of a goose, the meeting of two star points. Its clearance is its distance from the seam
line on that side. Where the seams that make a tip meet beyond the seam line, but still on the cloth
of the seam allowance, the tip is cut off and its clearance is negative. Where they meet farther
out, the patch is blunt by design and has no tip. Tips out of reach, more than two allowances away
from every seam line, are left out. Only things that fill a rectangle are looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from quicktions import Fraction

from pieceproof.lengths import Number, Surd, show_exact
from pieceproof.methods import method_of
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.model import Design, Grid
from pieceproof.problems import Problem
from pieceproof.published import Drawing, Make, MakeKind, Picture, Publication
from pieceproof.shapes import Motion, Point, area, quarter_turns, shift
from pieceproof.steps import Assemble, Placed, Side


class TipKind(Enum):
    """How a tip stands to its seam line."""

    FLOATING = "floating"
    EXACT = "exact"
    CUT = "cut off"


@dataclass(frozen=True)
class Tip:
    """One tip of a finished make as drawn; a tip that is cut off lies outside the picture."""

    fabric: str
    toward: Side
    at: Point
    clearance: Number


@dataclass(frozen=True)
class TipGroup:
    """The tips of one make that are alike: of one fabric, equally far from their seam lines."""

    make: str
    kind: MakeKind
    fabric: str
    sides: tuple[Side, ...]
    tips: tuple[Tip, ...]

    @property
    def count(self) -> int:
        """How many there are; one that points to two sides counts once."""
        return len({tip.at for tip in self.tips})

    @property
    def clearance(self) -> Number:
        """In the pattern's unit; negative where cut off."""
        return self.tips[0].clearance

    @property
    def state(self) -> TipKind:
        """Floating, exact or cut off."""
        if self.clearance == 0:
            return TipKind.EXACT
        return TipKind.FLOATING if self.clearance > 0 else TipKind.CUT


@dataclass(frozen=True)
class Tips:
    """All tips of one size, in the order of its makes.

    ``whole_up_to`` is the seam allowance plus the least clearance of a floating tip: floating
    tips stay whole with every seam from the pattern's own to that one. None: nothing floats.
    """

    groups: tuple[TipGroup, ...]
    whole_up_to: Number | None

    def of(self, make: str) -> tuple[TipGroup, ...]:
        """The tips of one make."""
        return tuple(group for group in self.groups if group.make == make)


def tips_of(design: Design, publication: Publication, drawing: Drawing) -> Tips:
    """The tips of every unit, block and top; of a demand beyond the usual reach, up to there."""
    seam = publication.seam
    reach = max(2 * seam, design.tips.least if design.tips else seam)
    found: dict[str, tuple[Tip, ...]] = {}
    for make in publication.makes:
        rows = next((step.rows for step in make.steps if isinstance(step, Assemble)), ())
        own = _outer_tips(rows, found, _sizes(publication))
        if make.method:
            own = picture_tips(drawing.pictures[make.name], seam, reach)
        found[make.name] = own
        for extra in make.extras:
            found[extra.name] = picture_tips(drawing.pictures[extra.name], seam, reach)
    groups = tuple(
        group for make in publication.makes for group in _grouped(make, found[make.name])
    )
    floating = [group.clearance for group in groups if group.state is TipKind.FLOATING]
    return Tips(groups, seam + min(floating) if floating else None)


def picture_tips(picture: Picture, seam: Fraction, reach: Fraction) -> tuple[Tip, ...]:
    """All tips of one unit; of several at one place only the ones nearest to a seam line."""
    whole = sum((area(patch.outline) for patch in picture.patches), Fraction(0))
    if whole != picture.width * picture.height:
        return ()
    nearest: dict[Point, list[Tip]] = {}
    for tip in (tip for side in Side for tip in _toward(picture, side, seam, reach)):
        known = nearest.setdefault(tip.at, [])
        if not known or tip.clearance < known[0].clearance:
            nearest[tip.at] = [tip]
        elif tip.clearance == known[0].clearance:
            known.append(tip)
    return tuple(tip for tips in nearest.values() for tip in tips)


def in_words(group: TipGroup, called: Mapping[str, str]) -> str:
    """Where the tips are: ``upper tip of geese``, ``outer tips of star points``."""
    *most, last = [_ADJECTIVES[side] for side in group.sides]
    where = f"{', '.join(most)} and {last}" if most else last
    if group.kind is not MakeKind.UNIT or len(group.sides) == len(Side):
        where = "outer"
    return f"{where} {'tip' if group.count == 1 else 'tips'} of {called[group.fabric]}"


def demanded(design: Design, tips: Tips) -> tuple[Problem, ...]:
    """A problem for every unit with a tip nearer to its seam line than the writer demands."""
    if design.tips is None:
        return ()
    least = design.tips.least
    near: dict[str, TipGroup] = {}
    for group in tips.groups:
        name = group.make.removesuffix(SET_B).removesuffix(MIRRORED)
        is_unit = name in design.units and not isinstance(design.units[name], Grid)
        if is_unit and group.clearance < least:
            near[name] = min(near.get(name, group), group, key=lambda g: g.clearance)
    return tuple(_problem(design, name, group, least) for name, group in near.items())


def _problem(design: Design, name: str, group: TipGroup, least: Fraction) -> Problem:
    unit = design.units[name]
    assert not isinstance(unit, Grid)
    show = design.measure.show
    called = {fabric: part.called for fabric, part in design.fabrics.items()}
    words = f"`{name}`, {in_words(group, called)}"
    remedy = method_of(unit).floating(unit, design.measure, design.seam, least)
    return Problem(
        unit.at[remedy.key],
        "tip-too-near",
        f"{words}: {_distance(design, group.clearance)}",
        f"{show(least)} or more between every tip and its seam line, as `tips` demands",
        remedy.text,
    )


def _distance(design: Design, clearance: Number) -> str:
    if clearance == 0:
        return "exactly on the seam line"
    size = max(clearance, -clearance)
    shown = show_exact(size) if isinstance(size, Surd) else design.measure.show(size)
    return f"{shown} from the seam line" if clearance > 0 else f"cut off by {shown}"


def _grouped(make: Make, tips: Sequence[Tip]) -> Iterator[TipGroup]:
    alike: dict[tuple[Number, str], list[Tip]] = {}
    for tip in tips:
        alike.setdefault((tip.clearance, tip.fabric), []).append(tip)
    for (_, fabric), found in sorted(alike.items(), key=lambda item: item[0]):
        sides = tuple(side for side in _ADJECTIVES if any(tip.toward is side for tip in found))
        yield TipGroup(make.name, make.kind, fabric, sides, tuple(found))


def _outer_tips(
    rows: Sequence[Sequence[Placed]],
    known: Mapping[str, Sequence[Tip]],
    sizes: Mapping[str, tuple[Fraction, Fraction]],
) -> tuple[Tip, ...]:
    """Tips of an assembly toward its own sides: those of its outer cells; others have met."""
    tips: list[Tip] = []
    top = Fraction(0)
    for j, row in enumerate(rows):
        left, height = Fraction(0), Fraction(0)
        for i, cell in enumerate(row):
            width, height = sizes[cell.source][:: -1 if cell.turn % 2 else 1]
            place = shift(left, top).after(quarter_turns(cell.turn, *sizes[cell.source]))
            outer = {
                Side.TOP: j == 0,
                Side.RIGHT: i == len(row) - 1,
                Side.BOTTOM: j == len(rows) - 1,
                Side.LEFT: i == 0,
            }
            turned = (_carried(t, place, cell.turn) for t in known.get(cell.source, ()))
            tips += [tip for tip in turned if outer[tip.toward]]
            left += width
        top += height
    return tuple(tips)


def _carried(tip: Tip, place: Motion, quarters: int) -> Tip:
    clockwise = tuple(_ADJECTIVES)
    side = clockwise[(clockwise.index(tip.toward) + quarters) % 4]
    return replace(tip, toward=side, at=place.point(tip.at))


def _sizes(publication: Publication) -> Mapping[str, tuple[Fraction, Fraction]]:
    """Finished sizes of everything that a cell may hold, as it is listed or drawn."""
    seams = 2 * publication.seam
    cut = {p.letter: (p.short, p.long) for p in publication.pieces}
    made = {m.name: (m.width, m.height) for m in publication.makes}
    extra = {e.name: (e.width, e.height) for m in publication.makes for e in m.extras}
    return {n: (w - seams, h - seams) for n, (w, h) in {**cut, **extra, **made}.items()}


def _toward(picture: Picture, side: Side, seam: Fraction, reach: Fraction) -> Iterator[Tip]:
    """Tips toward one side, found with the picture turned so that this side is on top."""
    turns = _TO_TOP[side]
    width, height = picture.width, picture.height
    there = quarter_turns(turns, width, height)
    if turns % 2:
        width, height = height, width
    back = quarter_turns(-turns, width, height)
    for patch in picture.patches:
        outline = there.polygon(patch.outline)
        for place, clearance in (*_points(outline), *_cut_off(outline, width, seam)):
            if clearance <= reach:
                yield Tip(patch.fabric, side, back.point(place), clearance)


def _points(outline: Sequence[Point]) -> Iterator[tuple[Point, Number]]:
    """Corners with both edges leading down, and their distance from the top."""
    for i, place in enumerate(outline):
        before, behind = outline[i - 1], outline[(i + 1) % len(outline)]
        if before[1] > place[1] < behind[1]:
            yield place, place[1]


def _cut_off(
    outline: Sequence[Point], width: Number, seam: Fraction
) -> Iterator[tuple[Point, Number]]:
    """Where two seams that run up to the top line meet beyond it, on the allowance's cloth."""
    n = len(outline)
    for i, left in enumerate(outline):
        right = outline[(i + 1) % n]
        if left[1] != 0 or right[1] != 0 or left[0] == 0 or right[0] == width:
            continue
        below_left, below_right = outline[i - 1], outline[(i + 2) % n]
        drift = _drift(below_left, left) - _drift(below_right, right)
        if drift > 0 and (right[0] - left[0]) <= seam * drift:
            beyond = (right[0] - left[0]) / drift
            yield (left[0] + beyond * _drift(below_left, left), -beyond), -beyond


def _drift(below: Point, on_top: Point) -> Number:
    """How far a seam goes to the right for each unit that it goes up."""
    return (on_top[0] - below[0]) / (below[1] - on_top[1])


_TO_TOP = {Side.TOP: 0, Side.LEFT: 1, Side.BOTTOM: 2, Side.RIGHT: 3}
"""Clockwise quarter turns that bring a side to the top."""

_ADJECTIVES = {
    Side.TOP: "upper",
    Side.RIGHT: "right",
    Side.BOTTOM: "lower",
    Side.LEFT: "left",
}
"""Sides in clockwise order, and what a tip that points there is called."""
