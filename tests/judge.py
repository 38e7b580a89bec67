"""A second, independent sewing of a publication, to judge what the bench says.

It sews with floating-point polygons of an outside geometry library (Shapely, GEOS) and shares no
code with the package but the published data types. It knows nothing of sizes that ought to be:
it only says what cloth comes out, so it can tell whether two publications make the same quilt.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import hypot
from typing import Any

from shapely import Polygon, affinity
from shapely.geometry.base import BaseGeometry

from pieceproof.published import Picture, Publication
from pieceproof.steps import Slope, Step

_TINY = 1e-6

Patches = list[tuple[str, Polygon]]


@dataclass
class _Pile:
    """Cloth that lies on the judge's table: visible patches of one or two layers, and seams."""

    lower: Patches
    upper: Patches
    seams: list[tuple[float, float, float]]


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
        name: [_inside(thing, seam) for thing in things]
        for name, things in _sew_all(publication).items()
    }


def _inside(patches: Patches, seam: float) -> Patches:
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
        p.letter: [(p.fabric, _box(0, 0, float(p.short), float(p.long)))]
        for p in publication.pieces
    }
    made: dict[str, list[Patches]] = {}
    for make in publication.makes:
        made[make.name] = _sew_steps(make.steps, stock)
        stock[make.name] = made[make.name][0]
    return made


def _sew_steps(steps: Sequence[Step], stock: Mapping[str, Patches]) -> list[Patches]:
    table: dict[str, _Pile] = {}
    done: list[Patches] = []
    for step in steps:
        name = type(step).__name__
        if name == "Yield":
            done += [_home(table.pop(item).lower) for item in step.items]
        else:
            _JUDGE[name](table, step, stock)
    return done


def _take(table: dict[str, _Pile], step: Any, stock: Mapping[str, Patches]) -> None:
    table[step.item] = _Pile(_rotated(stock[step.source], step.turn), [], [])


def _turn(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    table[step.item].lower = _rotated(table[step.item].lower, step.turn)


def _layer(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    under, over = table[step.lower], _flipped(table.pop(step.upper).lower)
    x0, y0, x1, y1 = _extent(under.lower)
    u0, v0, u1, v1 = _extent(over)
    words = step.corner.value
    dx = x0 - u0 if "left" in words else x1 - u1
    dy = y0 - v0 if "top" in words else y1 - v1
    under.upper = _mapped(over, lambda g: affinity.translate(g, dx, dy))


def _sew(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    table[step.item].seams.append(_line(table[step.item], step.line))


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
    words = step.toward.value
    right = ("right" in words) - ("left" in words)
    down = ("bottom" in words) - ("top" in words)
    a, b, c = seam
    if abs(a * right + b * down) < _TINY:
        raise ValueError("folded along its own seam")
    if a * right + b * down > 0:
        a, b, c = -a, -b, -c
    body = (a, b, c)
    matrix = [1 - 2 * a * a, -2 * a * b, -2 * a * b, 1 - 2 * b * b, 2 * a * c, 2 * b * c]
    folded = _mapped(_clipped(pile.upper, body), lambda g: affinity.affine_transform(g, matrix))
    table[step.item] = _Pile(_home(_clipped(pile.lower, body) + folded), [], [])


def _trim(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    pile = table[step.item]
    left, top = float(step.off_left), float(step.off_top)
    window = _box(left, top, left + float(step.width), top + float(step.height))
    pile.lower = _home(_common(_home(pile.lower), window))


def _join(table: dict[str, _Pile], step: Any, _: Mapping[str, Patches]) -> None:
    base, added = table[step.item], table.pop(step.added)
    turns = {"right": 0, "top": 1, "left": 2, "bottom": 3}[step.side.value]
    row = [_rotated(base.lower, turns), _rotated(added.lower, turns)]
    base.lower = _rotated(_side_by_side(row, float(step.allowance)), -turns)


def _assemble(table: dict[str, _Pile], step: Any, stock: Mapping[str, Patches]) -> None:
    a = float(step.allowance)
    rows = [_side_by_side([_rotated(stock[c.source], c.turn) for c in row], a) for row in step.rows]
    whole = _side_by_side([_rotated(row, 3) for row in rows], a)
    table[step.item] = _Pile(_rotated(whole, 1), [], [])


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
    parts = ((fabric, outline.intersection(window)) for fabric, outline in patches)
    return [(fabric, part) for fabric, part in parts if part.area > _TINY]


def _mapped(patches: Patches, motion: Any) -> Patches:
    return [(fabric, motion(outline)) for fabric, outline in patches]


def _rotated(patches: Patches, turns: int) -> Patches:
    """Clockwise as seen; with y down that is a positive angle."""
    return _home(_mapped(patches, lambda g: affinity.rotate(g, 90 * turns, origin=(0, 0))))


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
    "Layer": _layer,
    "Sew": _sew,
    "CutApart": _cut_apart,
    "Open": _open,
    "Trim": _trim,
    "Join": _join,
    "Assemble": _assemble,
}
