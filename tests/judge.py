"""A second, independent sewing of a publication, to judge what the bench says.

It sews with floating-point polygons of an outside geometry library (Shapely, GEOS) and shares no
code with the package but the published data types. It knows nothing of sizes that ought to be:
it only says what cloth comes out, so it can tell whether two publications make the same quilt.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from math import atan2, degrees, hypot, pi, tan
from typing import Any

from judge_templates import (
    Shape,
    TemplateCloth,
    extent,
    finished,
    joined,
    shape_of,
    turned_upright,
)
from shapely import LineString, Point, Polygon, affinity, union_all
from shapely.geometry.base import BaseGeometry

from pieceproof.published import Picture, Publication
from pieceproof.steps import Slope, Step

_TINY = 1e-6
_GRID = 1e-10
"""Overlays snap to this grid: without one, GEOS may fail on edges that nearly coincide."""

_SCRAP = "a scrap one seam allowance wide"

Patches = list[tuple[str, Polygon]]
_Place = tuple[float, float]


@dataclass
class _Pile:
    """Cloth that lies on the judge's table: visible patches of one or two layers, and seams."""

    lower: Patches
    upper: Patches
    seams: list[tuple[float, float, float]]
    sections: list[Polygon] = field(default_factory=list)
    hung: _Hung | None = None
    shapes: Sequence[Shape] = ()
    """Pieces that were cut by templates, until the thing is turned upright."""


@dataclass
class _Hung:
    """A piece sewn on in part: turned by ``turns`` so that its seam is at the top of the rest."""

    flap: Patches
    turns: int
    start: str
    slit: float
    allowance: float


def is_same_cloth(first: Publication, second: Publication) -> bool:
    """Whether both show the same makes, patch for patch; False where one cannot be sewn."""
    try:
        makes, others = finished_makes(first), finished_makes(second)
    except (ValueError, KeyError):
        return False
    return makes.keys() == others.keys() and all(
        len(makes[n]) == len(others[n])
        and all(_alike(a, b) for a, b in zip(makes[n], others[n], strict=True))
        for n in makes
    )


def shows(patches: Patches, picture: Picture) -> bool:
    """Whether sewn patches are those of a picture."""
    drawn = [
        (p.fabric, Polygon([(float(x), float(y)) for x, y in p.outline])) for p in picture.patches
    ]
    return _alike(patches, drawn)


@lru_cache(maxsize=4)
def finished_makes(publication: Publication) -> dict[str, list[Patches]]:
    """What each make's things show inside their outer seams, by the make's name."""
    seam = float(publication.seam)
    return {
        name: [_inner(thing, seam) for thing in things]
        for name, things in _sew_all(publication).items()
    }


def _inner(patches: Patches, seam: float) -> Patches:
    x0, y0, x1, y1 = _extent(patches)
    return _home(_common(patches, _box(x0 + seam, y0 + seam, x1 - seam, y1 - seam)))


def _alike(first: Patches, second: Patches) -> bool:
    left = list(second)
    for fabric, outline in first:
        twin = next(
            (p for p in left if p[0] == fabric and _difference(p[1], outline) < _TINY), None
        )
        if twin is None:
            return False
        left.remove(twin)
    return not left


def _difference(first: Polygon, second: Polygon) -> float:
    return float(first.symmetric_difference(second).area)


def _sew_all(publication: Publication) -> dict[str, list[Patches]]:
    stock: dict[str, Patches] = {
        p.letter: TemplateCloth(p.fabric, p.template)
        if p.template
        else [(p.fabric, _box(0, 0, float(p.short), float(p.long)))]
        for p in publication.pieces
    }
    seam = float(publication.seam)
    stock[_SCRAP] = [("", _box(0, 0, seam, seam))]
    made: dict[str, list[Patches]] = {}
    for make in publication.makes:
        for extra, things in _sew_steps(make.steps, stock).items():
            made[extra or make.name] = things
            stock[extra or make.name] = things[0]
    return made


def _sew_steps(steps: Sequence[Step], stock: Mapping[str, Patches]) -> dict[str, list[Patches]]:
    table: dict[str, _Pile] = {}
    done: dict[str, list[Patches]] = {}
    for step in steps:
        name = type(step).__name__
        if name == "Yield":
            things = [_home(table.pop(item).lower) for item in step.items]
            done[step.extra] = done.get(step.extra, []) + things
        else:
            _JUDGE[name](table, step, stock)
    return done


def _take(table: dict[str, _Pile], step: Any, stock: Mapping[str, Patches]) -> None:
    source = stock[step.source]
    if isinstance(source, TemplateCloth):
        table[step.item] = _Pile([], [], [], shapes=[shape_of(step.item, source)])
    else:
        table[step.item] = _Pile(_rotated(source, step.turn), [], [])


def _turn(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    table[step.item].lower = _rotated(table[step.item].lower, step.turn)


def _layer(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    under, over = table[step.lower], _flipped(table.pop(step.upper).lower)
    x0, y0, x1, y1 = _extent(under.lower)
    u0, v0, u1, v1 = _extent(over)
    words = step.corner.value
    dx = x0 - u0 if "left" in words else x1 - u1
    dy = y0 - v0 if "top" in words else y1 - v1
    under.upper = under.upper + _mapped(over, lambda g: affinity.translate(g, dx, dy))


def _sew(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    table[step.item].seams.append(_line(table[step.item], step.line))


def _unpick(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    right, down = _way(step)
    kept = max(pile.seams, key=lambda s: abs(s[0] * right + s[1] * down))
    body = kept if kept[0] * right + kept[1] * down < 0 else (-kept[0], -kept[1], -kept[2])
    inside = _Pile(_clipped(pile.lower, body), _clipped(pile.upper, body), [])
    if any(_holds(inside, seam) for seam in pile.seams if seam is not kept):
        raise ValueError("taken out although it holds cloth")
    pile.seams = [kept]


def _way(step: Any) -> tuple[int, int]:
    words = (step.toward if hasattr(step, "toward") else step.edge).value
    return ("right" in words) - ("left" in words), ("bottom" in words) - ("top" in words)


def _cut_apart(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table.pop(step.item)
    a, b, c = _line(pile, step.line)
    for name, half in ((step.first, (a, b, c)), (step.second, (-a, -b, -c))):
        if name:
            part = _Pile(_clipped(pile.lower, half), _clipped(pile.upper, half), [])
            part.seams = [s for s in pile.seams if _holds(part, s)]
            table[name] = part


def _open(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    (seam,) = pile.seams
    right, down = _way(step)
    a, b, c = seam
    if abs(a * right + b * down) < _TINY:
        raise ValueError("folded along its own seam")
    if a * right + b * down > 0:
        a, b, c = -a, -b, -c
    body = (a, b, c)
    matrix = [1 - 2 * a * a, -2 * a * b, -2 * a * b, 1 - 2 * b * b, 2 * a * c, 2 * b * c]
    folded = _mapped(_clipped(pile.upper, body), lambda g: affinity.affine_transform(g, matrix))
    table[step.item] = _Pile(_home(_clipped(pile.lower, body) + _on_top(folded)), [], [])


def _on_top(patches: Patches) -> Patches:
    """Each less the ones before it."""
    shown: Patches = []
    for fabric, outline in patches:
        rest = outline
        for _, above in shown:
            rest = rest.difference(above, grid_size=_GRID)
        shown.append((fabric, rest))
    return shown


def _turn_eighths(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    table[step.item].lower = _turned(table[step.item].lower, 45 * step.eighths)


def _trim(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    _trim_to(table[step.item], step, float(step.width), float(step.height))


def _trim_like(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    x0, y0, x1, y1 = _extent(table[step.like].lower)
    _trim_to(table[step.item], step, x1 - x0, y1 - y0)


def _trim_to(pile: _Pile, step: Any, width: float, height: float) -> None:
    left, top = float(step.off_left), float(step.off_top)
    pile.lower = _home(_common(_home(pile.lower), _box(left, top, left + width, top + height)))


def _trim_tips(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    start, end = _edge(pile.lower, _way(step))
    pile.lower = _home(_clipped(pile.lower, _inside(start, end)))


def _join_edges(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    base, added = table[step.item], table.pop(step.added)
    seam = float(step.allowance)
    start, end = _edge(base.lower, _direction(step.edge.value))
    first, last = _edge(added.lower, _direction(step.added_edge.value))
    turn = degrees(atan2(start[1] - end[1], start[0] - end[0])) - degrees(
        atan2(last[1] - first[1], last[0] - first[0])
    )
    new = _mapped(added.lower, lambda g: affinity.rotate(g, turn, origin=(0, 0)))
    a, b, c = _inside(start, end)
    target = _met(base.lower, start, end, step.meeting.value, seam)
    origin = _met(added.lower, first, last, step.meeting.value, seam)
    if abs(origin[1] - target[1]) > _TINY and step.meeting.value == "seam points":
        raise ValueError("seam points that do not meet")
    middle = affinity.rotate(Point(origin[0]), turn, origin=(0, 0))
    (x, y), (dx, dy) = target[0], (middle.x, middle.y)
    new = _mapped(
        new, lambda g: affinity.translate(g, x - dx + 2 * seam * a, y - dy + 2 * seam * b)
    )
    line = (a, b, c + seam)
    back = (-a, -b, -c - seam)
    base.lower = _home(_clipped(base.lower, line) + _clipped(new, back))


def _met(
    patches: Patches, start: _Place, end: _Place, meeting: str, seam: float
) -> tuple[_Place, float]:
    """The middle, on the raw edge, of what meets, and how far what meets lies apart."""
    reach = hypot(end[0] - start[0], end[1] - start[1])
    first, last = 0.0, reach
    if meeting == "seam points":
        ring = _ring(patches)
        before = next(p for p, q in ring if _near(q, start))
        behind = next(q for p, q in ring if _near(p, end))
        first = seam / tan(_angle(before, start, end) / 2)
        last = reach - seam / tan(_angle(start, end, behind) / 2)
    share = (first + last) / 2 / reach
    place = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
    return place, last - first


def _angle(p: _Place, q: _Place, r: _Place) -> float:
    """The inner angle at q of a clockwise outline."""
    turn = atan2(r[1] - q[1], r[0] - q[0]) - atan2(p[1] - q[1], p[0] - q[0])
    return -turn % (2 * pi)


def _near(p: _Place, q: _Place) -> bool:
    return hypot(p[0] - q[0], p[1] - q[1]) < 1e-4


def _direction(words: str) -> tuple[int, int]:
    return ("right" in words) - ("left" in words), ("bottom" in words) - ("top" in words)


def _inside(start: _Place, end: _Place) -> tuple[float, float, float]:
    """The line along an edge of a clockwise outline, its positive side in the cloth."""
    size = hypot(end[0] - start[0], end[1] - start[1])
    a, b = (start[1] - end[1]) / size, (end[0] - start[0]) / size
    return a, b, a * start[0] + b * start[1]


def _ring(patches: Patches) -> list[tuple[_Place, _Place]]:
    """Edges of the outline, clockwise as seen with y down."""
    whole = union_all([outline.buffer(1e-9, join_style="mitre") for _, outline in patches])
    if whole.geom_type != "Polygon":
        raise ValueError("not in one piece")
    corners = list(whole.simplify(1e-8).exterior.normalize().coords)
    signed = sum(p[0] * q[1] - p[1] * q[0] for p, q in pairwise(corners))
    return list(pairwise(corners if signed > 0 else corners[::-1]))


def _edge(patches: Patches, way: tuple[int, int]) -> tuple[_Place, _Place]:
    """The outline's edge that faces a way; of several alike the outermost."""
    right, down = way

    def facing(edge: tuple[_Place, _Place]) -> float:
        a, b, _ = _inside(*edge)
        return -(a * right + b * down)

    ring = _ring(patches)
    best = max(facing(edge) for edge in ring)
    alike = [edge for edge in ring if facing(edge) > best - 1e-4]
    a, b, _ = _inside(*alike[0])
    if any(abs(a * q[1] - b * q[0]) > 1e-4 for q in (_inside(*edge)[:2] for edge in alike)):
        raise ValueError("two edges that face one way")
    return min(alike, key=lambda edge: a * edge[0][0] + b * edge[0][1])


def _join(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    base, added = table[step.item], table.pop(step.added)
    if base.hung is not None:
        _join_beside(base, base.hung, added.lower, step.side.value)
        return
    turns = {"right": 0, "top": 1, "left": 2, "bottom": 3}[step.side.value]
    row = [_rotated(base.lower, turns), _rotated(added.lower, turns)]
    base.lower = _rotated(_side_by_side(row, float(step.allowance)), -turns)


def _join_mitred(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    """Each strip is turned to the top, laid middle to middle, and cut off on both diagonals."""
    base, seam = table[step.item], float(step.allowance)
    whole: Patches = []
    deep = set()
    for side, name in enumerate((step.left, step.top, step.right, step.bottom)):
        under = _rotated(base.lower, 1 - side)
        strip = _rotated(table.pop(name).lower, 1 - side)
        _, _, width, height = _extent(under)
        _, _, along, across = _extent(strip)
        beyond = float(step.beyond_ends if side % 2 else step.beyond_sides)
        deep.add(round(across, 6))
        if abs(along - width - 2 * beyond) > _TINY or beyond < across - 0.5858 * seam:
            raise ValueError("a strip of the wrong length")
        laid = _mapped(strip, lambda g, d=beyond, h=across: affinity.translate(g, -d, 2 * seam - h))
        top, low = seam - across * 2, seam
        between = Polygon(
            [
                (seam, low),
                (width - seam, low),
                (width - seam + low - top, top),
                (seam - low + top, top),
            ]
        )
        whole += _mapped(
            _common(laid, between), lambda g, w=width, h=height, t=side: _back(g, w, h, t)
        )
    if len(deep) > 1:
        raise ValueError("strips of different widths")
    x0, y0, x1, y1 = _extent(base.lower)
    inner = _common(base.lower, _box(x0 + seam, y0 + seam, x1 - seam, y1 - seam))
    base.lower = _home(inner + whole)


def _back(shape: BaseGeometry, width: float, height: float, side: int) -> BaseGeometry:
    """A shape on a width x height thing, turned by quarters as the thing is turned back."""
    for _ in range((side - 1) % 4):
        shape = affinity.affine_transform(shape, [0, -1, 1, 0, height, 0])
        width, height = height, width
    return shape


def _cross_cut(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    """The place of the first cut does not matter where all strips run the whole way."""
    whole = _home(table.pop(step.item).lower)
    x0, y0, x1, y1 = _extent(whole)
    width = float(step.width)
    for number in range(step.count):
        near, far = number * width, (number + 1) * width
        window = {
            "left": (near, y0, far, y1),
            "right": (x1 - far, y0, x1 - near, y1),
            "top": (x0, near, x1, far),
            "bottom": (x0, y1 - far, x1, y1 - near),
        }[step.side.value]
        table[f"{step.item} {number + 1}"] = _Pile(_home(_common(whole, _box(*window))), [], [])


_AROUND = ("left", "top", "right", "bottom")


def _join_part(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    base, added = table[step.item], table.pop(step.added)
    turns = (1 - _AROUND.index(step.side.value)) % 4
    start = _AROUND[(_AROUND.index(step.start.value) + turns) % 4]
    if start not in ("left", "right"):
        raise ValueError("a seam that starts nowhere")
    a = float(step.allowance)
    body, flap = _rotated(base.lower, turns), _rotated(added.lower, turns)
    _, _, wide, _ = _extent(body)
    _, _, long, tall = _extent(flap)
    if long <= wide + _TINY:
        raise ValueError("nothing hangs over")
    dx = wide - long if start == "right" else 0
    flap = _mapped(flap, lambda g: affinity.translate(g, dx, 2 * a - tall))
    table[step.item] = _Pile(body, [], [], [], _Hung(flap, turns, start, 0.0, a))


def _join_beside(pile: _Pile, hung: _Hung, added: Patches, side: str) -> None:
    there = _AROUND[(_AROUND.index(side) + hung.turns) % 4]
    new, a = _rotated(added, hung.turns), hung.allowance
    x0, y0, x1, y1 = _extent(pile.lower)
    _, _, wide, tall = _extent(new)
    top = _extent(hung.flap)[1] if there == hung.start else hung.slit
    edge = {"bottom": x1 - x0, "left": y1 - top, "right": y1 - top}[there]
    if abs(edge - (wide if there == "bottom" else tall)) > _TINY:
        raise ValueError("edges of different length")
    keep, part, move = {
        "bottom": ((x0, y0, x1, y1 - a), (0, a, wide, tall), (x0, y1 - 2 * a)),
        "right": ((-1e3, -1e3, x1 - a, y1), (a, 0, wide, tall), (x1 - 2 * a, top)),
        "left": ((x0 + a, -1e3, 1e3, y1), (0, 0, wide - a, tall), (x0 + 2 * a - wide, top)),
    }[there]
    if there == hung.start:
        hung.flap = _common(hung.flap, _box(*keep))
    new = _mapped(_common(new, _box(*part)), lambda g: affinity.translate(g, *move))
    pile.lower = _common(pile.lower, _box(*keep)) + new


def _close_seam(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    hung = pile.hung
    if hung is None:
        raise ValueError("no open seam")
    far = 0 if hung.start == "right" else 2
    if abs(_extent(hung.flap)[far] - _extent(pile.lower)[far]) > _TINY:
        raise ValueError("ends that are not even")
    x0, y0, x1, _ = _extent(hung.flap)
    seam = hung.slit + hung.allowance
    hidden = _box(x0, y0 - 1, x1, seam)
    body = [(fabric, outline.difference(hidden)) for fabric, outline in pile.lower]
    whole = body + _common(hung.flap, _box(x0, y0, x1, seam))
    table[step.item] = _Pile(_rotated(whole, -hung.turns), [], [])


def _foundation(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    width = float(step.width)
    outlines = [
        Polygon([(width - float(x), float(y)) for x, y in outline]) for outline in step.sections
    ]
    table[step.item] = _Pile([], [], [], outlines)


def _cover(table: dict[str, _Pile], step: Any, stock: Mapping[str, Patches]) -> None:
    pile, ((fabric, cloth),) = table[step.item], table.pop(step.added).lower
    seam = stock[_SCRAP][0][1].bounds[2]
    a, b, c = _section_line(pile.sections, max(step.section, 2))
    corners = list(pile.sections[step.section - 1].exterior.coords)
    along = [b * x - a * y for x, y in corners]
    across = [a * x + b * y - c for x, y in corners]
    _, _, cloth_width, height = cloth.bounds
    long, deep = max(along) - min(along), max(across) - min(across)
    if (
        cloth_width < long + float(step.longer) - _TINY
        or height < deep + float(step.deeper) - _TINY
    ):
        raise ValueError("a piece that lies the other way")
    left = (min(along) + max(along) - cloth_width) / 2
    top = -seam if step.section > 1 else (min(across) + max(across) - height) / 2
    laid = Polygon(
        [
            (b * s + a * (t + c), -a * s + b * (t + c))
            for s, t in (
                (left, top), (left + cloth_width, top), (left + cloth_width, top + height),
                (left, top + height),
            )
        ]
    )  # fmt: skip
    if step.section == 1:
        pile.lower = [(fabric, laid)]
        return
    beyond = _clipped(pile.lower, (a, b, c))
    reach = max((a * x + b * y - c for _, g in beyond for x, y in g.exterior.coords), default=0)
    if step.guide.value.startswith("along") and abs(reach - seam) > _TINY:
        raise ValueError("an edge that is not even")
    pile.lower = _clipped(pile.lower, (-a, -b, -c)) + _clipped([(fabric, laid)], (a, b, c))


def _section_line(sections: list[Polygon], number: int) -> tuple[float, float, float]:
    """Where a section meets those before it; its positive side is the section."""
    own, before = sections[number - 1], union_all(sections[: number - 1])
    middle = own.centroid
    for start, end in pairwise(own.exterior.coords):
        a, b, c = _inside(start, end)
        if a * middle.x + b * middle.y < c:
            a, b, c = -a, -b, -c
        hull = before.convex_hull.exterior.coords
        touches = LineString([start, end]).intersection(before.buffer(1e-6)).length > 1e-3
        if touches and all(a * x + b * y - c < 1e-5 for x, y in hull):
            return a, b, c
    raise ValueError("no line between the sections")


def _trim_to_foundation(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    window = _box(*union_all(pile.sections).bounds)
    table[step.item] = _Pile(_home(_common(pile.lower, window)), [], [])


def _join_marks(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    base, added = table[step.item], table.pop(step.added)
    base.shapes = joined(base.shapes, added.shapes, step)
    base.lower = finished(base.shapes, float(step.allowance))


def _turn_edge(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    pile.shapes = turned_upright(pile.shapes, step)
    seam = pile.lower[0][1].bounds[2] if pile.lower else 0.0
    pile.lower = finished(pile.shapes, seam)


def _lay_on(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    ground, added = table[step.item], table.pop(step.added)
    x0, y0, x1, y1 = _extent(ground.lower)
    u0, v0, u1, v1 = extent(added.shapes)
    dx = (x0 + x1 - u0 - u1) / 2 + float(step.across)
    dy = (y0 + y1 - v0 - v1) / 2 + float(step.down)
    laid = [(s.fabric, Polygon(s.places)) for s in added.shapes]
    ground.lower = ground.lower + _mapped(laid, lambda g: affinity.translate(g, dx, dy))


def _assemble(table: dict[str, _Pile], step: Any, stock: Mapping[str, Patches]) -> None:
    a = float(step.allowance)
    rows = [_side_by_side([_rotated(stock[c.source], c.turn) for c in row], a) for row in step.rows]
    whole = _side_by_side([_rotated(row, 3) for row in rows], a)
    table[step.item] = _Pile(_rotated(whole, 1), [], [])


def _assemble_on_point(table: dict[str, _Pile], step: Any, stock: Mapping[str, Patches]) -> None:
    """Rows in a frame turned an eighth to the right; the seams' places are kept as numbers."""
    a = float(step.allowance)
    cloth: Patches = []
    seams: list[list[float]] = []
    top = 0.0
    for row in step.rows:
        cells = [_rotated(stock[cell.source], cell.turn) for cell in row.cells]
        widths, heights = zip(*(_extent(cell)[2:] for cell in cells), strict=True)
        if max(heights) - min(heights) > _TINY:
            raise ValueError("edges of different length")
        places = [0.0]
        for width in widths:
            places.append(places[-1] + width - 2 * a)
        raw = 1 if row.first is None else 0  # the outer places are then raw ends, not seams
        if seams:
            shift = seams[-1][max(row.start, 0)] - places[raw + max(-row.start, 0)]
            places = [place + shift for place in places]
        bottom = top + heights[0] - 2 * a
        for i, (cell, left, right) in enumerate(zip(cells, places, places[1:], strict=False)):
            begin = 0 if raw and i == 0 else a
            end = a + right - left + (a if raw and i == len(cells) - 1 else 0)
            kept = _common(cell, _box(begin, a, end, a + bottom - top))
            cloth += _mapped(kept, lambda g, x=left - a, y=top - a: affinity.translate(g, x, y))
        places = places[raw : len(places) - raw]
        for placed, side in ((row.first, "left"), (row.last, "right")) if not raw else ():
            window = (places[0], top, places[-1], bottom)
            cloth += _triangle(stock[placed.source], placed.turn, side, window, a)
        if not seams:
            window = (places[0], top, places[-1], bottom)
            cloth += _triangle(stock[step.top_left.source], step.top_left.turn, "top", window, a)
        seams.append(places)
        top = bottom
    window = (seams[-1][0], top - 1, seams[-1][-1], top)
    last = step.bottom_right
    cloth += _triangle(stock[last.source], last.turn, "bottom", window, a)
    whole = _mapped(cloth, lambda g: affinity.rotate(g, -45, origin=(0, 0)))
    table[step.item] = _Pile(_home(whole), [], [])


def _triangle(
    patches: Patches, turn: int, side: str, window: tuple[float, float, float, float], a: float
) -> Patches:
    """One triangle against the side of a row whose seam lines are the window's sides."""
    ((fabric, shape),) = patches
    shape = affinity.rotate(shape, 90 * turn + 45, origin=(0, 0))
    quarter = {"left": 0, "top": 1, "right": 2, "bottom": 3}[side]
    shape = affinity.rotate(shape, -90 * quarter, origin=(0, 0))
    frame = affinity.rotate(_box(*window), -90 * quarter, origin=(0, 0)).bounds
    corners = list(shape.exterior.coords)[:-1]
    far = max(x for x, _ in corners)
    edge = sorted((y, i) for i, (x, y) in enumerate(corners) if far - x < _TINY)
    if len(edge) != 2:
        raise ValueError("a tip to the row")
    (low, i), (high, j) = edge
    if _is_right(corners, i):
        dy = frame[1] - a - low
    elif _is_right(corners, j):
        dy = frame[3] + a - high
    else:
        dy = (frame[1] + frame[3] - low - high) / 2
    shape = affinity.translate(shape, frame[0] + a - far, dy)
    room = 1e4
    inside = _box(frame[0] - room, frame[1], frame[0], frame[3])
    if side in ("top", "bottom"):
        inside = _box(frame[0] - room, frame[1] - room, frame[0], frame[3] + room)
    kept = _common([(fabric, shape)], inside)
    return _mapped(kept, lambda g: affinity.rotate(g, 90 * quarter, origin=(0, 0)))


def _is_right(corners: list[tuple[float, float]], i: int) -> bool:
    (x, y), (px, py), (qx, qy) = corners[i], corners[i - 1], corners[(i + 1) % len(corners)]
    return abs((px - x) * (qx - x) + (py - y) * (qy - y)) < _TINY


def _trim_even(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    left, top = float(step.off_sides), float(step.off_ends)
    window = _box(left, top, left + float(step.width), top + float(step.height))
    pile.lower = _home(_common(_home(pile.lower), window))


def _side_by_side(cells: list[Patches], allowance: float) -> Patches:
    result: Patches = _home(cells[0])
    for cell in cells[1:]:
        x0, y0, x1, y1 = _extent(result)
        _, v0, u1, v1 = _extent(_home(cell))
        if abs((y1 - y0) - (v1 - v0)) > _TINY:
            raise ValueError("edges of different length")
        kept = _common(result, _box(x0, y0, x1 - allowance, y1))
        new = _common(_home(cell), _box(allowance, v0, u1, v1))
        shift = x1 - 2 * allowance
        result = kept + _mapped(new, lambda g, dx=shift: affinity.translate(g, dx, 0))
    return result


def _line(pile: _Pile, place: Any) -> tuple[float, float, float]:
    """a, b, c of a*x + b*y = c with unit a, b; the top, then left, part has the larger values."""
    if hasattr(place, "way"):
        x0, y0, x1, y1 = _extent(pile.lower)
        upright, level = (-1.0, 0.0, -(x0 + x1) / 2), (0.0, -1.0, -(y0 + y1) / 2)
        return upright if place.way.value == "upright" else level
    if hasattr(place, "side"):
        x0, y0, x1, y1 = _extent(pile.lower)
        inset = float(place.inset)
        return {
            "left": (-1.0, 0.0, -x0 - inset),
            "right": (-1.0, 0.0, -x1 + inset),
            "top": (0.0, -1.0, -y0 - inset),
            "bottom": (0.0, -1.0, -y1 + inset),
        }[place.side.value]
    x0, y0, x1, y1 = _extent(pile.upper or pile.lower)
    size = hypot(x1 - x0, y1 - y0)
    rising = place.slope is Slope.RISING
    a = (-1 if rising else 1) * (y1 - y0) / size
    b = -(x1 - x0) / size
    return a, b, a * x0 + b * (y1 if rising else y0) + float(place.offset)


def _holds(part: _Pile, seam: tuple[float, float, float]) -> bool:
    back = tuple(-v for v in seam)
    layers = (part.lower, part.upper)
    return all(_area(_clipped(layer, half)) > _TINY for layer in layers for half in (seam, back))


def _clipped(patches: Patches, half: tuple[float, float, float]) -> Patches:
    a, b, c = half
    far = 1e4
    x, y = a * c, b * c
    plane = Polygon(
        [
            (x - b * far, y + a * far),
            (x + b * far, y - a * far),
            (x + b * far + a * far, y - a * far + b * far),
            (x - b * far + a * far, y + a * far + b * far),
        ]
    )
    return _common(patches, plane)


def _common(patches: Patches, window: Polygon) -> Patches:
    parts = (
        (fabric, _solid(outline.intersection(window, grid_size=_GRID)))
        for fabric, outline in patches
    )
    return [(fabric, part) for fabric, part in parts if part.area > _TINY]


def _solid(shape: Any) -> Any:
    """What of a shape has an area: Shapely does not cut one that has loose lines besides."""
    parts = getattr(shape, "geoms", [shape])
    return shape if len(parts) == 1 else union_all([part for part in parts if part.area > 0])


def _mapped(patches: Patches, motion: Any) -> Patches:
    return [(fabric, motion(outline)) for fabric, outline in patches]


def _rotated(patches: Patches, turns: int) -> Patches:
    return _turned(patches, 90 * turns)


def _turned(patches: Patches, degrees: int) -> Patches:
    """Clockwise as seen; with y down that is a positive angle."""
    return _home(_mapped(patches, lambda g: affinity.rotate(g, degrees, origin=(0, 0))))


def _flipped(patches: Patches) -> Patches:
    return _home(_mapped(patches, lambda g: affinity.scale(g, -1, 1, origin=(0, 0))))


def _home(patches: Patches) -> Patches:
    x0, y0, _, _ = _extent(patches)
    return _mapped(patches, lambda g: affinity.translate(g, -x0, -y0))


def _extent(patches: Patches) -> tuple[float, float, float, float]:
    if not patches:
        raise ValueError("no cloth")
    boxes: list[BaseGeometry] = [outline for _, outline in patches]
    corners = [g.bounds for g in boxes]
    return (
        min(c[0] for c in corners),
        min(c[1] for c in corners),
        max(c[2] for c in corners),
        max(c[3] for c in corners),
    )


def _area(patches: Patches) -> float:
    return float(sum(outline.area for _, outline in patches))


def _box(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    return Polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


_JUDGE = {
    "Take": _take,
    "Turn": _turn,
    "TurnEighths": _turn_eighths,
    "Unpick": _unpick,
    "TrimTips": _trim_tips,
    "TrimLike": _trim_like,
    "JoinEdges": _join_edges,
    "CrossCut": _cross_cut,
    "JoinPart": _join_part,
    "CloseSeam": _close_seam,
    "Foundation": _foundation,
    "Cover": _cover,
    "TrimToFoundation": _trim_to_foundation,
    "Layer": _layer,
    "Sew": _sew,
    "CutApart": _cut_apart,
    "Open": _open,
    "Trim": _trim,
    "Join": _join,
    "JoinMitred": _join_mitred,
    "Assemble": _assemble,
    "JoinMarks": _join_marks,
    "TurnEdge": _turn_edge,
    "LayOn": _lay_on,
    "AssembleOnPoint": _assemble_on_point,
    "TrimEven": _trim_even,
}
