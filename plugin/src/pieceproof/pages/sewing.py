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
from pieceproof.instructions import Instruction, show_made, show_spare, show_unfinished
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.pages.choices import Axis, Variant, variants
from pieceproof.pages.pictures import inline
from pieceproof.pages.tokens import token
from pieceproof.prose import title_of
from pieceproof.published import Make, MakeKind

T = TypeVar("T")

PICTURE_PX = 360
"""What drawings are laid out for; wider screens show them larger."""


@dataclass(frozen=True)
class Sewn:
    """One make on the page. ``present`` holds the sizes that have it."""

    anchor: str
    section: str
    heading: str
    kind: MakeKind
    present: Variant[None]
    counts: tuple[Variant[str], ...]
    spares: tuple[Variant[str], ...]
    steps: tuple[Variant[tuple[str, ...]], ...]
    unfinished: tuple[Variant[str], ...]
    pictures: tuple[tuple[Variant[Markup], ...], ...]


@dataclass(frozen=True)
class Scenes:
    """Drawings by size and plate, and the colours they are first shown in."""

    named: Mapping[str, Mapping[str, Scene]]
    colours: Mapping[str, str]


def sewn(
    size: Axis, sizes: Sequence[Sized], named: Mapping[str, Mapping[str, Scene]]
) -> tuple[Sewn, ...]:
    """All makes of all sizes, in sewing order. Scenes are ``named`` by size and plate."""
    design = sizes[0].design
    scenes = Scenes(named, palette(design, next(iter(design.colourways))))
    return tuple(_sewn(size, sizes, scenes, name) for name in _names(sizes))


def heading_of(make: Make) -> str:
    """What a make is called as a heading."""
    if make.kind in (MakeKind.CENTRE, MakeKind.TOP):
        return title_of(make)
    if make.kind is MakeKind.BORDER:
        return make.name.capitalize()
    one_set = make.name.removesuffix(SET_B)
    plain = one_set.removesuffix(MIRRORED)
    if make.kind is MakeKind.TRIANGLE:
        return f"{make.name.capitalize()}s"
    what = "unit" if make.kind is MakeKind.UNIT else "block"
    mirrored = ", mirrored" if plain != one_set else ""
    return f"{plain.capitalize()} {what}{mirrored}{', set B' if one_set != make.name else ''}"


def _names(sizes: Sequence[Sized]) -> Iterable[str]:
    """Names of makes; one that a size alone has stands before what follows it there."""
    order: list[str] = []
    for sized in sizes:
        names = [make.name for make in sized.publication.makes]
        for name, following in zip(reversed(names), [None, *reversed(names)], strict=False):
            if name not in order:
                order.insert(order.index(following) if following in order else len(order), name)
    return order


def _sewn(size: Axis, sizes: Sequence[Sized], scenes: Scenes, name: str) -> Sewn:
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
        each(lambda _, found: show_made(found.make)),
        each(lambda _, found: show_spare(found.make)),
        each(lambda _, found: found.steps),
        each(lambda sized, found: _unfinished(sized, found.make)),
        tuple(_pictures(size, scenes, name, plate) for plate in plates_of(first.make)),
    )


def _pictures(size: Axis, scenes: Scenes, name: str, plate: str) -> tuple[Variant[Markup], ...]:
    cases = (
        ((token(key),), named[f"{plate} {name}"])
        for key, named in scenes.named.items()
        if f"{plate} {name}" in named
    )
    return inline((size,), cases, f"pp-{plate}-{token(name)}", PICTURE_PX, scenes.colours)


def plates_of(make: Make) -> tuple[str, ...]:
    """Which drawings show a make; the first stands beside its words."""
    if make.method:
        return ("making",)
    if make.kind in (MakeKind.CENTRE, MakeKind.BORDER, MakeKind.TOP):
        return ("assembly",)
    return ("assembly", "finished")


def _unfinished(sized: Sized, make: Make) -> str:
    return show_unfinished(sized.design.measure, make)
