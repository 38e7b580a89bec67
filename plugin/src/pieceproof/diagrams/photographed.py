"""Photographed cloths of one colourway, for drawings that are complete in themselves.

In: a design, a colourway, the prints of its cloths, and a scale. Out: a photograph for every part
that such a cloth plays, as large as the drawing shows it on a fine screen or on paper.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from math import ceil

from pieceproof.drawing.photographs import Photograph
from pieceproof.model import Design
from pieceproof.swatches import Print, shrunk

SHARP = 2
"""Pixels of the picture to a screen unit."""


def photographed(
    design: Design, colourway: str, prints: Mapping[str, Print], scale: float
) -> Mapping[str, Photograph]:
    """Photographs by the cloth names that scenes use; ``scale`` is pixels per cloth unit."""
    parts = design.colourways[colourway].parts
    shown = {str(part): prints[cloth] for part, cloth in parts.items() if cloth in prints}
    return {part: _photograph(found, scale) for part, found in shown.items()}


def _photograph(found: Print, scale: float) -> Photograph:
    file = shrunk(found.picture, SHARP * ceil(float(found.width) * scale))
    address = f"data:image/{file.kind};base64,{b64encode(file.data).decode()}"
    return Photograph(address, found.width, found.height)
