"""Cloth by cloth: what to buy and how to cut it, for every choice.

In: the requirements of all sizes. Out: one `Cloth` for each group of parts that one cloth plays in
some colourway, in order of use. Lengths and counts are those of the requirements; nothing is
planned or rounded here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from pieceproof.compile import Sized
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.strips import cutting
from pieceproof.diagrams.subject import Subject
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import Design, FabricName
from pieceproof.pages.choices import Combination, Variant, variants
from pieceproof.pages.chooser import Axes
from pieceproof.pages.cutting import Row, cutting_rows
from pieceproof.pages.pictures import inline
from pieceproof.pages.tokens import token
from pieceproof.requirements import Group, Need, need_for

STRIPS_PX = 560


@dataclass(frozen=True)
class Named:
    """A real cloth: what the shop calls it, and its colour."""

    name: str
    colour: str


@dataclass(frozen=True)
class Cloth:
    """Parts that one cloth plays. ``played`` are the choices for which one cloth plays them."""

    anchor: str
    heading: str
    played: Variant[None]
    named: tuple[Variant[Named], ...]
    buy: tuple[Variant[str], ...]
    rows: tuple[Variant[tuple[Row, ...]], ...]
    strips: tuple[Variant[Markup], ...]


@dataclass(frozen=True)
class Cut:
    """One size as the cutting section needs it."""

    sized: Sized
    subject: Subject


def cloths(axes: Axes, cuts: Sequence[Cut]) -> tuple[Cloth, ...]:
    """All groups, so that those of any one choice are in order of use."""
    order = list(cuts[0].sized.design.fabrics)
    groups = dict.fromkeys(p.fabrics for cut in cuts for p in cut.sized.requirements.played)
    ranked = sorted(groups, key=lambda group: [order.index(fabric) for fabric in group])
    return tuple(cloth for group in ranked for cloth in _of_group(axes, cuts, group))


def _of_group(axes: Axes, cuts: Sequence[Cut], group: Group) -> Iterator[Cloth]:
    """One cloth, or several where the choices that play it cannot be said in one go."""
    choices = (axes.size, axes.colourway)
    cases = ((choice, None) for choice in _played(cuts, group))
    for number, played in enumerate(variants(choices, cases), start=1):
        sizes = played.holds.get("size", axes.size.tokens)
        yield _cloth(
            axes,
            [cut for cut in cuts if token(cut.sized.design.size) in sizes],
            group,
            played,
            "-".join(["cloth", *map(token, group), *([str(number)] if number > 1 else [])]),
        )


def _cloth(
    axes: Axes, cuts: Sequence[Cut], group: Group, played: Variant[None], anchor: str
) -> Cloth:
    design = cuts[0].sized.design
    needs = {
        (token(cut.sized.design.size), width_token(width)): (
            cut,
            need_for(cut.sized.requirements, group, width),
        )
        for cut in cuts
        for width in cut.sized.requirements.usable_widths
    }
    choices = (axes.size, axes.width)
    strips = (
        (choice, cutting(cut.subject, group, need.plan))
        for choice, (cut, need) in needs.items()
        if need.plan.strips
    )
    return Cloth(
        anchor,
        _heading([design.fabrics[fabric].called for fabric in group]),
        played,
        tuple(_named(design, group, axes)),
        variants((axes.size, axes.width, axes.measure), _lengths_to_buy(needs)),
        variants(
            choices,
            ((choice, cutting_rows(cut.sized, need)) for choice, (cut, need) in needs.items()),
        ),
        inline(
            choices, strips, f"pp-{anchor}", STRIPS_PX, palette(design, next(iter(design.colourways)))
        ),
    )


def _heading(called: Sequence[str]) -> str:
    """``Background, star points and binding``."""
    *most, last = called
    text = f"{', '.join(most)} and {last}" if most else last
    return text[:1].upper() + text[1:]


def width_token(width: Fraction) -> str:
    """A usable width as a word of the page's markup."""
    return str(width).replace("/", "-")


def _played(cuts: Sequence[Cut], group: Group) -> Iterator[Combination]:
    for cut in cuts:
        for played in cut.sized.requirements.played:
            if played.fabrics == group:
                yield token(cut.sized.design.size), token(played.colourway)


def _named(design: Design, group: Group, axes: Axes) -> Iterator[Variant[Named]]:
    cases = []
    for key, colourway in design.colourways.items():
        cloth = design.cloths[colourway.parts[FabricName(group[0])]]
        cases.append(((token(key),), Named(cloth.name, str(cloth.colour))))
    return iter(variants((axes.colourway,), cases))


def _lengths_to_buy(
    needs: Mapping[Combination, tuple[Cut, Need]],
) -> Iterator[tuple[Combination, str]]:
    for choice, (_, need) in needs.items():
        yield (*choice, "yards"), f"{show_fraction(need.yards)} yd"
        yield (*choice, "metres"), f"{show_decimal(need.metres)} m"
