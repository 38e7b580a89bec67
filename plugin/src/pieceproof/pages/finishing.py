"""What the page says about the back, the batting and the binding.

In: all sizes of a pattern. Out: their numbers, for every choice they depend on. The words are the
same for every pattern and stand in the template.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pieceproof.compile import Sized
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import ceil_to
from pieceproof.pages.choices import Combination, Variant, variants
from pieceproof.pages.chooser import Axes
from pieceproof.pages.tokens import token, width_token
from pieceproof.requirements import BINDING, Need, need_for


@dataclass(frozen=True)
class Back:
    """One back: its least size, and how it is made from lengths of cloth."""

    size: str
    panels: int
    length: str
    seam: str
    seams: str


@dataclass(frozen=True)
class Binding:
    """The binding of one top."""

    strips: int
    cut_width: str
    length: str


@dataclass(frozen=True)
class Finishing:
    """Everything around the top; empty where the pattern leaves it to the maker.

    ``is_set`` says that some size makes several tops.
    """

    is_set: bool
    backs: tuple[Variant[Back], ...]
    batting: tuple[Variant[str], ...]
    binding: tuple[Variant[Binding], ...]
    seam: str


def finishing(axes: Axes, sizes: Sequence[Sized]) -> Finishing:
    """The numbers of the finishing section."""
    design = sizes[0].design
    return Finishing(
        any(sized.publication.quantity > 1 for sized in sizes),
        variants((axes.size, axes.width), (case for s in sizes for case in _backs(s))),
        variants((axes.size,), (case for s in sizes for case in _batting(s))),
        variants((axes.size, axes.width), (case for s in sizes for case in _bindings(s))),
        show_length(design.measure, design.seam),
    )


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
                    show_length(measure, plan.length),
                    show_length(measure, plan.seam),
                    plan.seams.value,
                ),
            )


def _batting(sized: Sized) -> Iterator[tuple[Combination, str]]:
    batting = sized.publication.batting
    if batting is not None:
        yield _size(sized), show_size(sized.design.measure, batting.width, batting.height)


def _bindings(sized: Sized) -> Iterator[tuple[Combination, Binding]]:
    binding, measure = sized.publication.binding, sized.design.measure
    if binding is None:
        return
    length = ceil_to(binding.length, sized.publication.step)
    for choice, need in _needs(sized, binding.fabric):
        run = next(run for run in need.plan.joined if run.letter == BINDING)
        shown = (show_length(measure, binding.cut_width), show_length(measure, length))
        yield choice, Binding(run.strips, *shown)
