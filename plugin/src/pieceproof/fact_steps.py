"""Sewing steps as lines of facts: every number of a step in words, one idea a line.

In: a step and the letters of pieces. Out: what follows the step's number in its key, and the words.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TypeAlias

from pieceproof.lengths import Number, Surd, show_exact
from pieceproof.model import Measure
from pieceproof.steps import (
    Assemble,
    AssembleOnPoint,
    CloseSeam,
    Cover,
    CrossCut,
    CutApart,
    Diagonal,
    Edge,
    Foundation,
    Join,
    JoinEdges,
    JoinMarks,
    JoinMitred,
    JoinPart,
    Layer,
    LayOn,
    Middle,
    Open,
    Placed,
    SeamLine,
    Sew,
    Slope,
    Step,
    Take,
    Trim,
    TrimEven,
    TrimLike,
    TrimTips,
    TrimToFoundation,
    Turn,
    TurnEdge,
    TurnEighths,
    Unpick,
    Yield,
)

Line = tuple[str, str]

_BESIDE = {
    (Slope.RISING, True): "toward the top left",
    (Slope.RISING, False): "toward the bottom right",
    (Slope.FALLING, True): "toward the top right",
    (Slope.FALLING, False): "toward the bottom left",
}
"""Where a line lies that is moved off a diagonal, forwards or not (see `steps.Diagonal`)."""


_Seam: TypeAlias = (
    JoinEdges | JoinMitred | CrossCut | JoinPart | CloseSeam | Cover | TrimToFoundation
)


def step_lines(measure: Measure, step: Step, letters: Collection[str]) -> Iterator[Line]:
    """The lines of one step."""
    if isinstance(step, Assemble):
        yield from _assemble(measure, step, letters)
    elif isinstance(step, AssembleOnPoint):
        yield from _assemble_on_point(measure, step, letters)
    elif isinstance(step, TrimEven):
        yield "", _trim_even(measure, step)
    elif isinstance(step, Foundation):
        yield from _foundation(measure, step)
    elif isinstance(step, JoinMarks | TurnEdge | LayOn):
        yield "", _template_step(measure, step)
    elif isinstance(step, _Seam):
        yield "", _seam_sentence(measure, step)
    else:
        yield "", _sentence(measure, step, letters)


def _sentence(measure: Measure, step: Step, letters: Collection[str]) -> str:
    match step:
        case Take():
            return f"take {_source(step.source, step.turn, letters)} as {step.item}"
        case Layer():
            return f"lay {step.upper} on {step.lower}, {step.corner.value} corners even"
        case Sew():
            return f"sew {step.item} along {_line(measure, step.line)}"
        case CutApart():
            first, second = (part or "an offcut" for part in (step.first, step.second))
            return f"cut {step.item} along {_line(measure, step.line)} into {first} and {second}"
        case Open():
            return f"open {step.item} to the {step.toward.value}, press {step.press.value}"
        case Turn() | TurnEighths() | Unpick() | TrimTips():
            return _without_lengths(step)
        case Trim():
            size = f"{measure.show(step.width)} x {measure.show(step.height)}"
            return f"trim {step.item} to {size}, taking off {_off(measure, step)}"
        case TrimLike():
            off = _off(measure, step)
            return f"trim {step.item} to the size of {step.like}, taking off {off}"
        case Join():
            return (
                f"sew {step.added} to the {step.side.value} of {step.item}, seam "
                f"{measure.show(step.allowance)}, press {step.press.value}"
            )
        case Yield():
            return f"done{f' as {step.extra}' if step.extra else ''}: {', '.join(step.items)}"
        case _:
            raise AssertionError("the others have lines of their own")


def _seam_sentence(measure: Measure, step: _Seam) -> str:
    match step:
        case JoinEdges():
            return (
                f"sew the {step.added_edge.value} edge of {step.added} to the {step.edge.value} "
                f"edge of {step.item}, {step.meeting.value} together, seam "
                f"{measure.show(step.allowance)}, press {step.press.value}"
            )
        case JoinMitred():
            return (
                f"sew {step.left}, {step.top}, {step.right} and {step.bottom} round {step.item}, "
                f"reaching {measure.show(step.beyond_sides)} beyond it on the sides and "
                f"{measure.show(step.beyond_ends)} at the ends, seam "
                f"{measure.show(step.allowance)}, press {step.press.value}, mitre the corners"
            )
        case CrossCut():
            width = measure.show(step.width)
            return (
                f"cut {step.count} segments {width} wide from the {step.side.value} of {step.item}"
            )
        case JoinPart():
            return (
                f"sew {step.added} to the {step.side.value} of {step.item} from the "
                f"{step.start.value} to the middle, seam {measure.show(step.allowance)}, press "
                f"{step.press.value}"
            )
        case CloseSeam():
            return f"finish the open seam of {step.item}, press {step.press.value}"
        case Cover():
            more = " and ".join(_exact(measure, n) for n in (step.longer, step.deeper))
            return (
                f"cover section {step.section} of {step.item} with {step.added} "
                f"{step.guide.value}, longer and deeper than it by {more}"
            )
        case TrimToFoundation():
            return f"trim {step.item} along its foundation"


def _without_lengths(step: Turn | TurnEighths | Unpick | TrimTips) -> str:
    match step:
        case Turn():
            return f"turn {step.item} by {step.turn} quarters clockwise"
        case TurnEighths():
            return f"turn {step.item} by {step.eighths} eighths clockwise"
        case Unpick():
            return f"take out the stray stitches of {step.item} at its {step.toward.value} seam"
        case TrimTips():
            return f"trim {step.item} along its {step.edge.value} edge"


def _template_step(measure: Measure, step: JoinMarks | TurnEdge | LayOn) -> str:
    match step:
        case JoinMarks():
            marks = ", ".join(
                f"{s.piece} {s.start}-{s.end} on {s.added_piece} {s.added_start}-{s.added_end}"
                for s in step.stretches
            )
            return (
                f"sew {step.added} to {step.item} along the marks {marks}, turning "
                f"{step.turns} corners, from {step.begin.value} to {step.end.value}, "
                f"seam {measure.show(step.allowance)}, press {step.press.value}"
            )
        case TurnEdge():
            edge = f"{step.piece} {step.start}-{step.end}"
            return f"turn {step.item} so that its edge {edge} is the {step.side.value}"
        case LayOn():
            across, down = (_exact(measure, v) for v in (step.across, step.down))
            return (
                f"lay {step.added} on {step.item}, its middle {across} right of and {down} below "
                f"the middle, {measure.show(step.allowance)} turned under"
            )


def _assemble(measure: Measure, step: Assemble, letters: Collection[str]) -> Iterator[Line]:
    for number, (row, press) in enumerate(zip(step.rows, step.row_press, strict=True), 1):
        yield f", row {number}", ", ".join(_placed(cell, letters) for cell in row)
        yield f", row {number}, press", press
    yield ", press between rows", step.between
    yield ", seam", measure.show(step.allowance)


def _assemble_on_point(
    measure: Measure, step: AssembleOnPoint, letters: Collection[str]
) -> Iterator[Line]:
    for number, (row, press) in enumerate(zip(step.rows, step.row_press, strict=True), 1):
        cells = [cell for cell in (row.first, *row.cells, row.last) if cell is not None]
        yield f", row {number}", ", ".join(_placed(cell, letters) for cell in cells)
        yield f", row {number}, starts further right by", str(row.start)
        yield f", row {number}, press", press
    yield ", top left corner", _placed(step.top_left, letters)
    yield ", bottom right corner", _placed(step.bottom_right, letters)
    yield ", press between rows", step.between
    yield ", seam", measure.show(step.allowance)


def _foundation(measure: Measure, step: Foundation) -> Iterator[Line]:
    size = f"{measure.show(step.width)} x {measure.show(step.height)}"
    yield "", f"lay out a foundation of {size} as {step.item}"
    for number, outline in enumerate(step.sections, 1):
        corners = ("/".join(_exact(measure, n) for n in corner) for corner in outline)
        yield f", printed section {number}", ", ".join(corners)


def _placed(cell: Placed, letters: Collection[str]) -> str:
    return _source(cell.source, cell.turn, letters)


def _source(source: str, turn: int, letters: Collection[str]) -> str:
    name = f"piece {source}" if source in letters else source
    return f"{name} turned {turn}" if turn else name


def _line(measure: Measure, line: SeamLine) -> str:
    if isinstance(line, Edge):
        return f"a line {measure.show(line.inset)} inside the {line.side.value} edge"
    if isinstance(line, Middle):
        return f"the {line.way.value} line through the middle"
    return _diagonal(measure, line)


def _diagonal(measure: Measure, line: Diagonal) -> str:
    name = f"the diagonal from {line.slope.value}"
    if not line.offset:
        return name
    beside = _BESIDE[line.slope, line.offset > 0]
    return f"a line {measure.show(abs(line.offset))} off {name}, {beside}"


def _off(measure: Measure, step: Trim | TrimLike) -> str:
    sides = {
        "left": step.off_left,
        "top": step.off_top,
        "right": step.off_right,
        "bottom": step.off_bottom,
    }
    return ", ".join(f"{side} {_exact(measure, amount)}" for side, amount in sides.items())


def _trim_even(measure: Measure, step: TrimEven) -> str:
    size = f"{measure.show(step.width)} x {measure.show(step.height)}"
    off, least = (
        f"left and right {_exact(measure, sides)}, top and bottom {_exact(measure, ends)}"
        for sides, ends in ((step.off_sides, step.off_ends), (step.least_sides, step.least_ends))
    )
    return f"trim {step.item} to {size}, taking off {off}; of exact pieces {least}"


def _exact(measure: Measure, amount: Number) -> str:
    return show_exact(amount) if isinstance(amount, Surd) else measure.show(amount)
