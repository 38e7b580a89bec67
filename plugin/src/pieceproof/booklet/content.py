"""What a booklet says about one size, in the order of its pages.

In: a size with its prose. Out: words for the templates. Numbers and sentences come from the
publication, the instructions and the requirements; nothing is computed here.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from markdown import markdown
from markupsafe import Markup
from quicktions import Fraction

from pieceproof.booklet.drawings import figure
from pieceproof.compile import Sized
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.strips import cutting
from pieceproof.diagrams.subject import Subject, subject
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.instructions import Instruction, show_length, show_unfinished
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import FabricName, Measure
from pieceproof.pages.choices import Option
from pieceproof.pages.chooser import axes_of
from pieceproof.pages.cutting import Row, cutting_rows
from pieceproof.pages.finishing import Finishing, finishing
from pieceproof.pages.head import finished_size, is_for_infants, techniques
from pieceproof.pages.sewing import heading_of, plates_of
from pieceproof.pages.tokens import token, width_token
from pieceproof.prose import Passage, title_of
from pieceproof.prose_source import Where
from pieceproof.published import MakeKind
from pieceproof.requirements import Need, need_for

DRAWING_PX = 360
"""What drawings are laid out for; a page enlarges them as a whole."""
LONG_PX = 640
COVER_PX = 700
_LONG = 14
_WIDE = 2
"""A top so many times as wide as high fills a line of the cover by itself."""
_KINDS = {".png": "png", ".jpg": "jpeg", ".jpeg": "jpeg", ".webp": "webp"}
_SOURCE = re.compile(r'src="([^"]+)"')


@dataclass(frozen=True)
class Work:
    """One size to print.

    ``passages`` are the writer's prose, ``pictures`` the files it shows. ``shop`` and ``version``
    are printed as they are; either may be empty.
    """

    slug: str
    sized: Sized
    passages: tuple[Passage, ...]
    pictures: Mapping[str, bytes]
    shop: str = ""
    version: str = ""


@dataclass(frozen=True)
class Told:
    """The writer's prose for one section, as HTML."""

    before: Markup
    instead: Markup
    after: Markup


@dataclass(frozen=True)
class Colourway:
    """A colourway's name and its top in colour."""

    name: str
    top: Markup


@dataclass(frozen=True)
class Bought:
    """One part and what to buy of it, for each usable width. ``cloths`` is by colourway."""

    called: str
    buy: tuple[str, ...]
    cloths: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Cut:
    """One part's cutting list and the drawing of its strips, below it where the list is long."""

    called: str
    rows: tuple[Row, ...]
    drawing: Markup
    is_long: bool


@dataclass(frozen=True)
class Step:
    """One make."""

    anchor: str
    heading: str
    count: int
    spare: int
    unfinished: str
    sentences: tuple[str, ...]
    told: Told
    drawings: tuple[Markup, ...]


@dataclass(frozen=True)
class Part:
    """A section with makes in it."""

    anchor: str
    heading: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Narrow:
    """Cutting from cloth of another width, where it differs."""

    width: str
    cuts: tuple[Cut, ...]


def booklet_words(work: Work) -> dict[str, object]:
    """Everything the templates print."""
    sized = work.sized
    design, measure = sized.design, sized.design.measure
    seen = subject(design, sized.publication, sized.drawing)
    scenes = plates(seen, DRAWING_PX)
    usual, *others = sized.requirements.usable_widths
    cuts = _cuts(seen, sized, usual)
    told = partial(_told, work)
    return {
        "work": work,
        "design": design,
        "kind": design.kind[:1].upper() + design.kind[1:],
        "finished": finished_size(sized),
        "techniques": techniques([sized]),
        "pieces": sum(piece.count for piece in sized.publication.pieces),
        "quantity": sized.publication.quantity,
        "seam": show_length(measure, design.seam),
        "inches": measure is Measure.INCH,
        "head": {"infant": is_for_infants(design)},
        "test": _seam_test(sized),
        "wide": is_wide(work),
        "colourways": _colourways(sized, scenes["top"]),
        "widths": [show_length(measure, w) for w in sized.requirements.usable_widths],
        "bought": _bought(sized),
        "cut_lists": cuts,
        "narrow": [_narrow(seen, sized, cuts, width) for width in others],
        "parts": _parts(work, scenes),
        "finishing": _finishing(sized, usual),
        "told": told,
        "outline": figure(scenes["top"], Look.OUTLINE, "colouring", COVER_PX, {}),
        "measured": figure(scenes["measured top"], Look.INK, "measured", DRAWING_PX, {}),
    }


def is_wide(work: Work) -> bool:
    """Whether the top fills a line by itself."""
    publication = work.sized.publication
    return publication.width >= _WIDE * publication.height


def _told(work: Work, section: str) -> Told:
    return Told(*(_html(work, section, where) for where in _ORDER))


_ORDER = (Where.BEFORE, Where.INSTEAD, Where.AFTER)


def _html(work: Work, section: str, where: Where) -> Markup:
    """Markdown that holds no raw HTML, as `prose` sees to; its pictures as data."""
    texts = [p.text for p in work.passages if (p.section, p.where) == (section, where)]
    html = markdown("\n\n".join(texts), extensions=["attr_list", "admonition"])
    return Markup(_SOURCE.sub(partial(_embedded, work.pictures), html))


def _embedded(pictures: Mapping[str, bytes], source: re.Match[str]) -> str:
    name = source[1]
    kind = _KINDS[name[name.rindex(".") :]]
    return f'src="data:image/{kind};base64,{b64encode(pictures[name]).decode()}"'


def _seam_test(sized: Sized) -> Mapping[str, str]:
    """Three strips that show whether her seam is the pattern's."""
    measure, check = sized.design.measure, sized.seam_check
    lengths = {"strip": check.strip, "three": check.true.three, "middle": check.true.middle}
    return {name: show_length(measure, length) for name, length in lengths.items()}


def _colourways(sized: Sized, top: Scene) -> list[Colourway]:
    ways = sized.design.colourways
    return [
        Colourway(
            way.name,
            figure(
                replace(top, title=f"{top.title}, {way.name}"),
                Look.COLOUR,
                f"cover-{token(key)}",
                COVER_PX,
                palette(sized.design, key),
            ),
        )
        for key, way in ways.items()
    ]


def _used(sized: Sized) -> Iterator[str]:
    """The parts in order of use; each is planned alone."""
    alone = {need.fabrics[0] for need in sized.requirements.needs if len(need.fabrics) == 1}
    return (fabric for fabric in sized.design.fabrics if fabric in alone)


def _bought(sized: Sized) -> list[Bought]:
    design, widths = sized.design, sized.requirements.usable_widths
    return [
        Bought(
            design.fabrics[FabricName(fabric)].called,
            tuple(_buy(sized, need_for(sized.requirements, (fabric,), w)) for w in widths),
            tuple(
                (str(cloth.colour), cloth.name)
                for way in design.colourways.values()
                for cloth in [design.cloths[way.parts[FabricName(fabric)]]]
            ),
        )
        for fabric in _used(sized)
    ]


def _buy(sized: Sized, need: Need) -> str:
    """The length in the trade's unit first, the other one after it."""
    yards, metres = f"{show_fraction(need.yards)} yd", f"{show_decimal(need.metres)} m"
    inches = sized.design.measure is Measure.INCH
    text = f"{yards} ({metres})" if inches else f"{metres} ({yards})"
    if need.backs is None or need.backs.chosen.width == need.usable_width:
        return text
    return (
        f"{text} of extra-wide cloth, {show_length(sized.design.measure, need.backs.chosen.width)}"
    )


def _cuts(seen: Subject, sized: Sized, width: Fraction) -> list[Cut]:
    return [_cut(seen, sized, fabric, width) for fabric in _used(sized)]


def _cut(seen: Subject, sized: Sized, fabric: str, width: Fraction) -> Cut:
    need = need_for(sized.requirements, (fabric,), width)
    rows = cutting_rows(sized, need)
    is_long = len(rows) > _LONG
    drawing = Markup("")
    if need.plan.strips:
        px = LONG_PX if is_long else DRAWING_PX
        scene = cutting(seen, need.fabrics, need.plan, px)
        ident = f"strips-{token(fabric)}-{width_token(width)}"
        drawing = figure(scene, Look.INK, ident, px, {})
    called = sized.design.fabrics[FabricName(fabric)].called
    return Cut(called[:1].upper() + called[1:], rows, drawing, is_long)


def _narrow(seen: Subject, sized: Sized, usual: Sequence[Cut], width: Fraction) -> Narrow:
    """Only what is cut differently."""
    cuts = _cuts(seen, sized, width)
    different = (cut for cut, first in zip(cuts, usual, strict=True) if cut.rows != first.rows)
    return Narrow(show_length(sized.design.measure, width), tuple(different))


def _finishing(sized: Sized, width: Fraction) -> Finishing:
    """The numbers for one width only."""
    found = replace(sized.requirements, usable_widths=(width,))
    at_width = replace(sized, requirements=found)
    option = Option(width_token(width), show_length(sized.design.measure, width))
    return finishing(axes_of([at_width], [option]), [at_width])


def _parts(work: Work, scenes: Mapping[str, Scene]) -> list[Part]:
    kinds = (
        ("units", "Units", (MakeKind.TRIANGLE, MakeKind.UNIT)),
        ("blocks", "Blocks", (MakeKind.BLOCK,)),
        ("top", "Quilt top", (MakeKind.CENTRE, MakeKind.BORDER, MakeKind.TOP)),
    )
    parts = (
        Part(
            anchor,
            heading,
            tuple(
                _step(work, scenes, instruction)
                for instruction in work.sized.instructions
                if instruction.make.kind in of_kind
            ),
        )
        for anchor, heading, of_kind in kinds
    )
    return [part for part in parts if part.steps]


def _step(work: Work, scenes: Mapping[str, Scene], instruction: Instruction) -> Step:
    make = instruction.make
    return Step(
        f"make-{token(make.name)}",
        heading_of(make),
        make.rounds * make.each,
        make.spare,
        show_unfinished(work.sized.design.measure, make),
        instruction.steps,
        _told(work, title_of(make)),
        tuple(
            figure(
                scenes[f"{plate} {make.name}"],
                Look.INK,
                f"{plate}-{token(make.name)}",
                DRAWING_PX,
                {},
            )
            for plate in plates_of(make)
            if f"{plate} {make.name}" in scenes
        ),
    )
