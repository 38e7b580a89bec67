"""What can be chosen on a pattern's page, and how the choice is shown.

In: all sizes of a pattern and the widths it is planned for. Out: the axes of choice, and the
buttons and words that show them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pieceproof.compile import Sized
from pieceproof.model import Colourway, Design, FabricName, Measure
from pieceproof.pages.choices import Axis, Option, Variant, button_id
from pieceproof.pages.tokens import token

MOST_DOTS = 6
HANDS = (Option("right", "the right hand"), Option("left", "the left hand"))


@dataclass(frozen=True)
class Axes:
    """Everything that can be chosen."""

    size: Axis
    colourway: Axis
    width: Axis
    measure: Axis
    hand: Axis

    @property
    def all(self) -> tuple[Axis, ...]:
        """In the order of the page."""
        return (self.size, self.colourway, self.width, self.measure, self.hand)


@dataclass(frozen=True)
class Button:
    """One radio button; ``colours`` are dots beside its label."""

    ident: str
    token: str
    label: str
    colours: tuple[str, ...]


@dataclass(frozen=True)
class Question:
    """One row of buttons, and the label of the button that is chosen."""

    axis: Axis
    options: tuple[Button, ...]
    chosen: tuple[Variant[str], ...]


def axes_of(sizes: Sequence[Sized], widths: Sequence[Option]) -> Axes:
    """What can be chosen; the cloth's usual yardage follows the pattern's own unit."""
    design = sizes[0].design
    return Axes(
        Axis("size", "Size", tuple(Option(token(s.design.size), s.design.label) for s in sizes)),
        Axis(
            "colourway",
            "Colourway",
            tuple(Option(token(key), way.name) for key, way in design.colourways.items()),
        ),
        Axis("width", "Usable width of cloth", tuple(widths)),
        Axis("measure", "Units", _units(design.measure)),
        Axis("hand", "You cut with", HANDS),
    )


def questions(axes: Axes, design: Design) -> tuple[Question, ...]:
    """The rows of buttons; nothing is asked where there is one answer."""
    dots = {token(key): dots_of(design, way) for key, way in design.colourways.items()}
    return tuple(
        question(axis, dots if axis is axes.colourway else {})
        for axis in axes.all
        if len(axis.options) > 1
    )


def question(axis: Axis, dots: Mapping[str, tuple[str, ...]] | None = None) -> Question:
    """One row of buttons; ``dots`` by token."""
    return Question(
        axis,
        tuple(
            Button(
                button_id(axis, option),
                option.token,
                option.label,
                (dots or {}).get(option.token, ()),
            )
            for option in axis.options
        ),
        tuple(Variant({axis.key: (option.token,)}, option.label) for option in axis.options),
    )


def dots_of(design: Design, colourway: Colourway) -> tuple[str, ...]:
    """The colours of a colourway's cloths, in order of use, each once."""
    used = (colourway.parts[FabricName(part)] for part in design.fabrics)
    return tuple(dict.fromkeys(str(design.cloths[cloth].colour) for cloth in used))[:MOST_DOTS]


def _units(measure: Measure) -> tuple[Option, ...]:
    yards, metres = Option("yards", "inches, yards"), Option("metres", "metric")
    return (yards, metres) if measure is Measure.INCH else (metres, yards)
