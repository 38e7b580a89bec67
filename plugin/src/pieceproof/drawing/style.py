"""The one visual language of all drawings: weights, dashes, letters, inks and hatches.

Goes in: nothing. Comes out: constants and two small look-ups. It draws nothing.

All sizes are screen units: CSS pixels when a drawing is shown at the width it was made for. A
drawing made 360 wide and printed across a page is the large-print drawing; nothing else changes.
"""

from dataclasses import dataclass
from enum import StrEnum

from pieceproof.colours import luminance

from .scene import AreaKind, ArrowKind, LineKind, TextKind

INK = "#29251f"
SOFT_INK = "#5d564b"
FAINT_INK = "#a39b8d"
ACCENT = "#97301f"
PAPER = "#ffffff"
PALE_SEAM = "#cfc8ba"


class Look(StrEnum):
    """How cloth is shown."""

    COLOUR = "colour"
    """Flat colours."""
    INK = "ink"
    """Black on white, value as hatching."""
    OUTLINE = "outline"
    """Outlines only: a page to colour in."""


@dataclass(frozen=True)
class Stroke:
    """A line: weight and dashes in screen units, its ink, and a paper casing on each side."""

    weight: float
    dashes: str = ""
    ink: str = INK
    casing: float = 0.0


@dataclass(frozen=True)
class Face:
    """A text: size in screen units, weight and ink."""

    size: float
    weight: str
    ink: str = INK


@dataclass(frozen=True)
class Hatch:
    """Parallel lines: angles in degrees, distance and weight in screen units."""

    angles: tuple[float, ...]
    spacing: float
    weight: float


FONT = "sans-serif"
CAPITAL_CENTRE = 0.36
"""Baseline below the middle of a capital, as a part of the text size."""

MARGIN = 8.0
HALO = 2.8
LETTER_ROOM = 20.0
"""What a letter and its halo need to stand inside a shape."""
TEXT_GAP = 7.0
LINE_STEP = 1.3
DISC = 11.0

AREA_EDGE = {
    AreaKind.PATCH: Stroke(1.0),
    AreaKind.PIECE: Stroke(1.5, casing=1.0),
    AreaKind.TOP: Stroke(0.5),
    AreaKind.CLOTH: Stroke(1.0, ink=SOFT_INK),
    AreaKind.OFFCUT: Stroke(0.9, "3 3", SOFT_INK),
    AreaKind.GHOST: Stroke(0.9, "2 4", FAINT_INK),
}
PALE_PART = 0.7
"""Between two dark cloths the outline is pale, and this much thinner."""
NEVER_FILLED = (AreaKind.OFFCUT, AreaKind.GHOST)

LINES = {
    LineKind.EDGE: Stroke(1.5),
    LineKind.FOLD: Stroke(1.1, "9 3 1.5 3", casing=0.9),
    LineKind.DRAWN: Stroke(1.4, "1.4 3.2", casing=0.9),
    LineKind.SEAM: Stroke(1.3, "5 3.5", casing=0.9),
    LineKind.CUT: Stroke(1.7, ink=ACCENT, casing=0.9),
    LineKind.LEADER: Stroke(0.8, ink=SOFT_INK, casing=0.8),
}

TEXTS = {
    TextKind.PIECE: Face(15.0, "bold"),
    TextKind.STEP: Face(13.0, "bold", PAPER),
    TextKind.LABEL: Face(14.0, "bold"),
    TextKind.CAPTION: Face(13.0, "normal"),
    TextKind.MEASURE: Face(13.0, "normal"),
}

MEASURE_LINE = Stroke(0.8, ink=SOFT_INK)
MEASURE_FIRST = 13.0
"""From the shape to the first dimension line."""
MEASURE_CLEAR = 3.0
"""From the shape to the start of an end bar, and from the dimension line to the bar's tip."""
MEASURE_TEXT_GAP = 5.0
TIER_HIGH = 27.0
TIER_WIDE = 55.0

ARROWS = {
    ArrowKind.PRESS: Stroke(2.2, ink=ACCENT, casing=1.5),
    ArrowKind.PRESS_OPEN: Stroke(2.2, ink=ACCENT, casing=1.5),
    ArrowKind.NEXT: Stroke(1.6, ink=SOFT_INK),
    ArrowKind.GRAIN: Stroke(1.0, casing=1.2),
}
TWO_HEADED = (ArrowKind.PRESS_OPEN, ArrowKind.GRAIN)
HEAD_LENGTH = 9.0
HEAD_HALF = 4.6

HATCHES = {
    1: Hatch((), 1.0, 0.0),
    2: Hatch((62.0,), 9.0, 0.8),
    3: Hatch((118.0,), 5.5, 0.9),
    4: Hatch((28.0,), 3.5, 1.0),
    5: Hatch((62.0, 152.0), 3.6, 1.25),
}
TOP_HATCH = 0.6
"""A whole top shows small patches: its hatch is this much closer and finer."""


def hatch_of(value: int, kind: AreaKind) -> Hatch:
    """Return the hatch of a value from 1, the lightest (no lines), to 5, the darkest."""
    hatch = HATCHES[value]
    if kind is not AreaKind.TOP:
        return hatch
    return Hatch(hatch.angles, hatch.spacing * TOP_HATCH, hatch.weight * TOP_HATCH)


def is_dark(colour: str) -> bool:
    """Tell whether an outline in ink cannot be seen between two cloths of such colours."""
    return luminance(colour) < 0.08


def text_width(text: str, face: Face) -> float:
    """Return about how wide a text is in screen units, on the generous side."""
    boldness = 1.08 if face.weight == "bold" else 1.0
    return boldness * face.size * sum(_advance(letter) for letter in text)


def _advance(letter: str) -> float:
    """Return the advance of a letter in ems; measured on a wide sans-serif face, rounded up."""
    if letter in " .,:;'|!/()[]ijlftI":
        return 0.37
    if letter in "mwMW%@" or ord(letter) > 0x2000:
        return 1.0
    return 0.72 if letter.isupper() else 0.64
