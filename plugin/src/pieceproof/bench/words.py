"""What the bench says: disagreements, and steps and sizes in a pattern writer's words.

In: steps and exact numbers. Out: sentences. Nothing is compared or computed here but text.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from pieceproof.lengths import Number, Surd, show_decimal, show_exact, show_fraction
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    CloseSeam,
    Cover,
    CrossCut,
    CutApart,
    Edge,
    Foundation,
    Join,
    JoinEdges,
    JoinMitred,
    JoinPart,
    Layer,
    Middle,
    Open,
    SeamLine,
    Sew,
    Step,
    Take,
    Trim,
    TrimEven,
    TrimLike,
    TrimTips,
    TrimToFoundation,
    Turn,
    TurnEighths,
    Unpick,
    Yield,
)


@dataclass(frozen=True)
class Disagreement:
    """One place where the pattern's numbers and the sewn cloth differ.

    ``where`` is a make's name, or the list that is wrong. ``step`` counts the make's steps from
    1 and is 0 where no single step is meant; ``doing`` is that step in words. ``letter`` names
    the piece, or the pieces as ``A, B``, or is "". ``expected`` is what the pattern says or asks
    for, ``found`` what came off the bench or stands in the list; ``by`` says how much, or is ""
    where nothing is to be measured.
    """

    where: str
    step: int
    doing: str
    letter: str
    expected: str
    found: str
    by: str


def show_disagreement(disagreement: Disagreement) -> str:
    """One disagreement as a single paragraph."""
    d = disagreement
    step = f", step {d.step} ({d.doing})" if d.step else ""
    piece = f", piece {d.letter}" if d.letter else ""
    by = f" ({d.by})" if d.by else ""
    return f"{d.where}{step}{piece}: expected {d.expected}, found {d.found}{by}."


def length(value: Number) -> str:
    """A length: irrational ones with their decimal value, tenths as decimals, else fractions."""
    if isinstance(value, Surd):
        return f"{show_exact(value)} (about {float(value):.4f})"
    return show_decimal(value) if value.denominator % 5 == 0 else show_fraction(value)


def size(width: Number, height: Number) -> str:
    """``3 1/2 x 5 wide by high`` in short."""
    return f"{length(width)} x {length(height)}"


def excess(found: Number, expected: Number, more: str, less: str) -> str:
    """How much too much or too little, "" if neither: ``1/8 too wide``."""
    difference = found - expected
    if difference == 0:
        return ""
    return f"{length(difference)} {more}" if difference > 0 else f"{length(-difference)} {less}"


def size_excess(found: tuple[Number, Number], expected: tuple[Number, Number]) -> str:
    """How much too wide or tall a thing is."""
    parts = (
        excess(found[0], expected[0], "too wide", "too narrow"),
        excess(found[1], expected[1], "too tall", "too short"),
    )
    return ", ".join(part for part in parts if part)


def counted(count: int, thing: str) -> str:
    """``1 round``, ``2 rounds``."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def count_excess(found: int, expected: int) -> str:
    """How many too many or too few."""
    return f"{abs(found - expected)} {'too many' if found > expected else 'too few'}"


def describe(step: Step) -> str:
    """A step in words."""
    return _DESCRIBE[type(step)](step)


def describe_line(line: SeamLine) -> str:
    """A line on the cloth in words."""
    if isinstance(line, Edge):
        return f"{length(line.inset)} inside the {line.side.value} edge"
    if isinstance(line, Middle):
        return f"the {line.way.value} line through the middle"
    if line.offset == 0:
        return f"the diagonal from {line.slope.value}"
    side = "above" if line.offset > 0 else "below"
    return f"{length(abs(line.offset))} {side} the diagonal from {line.slope.value}"


def _take(step: Take) -> str:
    return f"take {step.source}"


def _layer(step: Layer) -> str:
    return f"lay {step.upper} on {step.lower}, {step.corner.value} corners even"


def _sew(step: Sew) -> str:
    return f"sew {step.item} along {describe_line(step.line)}"


def _unpick(step: Unpick) -> str:
    return f"take out the stray stitches of {step.item} beyond its {step.toward.value} seam"


def _cut_apart(step: CutApart) -> str:
    return f"cut {step.item} along {describe_line(step.line)}"


def _open(step: Open) -> str:
    return f"open {step.item} toward the {step.toward.value}"


def _turn(step: Turn) -> str:
    return f"turn {step.item} by {counted(step.turn, 'quarter')}"


def _trim(step: Trim) -> str:
    return f"trim {step.item} to {size(step.width, step.height)}"


def _turn_eighths(step: TurnEighths) -> str:
    return f"turn {step.item} by {step.eighths} eighths"


def _trim_tips(step: TrimTips) -> str:
    return f"trim {step.item} along its {step.edge.value} edge"


def _trim_like(step: TrimLike) -> str:
    return f"trim {step.item} to the size of {step.like}"


def _join_edges(step: JoinEdges) -> str:
    return (
        f"sew the {step.added_edge.value} edge of {step.added} to the {step.edge.value} edge "
        f"of {step.item}, {step.meeting.value} together"
    )


def _join(step: Join) -> str:
    return f"sew {step.added} to the {step.side.value} of {step.item}"


def _join_mitred(step: JoinMitred) -> str:
    return f"sew {step.left}, {step.top}, {step.right}, {step.bottom} to {step.item}, mitred"


def _assemble(step: Assemble) -> str:
    return f"join {counted(len(step.rows), 'row')} to {step.item}"


def _assemble_on_point(step: AssembleOnPoint) -> str:
    return f"join {counted(len(step.rows), 'diagonal row')} to {step.item}"


def _trim_even(step: TrimEven) -> str:
    return f"trim {step.item} to {size(step.width, step.height)}"


def _yield(step: Yield) -> str:
    return f"finish {', '.join(step.items)}{f' as {step.extra}' if step.extra else ''}"


def _cross_cut(step: CrossCut) -> str:
    segments = counted(step.count, "segment")
    return f"cut {segments} {length(step.width)} wide from the {step.side.value} of {step.item}"


def _join_part(step: JoinPart) -> str:
    return (
        f"sew {step.added} to the {step.side.value} of {step.item}, from the {step.start.value} "
        "to the middle"
    )


def _close_seam(step: CloseSeam) -> str:
    return f"finish the open seam of {step.item}"


def _foundation(step: Foundation) -> str:
    sections = counted(len(step.sections), "section")
    return f"lay out a foundation of {size(step.width, step.height)} with {sections}"


def _cover(step: Cover) -> str:
    return f"cover section {step.section} of {step.item} with {step.added}"


def _trim_to_foundation(step: TrimToFoundation) -> str:
    return f"trim {step.item} along its foundation"


_DESCRIBE: Mapping[type, Callable[[Any], str]] = {
    Take: _take,
    Layer: _layer,
    Sew: _sew,
    Unpick: _unpick,
    CutApart: _cut_apart,
    Open: _open,
    Turn: _turn,
    TurnEighths: _turn_eighths,
    Trim: _trim,
    TrimTips: _trim_tips,
    TrimLike: _trim_like,
    Join: _join,
    JoinEdges: _join_edges,
    JoinMitred: _join_mitred,
    Assemble: _assemble,
    AssembleOnPoint: _assemble_on_point,
    TrimEven: _trim_even,
    Yield: _yield,
    CrossCut: _cross_cut,
    JoinPart: _join_part,
    CloseSeam: _close_seam,
    Foundation: _foundation,
    Cover: _cover,
    TrimToFoundation: _trim_to_foundation,
}
