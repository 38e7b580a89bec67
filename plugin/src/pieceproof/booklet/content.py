"""What a booklet says about one size, in the order of its pages.

In: a size with its prose. Out: words for the templates. Numbers and sentences come from the
publication, the instructions and the requirements; nothing is computed here.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from functools import partial

from markdown import markdown
from markupsafe import Markup
from quicktions import Fraction

from pieceproof.booklet.drawings import figure
from pieceproof.booklet.wording import prose_html, sentence_html
from pieceproof.compile import Sized
from pieceproof.converted import about
from pieceproof.cutting.plan import Plan
from pieceproof.diagrams.binding import binding_corner
from pieceproof.diagrams.legible import scale_of
from pieceproof.diagrams.making import STAGE, making, width_of_a_row
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.photographed import photographed
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.strips import cutting, strips
from pieceproof.diagrams.subject import Subject, subject
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.fussy import Fussy
from pieceproof.instructions import Instruction, show_length, show_made, show_spare, show_unfinished
from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.model import Design, FabricName, Measure
from pieceproof.pages.choices import Option, Variant
from pieceproof.pages.chooser import axes_of
from pieceproof.pages.cutting import Row, cutting_rows
from pieceproof.pages.finishing import Finishing, finishing
from pieceproof.pages.head import finished_size, is_for_infants, techniques
from pieceproof.pages.sewing import heading_of, plates_of
from pieceproof.pages.tokens import token, width_token
from pieceproof.print_words import print_words
from pieceproof.prose import Passage, title_of
from pieceproof.prose_source import Where
from pieceproof.published import Make, MakeKind
from pieceproof.requirements import Need, need_for
from pieceproof.swatches import Print

DRAWING_PX = 360
"""What drawings are laid out for; a page enlarges them as a whole."""
LONG_PX = 720
"""What drawings of strips are laid out for that take the whole width of a page."""
ROW_PX = 5 * STAGE
"""What five stages in a row are laid out for, the most there are."""
_ROW_PERCENT = 94
"""What they take of the page's width."""
COVER_PX = 700
_LONG = 14
"""A cutting list of more rows stands above its drawing."""
_LONG_WORDS = 1200
"""Words of more letters stand above their drawing."""
_WIDE = 2
"""A top so many times as wide as high fills a line of the cover by itself."""
_KINDS = {".png": "png", ".jpg": "jpeg", ".jpeg": "jpeg", ".webp": "webp"}
_SOURCE = re.compile(r'src="([^"]+)"')


@dataclass(frozen=True)
class Work:
    """One size to print.

    ``passages`` are the writer's prose, ``pictures`` the files it shows, ``prints`` photographs by
    cloth. ``shop`` and ``version`` are printed as they are; either may be empty.
    """

    slug: str
    sized: Sized
    passages: tuple[Passage, ...]
    pictures: Mapping[str, bytes]
    prints: Mapping[str, Print]
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
    prints: tuple[str, ...]
    buy: tuple[str, ...]
    cloths: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Cut:
    """One part's cutting list and the drawing of its strips; a ``wide`` one where it is long."""

    called: str
    rows: tuple[Row, ...]
    drawing: Markup
    wide: Markup


class StepLayout(Enum):
    """Where a step's drawings stand on a page that is wide enough."""

    BESIDE = "beside"
    """Beside its words."""
    PAIR = "pair"
    """Two side by side below its words."""
    BELOW = "below"
    """In rows below its words, which are in two columns."""


@dataclass(frozen=True)
class Step:
    """One make."""

    anchor: str
    heading: str
    made: str
    spare: str
    unfinished: str
    sentences: tuple[Markup, ...]
    told: Told
    drawings: tuple[Markup, ...]
    layout: StepLayout
    row: Markup
    """The first drawing with all its stages in a row, where the layout has room for that."""
    row_width: int
    """Its width in hundredths of the page's."""


@dataclass(frozen=True)
class Part:
    """A section with makes in it."""

    anchor: str
    heading: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class Narrow:
    """Cutting from cloth of another width, where it differs."""

    anchor: str
    width: str
    cuts: tuple[Cut, ...]

    @property
    def called(self) -> tuple[str, ...]:
        """The parts that are cut differently."""
        return tuple(cut.called for cut in self.cuts)


def booklet_words(work: Work) -> dict[str, object]:
    """Everything the templates print."""
    sized = work.sized
    design, measure = sized.design, sized.design.measure
    seen = subject(design, sized.publication, sized.drawing)
    scenes = plates(seen, DRAWING_PX)
    usual, *others = _printed_widths(sized)
    cuts = _cuts(seen, sized, usual)
    told = partial(_told, work)
    return {
        "work": work,
        "design": design,
        "released": design.release is not None,
        "kind": _kind(design),
        "finished": finished_size(sized),
        "about": about(design.measure, sized.publication.width, sized.publication.height),
        "techniques": techniques([sized]),
        "pieces": sum(piece.count for piece in sized.publication.pieces),
        "quantity": sized.publication.quantity,
        "seam": show_length(measure, design.seam),
        "inches": measure is Measure.INCH,
        "head": {"infant": is_for_infants(design)},
        "test": _seam_test(sized),
        "wide": is_wide(work),
        "colourways": _colourways(work, scenes["top"]),
        "widths": [show_length(measure, w) for w in _printed_widths(sized)],
        "bought": _bought(sized),
        "fabrics": _fabrics(design),
        "cut_lists": cuts,
        "narrow": [_narrow(seen, sized, cuts, width) for width in others],
        "parts": _parts(work, seen, scenes),
        "finishing": _finishing(sized, usual),
        "told": told,
        "outline": figure(scenes["top"], Look.OUTLINE, "colouring", COVER_PX, {}),
        "measured": figure(scenes["measured top"], Look.INK, "measured", DRAWING_PX, {}),
    }


def _kind(design: Design) -> str:
    """What it is, and the size's own name where that is another."""
    kind = design.kind[:1].upper() + design.kind[1:]
    return kind if design.label.lower() == design.kind.lower() else f"{kind} · {design.label}"


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
    return prose_html(_SOURCE.sub(partial(_embedded, work.pictures), html))


def _embedded(pictures: Mapping[str, bytes], source: re.Match[str]) -> str:
    name = source[1]
    kind = _KINDS[name[name.rindex(".") :]]
    return f'src="data:image/{kind};base64,{b64encode(pictures[name]).decode()}"'


def _seam_test(sized: Sized) -> Mapping[str, str]:
    """Three strips that show whether her seam is the pattern's."""
    measure, check = sized.design.measure, sized.seam_check
    lengths = {"strip": check.strip, "three": check.true.three, "middle": check.true.middle}
    return {name: show_length(measure, length) for name, length in lengths.items()}


def _colourways(work: Work, top: Scene) -> list[Colourway]:
    design, scale = work.sized.design, scale_of(top, COVER_PX)
    return [
        Colourway(
            way.name,
            figure(
                replace(top, title=f"{top.title}, {way.name}"),
                Look.COLOUR,
                f"cover-{token(key)}",
                COVER_PX,
                palette(design, key),
                photographed(design, key, work.prints, scale),
            ),
        )
        for key, way in design.colourways.items()
    ]


def _used(sized: Sized) -> Iterator[str]:
    """The parts in order of use; each is planned alone."""
    alone = {need.fabrics[0] for need in sized.requirements.needs if len(need.fabrics) == 1}
    return (fabric for fabric in sized.design.fabrics if fabric in alone)


def _bought(sized: Sized) -> list[Bought]:
    design, widths = sized.design, _printed_widths(sized)
    return [
        Bought(
            design.fabrics[FabricName(fabric)].called,
            tuple(print_words(design.measure, design.fabrics[FabricName(fabric)])),
            tuple(_buy(sized, need_for(sized.requirements, (fabric,), w)) for w in widths),
            tuple(
                (str(cloth.colour), cloth.name)
                for way in design.colourways.values()
                for cloth in [design.cloths[way.parts[FabricName(fabric)]]]
            ),
        )
        for fabric in _used(sized)
    ]


def _fabrics(design: Design) -> str:
    """How many cloths are bought, fewest to most where that depends on the colourway."""
    counts = sorted({len(set(way.parts.values())) for way in design.colourways.values()})
    return str(counts[0]) if len(counts) == 1 else f"{counts[0]} to {counts[-1]}"


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


def _printed_widths(sized: Sized) -> tuple[Fraction, ...]:
    """The usual width and narrower ones; paper has no room for the cutting of wider cloth."""
    usual, *others = sized.requirements.usable_widths
    return (usual, *(width for width in others if width < usual))


def _cuts(seen: Subject, sized: Sized, width: Fraction) -> list[Cut]:
    """Of every part; the drawing of the first shows how to square the cloth."""
    cuts = []
    draw = cutting
    for fabric in _used(sized):
        cuts.append(_cut(seen, sized, need_for(sized.requirements, (fabric,), width), draw))
        draw = strips if cuts[-1].drawing else draw
    return cuts


_Draw = Callable[[Subject, Sequence[str], Plan, Sequence[Fussy], int], Scene]


def _cut(seen: Subject, sized: Sized, need: Need, draw: _Draw) -> Cut:
    (fabric,), width = need.fabrics, need.usable_width
    rows = cutting_rows(sized, need)
    ident = f"strips-{token(fabric)}-{width_token(width)}"

    def drawn(px: int) -> Markup:
        if not (need.plan.strips or need.fussy):
            return Markup("")
        scene = draw(seen, need.fabrics, need.plan, need.fussy, px)
        return figure(scene, Look.INK, ident, px, {})

    called = sized.design.fabrics[FabricName(fabric)].called
    wide = drawn(LONG_PX) if len(rows) > _LONG else Markup("")
    return Cut(called[:1].upper() + called[1:], rows, drawn(DRAWING_PX), wide)


def _narrow(seen: Subject, sized: Sized, usual: Sequence[Cut], width: Fraction) -> Narrow:
    """Only what is cut differently."""
    cuts = _cuts(seen, sized, width)
    different = (cut for cut, first in zip(cuts, usual, strict=True) if cut.rows != first.rows)
    shown = show_length(sized.design.measure, width)
    return Narrow(f"narrow-{width_token(width)}", shown, tuple(different))


def _finishing(sized: Sized, width: Fraction) -> Finishing:
    """The numbers for one width only."""
    found = replace(sized.requirements, usable_widths=(width,))
    at_width = replace(sized, requirements=found)
    option = Option(width_token(width), show_length(sized.design.measure, width))
    told = finishing(axes_of([at_width], [option]), [at_width])
    scene = binding_corner(sized.design, show_length(sized.design.measure, sized.design.seam))
    corner = (Variant({}, _plate(scene, "binding-corner")),) if scene else ()
    return replace(told, corner=corner)


def _parts(work: Work, seen: Subject, scenes: Mapping[str, Scene]) -> list[Part]:
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
                _step(work, seen, scenes, instruction)
                for instruction in work.sized.instructions
                if instruction.make.kind in of_kind
            ),
        )
        for anchor, heading, of_kind in kinds
    )
    return [part for part in parts if part.steps]


def _step(work: Work, seen: Subject, scenes: Mapping[str, Scene], found: Instruction) -> Step:
    make, told = found.make, _told(work, title_of(found.make))
    stages = width_of_a_row(seen, make.name) // STAGE if make.method else 1
    layout = _layout_of(make, told, found.steps, stages)
    row, width = Markup(""), ROW_PX // 2
    if layout is StepLayout.BELOW and make.method:
        width = width_of_a_row(seen, make.name)
        scene = making(seen, make.name, width)
        row = figure(scene, Look.INK, f"row-{token(make.name)}", width, {})
    return Step(
        f"make-{token(make.name)}",
        heading_of(make),
        show_made(make),
        show_spare(make),
        show_unfinished(work.sized.design.measure, make),
        tuple(map(sentence_html, found.steps)),
        told,
        tuple(
            _plate(scenes[f"{plate} {make.name}"], f"{plate}-{token(make.name)}")
            for plate in plates_of(make)
            if f"{plate} {make.name}" in scenes
        ),
        layout,
        row,
        _ROW_PERCENT * width // ROW_PX,
    )


def _plate(scene: Scene, ident: str) -> Markup:
    return figure(scene, Look.INK, ident, DRAWING_PX, {})


def _layout_of(make: Make, told: Told, sentences: Sequence[str], stages: int) -> StepLayout:
    """Stages of a making stand in a row; long words go above their drawing."""
    if len(plates_of(make)) > 1:
        return StepLayout.PAIR
    if stages > 2:
        return StepLayout.BELOW
    words = (told.before, *([told.instead] if told.instead else sentences), told.after)
    is_long = sum(map(len, words)) > _LONG_WORDS
    return StepLayout.BELOW if is_long else StepLayout.BESIDE
