"""What the page says about everything that is sewn, in sewing order.

In: all sizes of a pattern. Out: one `Sewn` for each make of any size, with what differs between
sizes as variants. All words and numbers come from the instructions and the publication.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from markupsafe import Markup

from pieceproof.compile import Sized
from pieceproof.diagrams.palette import palette
from pieceproof.drawing.scene import Scene
from pieceproof.geometry import MIRRORED
from pieceproof.instructions import Instruction, show_size
from pieceproof.pages.choices import Axis, Variant, variants
from pieceproof.pages.pictures import inline
from pieceproof.pages.tokens import token
from pieceproof.prose import title_of
from pieceproof.published import Make, MakeKind

T = TypeVar("T")

PICTURE_PX = 480
_PLATES = ("making", "exploded", "assembly", "finished")


@dataclass(frozen=True)
class Sewn:
    """One make on the page. ``present`` holds the sizes that have it."""

    anchor: str
    section: str
    heading: str
    kind: MakeKind
    present: Variant[None]
    wide: bool
    counts: tuple[Variant[int], ...]
    spares: tuple[Variant[int], ...]
    steps: tuple[Variant[tuple[str, ...]], ...]
    unfinished: tuple[Variant[str], ...]
    pictures: tuple[Variant[Markup], ...]


def sewn(
    size: Axis, sizes: Sequence[Sized], scenes: Mapping[str, Mapping[str, Scene]]
) -> tuple[Sewn, ...]:
    """All makes of all sizes, in sewing order. ``scenes`` are by size and the plate's name."""
    return tuple(_sewn(size, sizes, scenes, name) for name in _names(sizes))


def heading_of(make: Make) -> str:
    """What a make is called as a heading."""
    if make.kind in (MakeKind.CENTRE, MakeKind.TOP):
        return title_of(make)
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


def _sewn(
    size: Axis, sizes: Sequence[Sized], scenes: Mapping[str, Mapping[str, Scene]], name: str
) -> Sewn:
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
        title_of(first.make),
        heading_of(first.make),
        first.make.kind,
        variants((size,), (((key,), None) for key in instructions))[0],
        first.make.kind in (MakeKind.CENTRE, MakeKind.TOP),
        each(lambda _, found: found.make.rounds * found.make.each),
        each(lambda _, found: found.make.spare),
        each(lambda _, found: found.steps),
        each(lambda sized, found: _unfinished(sized, found.make)),
        tuple(
            picture
            for plate in _PLATES
            for picture in inline(
                (size,),
                (
                    ((key,), scenes[sized.design.size][f"{plate} {name}"])
                    for key, (sized, _) in instructions.items()
                    if f"{plate} {name}" in scenes[sized.design.size]
                ),
                f"pp-{plate}-{token(name)}",
                PICTURE_PX,
                palette(sizes[0].design, next(iter(sizes[0].design.colourways))),
            )
        ),
    )


def _unfinished(sized: Sized, make: Make) -> str:
    return show_size(sized.design.measure, make.width, make.height)
