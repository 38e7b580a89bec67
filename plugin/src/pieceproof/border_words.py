"""Borders as the words cite them, from the inside out.

In: a make of borders and how to cite its pieces. Out: one `Band` a border. What is sewn when is
read off the steps; the sentences stand in ``templates/steps/borders.md``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from quicktions import Fraction

from pieceproof.model import AnyBorder, Border, MitredBorder
from pieceproof.published import Make
from pieceproof.steps import JoinMitred, Side, Take

T = TypeVar("T")


@dataclass(frozen=True)
class Band(Generic[T]):
    """One border: which pair is sewn when, of which strips or pieced sides.

    ``inside`` is what it is sewn to. ``posts`` are cornerstones; ``beyond`` is how far mitred
    strips reach past what they are sewn to.
    """

    style: str
    inside: str
    first: str
    first_strip: T
    second_strip: T
    posts: T | None = None
    beyond: str = ""


def bands(
    borders: tuple[AnyBorder, ...],
    make: Make,
    cited: Callable[[str], T],
    shown: Callable[[Fraction], str],
) -> Iterator[Band[T]]:
    """The borders of a make; ``cited`` takes a letter or a make's name."""
    takes = {step.item: step.source for step in make.steps if isinstance(step, Take)}
    for number, border in enumerate(borders, start=1):
        inside = "quilt centre" if number == 1 else "top"
        own = {item: source for item, source in takes.items() if _is_of(item, number)}
        pairs = {_side(item): source for item, source in own.items() if " corners " not in item}
        sides_first = next(iter(pairs)) in (Side.LEFT, Side.RIGHT)
        sides, ends = cited(pairs[Side.LEFT]), cited(pairs[Side.TOP])
        strips = (sides, ends) if sides_first else (ends, sides)
        order = "sides" if sides_first else "top and bottom"
        match border:
            case Border():
                posts = own.get(f"border {number} corners top left")
                yield Band("butted", inside, order, *strips, cited(posts) if posts else None)
            case MitredBorder():
                beyond = shown(_mitre_of(make, own).beyond_sides)
                yield Band("mitred", inside, order, *strips, None, beyond)
            case _:
                yield Band("pieced", inside, order, *strips)


def _is_of(item: str, number: int) -> bool:
    return item.startswith(f"border {number} ")


def _side(item: str) -> Side:
    return Side(item.rsplit(" ", maxsplit=1)[-1])


def _mitre_of(make: Make, own: dict[str, str]) -> JoinMitred:
    return next(s for s in make.steps if isinstance(s, JoinMitred) and s.left in own)
