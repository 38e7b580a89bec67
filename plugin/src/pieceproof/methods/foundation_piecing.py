"""Foundation piecing: sections sewn one after the other on the lines of a printed foundation.

A piece is a rectangle, larger than its section with all seam allowances, along the line it is
sewn on and square to it: by 1/2 in or 1 cm. With seams of 1/4 in or 0.75 cm that is 1 in or 2.5 cm
more than the finished section each way, as is common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Annotated

from quicktions import Fraction

from pieceproof.lengths import sign
from pieceproof.methods.foundations import (
    Spread,
    foundation_recipe,
    section_patches,
    sections_in,
)
from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
)
from pieceproof.model import (
    AtLeast,
    AtMost,
    Example,
    FabricName,
    Measure,
    Node,
    Size,
    Unit,
    ZeroToo,
)
from pieceproof.published import Patch
from pieceproof.shapes import Line, Point, line_through, rectangle
from pieceproof.steps import Guide
from pieceproof.wording import one_of, write_instead


class Toward(Enum):
    """Where a section lies, seen from its line."""

    LEFT = "left"
    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP_LEFT = "top left"
    TOP_RIGHT = "top right"
    BOTTOM_RIGHT = "bottom right"
    BOTTOM_LEFT = "bottom left"


_CORNERS = ("top left", "top right", "bottom right", "bottom left")
"""Points that have their names without being listed, in the order of a rectangle's corners."""


@dataclass(frozen=True)
class FoundationPoint(Node):
    """A point of the finished unit, measured from its top left corner."""

    across: Annotated[Fraction, "How far from the left edge", ZeroToo()] = Fraction(0)
    down: Annotated[Fraction, "How far from the top edge", ZeroToo()] = Fraction(0)


@dataclass(frozen=True)
class FoundationSection(Node):
    """A section after the first: what lies beyond its line, whatever was sewn there before."""

    fabric: Annotated[FabricName, "The fabric of the section"]
    line: Annotated[
        tuple[Annotated[str, Example("a")], ...],
        "The two points its seam runs through; corners of the unit are `top left` and so on",
        AtLeast(1), AtMost(2),
    ]  # fmt: skip
    toward: Annotated[Toward, "The side or corner the section lies toward, seen from the line"]


@dataclass(frozen=True)
class FoundationPiecing(Unit):
    """A unit of straight sections, sewn in the order given on a printed foundation."""

    size: Annotated[Size, "Finished width x height"]
    first: Annotated[FabricName, "The fabric of section 1, which is laid down first"]
    sections: Annotated[
        tuple[FoundationSection, ...], "Sections 2, 3 and so on, in sewing order",
        AtLeast(1), AtMost(40),
    ]  # fmt: skip
    points: Annotated[
        Mapping[str, FoundationPoint], "Points that lines run through, by names of your own",
        AtMost(80), Example("a"),
    ] = field(default_factory=dict)  # fmt: skip
    extra: Annotated[
        Fraction | None,
        "What a piece is larger each way than its section with the seam allowances; 1/2 in or "
        "1 cm if left out",
        ZeroToo(),
    ] = None

    def fabrics(self) -> tuple[str, ...]:
        return (self.first, *(section.fabric for section in self.sections))


def _points(unit: FoundationPiecing) -> Mapping[str, Point]:
    corners = dict(zip(_CORNERS, rectangle(unit.size.width, unit.size.height), strict=True))
    return {**corners, **{name: (p.across, p.down) for name, p in unit.points.items()}}


def _line(points: Mapping[str, Point], section: FoundationSection) -> Line:
    """The section's line; its positive side is where the section lies."""
    start, end = (points[name] for name in section.line)
    line = line_through(start, end)
    return line if _facing(line, section.toward) > 0 else line.flipped()


def _facing(line: Line, toward: Toward) -> int:
    """Positive, zero or negative as the line's positive side faces that way."""
    words = toward.value.split()
    right = ("right" in words) - ("left" in words)
    down = ("bottom" in words) - ("top" in words)
    return sign(line.a * right + line.b * down)


def _spreads(unit: FoundationPiecing, extra: Fraction) -> tuple[Spread, ...]:
    points = _points(unit)
    lines = [_line(points, section) for section in unit.sections]
    fabrics = (unit.first, *(section.fabric for section in unit.sections))
    return tuple(
        Spread(f"section {number}", fabric, line, Guide.LINE, extra)
        for number, (fabric, line) in enumerate(
            zip(fabrics, (lines[0], *lines), strict=True), start=1
        )
    )


def _patches(unit: FoundationPiecing) -> tuple[Patch, ...]:
    return section_patches(unit.size, _spreads(unit, Fraction(0)))


def _recipe(unit: FoundationPiecing, room: Workroom) -> Recipe:
    extra = room.ample if unit.extra is None else unit.extra
    return foundation_recipe(unit.size, _spreads(unit, extra), room)


def _fault(unit: FoundationPiecing, measure: Measure, _seam: Fraction) -> Fault | None:
    return next(_faults(unit, measure), None)


def _faults(unit: FoundationPiecing, measure: Measure) -> Iterator[Fault]:
    yield from _point_faults(unit, measure)
    line_faults = [f for n, s in enumerate(unit.sections, 2) for f in _line_faults(unit, n, s)]
    yield from line_faults
    if line_faults or not unit.sections:
        return
    whole = rectangle(unit.size.width, unit.size.height)
    shown = sections_in(whole, _spreads(unit, Fraction(0)))
    for number, outline in enumerate(shown, start=1):
        if not outline:
            yield Fault(
                "sections",
                f"section {number}, which shows nothing once all sections are sewn",
                "a part of the unit for every section",
                "move its line or a later one, check `toward`, or delete the section",
            )


def _point_faults(unit: FoundationPiecing, measure: Measure) -> Iterator[Fault]:
    width, height = unit.size.width, unit.size.height
    for name, point in unit.points.items():
        if name in _CORNERS:
            yield Fault(
                f"points/{name}",
                f"a point with the name `{name}`",
                "a name of its own; the corners of the unit have theirs already",
                "delete the point, or give it another name",
            )
        elif point.across > width or point.down > height:
            show = measure.show
            yield Fault(
                f"points/{name}",
                f"the point `{name}` at {show(point.across)} across, {show(point.down)} down",
                f"a point of the unit, at most {show(width)} across and {show(height)} down",
                f"use at most {show(width)} and {show(height)}, or make the unit larger",
            )


def _line_faults(
    unit: FoundationPiecing, number: int, section: FoundationSection
) -> Iterator[Fault]:
    points = _points(unit)
    strangers = [name for name in section.line if name not in points]
    if strangers:
        yield Fault(
            "sections",
            f"the point `{strangers[0]}` in the line of section {number}",
            f"a name under `points` or a corner: {one_of(points)}",
            write_instead(strangers[0], points, "list it under `points`"),
        )
    elif len({points[name] for name in section.line}) != 2:
        yield Fault(
            "sections",
            f"a line of section {number} without a direction",
            "two points in different places",
            "name two points: `line: [a, b]`",
        )
    elif _facing(line_through(*(points[n] for n in section.line)), section.toward) == 0:
        yield Fault(
            "sections",
            f"section {number} toward the {section.toward.value}, along its own line",
            "a direction away from the line",
            "use a side or corner that lies on one side of the line",
        )


_LESSON = Lesson(
    "Sharp points and odd angles at any scale: seams are sewn on printed lines, so "
    "the pieces may be cut roughly.",
    """\
size: 4 x 4
first: slate
sections:
  - {fabric: mist, line: [tip, bottom left], toward: top left}
  - {fabric: reed, line: [tip, bottom right], toward: top right}
points:
  tip: {across: 2}
""",
)

METHOD = Method(
    "foundation piecing",
    FoundationPiecing,
    lambda u: u.size,
    _patches,
    _recipe,
    _fault,
    pressing=Pressing.LATER,
    lesson=_LESSON,
)
