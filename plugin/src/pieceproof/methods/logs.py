"""Logs: strips sewn one after the other to the sides of a growing rectangle.

The common part of several methods. Each log is cut to its exact length: as long as the side it is
sewn to, so finished length + 2s by finished width + 2s, and squares up what it is sewn to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from quicktions import Fraction

from pieceproof.methods.method import Fault, Recipe, Workroom, cut_finished, off_the_ruler
from pieceproof.model import AtLeast, AtMost, FabricName, Measure, Node, Size, Unit
from pieceproof.published import Patch
from pieceproof.shapes import Point, rectangle
from pieceproof.steps import Join, Press, Side, Step, Take, Yield

MOST_ROUNDS = 30


@dataclass(frozen=True)
class Logs(Node):
    """The logs of half a round, from the inside out."""

    fabrics: Annotated[
        tuple[FabricName, ...], "One fabric for each round, inside first",
        AtLeast(1), AtMost(MOST_ROUNDS),
    ]  # fmt: skip
    widths: Annotated[
        tuple[Fraction, ...], "Finished widths, one for each round or one for all",
        AtLeast(1), AtMost(MOST_ROUNDS),
    ]  # fmt: skip

    def width(self, number: int) -> Fraction:
        """The width in a round, counted from 0."""
        return self.widths[0] if len(self.widths) == 1 else self.widths[number]


@dataclass(frozen=True)
class LogUnit(Unit):
    """A centre with rounds of logs, two light ones and two dark ones in each."""

    centre: Annotated[FabricName, "The fabric of the centre"]
    centre_size: Annotated[Size, "Finished width x height of the centre"]
    light: Annotated[Logs, "The two logs that begin each round"]
    dark: Annotated[Logs, "The two logs that end each round; the last round may do without"]

    def fabrics(self) -> tuple[str, ...]:
        return (self.centre, *self.light.fabrics, *self.dark.fabrics)


@dataclass(frozen=True)
class Log:
    """One log: its name, the side it is sewn to, its fabric and finished width."""

    name: str
    side: Side
    fabric: str
    width: Fraction


def logs_of(unit: LogUnit, light: Sequence[Side], dark: Sequence[Side]) -> tuple[Log, ...]:
    """All logs in sewing order, the light and dark ones of a round on these sides."""
    return tuple(
        Log(f"{word} {number + 1} {side.value}", side, logs.fabrics[number], logs.width(number))
        for number in range(len(unit.light.fabrics))
        for word, logs, sides in (("light", unit.light, light), ("dark", unit.dark, dark))
        if number < len(logs.fabrics)
        for side in sides
    )


def log_size(centre: Size, logs: Sequence[Log]) -> Size:
    """The finished size of a centre with its logs."""
    size = centre
    for log in logs:
        size = _grown(size, log)
    return size


def log_patches(centre: str, centre_size: Size, logs: Sequence[Log]) -> tuple[Patch, ...]:
    """The centre and then the logs in sewing order."""
    zero = Fraction(0)
    x = sum((log.width for log in logs if log.side is Side.LEFT), zero)
    y = sum((log.width for log in logs if log.side is Side.TOP), zero)
    at, size = (x, y), centre_size
    patches = [Patch(centre, rectangle(size.width, size.height, at))]
    for log in logs:
        patches.append(_log_patch(log, at, size))
        left = log.width if log.side is Side.LEFT else zero
        top = log.width if log.side is Side.TOP else zero
        at, size = (at[0] - left, at[1] - top), _grown(size, log)
    return tuple(patches)


def log_recipe(centre: str, centre_size: Size, logs: Sequence[Log], room: Workroom) -> Recipe:
    """The centre and one strip for each log; one unit a round."""
    cuts = [cut_finished("centre", centre, centre_size, room)]
    steps: list[Step] = [Take("centre", "centre")]
    size = centre_size
    for log in logs:
        cuts.append(cut_finished(log.name, log.fabric, _laid(log, size), room))
        join = Join("centre", log.name, log.side, room.seam, Press.ONTO_ADDED)
        steps += [Take(log.name, log.name), join]
        size = _grown(size, log)
    return Recipe(tuple(cuts), 1, (*steps, Yield(("centre",))))


def log_fault(unit: LogUnit, measure: Measure, seam: Fraction) -> Fault | None:
    """Lists that do not match, or widths that cannot be cut."""
    rounds = len(unit.light.fabrics)
    if rounds - len(unit.dark.fabrics) not in (0, 1):
        return Fault(
            "dark",
            f"{rounds} light and {len(unit.dark.fabrics)} dark fabrics",
            "as many dark as light fabrics, or one less for a last half round",
            f"list {rounds} dark fabrics, or as many light ones as dark ones",
        )
    for key, logs in (("light", unit.light), ("dark", unit.dark)):
        if len(logs.widths) not in (1, len(logs.fabrics)):
            return Fault(
                key,
                f"{len(logs.widths)} widths for {len(logs.fabrics)} fabrics",
                "one width for all rounds, or one for each fabric",
                f"list {len(logs.fabrics)} widths, or one",
            )
    centre = (unit.centre_size.width, unit.centre_size.height)
    for key, sizes in (
        ("centre size", centre), ("light", unit.light.widths), ("dark", unit.dark.widths)
    ):  # fmt: skip
        fault = off_the_ruler(key, sizes, measure, seam)
        if fault is not None:
            return fault
    return None


def _laid(log: Log, size: Size) -> Size:
    """A log's finished size as it lies on its side of a rectangle."""
    if log.side in (Side.LEFT, Side.RIGHT):
        return Size(log.width, size.height)
    return Size(size.width, log.width)


def _grown(size: Size, log: Log) -> Size:
    if log.side in (Side.LEFT, Side.RIGHT):
        return Size(size.width + log.width, size.height)
    return Size(size.width, size.height + log.width)


def _log_patch(log: Log, at: Point, size: Size) -> Patch:
    laid, (x, y) = _laid(log, size), at
    corner = {
        Side.LEFT: (x - log.width, y),
        Side.TOP: (x, y - log.width),
        Side.RIGHT: (x + size.width, y),
        Side.BOTTOM: (x, y + size.height),
    }[log.side]
    return Patch(log.fabric, rectangle(laid.width, laid.height, corner))
