"""Where the seams of a unit end on its edges, from its finished picture and its method's rule.

In: the picture of a unit that is not sewn from rows, the steps and slots of its recipe, its
method's rule of pressing. Out: its `Ended`. Nothing is sewn. Where the rule does not tell which of
two patches has the allowance, the steps may: of patches that are pieces by themselves, the one that
their seam is pressed toward.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.inside_seams import inside_seams
from pieceproof.methods.method import Pressing
from pieceproof.model import Value
from pieceproof.published import Patch, Picture
from pieceproof.seam_ends import FIXED, Ended, ends_in_picture
from pieceproof.steps import (
    CloseSeam,
    CrossCut,
    Join,
    JoinMarks,
    JoinPart,
    Layer,
    Press,
    Step,
    Take,
    TurnEdge,
    TurnEighths,
    Yield,
)

_FOLLOWED = (Take, Join, JoinMarks, JoinPart, CloseSeam, CrossCut, TurnEdge, TurnEighths, Yield)


@dataclass(frozen=True)
class Slot:
    """A piece of a recipe by the name it is taken under, and its fabric."""

    name: str
    fabric: str


def unit_ended(
    picture: Picture,
    rule: Pressing,
    steps: Sequence[Step],
    slots: Sequence[Slot],
    values: Mapping[str, Value],
    toward: Mapping[frozenset[int], int],
) -> Ended:
    """The ends of a unit's seams; those of a unit that can be pressed two ways bear its name.

    ``toward`` is what its method says besides, by the numbers of the patches.
    """
    if toward:
        return ends_in_picture(picture, FIXED, _by_number(picture, toward))
    match rule:
        case Pressing.DARKER:
            return ends_in_picture(picture, picture.name, _darker(picture, values))
        case Pressing.LATER:
            return ends_in_picture(picture, FIXED, _later(picture, _sewn_on(picture, steps, slots)))
        case Pressing.BY_TURNS:
            return ends_in_picture(picture, FIXED, _by_turns(picture, steps))
        case Pressing.IN_STEPS:
            return ends_in_picture(picture, FIXED, _in_steps(picture, steps, slots))


_Holds = Callable[[Patch, Patch], bool | None]


def _sewn_on(
    picture: Picture, steps: Sequence[Step], slots: Sequence[Slot]
) -> Sequence[Press | None]:
    """How the seam goes with which each patch was sewn on; None where that cannot be told.

    The last patches are those that were added one by one. Where one of several is hidden by the
    next ones, only what holds for all seams is known.
    """
    pressed: list[Press | None] = [seam.press for seam in inside_seams(steps)]
    count = len(picture.patches)
    hidden = count != len(slots) and any(isinstance(step, Layer) for step in steps)
    if hidden and len(set(pressed)) > 1:
        return [None] * count
    if hidden:
        return (pressed * count)[:count]
    return [Press.ONTO_ADDED] * (count - len(pressed)) + pressed


def _later(picture: Picture, sewn_on: Sequence[Press | None]) -> _Holds:
    def holds(before: Patch, behind: Patch) -> bool | None:
        first, second = picture.patches.index(before), picture.patches.index(behind)
        press = sewn_on[max(first, second)]
        if press in (None, Press.OPEN):
            return None
        return (first < second) == (press is Press.ONTO_ADDED)

    return holds


def _by_turns(picture: Picture, steps: Sequence[Step]) -> _Holds:
    """Which of two alike was sewn on first differs, so their seams must go alike to be known."""
    pressed = {seam.press for seam in inside_seams(steps)}
    alike = pressed.pop() if len(pressed) == 1 else None
    later = _later(picture, [alike] * len(picture.patches))
    return lambda one, other: None if one.fabric == other.fabric else later(one, other)


def _by_number(picture: Picture, toward: Mapping[frozenset[int], int]) -> _Holds:
    def holds(before: Patch, behind: Patch) -> bool | None:
        numbers = [picture.patches.index(patch) for patch in (before, behind)]
        to = toward.get(frozenset(numbers))
        return None if to is None else to == numbers[1]

    return holds


def _darker(picture: Picture, values: Mapping[str, Value]) -> _Holds:
    order = list(Value)
    later = _later(picture, [Press.ONTO_ADDED] * len(picture.patches))

    def holds(before: Patch, behind: Patch) -> bool | None:
        first, second = (order.index(values[patch.fabric]) for patch in (before, behind))
        return later(before, behind) if first == second else first < second

    return holds


def _in_steps(picture: Picture, steps: Sequence[Step], slots: Sequence[Slot]) -> _Holds:
    """From the steps, where every patch is one piece that has not been cut any more."""
    shown = [patch.fabric for patch in picture.patches]
    if shown != [slot.fabric for slot in slots] or not all(isinstance(s, _FOLLOWED) for s in steps):
        return lambda _before, _behind: None
    names = {patch: slot.name for patch, slot in zip(picture.patches, slots, strict=True)}
    toward = _pressed_toward(steps)

    def holds(before: Patch, behind: Patch) -> bool | None:
        pair = names[before], names[behind]
        to = toward.get(frozenset(pair))
        return None if to is None else to == pair[1]

    return holds


def _pressed_toward(steps: Sequence[Step]) -> Mapping[frozenset[str], str | None]:
    """For every two pieces that are sewn to each other, the one with the allowance; None: both."""
    groups: dict[str, list[str]] = {}
    toward: dict[frozenset[str], str | None] = {}
    opened = last = ""
    for step in steps:
        match step:
            case Take():
                groups[step.item] = [step.item]
            case Join() | JoinMarks() | JoinPart():
                added = groups.pop(step.added)
                toward = {**_between(groups[step.item], added, step.press), **toward}
                groups[step.item] += added
                opened = step.added if isinstance(step, JoinPart) else opened
                last = step.added
            case CloseSeam():
                toward |= _between([last], [opened], step.press)
            case _:
                pass
    return toward


def _between(
    base: Sequence[str], added: Sequence[str], press: Press
) -> Mapping[frozenset[str], str | None]:
    ways = {Press.ONTO_ADDED: 1, Press.ONTO_BASE: 0}
    return {
        frozenset(pair): pair[ways[press]] if press in ways else None
        for pair in ((one, other) for one in base for other in added)
    }
