"""Shapes on a ground: the steps that lay them on, the common part of two methods.

A shape goes where the middle of its extent is measured from the middle of the ground, which is
found by folding the ground in quarters. Shapes laid on later cover earlier ones.
"""

from __future__ import annotations

from collections.abc import Sequence

from quicktions import Fraction

from pieceproof.lengths import Number
from pieceproof.methods.templates import Shaped
from pieceproof.model import Size
from pieceproof.published import Patch
from pieceproof.shapes import bounds, rectangle
from pieceproof.steps import LayOn

GROUND = "ground"


def with_ground(fabric: str, size: Size, layers: Sequence[Sequence[Shaped]]) -> tuple[Patch, ...]:
    """The ground, then the shapes layer by layer."""
    return (
        Patch(fabric, rectangle(size.width, size.height)),
        *(
            Patch(shape.fabric, shape.outline, number)
            for number, layer in enumerate(layers, 1)
            for shape in layer
        ),
    )


def lay_on(name: str, shapes: Sequence[Shaped], size: Size, allowance: Fraction) -> LayOn:
    """Lays the shapes that are joined under a name on the ground."""
    box = bounds(shape.outline for shape in shapes)
    across: Number = (box.left + box.right - size.width) / 2
    down: Number = (box.top + box.bottom - size.height) / 2
    return LayOn(GROUND, name, across, down, allowance)
