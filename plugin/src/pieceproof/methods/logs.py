"""Logs: strips sewn one after the other to the sides of a growing rectangle.

The common part of several methods. Each log is cut to its exact length: as long as the side it is
sewn to, so finished length + 2s by finished width + 2s, and squares up what it is sewn to.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Annotated

from quicktions import Fraction

from pieceproof.methods.method import Fault, Recipe, Workroom, cut_finished, off_the_ruler
from pieceproof.model import AtLeast, AtMost, FabricName, Measure, Node, Size, Unit
from pieceproof.published import Patch, Picture
from pieceproof.shapes import Point, rectangle
from pieceproof.steps import Assemble, Join, Placed, Press, Side, Step, Take, Yield

MOST_ROUNDS = 30
MOST_PATCHES = 6
CENTRE = " centre"
"""Behind the unit's name: its centre, where it is pieced."""


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

    centre: Annotated[FabricName | None, "The fabric of a plain centre"] = field(
        default=None, kw_only=True
    )
    centre_rows: Annotated[
        tuple[Annotated[tuple[FabricName, ...], AtLeast(1), AtMost(MOST_PATCHES)], ...],
        "Fabrics of a pieced centre, row by row from the top, in patches of one size",
        AtMost(MOST_PATCHES),
    ] = field(default=(), kw_only=True)
    centre_size: Annotated[Size, "Finished width x height of the centre"]
    light: Annotated[Logs, "The two logs that begin each round"]
    dark: Annotated[Logs, "The two logs that end each round; the last round may do without"]

    def fabrics(self) -> tuple[str, ...]:
        pieced = (fabric for row in self.centre_rows for fabric in row)
        plain = () if self.centre is None else (self.centre,)
        return (*plain, *pieced, *self.light.fabrics, *self.dark.fabrics)


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


def log_parts(unit: LogUnit) -> tuple[Picture, ...]:
    """The centre where it is pieced, which is sewn first."""
    size = unit.centre_size
    patches = tuple(_centre_patches(unit, (Fraction(0), Fraction(0))))
    return (Picture(CENTRE, size.width, size.height, patches),) if unit.centre_rows else ()


def log_patches(unit: LogUnit, logs: Sequence[Log]) -> tuple[Patch, ...]:
    """The centre and then the logs in sewing order."""
    zero = Fraction(0)
    x = sum((log.width for log in logs if log.side is Side.LEFT), zero)
    y = sum((log.width for log in logs if log.side is Side.TOP), zero)
    at, size = (x, y), unit.centre_size
    patches = list(_centre_patches(unit, at))
    for log in logs:
        patches.append(_log_patch(log, at, size))
        left = log.width if log.side is Side.LEFT else zero
        top = log.width if log.side is Side.TOP else zero
        at, size = (at[0] - left, at[1] - top), _grown(size, log)
    return tuple(patches)


def log_recipe(unit: LogUnit, logs: Sequence[Log], room: Workroom) -> Recipe:
    """The centre and one strip for each log; one unit a round."""
    size = unit.centre_size
    plain = unit.centre is not None
    cuts = [cut_finished("centre", unit.centre, size, room)] if unit.centre is not None else []
    steps: list[Step] = [Take("centre", "centre" if plain else CENTRE)]
    for log in logs:
        cuts.append(cut_finished(log.name, log.fabric, _laid(log, size), room))
        join = Join("centre", log.name, log.side, room.seam, Press.ONTO_ADDED)
        steps += [Take(log.name, log.name), join]
        size = _grown(size, log)
    parts = {} if plain else {CENTRE: _centre_recipe(unit, room)}
    return Recipe(tuple(cuts), 1, (*steps, Yield(("centre",))), parts)


def log_fault(unit: LogUnit, measure: Measure, seam: Fraction) -> Fault | None:
    """Lists that do not match, or widths that cannot be cut."""
    fault = _centre_fault(unit)
    if fault is not None:
        return fault
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
    patch = _centre_patch(unit)
    centre = (patch.width, patch.height)
    for key, sizes in (
        ("centre size", centre), ("light", unit.light.widths), ("dark", unit.dark.widths)
    ):  # fmt: skip
        fault = off_the_ruler(key, sizes, measure, seam)
        if fault is not None:
            return fault
    return None


def _centre_patch(unit: LogUnit) -> Size:
    """The finished size of a patch of the centre; the whole of a plain one."""
    size, rows = unit.centre_size, unit.centre_rows or ((),)
    return Size(size.width / max(1, len(rows[0])), size.height / len(rows))


def _centre_patches(unit: LogUnit, at: Point) -> Iterator[Patch]:
    size = _centre_patch(unit)
    if unit.centre is not None:
        yield Patch(unit.centre, rectangle(size.width, size.height, at))
    for j, row in enumerate(unit.centre_rows):
        for i, fabric in enumerate(row):
            place = (at[0] + i * size.width, at[1] + j * size.height)
            yield Patch(fabric, rectangle(size.width, size.height, place))


def _centre_recipe(unit: LogUnit, room: Workroom) -> Recipe:
    """A patch a piece, sewn in rows."""
    size, rows = _centre_patch(unit), unit.centre_rows
    slots = [[f"row {j} patch {i}" for i in range(1, len(r) + 1)] for j, r in enumerate(rows, 1)]
    cuts = (
        cut_finished(slot, fabric, size, room)
        for names, row in zip(slots, rows, strict=True)
        for slot, fabric in zip(names, row, strict=True)
    )
    placed = tuple(tuple(Placed(slot, 0) for slot in names) for names in slots)
    press = tuple(("right", "left")[j % 2] for j in range(len(rows)))
    join = Assemble("centre", placed, room.seam, press, "down")
    return Recipe(tuple(cuts), 1, (join, Yield(("centre",))))


def _centre_fault(unit: LogUnit) -> Fault | None:
    rows = unit.centre_rows
    if (unit.centre is None) == (not rows):
        found = "neither `centre` nor `centre rows`" if not rows else "`centre` and `centre rows`"
        return Fault(
            "centre rows" if rows else "method",
            found,
            "one of the two: a fabric, or rows of fabrics for a pieced centre",
            "write `centre:` with a fabric" if not rows else "delete one of them",
        )
    if (
        any(len(row) != len(rows[0]) for row in rows)
        or len(rows) * len(rows[0] if rows else ()) == 1
    ):
        return Fault(
            "centre rows",
            f"rows of {', '.join(str(len(row)) for row in rows)} patches",
            "rows of equally many patches, two in all at least",
            "write as many fabrics in each row, or `centre:` for a plain one",
        )
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
