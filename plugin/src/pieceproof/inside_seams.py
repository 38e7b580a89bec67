"""The seams inside what is sewn from pieces, each by itself, and the same pressed another way.

In: the steps of a unit or of a top with borders. Out: its seams in sewing order, with the steps
that press them and what lies on both sides; steps in which they are pressed as somebody chose.
What is sewn to halves that are cut from the same layers is one seam. Cloth on a foundation is
folded over its seam and cannot be pressed any other way, so it has none here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from pieceproof.steps import (
    CloseSeam,
    CutApart,
    Join,
    JoinEdges,
    JoinMarks,
    JoinMitred,
    JoinPart,
    Layer,
    Open,
    Press,
    Step,
    Take,
)


@dataclass(frozen=True)
class InsideSeam:
    """One seam: the numbers of its steps from 0, the things on both sides, where it is pressed.

    Things go by the names under which they were taken.
    """

    steps: tuple[int, ...]
    base: tuple[str, ...]
    added: tuple[str, ...]
    press: Press


_Pressing: TypeAlias = Open | Join | JoinEdges | JoinMarks | JoinPart | CloseSeam | JoinMitred


def inside_seams(steps: Sequence[Step]) -> tuple[InsideSeam, ...]:
    """All seams that steps sew and press, as begun; those with the same things below are one."""
    seams: dict[tuple[str, ...], InsideSeam] = {}
    for seam in _pressed(steps):
        known = seams.get(seam.base)
        numbers = (*known.steps, *seam.steps) if known else seam.steps
        seams[seam.base] = replace(known or seam, steps=numbers)
    return tuple(sorted(seams.values(), key=lambda seam: seam.steps))


def pressed_as(steps: Sequence[Step], chosen: Mapping[int, Press]) -> tuple[Step, ...]:
    """The steps with some seams pressed otherwise, by the seams' numbers from 1."""
    ways = {
        step: chosen[number]
        for number, seam in enumerate(inside_seams(steps), start=1)
        if number in chosen
        for step in seam.steps
    }
    return tuple(_with(step, ways.get(number)) for number, step in enumerate(steps))


def _with(step: Step, press: Press | None) -> Step:
    if press is None:
        return step
    assert isinstance(step, _Pressing)
    return replace(step, press=press)


def _pressed(steps: Sequence[Step]) -> Iterator[InsideSeam]:
    """A seam for every step that presses one, finished seams with their first halves."""
    sewn: dict[str, tuple[str, ...]] = {}
    laid: dict[str, tuple[str, ...]] = {}
    begun: InsideSeam | None = None
    for number, step in enumerate(steps):
        match step:
            case Take():
                sewn[step.item] = (step.item,)
            case Layer():
                laid[step.lower] = laid.get(step.lower, ()) + sewn[step.upper]
            case CutApart():
                _cut(step, sewn, laid)
            case Open():
                base, added = sewn[step.item], laid.pop(step.item)
                yield InsideSeam((number,), base, added, step.press)
                sewn[step.item] = base + added
            case Join() | JoinEdges() | JoinMarks():
                base, added = sewn[step.item], sewn[step.added]
                yield InsideSeam((number,), base, added, step.press)
                sewn[step.item] = base + added
            case JoinPart():
                base, added = sewn[step.item], sewn[step.added]
                begun = InsideSeam((number,), base, added, step.press)
                sewn[step.item] = base + added
            case CloseSeam():
                assert begun is not None
                yield replace(begun, steps=(*begun.steps, number))
            case JoinMitred():
                base = sewn[step.item]
                strips = (step.left, step.top, step.right, step.bottom)
                added = tuple(name for strip in strips for name in sewn[strip])
                yield InsideSeam((number,), base, added, step.press)
                sewn[step.item] = base + added
            case _:
                pass


def _cut(
    step: CutApart, sewn: dict[str, tuple[str, ...]], laid: dict[str, tuple[str, ...]]
) -> None:
    """Both parts are of the same layers."""
    below, above = sewn.pop(step.item), laid.pop(step.item, None)
    for part in (step.first, step.second):
        sewn[part] = below
        if above is not None:
            laid[part] = above
