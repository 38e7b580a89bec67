"""Colourways on the pattern's page and side by side on a page of their own.

In: all sizes of a pattern. Out: how the chosen colourway reads, and a `Page` with every
colourway: the whole top in colour and in grey, a block, what plays each part, what to buy. Lengths
are those of the requirements, values those of the facts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from pieceproof.colours import grey
from pieceproof.compile import Sized
from pieceproof.diagrams.blocks import finished
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.subject import Subject
from pieceproof.diagrams.tops import top
from pieceproof.drawing.photographs import Photograph
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.instructions import show_length
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import Design, FabricName, Measure
from pieceproof.pages.choices import Axis, Variant
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.tokens import token
from pieceproof.pages.tops import coloured, linked, printed, stored
from pieceproof.published import MakeKind
from pieceproof.requirements import Need, need_for
from pieceproof.swatches import Print
from pieceproof.value_check import Pair, Reading

PAGE = "colours/index.md"
BLOCK_PX = 260
MOST_BLOCKS = 2


@dataclass(frozen=True)
class Played:
    """One cloth of a colourway: its parts, its value, how much of it each size needs."""

    parts: str
    cloth: str
    colour: str
    grey: str
    value: str
    buy: tuple[str, ...] = ()


@dataclass(frozen=True)
class Read:
    """How one colourway reads: cloths from light to dark, and neighbours that come close."""

    cloths: tuple[Played, ...]
    close: tuple[str, ...]


@dataclass(frozen=True)
class Way:
    """One colourway side by side with others."""

    anchor: str
    name: str
    colours: str
    greys: str
    blocks: tuple[Markup, ...]
    cloths: tuple[Played, ...]
    close: tuple[str, ...]


def values_by_colourway(axis: Axis, sized: Sized) -> tuple[Variant[Read], ...]:
    """How each colourway reads, for the pattern's page."""
    return tuple(
        Variant({axis.key: (token(reading.colourway),)}, _read(sized.design, reading))
        for reading in sized.values
    )


def colourways_page(sizes: Sequence[Sized], subject: Subject, prints: Mapping[str, Print]) -> Page:
    """The page with every colourway; ``subject`` is the first size's."""
    design = sizes[0].design
    drawing = stored(top(subject), "pp-top", palette(design, next(iter(design.colourways))), prints)
    width = sizes[0].requirements.usable_widths[0]
    words = {
        "name": design.name,
        "label": design.label,
        "drawing": drawing,
        "is_wide": 2 * subject.publication.width > 3 * subject.publication.height,
        "width": show_length(design.measure, width),
        "sizes": [sized.design.label for sized in sizes],
        "ways": [_way(sizes, subject, reading, prints) for reading in sizes[0].values],
    }
    return render_page("colourways.md", words)


def _read(design: Design, reading: Reading) -> Read:
    light_first = sorted(_played(design, reading), key=lambda found: -found[0])
    return Read(tuple(played for _, played in light_first), tuple(_close(design, reading)))


def _played(design: Design, reading: Reading) -> Iterator[tuple[float, Played]]:
    """Each cloth once, with how light it is."""
    parts: dict[str, list[str]] = {}
    for shade in reading.shades:
        parts.setdefault(shade.cloth, []).append(design.fabrics[shade.fabric].called)
    for key, called in parts.items():
        shade = next(shade for shade in reading.shades if shade.cloth == key)
        cloth = design.cloths[shade.cloth]
        value = f"{shade.word} ({shade.lightness:.0f})"
        words = ", ".join(called)
        yield (
            shade.lightness,
            Played(words, cloth.name, cloth.colour, grey(cloth.colour), value),
        )


def _close(design: Design, reading: Reading) -> Iterator[str]:
    """Neighbours that come close, each pair once with every way in which it does."""
    for pair in reading.pairs:
        ways = [*(["in grey"] if pair.is_close_in_grey else []), *_to_eyes(pair)]
        if ways:
            meeting = pair.meeting
            one, other = (design.fabrics[name].called for name in (meeting.one, meeting.other))
            yield f"{one} and {other}, which meet in {meeting.make}: close {', '.join(ways)}"


def _to_eyes(pair: Pair) -> list[str]:
    words = [eyes.value for eyes in pair.close_to]
    first = words[:1]
    return [*first, *(word.removeprefix("to eyes that are weak ") for word in words[1:])]


def _way(
    sizes: Sequence[Sized], subject: Subject, reading: Reading, prints: Mapping[str, Print]
) -> Way:
    design = sizes[0].design
    colours = palette(design, reading.colourway)
    parts = design.colourways[reading.colourway].parts
    return Way(
        f"colourway-{token(reading.colourway)}",
        design.colourways[reading.colourway].name,
        coloured(printed(colours, parts, prints)),
        coloured({cloth: grey(colour) for cloth, colour in colours.items()}),
        tuple(_blocks(subject, reading.colourway, colours, linked(parts, prints))),
        tuple(_needed(sizes, reading.colourway)),
        tuple(_close(design, reading)),
    )


def _blocks(
    subject: Subject,
    colourway: str,
    colours: Mapping[str, str],
    prints: Mapping[str, Photograph],
) -> Iterator[Markup]:
    """The first blocks; of a pattern without blocks the first units."""
    makes = subject.publication.makes
    kinds = {make.kind for make in makes}
    small = MakeKind.BLOCK if MakeKind.BLOCK in kinds else MakeKind.UNIT
    names = [make.name for make in makes if make.kind is small][:MOST_BLOCKS]
    for name in names:
        ident = f"pp-block-{token(colourway)}-{token(name)}"
        scene = finished(subject, name, BLOCK_PX)
        yield Markup(to_svg(scene, Look.COLOUR, ident, BLOCK_PX, colours, prints))


def _needed(sizes: Sequence[Sized], colourway: str) -> Iterator[Played]:
    """Cloth by cloth in order of use, with what each size needs of it."""
    design = sizes[0].design
    first = next(r for r in sizes[0].values if r.colourway == colourway)
    by_cloth = {played.cloth: played for _, played in _played(design, first)}
    for played in by_cloth.values():
        buy = tuple(_length(sized, colourway, played.cloth) for sized in sizes)
        yield Played(played.parts, played.cloth, played.colour, played.grey, played.value, buy)


def _length(sized: Sized, colourway: str, cloth: str) -> str:
    """What a size needs of a cloth: all groups of parts that it plays."""
    design = sized.design
    parts = design.colourways[colourway].parts
    width = sized.requirements.usable_widths[0]
    needs = [
        need_for(sized.requirements, played.fabrics, width)
        for played in sized.requirements.played
        if played.colourway == colourway
        and design.cloths[parts[FabricName(played.fabrics[0])]].name == cloth
    ]
    return " + ".join(_shown(design, need) for need in needs) or "none"


def _shown(design: Design, need: Need) -> str:
    if design.measure is Measure.INCH:
        return f"{show_fraction(need.yards)} yd"
    return f"{show_decimal(need.metres)} m"
