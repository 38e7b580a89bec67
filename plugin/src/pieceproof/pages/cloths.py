"""Cloth by cloth: what to buy and how to cut it, for every choice.

In: the requirements of all sizes. Out: one `Cloth` for each group of parts that one cloth plays in
some colourway, in order of use. Lengths and counts are those of the requirements; nothing is
planned or rounded here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.compile import Sized
from pieceproof.demands import Group
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.strips import cutting, left_handed
from pieceproof.diagrams.subject import Subject, values
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.instructions import show_length
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import Design, FabricName, Measure
from pieceproof.pages.choices import Combination, Variant, variants
from pieceproof.pages.chooser import Axes
from pieceproof.pages.cloth_groups import NamedGroup, named_groups, strips_file
from pieceproof.pages.cutting import Row, cutting_rows
from pieceproof.pages.pictures import Pictured, for_screen_and_paper, pictured
from pieceproof.pages.room import Notes, room_notes
from pieceproof.pages.tokens import token, width_token
from pieceproof.print_words import print_words
from pieceproof.requirements import Need, need_for

STRIPS_PX = 360


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
    prints: tuple[str, ...]
    played: Variant[None]
    named: tuple[Variant[Named], ...]
    buy: tuple[Variant[str], ...]
    rows: tuple[Variant[tuple[Row, ...]], ...]
    notes: tuple[Variant[Notes], ...]
    strips: tuple[Variant[Pictured], ...]
    files: Mapping[str, bytes]


@dataclass(frozen=True)
class Cut:
    """One size as the cutting section needs it."""

    sized: Sized
    subject: Subject


def cloths(axes: Axes, cuts: Sequence[Cut]) -> tuple[Cloth, ...]:
    """All groups, so that those of any one choice are in order of use."""
    groups = named_groups(axes.size, axes.colourway, [cut.sized for cut in cuts])
    return tuple(_cloth(axes, cuts, named) for named in groups)


def _cloth(axes: Axes, all_cuts: Sequence[Cut], named: NamedGroup) -> Cloth:
    """One group; several may be of the same parts, for other sizes and colourways."""
    anchor, group, played = named.anchor, named.fabrics, named.played
    sizes = played.holds.get("size", axes.size.tokens)
    cuts = [cut for cut in all_cuts if token(cut.sized.design.size) in sizes]
    design = cuts[0].sized.design
    needs: dict[Combination, tuple[Cut, Need]] = {
        (token(cut.sized.design.size), width_token(width)): (
            cut,
            need_for(cut.sized.requirements, group, width),
        )
        for cut in cuts
        for width in cut.sized.requirements.usable_widths
    }
    strips, files = _strips(axes, needs, played, anchor)
    return Cloth(
        anchor,
        _heading([design.fabrics[fabric].called for fabric in group]),
        tuple(_prints(design, group)),
        played,
        _named(axes, design, played, group),
        variants((axes.size, axes.width, axes.measure), _lengths_to_buy(needs)),
        variants(
            (axes.size, axes.width),
            ((choice, cutting_rows(cut.sized, need)) for choice, (cut, need) in needs.items()),
        ),
        variants(
            (axes.size, axes.width, axes.measure),
            room_notes({choice: (cut.sized, need) for choice, (cut, need) in needs.items()}),
        ),
        strips,
        files,
    )


def _strips(
    axes: Axes, needs: Mapping[Combination, tuple[Cut, Need]], played: Variant[None], anchor: str
) -> tuple[tuple[Variant[Pictured], ...], Mapping[str, bytes]]:
    """Drawings of the cutting in every colour: too many for the page, so each has its file."""
    colourways = played.holds.get("colourway", axes.colourway.tokens)
    cases: list[tuple[Combination, Pictured]] = []
    files: dict[str, bytes] = {}
    dark = values(next(iter(needs.values()))[0].sized.design)
    for (size, width), (cut, need) in needs.items():
        if not (need.plan.strips or need.fussy):
            continue
        drawn = cutting(cut.subject, need.fabrics, need.plan, need.fussy)
        for hand, scene in (("right", drawn), ("left", left_handed(drawn))):
            for key in cut.sized.design.colourways:
                if token(key) in colourways:
                    colours = palette(cut.sized.design, key)
                    svg = to_svg(scene, Look.COLOUR, "strips", STRIPS_PX, colours)
                    name = strips_file(anchor, size, width, token(key), hand)
                    files[name] = for_screen_and_paper(svg, dark).encode()
                    choice = (size, token(key), width, hand)
                    cases.append((choice, pictured(scene, svg, name)))
    return variants((axes.size, axes.colourway, axes.width, axes.hand), cases), files


def _heading(called: Sequence[str]) -> str:
    """``Background, star points and binding``."""
    *most, last = called
    text = f"{', '.join(most)} and {last}" if most else last
    return text[:1].upper() + text[1:]


def _prints(design: Design, group: Group) -> Iterator[str]:
    """What prints the parts of a group are planned for; a part is named where there are others."""
    for fabric in (design.fabrics[name] for name in group):
        for words in print_words(design.measure, fabric):
            yield (f"{fabric.called}: " if len(group) > 1 else "") + f"planned for {words}"


def _named(
    axes: Axes, design: Design, played: Variant[None], group: Group
) -> tuple[Variant[Named], ...]:
    """The real cloth that plays the group in each colourway that has one."""
    colourways = played.holds.get("colourway", axes.colourway.tokens)
    cases = []
    for key, colourway in design.colourways.items():
        if token(key) in colourways:
            cloth = design.cloths[colourway.parts[FabricName(group[0])]]
            cases.append(((token(key),), Named(cloth.name, str(cloth.colour))))
    return variants((axes.colourway,), cases)


def _lengths_to_buy(
    needs: Mapping[Combination, tuple[Cut, Need]],
) -> Iterator[tuple[Combination, str]]:
    for choice, (cut, need) in needs.items():
        wide = _wide(cut.sized.design.measure, need)
        yield (*choice, "yards"), f"{show_fraction(need.yards)} yd{wide}"
        yield (*choice, "metres"), f"{show_decimal(need.metres)} m{wide}"


def _wide(measure: Measure, need: Need) -> str:
    """What to ask for where the cloth is an extra-wide one."""
    if need.backs is None or need.backs.chosen.width == need.usable_width:
        return ""
    return f" of extra-wide cloth, {show_length(measure, need.backs.chosen.width)} usable"
