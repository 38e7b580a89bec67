"""Photographs of cloth as patterns that repeat at their true scale.

Goes in: the address of a picture and how wide and high the cloth in it is. Comes out: an SVG
pattern. It opens no picture.
"""

from dataclasses import dataclass
from typing import SupportsFloat

from .markup import tag


@dataclass(frozen=True)
class Photograph:
    """A picture's address, and the cloth in it in the scene's units."""

    href: str
    width: SupportsFloat
    height: SupportsFloat


def repeated(photograph: Photograph, ident: str, scale: float) -> str:
    """Return a pattern whose repeats start at (0, 0) of what it fills.

    WeasyPrint starts them at the top left corner of a shape instead, so a shape is to have that
    corner at (0, 0).
    """
    sides = photograph.width, photograph.height
    width, height = (f"{float(side) * scale:.5f}" for side in sides)
    size = {"width": width, "height": height}
    image = tag("image", {"href": photograph.href, **size, "preserveAspectRatio": "none"})
    return tag("pattern", {"id": ident, "patternUnits": "userSpaceOnUse", **size}, image)
