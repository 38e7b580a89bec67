"""What the page says about everything that is sewn, in sewing order.

In: all sizes of a pattern. Out: one `Sewn` for each make of any size, with what differs between
sizes as variants. All words and numbers come from the instructions and the publication.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from markupsafe import Markup

from pieceproof.compile import Sized
from pieceproof.geometry import MIRRORED
from pieceproof.instructions import Instruction, show_size
from pieceproof.pages.choices import Axis, Variant, variants
from pieceproof.pages.tokens import token
from pieceproof.published import Make, MakeKind

T = TypeVar("T")


@dataclass(frozen=True)
class Sewn:
    """One make on the page. ``present`` holds the sizes that have it."""

    anchor: str
    heading: str
    kind: MakeKind
    present: Variant[None]
    counts: tuple[Variant[Count], ...]
    steps: tuple[Variant[tuple[str, ...]], ...]
    unfinished: tuple[Variant[str], ...]


@dataclass(frozen=True)
class Count:
    """How many to make, and how many of them are spare."""

    made: int
    spare: int


def sewn(size: Axis, sizes: Sequence[Sized]) -> tuple[Sewn, ...]:
    """All makes of all sizes, in sewing order."""
    return tuple(_sewn(size, sizes, name) for name in _names(sizes))


def heading_of(make: Make) -> str:
    """What a make is called as a heading."""
    words = {MakeKind.CENTRE: "Quilt centre", MakeKind.TOP: "Quilt top"}
    if make.kind in words:
        return words[make.kind]
    plain = make.name.removesuffix(MIRRORED)
    what = "unit" if make.kind is MakeKind.UNIT else "block"
    return f"{plain.capitalize()} {what}{', mirrored' if plain != make.name else ''}"


def _names(sizes: Sequence[Sized]) -> Iterable[str]:
    """Names of makes; one that a size alone has stands before what follows it there."""
    order: list[str] = []
    for sized in sizes:
        names = [make.name for make in sized.publication.makes]
        for name, following in zip(reversed(names), [None, *reversed(names)], strict=False):
            if name not in order:
                order.insert(order.index(following) if following in order else len(order), name)
    return order


def _sewn(size: Axis, sizes: Sequence[Sized], name: str) -> Sewn:
    instructions = {
        token(sized.design.size): (sized, instruction)
        for sized in sizes
        for instruction in sized.instructions
        if instruction.make.name == name
    }

    def each(show: Callable[[Sized, Instruction], T]) -> tuple[Variant[T], ...]:
        cases = (((key,), show(*found)) for key, found in instructions.items())
        return variants((size,), cases)

    _, first = next(iter(instructions.values()))
    return Sewn(
        f"make-{token(name)}",
        heading_of(first.make),
        first.make.kind,
        variants((size,), (((key,), None) for key in instructions))[0],
        each(lambda _, found: Count(found.make.rounds * found.make.each, found.make.spare)),
        each(lambda _, found: found.steps),
        each(lambda sized, found: _unfinished(sized, found.make)),
    )


def _unfinished(sized: Sized, make: Make) -> str:
    return show_size(sized.design.measure, make.width, make.height)
