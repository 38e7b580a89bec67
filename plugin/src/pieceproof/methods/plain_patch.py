"""Plain patch: one rectangle of one fabric. Cut size = finished + 2s."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pieceproof.methods.method import Lesson, Method, Recipe, Workroom, cut_finished, no_fault
from pieceproof.model import FabricName, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import rectangle
from pieceproof.steps import Take, Yield


@dataclass(frozen=True)
class PlainPatch(Unit):
    """One rectangle of one fabric."""

    size: Annotated[Size, "Finished width x height"]
    fabric: Annotated[FabricName, "Its fabric"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.fabric,)


def _patches(unit: PlainPatch) -> tuple[Patch, ...]:
    return (Patch(unit.fabric, rectangle(unit.size.width, unit.size.height)),)


def _recipe(unit: PlainPatch, room: Workroom) -> Recipe:
    cut = cut_finished("patch", unit.fabric, unit.size, room)
    return Recipe((cut,), 1, (Take("patch", "patch"), Yield(("patch",))))


_LESSON = Lesson(
    "A rectangle of one fabric with a size of its own. Beside other units a fabric's "
    "name alone will do: its row and column give the size.",
    """\
size: 3 x 2
fabric: slate
""",
)

METHOD = Method(
    "plain patch", PlainPatch, lambda u: u.size, _patches, _recipe, no_fault, lesson=_LESSON
)
