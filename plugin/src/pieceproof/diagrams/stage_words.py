"""Captions and descriptions of the stages of a make.

In: snapshots of the bench and the steps behind them. Out: short captions with letters, and the
same told in full with what the fabrics are called.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from quicktions import Fraction

from pieceproof.bench.watch import Moment, Snapshot
from pieceproof.diagrams.subject import Subject, called, length, piece_of, size
from pieceproof.diagrams.words import counted, faces_in_words, sentence
from pieceproof.instructions import show_made, show_spare, show_unfinished
from pieceproof.published import Make, MakeKind
from pieceproof.shapes import bounds
from pieceproof.steps import (
    Cover,
    CrossCut,
    CutApart,
    Diagonal,
    Edge,
    Join,
    JoinEdges,
    JoinMarks,
    JoinPart,
    Layer,
    LayOn,
    Middle,
    Open,
    Press,
    SeamLine,
    Sew,
    Step,
    Take,
    Trim,
)

_Naming = Callable[[str], str]
_Sources = tuple[str, ...]

_JOINS = Join | JoinEdges | JoinPart | JoinMarks | LayOn


def how_many(make: Make) -> str:
    """``make 20``, ``make 21, 1 spare``, ``make 4 as drawn and 4 mirrored, 2 as drawn spare``."""
    spare = show_spare(make)
    return f"make {show_made(make)}{f', {spare} spare' if spare else ''}"


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
    yield from _others(make, snapshot)
    match snapshot.moment:
        case Moment.SEWN:
            yield _laid(make, snapshot, named)
        case Moment.CUT:
            yield _cut(subject, make, snapshot)
        case Moment.PRESSED:
            yield _pressed(make, snapshot, named)
        case Moment.JOINED:
            yield _joined(make, snapshot, named)
        case Moment.TRIMMED:
            yield _trimmed(subject, snapshot)
        case Moment.SLICED:
            cut = next(step for step in snapshot.steps if isinstance(step, CrossCut))
            yield f"cut across into {cut.count}, {length(subject, cut.width)} wide"
        case Moment.CLOSED:
            yield "finish the open seam"
        case Moment.COVERED:
            cover = next(s for s in reversed(snapshot.steps) if isinstance(s, Cover))
            yield f"section {cover.section}: {_of(make, cover.added, named)}"
        case Moment.LAID:
            yield "finished"


def _trimmed(subject: Subject, snapshot: Snapshot) -> str:
    trim = next((step for step in snapshot.steps if isinstance(step, Trim)), None)
    if trim is None:
        return "trim along the foundation"
    return f"trim to {_square_or_size(subject, trim.width, trim.height)}, unfinished"


def _end(subject: Subject, make: Make, snapshot: Snapshot) -> Iterator[str]:
    yield how_many(make)
    if make.kind is MakeKind.TRIANGLE:
        yield show_unfinished(subject.design.measure, make)
    elif snapshot.moment is not Moment.TRIMMED:
        yield f"unfinished {_square_or_size(subject, make.width, make.height)}"


def _square_or_size(subject: Subject, width: Fraction, height: Fraction) -> str:
    return f"{length(subject, width)} square" if width == height else size(subject, width, height)


def _joined(make: Make, snapshot: Snapshot, named: _Naming) -> str:
    last = next(s for s in reversed(snapshot.steps) if isinstance(s, _JOINS))
    added = _of(make, last.added, named)
    match last:
        case JoinEdges():
            return f"sew {added} to the {last.edge.value}"
        case JoinPart():
            start, side = last.start.value, last.side.value
            return f"sew {added} to the {side}, from the {start} to the middle only"
        case JoinMarks():
            return f"set in {added}" if last.turns else f"sew on {added}, mark to mark"
        case LayOn():
            return f"lay {added} on and sew down its edge"
        case _:
            return f"sew {added} to the {last.side.value}"


def _laid(make: Make, snapshot: Snapshot, named: _Naming) -> str:
    layer = next(step for step in reversed(snapshot.steps) if isinstance(step, Layer))
    layers = [s for s in snapshot.steps if isinstance(s, Layer) and s.lower == layer.lower]
    upper = " and ".join(_of(make, layer.upper, named) for layer in layers)
    lower = _of(make, layer.lower, named)
    first = layers[0] == next(step for step in make.steps if isinstance(step, Layer))
    thing = next(lying for lying in snapshot.lying if lying.name == layer.lower)
    covers = bounds(f.outline for f in thing.over) == bounds(f.outline for f in thing.faces)
    if not first and not covers:
        return f"{upper} on the {layer.corner.value} corner"
    where = "" if covers else f", {layer.corner.value} corner"
    return f"{upper} on {lower}{where}, right sides together"


def _others(make: Make, snapshot: Snapshot) -> Iterator[str]:
    """What was laid on, joined or covered since the last picture and has none of its own."""
    layers = [step for step in snapshot.steps if isinstance(step, Layer)]
    if layers and snapshot.moment is not Moment.SEWN:
        taken = {step.item for step in make.steps if isinstance(step, Take)}
        thing = "more corner" if layers[-1].lower in taken else "more seam"
        yield f"{counted(len(layers), thing)} in the same way"
    for kinds, moment, thing in (
        (_JOINS, Moment.JOINED, "more seam"),
        (Cover, Moment.COVERED, "more section"),
    ):
        done = sum(isinstance(step, kinds) for step in snapshot.steps)
        untold = done - (snapshot.moment is moment)
        if untold > 0:
            yield f"{counted(untold, thing)} in the same way"


def _cut(subject: Subject, make: Make, snapshot: Snapshot) -> str:
    cut, *others = (step for step in snapshot.steps if isinstance(step, CutApart))
    if any(other.item in (cut.first, cut.second) for other in others):
        return "cut on the lines"
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
    if opened.press is Press.ONTO_BASE and len(lower) > 1:
        return f"press away from {_named(upper, named)}"
    return f"press toward {_named(upper if opened.press is Press.ONTO_ADDED else lower, named)}"


def _layers_of(make: Make, opened: Open) -> tuple[_Sources, _Sources]:
    """What lay under and over in the thing that is opened."""
    layers: dict[str, tuple[_Sources, _Sources]] = {}
    for number, step in enumerate(make.steps[: make.steps.index(opened)]):
        if isinstance(step, Layer):
            made = _made_of(make.steps[:number])
            layers[step.lower] = (made[step.lower], made[step.upper])
        if isinstance(step, CutApart) and step.item in layers:
            layers |= {part: layers[step.item] for part in (step.first, step.second) if part}
    return layers[opened.item]


def _seams(subject: Subject, snapshot: Snapshot) -> list[str]:
    if snapshot.moment is not Moment.SEWN:
        return []
    lines = [step.line for step in snapshot.steps if isinstance(step, Sew)]
    away = length(subject, _away(lines[-1]))
    if isinstance(lines[0], Diagonal) and lines[0].offset == 0:
        again = [f"sew again {away} from it toward the corner"] if lines[1:] else []
        return ["sew on the line drawn from corner to corner", *again]
    if isinstance(lines[-1], Edge):
        return [f"sew {away} from the edge"]
    return [f"sew {away} from the drawn line" + (", on both sides of it" if lines[1:] else "")]


def _away(line: SeamLine) -> Fraction:
    if isinstance(line, Middle):
        return Fraction(0)
    return line.inset if isinstance(line, Edge) else abs(line.offset)


def _of(make: Make, item: str, named: _Naming) -> str:
    """What a thing is called just before it is first used up: by all it is made of."""
    uses = (i for i, s in enumerate(make.steps) if item in (_added(s), getattr(s, "lower", "")))
    return _named(_made_of(make.steps[: next(uses, 0)]).get(item, (item,)), named)


def _named(sources: _Sources, named: _Naming) -> str:
    return "/".join(named(source) for source in sources)


def _made_of(steps: Sequence[Step]) -> Mapping[str, _Sources]:
    """Pieces and makes in each thing that was on the table, in the order they were sewn on."""
    made: dict[str, _Sources] = {}
    for step in steps:
        match step:
            case Take():
                made[step.item] = (step.source,)
            case Layer():
                made[step.lower] = _both(made[step.lower], made[step.upper])
            case Join() | JoinEdges() | JoinMarks() | LayOn() | JoinPart():
                made[step.item] = _both(made[step.item], made[step.added])
            case CutApart():
                made |= {part: made[step.item] for part in (step.first, step.second) if part}
            case _:
                pass
    return made


def _both(first: _Sources, second: _Sources) -> _Sources:
    return tuple(dict.fromkeys(first + second))


def _added(step: Step) -> str:
    match step:
        case Layer():
            return step.upper
        case Join() | JoinEdges() | JoinMarks() | LayOn() | JoinPart() | Cover():
            return step.added
        case _:
            return ""
