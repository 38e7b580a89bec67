"""A page of whole tops with candidates for one or two parts, in colour and in grey.

In: a pattern's first size with its scene of the top. Out: a `Page`, or None where nothing is to be
tried out. While the site is served it is made anew with every edit of the pattern.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.colours import grey
from pieceproof.compile import Sized
from pieceproof.diagrams.palette import colour_of, palette
from pieceproof.diagrams.subject import Subject
from pieceproof.diagrams.tops import top
from pieceproof.model import Audition, ClothName, Design, FabricName, SeenBy
from pieceproof.neighbours import Meeting, meetings
from pieceproof.pages.page import Page, render_page
from pieceproof.pages.tops import Stored, coloured, printed, stored
from pieceproof.seam_words import listed
from pieceproof.swatches import Print
from pieceproof.value_check import Reading, reading_with

PAGE = "auditions/index.md"


@dataclass(frozen=True)
class Candidate:
    """One cloth for one part."""

    called: str
    cloth: str
    colour: str
    grey: str


@dataclass(frozen=True)
class Tried:
    """One top: its candidates, its colours, its colours in grey, and what is close in value."""

    candidates: tuple[Candidate, ...]
    colours: str
    greys: str
    close: tuple[str, ...]
    nearest: str
    is_now: bool


@dataclass(frozen=True)
class Grid:
    """One audition; ``across`` tops stand in a row."""

    anchor: str
    heading: str
    colourway: str
    parts: str
    across: int
    tops: tuple[Tried, ...]


def auditions_page(sized: Sized, subject: Subject, prints: Mapping[str, Print]) -> Page | None:
    """The page of all auditions of a pattern."""
    design = sized.design
    if not design.auditions:
        return None
    first = next(iter(design.colourways))
    drawing = stored(top(subject), "pp-top", palette(design, first), prints)
    found = meetings(sized.publication, sized.drawing)
    return render_page("auditions.md", _words(_Table(design, found, prints), drawing))


def seen_by_customers(design: Design) -> bool:
    """Whether the pattern's page leads to its auditions."""
    return any(audition.seen_by is SeenBy.CUSTOMERS for audition in design.auditions.values())


@dataclass(frozen=True)
class _Table:
    """What every top on the page needs."""

    design: Design
    found: Sequence[Meeting]
    prints: Mapping[str, Print]


def _words(table: _Table, drawing: Stored) -> Mapping[str, object]:
    design = table.design
    return {
        "name": design.name,
        "label": design.label,
        "drawing": drawing,
        "grids": [_grid(table, key, a) for key, a in design.auditions.items()],
    }


def _grid(table: _Table, key: str, audition: Audition) -> Grid:
    design = table.design
    colourway = audition.colourway or next(iter(design.colourways))
    parts = list(audition.candidates)
    return Grid(
        f"audition-{key.replace(' ', '_')}",
        audition.name,
        design.colourways[colourway].name,
        listed([design.fabrics[part].called for part in parts]),
        len(audition.candidates[parts[-1]]),
        tuple(_tried(table, colourway, chosen) for chosen in _combinations(audition, parts)),
    )


def _combinations(
    audition: Audition, parts: Sequence[FabricName]
) -> Iterator[Mapping[FabricName, ClothName]]:
    """Rows by the first part's cloths, in each row the second part's."""
    for one in audition.candidates[parts[0]]:
        if len(parts) == 1:
            yield {parts[0]: one}
        else:
            for other in audition.candidates[parts[1]]:
                yield {parts[0]: one, parts[1]: other}


def _tried(table: _Table, colourway: str, chosen: Mapping[FabricName, ClothName]) -> Tried:
    design = table.design
    changed = {str(part): colour_of(design, cloth) for part, cloth in chosen.items()}
    colours = {**palette(design, colourway), **changed}
    reading = reading_with(design, colourway, chosen, table.found)
    now = design.colourways[colourway].parts
    return Tried(
        tuple(_candidate(design, part, cloth) for part, cloth in chosen.items()),
        coloured(printed(colours, {**now, **chosen}, table.prints)),
        coloured({cloth: grey(colour) for cloth, colour in colours.items()}),
        tuple(_close(design, chosen, reading)),
        _nearest(design, reading),
        all(now[part] == cloth for part, cloth in chosen.items()),
    )


def _candidate(design: Design, part: FabricName, cloth: ClothName) -> Candidate:
    colour = colour_of(design, cloth)
    name, called = design.cloths[cloth].name, design.fabrics[part].called
    return Candidate(called, name, colour, grey(colour))


def _close(
    design: Design, chosen: Mapping[FabricName, ClothName], reading: Reading
) -> Iterator[str]:
    """The neighbours of what is tried out that come close in grey or to some eyes."""
    for pair in reading.pairs:
        one, other = pair.meeting.one, pair.meeting.other
        names = f"{design.fabrics[one].called} and {design.fabrics[other].called}"
        if chosen.keys().isdisjoint({one, other}):
            continue
        if pair.is_close_in_grey:
            yield f"{names} come close in grey"
        elif pair.close_to:
            yield f"{names} come close {pair.close_to[0].value}"


def _nearest(design: Design, reading: Reading) -> str:
    pair = reading.nearest
    if pair is None:
        return ""
    one, other = (design.fabrics[n].called for n in (pair.meeting.one, pair.meeting.other))
    return f"least difference in lightness: {pair.grey:.0f}, {one} and {other}"
