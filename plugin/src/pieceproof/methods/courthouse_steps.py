"""Courthouse steps: a centre with logs sewn to opposite sides, pair after pair.

Light logs go to the top and the bottom, dark ones to the left and the right, so that steps of light
and dark face each other.
"""

from __future__ import annotations

from dataclasses import dataclass

from quicktions import Fraction

from pieceproof.methods.logs import (
    Log,
    LogUnit,
    log_fault,
    log_parts,
    log_patches,
    log_recipe,
    log_size,
    logs_of,
)
from pieceproof.methods.method import (
    Fault,
    Lesson,
    Method,
    Pressing,
    Recipe,
    Workroom,
)
from pieceproof.model import Measure, Size
from pieceproof.published import Patch
from pieceproof.steps import Side


@dataclass(frozen=True)
class CourthouseSteps(LogUnit):
    """A centre with pairs of logs: light on the top and bottom, dark on the left and right."""


def _logs(unit: CourthouseSteps) -> tuple[Log, ...]:
    return logs_of(unit, (Side.TOP, Side.BOTTOM), (Side.LEFT, Side.RIGHT))


def _size(unit: CourthouseSteps) -> Size:
    return log_size(unit.centre_size, _logs(unit))


def _patches(unit: CourthouseSteps) -> tuple[Patch, ...]:
    return log_patches(unit, _logs(unit))


def _recipe(unit: CourthouseSteps, room: Workroom) -> Recipe:
    return log_recipe(unit, _logs(unit), room)


def _fault(unit: CourthouseSteps, measure: Measure, seam: Fraction) -> Fault | None:
    return log_fault(unit, measure, seam)


_LESSON = Lesson(
    "Narrow strips in pairs round a centre: steps of light and dark face each other.",
    """\
centre: clay
centre size: 1 1/2 x 1 1/2
light: {fabrics: [mist, reed], widths: [1]}
dark: {fabrics: [slate, night], widths: [1]}
""",
)

METHOD = Method(
    "courthouse steps",
    CourthouseSteps,
    _size,
    _patches,
    _recipe,
    _fault,
    parts=log_parts,
    pressing=Pressing.LATER,
    lesson=_LESSON,
)
