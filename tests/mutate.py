"""Every single-number change of a publication, to see that none goes unnoticed.

`mutations` walks the tree of dataclasses and changes one number, count, turn, side, corner,
slope or meeting at a time. What is left out, and why: pressing directions and the names of kinds
change no cloth; the binding's cut width is the writer's choice and follows from nothing else;
texts are no numbers.

A changed direction may make the same quilt, such as a square piece turned by a quarter: `judge`
decides that without the bench.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from enum import Enum
from typing import Any

from quicktions import Fraction

from pieceproof.lengths import Surd
from pieceproof.published import MakeKind, Publication
from pieceproof.steps import Corner, Guide, Meeting, Press, Side, Slope, Way

_LEFT_OUT = (Press, MakeKind, str, type(None))
_DIRECTIONS = (Corner, Side, Slope, Way, Meeting, Guide)
_CHOSEN = ("binding.cut_width",)


@dataclass(frozen=True)
class Mutation:
    """One change: where, from what to what, and whether it only changes a direction."""

    path: str
    change: str
    is_direction: bool
    publication: Publication


def mutations(publication: Publication) -> Iterator[Mutation]:
    """All single changes by one ruler's step, one count, or one other direction."""
    for path, change, is_direction, changed in _changes("", publication, publication.step):
        if path not in _CHOSEN:
            yield Mutation(path, change, is_direction, changed)


def _changes(path: str, value: Any, step: Fraction) -> Iterator[tuple[str, str, bool, Any]]:
    """Where, what, whether a direction, and the changed value, for all parts of a value."""
    if is_dataclass(value):
        for field in fields(value):
            inner = f"{path}.{field.name}".lstrip(".")
            for where, what, turns, new in _changes(inner, getattr(value, field.name), step):
                yield where, what, turns, replace(value, **{field.name: new})
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            for where, what, turns, new in _changes(f"{path}[{index}]", item, step):
                yield where, what, turns, (*value[:index], new, *value[index + 1 :])
    else:
        turns = path.endswith(".turn") or isinstance(value, _DIRECTIONS)
        for new in _others(path, value, step):
            yield path, f"{value} -> {new}", turns, new


def _others(path: str, value: Any, step: Fraction) -> Sequence[Any]:
    if isinstance(value, _LEFT_OUT):
        return ()
    if isinstance(value, Enum):
        return [other for other in type(value) if other is not value]
    if path.endswith(".turn"):
        return [(value + quarter) % 4 for quarter in (1, 2, 3)]
    if isinstance(value, int):
        return [value - 1, value + 1]
    if isinstance(value, Fraction | Surd):
        return [value - step, value + step]
    raise TypeError(f"no change known for {path}: {value!r}")
