"""What the page says about the back, the batting and the binding.

In: all sizes of a pattern. Out: their numbers, for every choice they depend on. The words are the
same for every pattern and stand in the template.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from pieceproof.compile import Sized
from pieceproof.demands import BINDING, SLEEVE
from pieceproof.diagrams.binding import binding_corner
from pieceproof.diagrams.palette import palette
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import ceil_to
from pieceproof.model import Design, Measure
from pieceproof.pages.choices import Combination, Variant, variants
from pieceproof.pages.chooser import Axes
from pieceproof.pages.pictures import inline
from pieceproof.pages.sewing import PICTURE_PX
from pieceproof.pages.tokens import token, width_token
from pieceproof.requirements import Need, need_for


@dataclass(frozen=True)
class Back:
    """One back: its least size, and how it is made from lengths of cloth.

    ``wide`` is the usable width of extra-wide cloth, "" for the usual one.
    """

    size: str
    panels: int
    halved: int
    length: str
    seam: str
    seams: str
    wide: str


@dataclass(frozen=True)
class Binding:
    """The binding of one top; ``square`` is what a bias strip is cut from, "" for strips."""

    strips: int
    cut_width: str
    length: str
    square: str
    fold: str


@dataclass(frozen=True)
class Sleeve:
    """The hanging sleeve of one top; ``strips`` are sewn together for it."""

    strips: int
    cut_width: str
    length: str
    depth: str


@dataclass(frozen=True)
class Finishing:
    """Everything around the top; empty where the pattern leaves it to the maker.

    ``is_set`` says that some size makes several tops; ``corner`` shows the binding sewn on.
    """

    is_set: bool
    backs: tuple[Variant[Back], ...]
    batting: tuple[Variant[str], ...]
    packages: tuple[Variant[str], ...]
    binding: tuple[Variant[Binding], ...]
    corner: tuple[Variant[Markup], ...]
    sleeve: tuple[Variant[Sleeve], ...]
    seam: str


def finishing(axes: Axes, sizes: Sequence[Sized]) -> Finishing:
    """The numbers of the finishing section."""
    design = sizes[0].design
    return Finishing(
        any(sized.publication.quantity > 1 for sized in sizes),
        variants((axes.size, axes.width), (case for s in sizes for case in _backs(s))),
        variants((axes.size,), (case for s in sizes for case in _batting(s))),
        variants((axes.size,), (case for s in sizes for case in _packages(s))),
        variants((axes.size, axes.width), (case for s in sizes for case in _bindings(s))),
        _corner(design),
        variants((axes.size, axes.width), (case for s in sizes for case in _sleeves(s))),
        show_length(design.measure, design.seam),
    )


def _corner(design: Design) -> tuple[Variant[Markup], ...]:
    scene = binding_corner(design, show_length(design.measure, design.seam))
    colours = palette(design, next(iter(design.colourways)))
    cases = [((), scene)] if scene else []
    return inline((), cases, "pp-binding", PICTURE_PX, colours)


def _size(sized: Sized) -> Combination:
    return (token(sized.design.size),)


def _needs(sized: Sized, fabric: str) -> Iterator[tuple[Combination, Need]]:
    for width in sized.requirements.usable_widths:
        need = need_for(sized.requirements, (fabric,), width)
        yield (*_size(sized), width_token(width)), need


def _backs(sized: Sized) -> Iterator[tuple[Combination, Back]]:
    backing, measure = sized.publication.backing, sized.design.measure
    if backing is None:
        return
    for choice, need in _needs(sized, backing.fabric):
        if need.backs is not None:
            plan = need.backs.chosen
            yield (
                choice,
                Back(
                    show_size(measure, backing.width, backing.height),
                    plan.panels,
                    plan.halved,
                    show_length(measure, plan.length),
                    show_length(measure, plan.seam),
                    plan.seams.value,
                    "" if plan.width == need.usable_width else show_length(measure, plan.width),
                ),
            )


def _batting(sized: Sized) -> Iterator[tuple[Combination, str]]:
    batting = sized.publication.batting
    if batting is not None:
        yield _size(sized), show_size(sized.design.measure, batting.width, batting.height)


def _packages(sized: Sized) -> Iterator[tuple[Combination, str]]:
    """The package to buy, "" where none is large enough."""
    batting = sized.publication.batting
    if batting is not None:
        package = batting.package
        size = show_size(Measure.INCH, package.short, package.long) if package else ""
        yield _size(sized), size


def _bindings(sized: Sized) -> Iterator[tuple[Combination, Binding]]:
    binding, measure = sized.publication.binding, sized.design.measure
    if binding is None:
        return
    length = ceil_to(binding.length, sized.publication.step)
    square = show_length(measure, binding.square) if binding.square else ""
    shown = (
        show_length(measure, binding.cut_width),
        show_length(measure, length),
        square,
        binding.fold,
    )
    for choice, need in _needs(sized, binding.fabric):
        yield choice, Binding(_strips(need, BINDING), *shown)


def _sleeves(sized: Sized) -> Iterator[tuple[Combination, Sleeve]]:
    sleeve, measure = sized.publication.sleeve, sized.design.measure
    if sleeve is None:
        return
    shown = (show_length(measure, n) for n in (sleeve.cut_width, sleeve.length, sleeve.depth))
    width, length, depth = shown
    for choice, need in _needs(sized, sleeve.fabric):
        yield choice, Sleeve(_strips(need, SLEEVE), width, length, depth)


def _strips(need: Need, letter: str) -> int:
    """How many strips are sewn end to end; 1 where it is cut in one."""
    return next((run.strips for run in need.plan.joined if run.letter == letter), 1)
