"""Captions and descriptions of the stages of a make.

In: snapshots of the bench and the steps behind them. Out: short captions with letters, and the
same told in full with what the fabrics are called.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from pieceproof.bench.watch import Moment, Snapshot
from pieceproof.diagrams.subject import Subject, called, length, piece_of, size
from pieceproof.diagrams.words import faces_in_words, sentence
from pieceproof.published import Make
from pieceproof.shapes import bounds
from pieceproof.steps import (
    CutApart,
    Diagonal,
    Edge,
    Join,
    Layer,
    Open,
    Press,
    SeamLine,
    Sew,
    Take,
    Trim,
)

_Naming = Callable[[str], str]


def how_many(make: Make) -> str:
    """``make 20`` or ``make 21, 1 spare``."""
    spare = f", {make.spare} spare" if make.spare else ""
    return f"make {make.rounds * make.each}{spare}"


def caption(subject: Subject, make: Make, snapshots: Sequence[Snapshot], index: int) -> str:
    """A few words for one stage, pieces by their letters."""
    parts = list(_stage(subject, make, snapshots[index], lambda source: source))
    if index == len(snapshots) - 1:
        parts += _end(subject, make, snapshots[index])
    return ". ".join(part[:1].upper() + part[1:] for part in parts)


def told(subject: Subject, make: Make, snapshots: Sequence[Snapshot]) -> str:
    """All stages in full sentences."""

    def named(source: str) -> str:
        piece = piece_of(subject, source)
        return f"{source} ({called(subject, piece.fabric)})" if piece else source

    stages = []
    for index, snapshot in enumerate(snapshots):
        parts = list(_stage(subject, make, snapshot, named))
        parts[1:1] = _seams(subject, snapshot)
        if index == len(snapshots) - 1:
            parts += _end(subject, make, snapshot)
        stages.append(sentence(f"stage {index + 1}: {'; '.join(parts)}"))
    return " ".join([*stages, sentence(f"it shows {faces_in_words(subject, make.name)}")])


def _stage(subject: Subject, make: Make, snapshot: Snapshot, named: _Naming) -> Iterator[str]:
    match snapshot.moment:
        case Moment.SEWN:
            yield _laid(make, snapshot, named)
        case Moment.CUT:
            yield _cut(subject, make, snapshot)
        case Moment.PRESSED:
            yield _pressed(make, snapshot, named)
        case Moment.JOINED:
            joins = [step for step in snapshot.steps if isinstance(step, Join)]
            yield f"sew {named(_source(make, joins[-1].added))} to the {joins[-1].side.value}"
        case Moment.TRIMMED:
            trim = next(step for step in snapshot.steps if isinstance(step, Trim))
            yield f"trim to {_square_or_size(subject, trim.width, trim.height)}"
        case Moment.LAID:
            yield "finished"


def _end(subject: Subject, make: Make, snapshot: Snapshot) -> Iterator[str]:
    if snapshot.moment is Moment.TRIMMED:
        yield f"{how_many(make)}, unfinished"
    else:
        yield how_many(make)
        yield f"unfinished {_square_or_size(subject, make.width, make.height)}"


def _square_or_size(subject: Subject, width: Fraction, height: Fraction) -> str:
    return f"{length(subject, width)} square" if width == height else size(subject, width, height)


def _laid(make: Make, snapshot: Snapshot, named: _Naming) -> str:
    layer = next(step for step in reversed(snapshot.steps) if isinstance(step, Layer))
    upper, lower = _source(make, layer.upper), _source(make, layer.lower)
    first = layer == next(step for step in make.steps if isinstance(step, Layer))
    thing = snapshot.lying[0]
    covers = bounds(f.outline for f in thing.over) == bounds(f.outline for f in thing.faces)
    if not first:
        return f"{named(upper)} on the {layer.corner.value} corner"
    where = "" if covers else f", {layer.corner.value} corner"
    return f"{named(upper)} on {named(lower)}{where}, right sides together"


def _cut(subject: Subject, make: Make, snapshot: Snapshot) -> str:
    cut = next(step for step in snapshot.steps if isinstance(step, CutApart))
    gap = min((g for s in _sewn_before(make, cut) if (g := _between(s, cut.line))), default=None)
    if "" not in (cut.first, cut.second) or gap is None:
        return "cut on the line"
    return f"cut {length(subject, gap)} beyond the seam"


def _sewn_before(make: Make, cut: CutApart) -> Iterator[SeamLine]:
    for step in make.steps[: make.steps.index(cut)]:
        if isinstance(step, Sew) and step.item == cut.item:
            yield step.line


def _between(seam: SeamLine, cut: SeamLine) -> Fraction | None:
    if isinstance(seam, Diagonal) and isinstance(cut, Diagonal) and seam.slope is cut.slope:
        return abs(seam.offset - cut.offset)
    if isinstance(seam, Edge) and isinstance(cut, Edge) and seam.side is cut.side:
        return abs(seam.inset - cut.inset)
    return None


def _pressed(make: Make, snapshot: Snapshot, named: _Naming) -> str:
    opened = next(step for step in reversed(snapshot.steps) if isinstance(step, Open))
    if opened.press is Press.OPEN:
        return "press the seam open"
    lower, upper = _layers_of(make, opened)
    return f"press toward {named(upper if opened.press is Press.ONTO_ADDED else lower)}"


def _layers_of(make: Make, opened: Open) -> tuple[str, str]:
    """What lay under and over in the thing that is opened."""
    layers: dict[str, tuple[str, str]] = {}
    for step in make.steps[: make.steps.index(opened)]:
        if isinstance(step, Layer):
            layers[step.lower] = (_source(make, step.lower), _source(make, step.upper))
        if isinstance(step, CutApart):
            layers |= {part: layers[step.item] for part in (step.first, step.second) if part}
    return layers[opened.item]


def _seams(subject: Subject, snapshot: Snapshot) -> list[str]:
    if snapshot.moment is not Moment.SEWN:
        return []
    lines = [step.line for step in snapshot.steps if isinstance(step, Sew)]
    if all(isinstance(line, Diagonal) and line.offset == 0 for line in lines[-1:]):
        return ["sew on the line drawn from corner to corner"]
    away = length(subject, _away(lines[-1]))
    if isinstance(lines[-1], Edge):
        return [f"sew {away} from the edge"]
    return [f"sew {away} from the drawn line" + (", on both sides of it" if lines[1:] else "")]


def _away(line: SeamLine) -> Fraction:
    return line.inset if isinstance(line, Edge) else abs(line.offset)


def _source(make: Make, item: str) -> str:
    """The piece or make that a thing was taken from; its own name if it was cut from another."""
    taken = {step.item: step.source for step in make.steps if isinstance(step, Take)}
    return taken.get(item, item)
