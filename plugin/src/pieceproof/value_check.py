"""Do the colourways read: is every patch told from its neighbours, in grey and by other eyes?

In: a design and which of its fabrics meet. Out: for each colourway the value of every fabric and
the neighbours that come close, by name and place; problems only where the writer demands a least
difference. Two parts played by one cloth are meant to merge and are left out.

What counts as close is this house's choice, without a source: in grey less than half a value step,
in colour about four times what the eye just tells apart side by side.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pieceproof.colours import (
    STEPS,
    Eyes,
    difference,
    difference_seen,
    lightness,
    value_step,
)
from pieceproof.model import Cloth, ClothName, Colour, Colourway, Design, FabricName, Lab, Value
from pieceproof.neighbours import Meeting
from pieceproof.problems import Problem

LEAST_GREY = 10.0
"""In CIE L*: half of a value step."""

LEAST_COLOUR = 10.0
"""In CIEDE2000."""


@dataclass(frozen=True)
class Shade:
    """How light the cloth is that plays a fabric: CIE L*, and its value step from 1."""

    fabric: str
    cloth: ClothName
    lightness: float
    step: int

    @property
    def word(self) -> str:
        """The value step in words."""
        return STEPS[self.step - 1]


@dataclass(frozen=True)
class Pair:
    """Neighbours in one colourway: how much they differ in grey, in colour, and to which eyes."""

    meeting: Meeting
    grey: float
    colour: float
    eyes: tuple[tuple[Eyes, float], ...]

    @property
    def is_close_in_grey(self) -> bool:
        return self.grey < LEAST_GREY

    @property
    def close_to(self) -> tuple[Eyes, ...]:
        """Eyes to which the two are close."""
        return tuple(eyes for eyes, seen in self.eyes if seen < LEAST_COLOUR)

    @property
    def merges(self) -> bool:
        """Close in every way: in grey and in colour to some eyes."""
        return self.is_close_in_grey and (self.colour < LEAST_COLOUR or bool(self.close_to))


@dataclass(frozen=True)
class Reading:
    """One colourway: all fabrics in order of use, all neighbours of different cloth.

    ``contrary`` are neighbours of which the one meant to be lighter is not.
    """

    colourway: str
    shades: tuple[Shade, ...]
    pairs: tuple[Pair, ...]
    contrary: tuple[Meeting, ...]

    @property
    def nearest(self) -> Pair | None:
        """The neighbours that differ least in grey."""
        return min(self.pairs, key=lambda pair: pair.grey, default=None)

    def shade(self, fabric: str) -> Shade:
        """The shade of one fabric."""
        return next(shade for shade in self.shades if shade.fabric == fabric)


def readings(design: Design, found: Sequence[Meeting]) -> tuple[Reading, ...]:
    """All colourways."""
    return tuple(_reading(design, key, way, found) for key, way in design.colourways.items())


def reading_with(
    design: Design, key: str, parts: Mapping[FabricName, ClothName], found: Sequence[Meeting]
) -> Reading:
    """A colourway with other cloths for some of its parts."""
    way = design.colourways[key]
    return _reading(design, key, replace(way, parts={**way.parts, **parts}), found)


def demanded_values(design: Design, found: Sequence[Reading]) -> tuple[Problem, ...]:
    """A problem for each pair of neighbours nearer in value than the writer demands."""
    if design.values is None:
        return ()
    least = design.values.least
    return tuple(
        Problem(
            design.colourways[reading.colourway].at[f"parts/{pair.meeting.other}"],
            "values-too-near",
            f"{_names(design, pair.meeting)} in the colourway {reading.colourway}: "
            f"{pair.grey:.1f} of 100 apart in lightness",
            f"{least} or more between neighbours, as `values` demands",
            "take a lighter or a darker cloth for one of them",
        )
        for reading in found
        for pair in reading.pairs
        if pair.grey < least
    )


def notes(design: Design, found: Sequence[Reading]) -> Iterator[Problem]:
    """What a writer should look at; nothing here stops a pattern."""
    for reading in found:
        at = design.colourways[reading.colourway].at
        for pair in reading.pairs:
            if pair.merges:
                yield Problem(
                    at[f"parts/{pair.meeting.other}"],
                    "values-merge",
                    f"{_names(design, pair.meeting)}, which meet in {pair.meeting.make}, "
                    f"{pair.grey:.1f} apart in lightness in {reading.colourway}",
                    f"neighbours {LEAST_GREY:.0f} or more of 100 apart, or told apart by colour",
                    "audition another cloth for one of them, or leave it if it is meant",
                )
        for meeting in reading.contrary:
            one, other = (_called(design, name) for name in (meeting.one, meeting.other))
            yield Problem(
                at[f"parts/{meeting.other}"],
                "value-contrary",
                f"{one} lighter and {other} darker by `value`, the other way round in "
                f"{reading.colourway}",
                "cloths as light or dark as `value` says",
                "change `value` if every colourway has it so; otherwise leave it if it is meant",
            )


def measured(cloth: Cloth) -> Colour | Lab:
    """A cloth's colour as it is known best."""
    return cloth.lab or cloth.colour


def _reading(design: Design, key: str, way: Colourway, found: Sequence[Meeting]) -> Reading:
    colours = {name: measured(design.cloths[cloth]) for name, cloth in way.parts.items()}
    shades = tuple(
        Shade(
            name,
            way.parts[FabricName(name)],
            lightness(colours[FabricName(name)]),
            value_step(colours[FabricName(name)]),
        )
        for name in design.fabrics
    )
    apart = [m for m in found if way.parts[FabricName(m.one)] != way.parts[FabricName(m.other)]]
    pairs = tuple(_pair(m, colours[FabricName(m.one)], colours[FabricName(m.other)]) for m in apart)
    light = {shade.fabric: shade.lightness for shade in shades}
    return Reading(key, shades, pairs, tuple(_contrary(design, light, apart)))


def _pair(meeting: Meeting, one: Colour | Lab, other: Colour | Lab) -> Pair:
    return Pair(
        meeting,
        round(abs(lightness(one) - lightness(other)), 1),
        difference(one, other),
        tuple((eyes, difference_seen(one, other, eyes)) for eyes in Eyes),
    )


def _contrary(
    design: Design, light: dict[str, float], found: Sequence[Meeting]
) -> Iterator[Meeting]:
    """Neighbours meant to be light and dark that are dark and light, the lighter by value first."""
    for meeting in found:
        one, other = sorted(
            (meeting.one, meeting.other), key=lambda name: _ORDER[design.fabrics[name].value]
        )
        meant = _ORDER[design.fabrics[one].value] < _ORDER[design.fabrics[other].value]
        if meant and light[one] + LEAST_GREY <= light[other]:
            yield Meeting(one, other, meeting.make)


def _names(design: Design, meeting: Meeting) -> str:
    return f"{_called(design, meeting.one)} and {_called(design, meeting.other)}"


def _called(design: Design, fabric: str) -> str:
    return design.fabrics[fabric].called


_ORDER = {Value.LIGHT: 0, Value.MEDIUM: 1, Value.DARK: 2}
