"""Applique: shapes of straight sides, and circles, sewn onto a ground.

Shapes lie as they are drawn. With an allowance their edges are turned under; without, they are
fused on with a raw edge, and the templates are drawn mirrored on the paper of the fusible web.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import ceil_to
from pieceproof.methods.arcs import bows, quarter
from pieceproof.methods.laid_shapes import GROUND, lay_on, with_ground
from pieceproof.methods.method import Fault, Lesson, Method, Recipe, Workroom, cut_finished
from pieceproof.methods.patchwork import cut_of
from pieceproof.methods.templates import AS_IT_LIES, Shaped, fit_templates
from pieceproof.methods.tiling import clockwise, crosses_itself
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
from pieceproof.shapes import bounds, tidy
from pieceproof.steps import Step, Take, Yield


@dataclass(frozen=True)
class AppliqueShape(Node):
    """One shape: corners, or a centre and a radius."""

    fabric: Annotated[FabricName, "The shape's fabric"]
    corners: Annotated[
        tuple[Annotated[str, "A point's name", AtMost(40), Example("tip")], ...],
        "Names of points, in order round a shape with straight sides",
        AtMost(40),
    ] = ()
    centre: Annotated[str, "The point in the middle of a circle", AtMost(40), Example("eye")] = ""
    radius: Annotated[Fraction | None, "The circle's finished radius"] = None


@dataclass(frozen=True)
class Applique(Unit):
    """A ground with shapes on it; later ones cover earlier ones."""

    size: Annotated[Size, "Finished width x height of the ground"]
    ground: Annotated[FabricName, "The ground"]
    points: Annotated[
        Mapping[str, Position], "Points from the top left corner, finished", AtLeast(1),
        AtMost(400), Example("tip"),
    ]  # fmt: skip
    shapes: Annotated[
        Mapping[str, AppliqueShape], "Shapes in the order of sewing on", AtLeast(1), AtMost(60),
        Example("leaf"),
    ]  # fmt: skip
    turn_under: Annotated[
        Fraction | None, "Allowance turned under; none for fused shapes with a raw edge"
    ] = None

    def fabrics(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((self.ground, *(s.fabric for s in self.shapes.values()))))


def _shapes(unit: Applique) -> tuple[Shaped, ...]:
    return tuple(_shape(unit, name, shape) for name, shape in unit.shapes.items())


def _shape(unit: Applique, name: str, shape: AppliqueShape) -> Shaped:
    places = {key: (place.across, place.down) for key, place in unit.points.items()}
    if shape.radius is None:
        outline = clockwise(tidy([places[corner] for corner in shape.corners]))
        return Shaped(name, shape.fabric, outline)
    centre, radius = places[shape.centre], shape.radius
    quarters = [quarter(centre, radius, turn) for turn in range(4)]
    return Shaped(
        name,
        shape.fabric,
        tuple(p for corners in quarters for p in corners[:-1]),
        tuple(bow for corners in quarters for bow in bows(corners, centre, radius)),
    )


def _patches(unit: Applique) -> tuple[Patch, ...]:
    return with_ground(unit.ground, unit.size, [(shape,) for shape in _shapes(unit)])


def _recipe(unit: Applique, room: Workroom) -> Recipe:
    allowance, shapes = unit.turn_under or Fraction(0), _shapes(unit)
    fitted = fit_templates(shapes, allowance, AS_IT_LIES, ())
    steps: list[Step] = [Take(GROUND, GROUND)]
    for shape in shapes:
        steps.append(Take(shape.name, shape.name))
        steps.append(lay_on(shape.name, [shape], unit.size, allowance))
    ground = cut_finished(GROUND, unit.ground, unit.size, room)
    cuts = (cut_of(shape.name, shape.fabric, fitted[shape.name], room) for shape in shapes)
    return Recipe((ground, *cuts), 1, (*steps, Yield((GROUND,))))


def _fault(unit: Applique, measure: Measure, _seam: Fraction) -> Fault | None:
    return next((f for name in unit.shapes for f in _shape_faults(unit, name, measure)), None)


def _shape_faults(unit: Applique, name: str, measure: Measure) -> Iterator[Fault]:
    """Each check may rely on those before it."""
    shape, key = unit.shapes[name], f"shapes/{name}"
    if name == GROUND:
        yield Fault(
            key, f"a shape named `{name}`", "another name", "rename it; the ground has that name"
        )
    round_one = shape.radius is not None and bool(shape.centre)
    if round_one == bool(shape.corners) or (shape.radius is None) == bool(shape.centre):
        yield Fault(
            key,
            f"shape `{name}` with {_given(shape)}",
            "either `corners`, or `centre` and `radius`",
            "give it one outline",
        )
        return
    for corner in (*shape.corners, *([shape.centre] if round_one else [])):
        if corner not in unit.points:
            yield Fault(
                key,
                f"`{corner}` in shape `{name}`",
                "a name from `points`",
                f"add `{corner}: 1 across 2 down` to `points`, with its own place",
            )
            return
    outline = _shape(unit, name, shape).outline if round_one or len(shape.corners) > 2 else ()
    if not outline or (not round_one and crosses_itself(outline)):
        yield Fault(
            key,
            f"shape `{name}` with an outline that crosses itself or holds no cloth",
            "three corners or more, in order once round the shape",
            "put its corners into the order in which you would walk round it",
        )
        return
    box, size = bounds([outline]), unit.size
    beyond = {
        "to the right": -box.left,
        "down": -box.top,
        "to the left": box.right - size.width,
        "up": box.bottom - size.height,
    }
    moves = [
        f"{measure.show(ceil_to(far, measure.step))} {way}"
        for way, far in beyond.items()
        if far > 0
    ]
    if moves:
        yield Fault(
            key,
            f"shape `{name}` that reaches beyond the ground",
            f"shapes inside {measure.show(size.width)} x {measure.show(size.height)}",
            f"move its points {' and '.join(moves)}, or make the ground larger",
        )


def _given(shape: AppliqueShape) -> str:
    keys = (
        ("corners", bool(shape.corners)),
        ("centre", bool(shape.centre)),
        ("radius", shape.radius is not None),
    )
    given = [f"`{key}`" for key, there in keys if there]
    return " and ".join(given) if given else "no outline"


_LESSON = Lesson(
    "Shapes that no seam could give, laid on a ground: turned under by hand, or fused "
    "with a raw edge where nothing is turned under.",
    """\
size: 8 x 8
ground: mist
points:
  stalk: 1 across 1 down
  bend: 5 across 2 down
  tip: 4 across 5 down
  side: 2 across 3 down
  eye: 5 1/2 across 5 1/2 down
shapes:
  leaf: {fabric: slate, corners: [stalk, bend, tip, side]}
  berry: {fabric: clay, centre: eye, radius: 1}
turn under: 1/4
""",
)

METHOD = Method("applique", Applique, lambda u: u.size, _patches, _recipe, _fault, lesson=_LESSON)
