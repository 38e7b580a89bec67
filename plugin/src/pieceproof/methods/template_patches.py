"""Template patches: straight-sided patches of any shape, joined by whole seams in a given order.

A join whose seam turns is set in: the seams that end where it turns stop at the seam corner.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.methods.method import Fault, Lesson, Method, Recipe, Workroom
from pieceproof.methods.patchwork import patches_of, patchwork_recipe
from pieceproof.methods.seams import seams_in_order
from pieceproof.methods.templates import Shaped
from pieceproof.methods.tiling import (
    clockwise,
    crosses_itself,
    filled,
    unmatched,
    with_meeting_corners,
)
from pieceproof.model import (
    AtLeast,
    AtMost,
    Example,
    FabricName,
    Measure,
    Node,
    Position,
    Size,
    Unit,
)
from pieceproof.published import Patch
from pieceproof.shapes import Point, area, rectangle, tidy

_CORNERS = ("top left", "top right", "bottom right", "bottom left")


@dataclass(frozen=True)
class PatchShape(Node):
    """One patch: its fabric and its corners in order, round one way or the other."""

    fabric: Annotated[FabricName, "The patch's fabric"]
    corners: Annotated[
        tuple[Annotated[str, "A point's name", AtMost(40), Example("tip")], ...],
        "Names of points, or the unit's own corners such as top left",
        AtLeast(3),
        AtMost(40),
    ]


@dataclass(frozen=True)
class TemplatePatches(Unit):
    """A rectangle of patches cut by templates."""

    size: Annotated[Size, "Finished width x height"]
    patches: Annotated[
        Mapping[str, PatchShape], "The patches", AtLeast(1), AtMost(60), Example("sail")
    ]
    points: Annotated[
        Mapping[str, Position], "Points from the top left corner, finished", AtMost(200),
        Example("tip"),
    ]  # fmt: skip
    order: Annotated[
        tuple[
            Annotated[
                tuple[Annotated[str, "A patch's name", AtMost(40), Example("sail")], ...],
                AtLeast(2),
            ],
            ...,
        ],
        "Which patches are sewn together first, then what those are sewn to; as listed if left out",
        AtMost(60),
    ] = ()

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(patch.fabric for patch in self.patches.values()))


def _points(unit: TemplatePatches) -> Mapping[str, Point]:
    own = dict(zip(_CORNERS, rectangle(unit.size.width, unit.size.height), strict=True))
    return {**own, **{name: (p.across, p.down) for name, p in unit.points.items()}}


def _plain_shapes(unit: TemplatePatches) -> tuple[Shaped, ...]:
    points = _points(unit)
    return tuple(
        Shaped(name, patch.fabric, clockwise(tidy([points[c] for c in patch.corners])))
        for name, patch in unit.patches.items()
    )


def _shapes(unit: TemplatePatches) -> tuple[Shaped, ...]:
    return with_meeting_corners(_plain_shapes(unit))


def _patches(unit: TemplatePatches) -> tuple[Patch, ...]:
    return patches_of(_shapes(unit))


def _order(unit: TemplatePatches) -> tuple[tuple[str, str], ...]:
    rows = unit.order or (tuple(unit.patches),)
    return tuple((row[0], name) for row in rows for name in row[1:])


def _recipe(unit: TemplatePatches, room: Workroom) -> Recipe:
    edge = rectangle(unit.size.width, unit.size.height)
    return patchwork_recipe(_shapes(unit), _order(unit), edge, room)


def _fault(unit: TemplatePatches, measure: Measure, _seam: Fraction) -> Fault | None:
    return next(_faults(unit, measure), None)


def _faults(unit: TemplatePatches, measure: Measure) -> Iterator[Fault]:
    """Each check may rely on those before it, so only the first fault is worth telling."""
    yield from _point_faults(unit, measure)
    yield from _corner_faults(unit)
    yield from _order_names(unit)
    yield from _outline_faults(unit)
    yield from _gaps(unit, measure)
    yield from _order_faults(unit)


def _point_faults(unit: TemplatePatches, measure: Measure) -> Iterator[Fault]:
    show = measure.show
    for name, place in unit.points.items():
        if place.across > unit.size.width or place.down > unit.size.height:
            yield Fault(
                f"points/{name}",
                f"point `{name}` at {show(place.across)} across {show(place.down)} down",
                f"a place in {show(unit.size.width)} x {show(unit.size.height)}",
                f"use at most {show(unit.size.width)} across and {show(unit.size.height)} down, or "
                "make the unit larger",
            )
        if name in _CORNERS:
            yield Fault(
                f"points/{name}",
                f"a point named `{name}`",
                "another name: this one is the unit's own corner",
                "use the corner without giving it a place, or rename the point",
            )


def _corner_faults(unit: TemplatePatches) -> Iterator[Fault]:
    known = _points(unit)
    for name, patch in unit.patches.items():
        for number, corner in enumerate(patch.corners, 1):
            if corner not in known:
                yield Fault(
                    f"patches/{name}",
                    f"corner {number} of patch `{name}` at `{corner}`",
                    "a name from `points`, `top left`, `top right`, `bottom right` or "
                    "`bottom left`",
                    f"add `{corner}: 1 across 2 down` to `points`, with its own place",
                )


def _order_names(unit: TemplatePatches) -> Iterator[Fault]:
    for name in (name for row in unit.order for name in row):
        if name not in unit.patches:
            yield Fault(
                "order",
                f"`{name}` in the order of sewing",
                f"one of the patches {', '.join(f'`{known}`' for known in unit.patches)}",
                "write the patch's name as under `patches`",
            )


def _outline_faults(unit: TemplatePatches) -> Iterator[Fault]:
    points = _points(unit)
    for name, patch in unit.patches.items():
        outline = tidy([points[corner] for corner in patch.corners])
        if not outline or area(outline) == 0 or crosses_itself(outline):
            yield Fault(
                f"patches/{name}",
                f"patch `{name}` with an outline that crosses itself or holds no cloth",
                "corners in order, once round the patch",
                "put its corners into the order in which you would walk round it",
            )


def _gaps(unit: TemplatePatches, measure: Measure) -> Iterator[Fault]:
    shapes = _shapes(unit)
    found = unmatched(shapes, unit.size)
    if found is not None:
        name, (p, q) = found
        yield Fault(
            f"patches/{name}",
            f"patch `{name}` with nothing or several patches beside its side from "
            f"{_at(measure, p)} to {_at(measure, q)}",
            "patches that fill the unit without gap or overlap",
            "give both patches the same points along the side they share",
        )
    elif filled(shapes) != unit.size.width * unit.size.height:
        yield Fault(
            "patches",
            "patches that do not fill the unit",
            f"{measure.show(unit.size.width)} x {measure.show(unit.size.height)} filled once",
            "add the missing patch, or take out the one that lies on others",
        )


def _at(measure: Measure, place: Point) -> str:
    across, down = place
    assert isinstance(across, Fraction)
    assert isinstance(down, Fraction)
    return f"{measure.show(across)} across {measure.show(down)} down"


def _order_faults(unit: TemplatePatches) -> Iterator[Fault]:
    _, wrong = seams_in_order(_shapes(unit), _order(unit))
    if wrong:
        yield Fault(
            "order" if unit.order else "patches",
            wrong,
            "joins along one seam each, until all patches are one",
            "list in `order` which patches are sewn together first: `[[a, b], [c, d], [a, c]]`",
        )


_LESSON = Lesson(
    "Pictures of straight lines: patches of any shape are cut by templates and sewn "
    "in the order you give. Where a seam turns, a patch is set in.",
    """\
size: 4 x 6
points:
  foot left: 0 across 5 down
  foot right: 4 across 5 down
  tack: 3 across 5 down
patches:
  hull: {fabric: night, corners: [foot left, foot right, bottom right, bottom left]}
  sail: {fabric: clay, corners: [top left, foot left, tack]}
  sky: {fabric: mist, corners: [top left, tack, foot right, top right]}
order: [[sail, sky], [hull, sail]]
""",
)

METHOD = Method(
    "template patches", TemplatePatches, lambda u: u.size, _patches, _recipe, _fault, lesson=_LESSON
)
