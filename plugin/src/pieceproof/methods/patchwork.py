"""Units of template pieces: what all methods that join finished patches by marks have in common.

In: finished patches, the order of joining, the unit's edge. Out: a `Recipe`. A piece is cut from
the rectangle around its template: what falls off beside it is lost, also where shapes would
interlock.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from quicktions import Fraction

from pieceproof.lengths import sign
from pieceproof.methods.method import Cut, Recipe, Workroom, cut_by_ways, press_to_darker
from pieceproof.methods.seams import Seam, Side, seams_in_order, stops_at
from pieceproof.methods.templates import QUARTERS, Fitted, Shaped, fit_templates
from pieceproof.published import Patch
from pieceproof.shapes import Motion, Polygon, bounds
from pieceproof.steps import JoinMarks, SeamEnd, Step, Stretch, Take, TurnEdge, Yield
from pieceproof.steps import Side as UnitSide
from pieceproof.ways import Way, exactly

Order = Sequence[tuple[str, str]]


def patches_of(shapes: Iterable[Shaped]) -> tuple[Patch, ...]:
    """The finished picture of some shapes."""
    return tuple(Patch(shape.fabric, shape.outline) for shape in shapes)


def patchwork_recipe(
    shapes: Sequence[Shaped],
    order: Order,
    edge: Polygon,
    room: Workroom,
    turns: Sequence[Motion] = QUARTERS,
) -> Recipe:
    """One unit a round; the shapes and their order must be free of faults."""
    fitted = fit_templates(shapes, room.seam, turns, edge)
    steps, name = joining_steps(shapes, order, fitted, room)
    cuts = tuple(cut_of(shape.name, shape.fabric, fitted[shape.name], room) for shape in shapes)
    return Recipe(cuts, 1, (*steps, Yield((name,))))


def joining_steps(
    shapes: Sequence[Shaped], order: Order, fitted: Mapping[str, Fitted], room: Workroom
) -> tuple[tuple[Step, ...], str]:
    """All joins in order, the whole turned upright at the end; and what it is called by then."""
    seams, wrong = seams_in_order(shapes, order)
    assert not wrong, wrong
    fabrics = {shape.name: shape.fabric for shape in shapes}
    names = {shape.name: shape.name for shape in shapes}
    steps: list[Step] = []
    taken: set[str] = set()
    for number, seam in enumerate(seams):
        item, added = names[seam.base], names[seam.added]
        steps += [Take(name, name) for name in (item, added) if name not in taken]
        taken |= {item, added}
        steps.append(_join(seams, number, (item, added), fitted, fabrics, room))
        names = {patch: item if name == added else name for patch, name in names.items()}
    if not seams:
        steps.append(Take(shapes[0].name, shapes[0].name))
    whole = names[shapes[0].name]
    return _turned_upright(steps, whole, shapes, seams, fitted), whole


def cut_of(slot: str, fabric: str, fitted: Fitted, room: Workroom) -> Cut:
    """The rectangle around a template."""
    box, inside = bounds([fitted.template.cut]), bounds([fitted.template.seam_lines])
    told = "for raw edges a seam allowance outside the seam lines"
    wide = exactly("width of the finished shape", inside.width)
    high = exactly("height of the finished shape", inside.height)
    across = Way((wide, exactly(told, box.width - inside.width)))
    down = Way((high, exactly(told, box.height - inside.height)))
    return cut_by_ways(slot, fabric, (across, down), room, fitted.template)


def _join(
    seams: Sequence[Seam],
    number: int,
    items: tuple[str, str],
    fitted: Mapping[str, Fitted],
    fabrics: Mapping[str, str],
    room: Workroom,
) -> JoinMarks:
    seam = seams[number]
    begin, end = (
        SeamEnd.CORNER if stops_at(seams, number, place) else SeamEnd.EDGE
        for place in (seam.start, seam.end)
    )
    base, added = seam.edges[0]
    press = press_to_darker(fabrics[base.patch], fabrics[added.patch], room)
    stretches = tuple(_stretches(seam, fitted))
    return JoinMarks(*items, stretches, len(seam.turns), begin, end, room.seam, press)


def _stretches(seam: Seam, fitted: Mapping[str, Fitted]) -> Iterator[Stretch]:
    """Runs of edges along one patch on either side."""
    run: list[tuple[Side, Side]] = []
    for pair in seam.edges:
        if run and [s.patch for s in pair] != [s.patch for s in run[-1]]:
            yield _stretch(run, fitted)
            run = []
        run.append(pair)
    yield _stretch(run, fitted)


def _stretch(run: Sequence[tuple[Side, Side]], fitted: Mapping[str, Fitted]) -> Stretch:
    (first, against), (last, last_against) = run[0], run[-1]
    return Stretch(
        first.patch, _mark(first, 0, fitted), _mark(last, 1, fitted),
        against.patch, _mark(against, 1, fitted), _mark(last_against, 0, fitted),
    )  # fmt: skip


def _mark(side: Side, beyond: int, fitted: Mapping[str, Fitted]) -> int:
    found = fitted[side.patch]
    return found.marks[(side.number + beyond) % len(found.template.seam_lines)]


def _turned_upright(
    steps: Sequence[Step],
    whole: str,
    shapes: Sequence[Shaped],
    seams: Sequence[Seam],
    fitted: Mapping[str, Fitted],
) -> tuple[Step, ...]:
    """The steps with the first piece turned as it lies in the unit, or the whole at the end."""
    (first,) = (shape for shape in shapes if shape.name == whole)
    turn = _turn(whole, [first], frozenset(), fitted)
    if turn is not None:
        taken = next(i for i, step in enumerate(steps, 1) if step == Take(whole, whole))
        return (*steps[:taken], turn, *steps[taken:])
    sewn = frozenset(side for seam in seams for pair in seam.edges for side in pair)
    turn = _turn(whole, shapes, sewn, fitted)
    assert turn is not None
    return (*steps, turn)


def _turn(
    item: str, shapes: Sequence[Shaped], sewn: frozenset[Side], fitted: Mapping[str, Fitted]
) -> TurnEdge | None:
    """A turn by the first upright or level edge that is not sewn."""
    for shape in shapes:
        for i, (x, y) in enumerate(shape.outline):
            to_x, to_y = shape.outline[(i + 1) % len(shape.outline)]
            way = (sign(to_x - x), sign(to_y - y))
            side = Side(shape.name, i)
            known = i in fitted[shape.name].marks and Fraction(0) in way
            if known and side not in sewn and not _in_bow(shape, i):
                start, end = _mark(side, 0, fitted), _mark(side, 1, fitted)
                return TurnEdge(item, shape.name, start, end, _SIDES[way])
    return None


def _in_bow(shape: Shaped, number: int) -> bool:
    place = shape.outline[number]
    return any(bow.start == place for bow in shape.bows)


_SIDES: Mapping[tuple[int, int], UnitSide] = {
    (1, 0): UnitSide.TOP,
    (0, 1): UnitSide.RIGHT,
    (-1, 0): UnitSide.BOTTOM,
    (0, -1): UnitSide.LEFT,
}
