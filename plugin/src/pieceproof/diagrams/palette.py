"""Colours of the cloths in scenes, for one colourway.

In: a design and the name of a colourway. Out: "#rrggbb" for every fabric, and for every fabric
seen from its wrong side a paler one.
"""

from __future__ import annotations

from collections.abc import Mapping

from pieceproof.diagrams.subject import WRONG_SIDE
from pieceproof.model import ClothName, Design, FabricName

_PALE = 0.72
_PAPER = "#fbfaf6"


def palette(design: Design, colourway: str) -> Mapping[str, str]:
    """Colours by the cloth names that scenes use."""
    parts = design.colourways[colourway].parts
    right = {name: design.cloths[parts[FabricName(name)]].colour.lower() for name in design.fabrics}
    wrong = {name + WRONG_SIDE: _mixed(colour, _PAPER, _PALE) for name, colour in right.items()}
    return {**right, **wrong}


def colour_of(design: Design, cloth: ClothName) -> str:
    """The colour of one cloth."""
    return design.cloths[cloth].colour.lower()


def _mixed(colour: str, other: str, share: float) -> str:
    channels = (
        round((1 - share) * int(colour[i : i + 2], 16) + share * int(other[i : i + 2], 16))
        for i in (1, 3, 5)
    )
    return "#" + "".join(f"{channel:02x}" for channel in channels)
