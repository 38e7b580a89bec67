"""Log cabin: a centre with logs sewn round and round it, clockwise.

Light logs go to the top and the right, dark ones to the bottom and the left, so that a diagonal
parts light from dark.
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
class LogCabin(LogUnit):
    """A centre with logs round it: light on the top and right, dark on the bottom and left."""


def _logs(unit: LogCabin) -> tuple[Log, ...]:
    return logs_of(unit, (Side.TOP, Side.RIGHT), (Side.BOTTOM, Side.LEFT))


def _size(unit: LogCabin) -> Size:
    return log_size(unit.centre_size, _logs(unit))


def _patches(unit: LogCabin) -> tuple[Patch, ...]:
    return log_patches(unit, _logs(unit))


def _recipe(unit: LogCabin, room: Workroom) -> Recipe:
    return log_recipe(unit, _logs(unit), room)


def _fault(unit: LogCabin, measure: Measure, seam: Fraction) -> Fault | None:
    return log_fault(unit, measure, seam)


_LESSON = Lesson(
    "Narrow strips of many fabrics round a centre. A diagonal parts light from dark, "
    "so that turned blocks draw larger figures.",
    """\
centre: clay
centre size: 1 1/2 x 1 1/2
light: {fabrics: [mist, reed], widths: [1]}
dark: {fabrics: [slate, night], widths: [1]}
""",
)

METHOD = Method(
    "log cabin",
    LogCabin,
    _size,
    _patches,
    _recipe,
    _fault,
    parts=log_parts,
    pressing=Pressing.LATER,
    lesson=_LESSON,
)
