"""Everything published for one size that is a number or a list, one fact a line.

In: a design, its publication and its requirements. Out: facts in the order of the pipeline, with
keys in the author's own names. Keys are unique within a size and do not name the size, so that
another size changes none. Nothing is computed here but the text of a number.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from quicktions import Fraction

from pieceproof.backs import BackPlan
from pieceproof.converted import about
from pieceproof.cut_words import cuts_by_kind
from pieceproof.cutting.demand import Long
from pieceproof.cutting.plan import Joined, Plan, Segment
from pieceproof.demands import Group
from pieceproof.fact_steps import step_lines
from pieceproof.fussy import Fussy
from pieceproof.instructions import show_length, show_size
from pieceproof.lengths import Number, Surd, ceil_to, show_exact
from pieceproof.methods.method import SET_B
from pieceproof.model import Design, Measure
from pieceproof.print_words import print_lines
from pieceproof.published import (
    BattingFacts,
    Extra,
    Make,
    MakeKind,
    Piece,
    Publication,
    SleeveFacts,
)
from pieceproof.requirements import CM_PER_INCH, ROOM, Need, Requirements, way_of
from pieceproof.steps import JoinMarks
from pieceproof.template_cuts import cuts_around
from pieceproof.template_words import set_in_seams, template_lines
from pieceproof.usual import usual_addition

PLUS = " + "
"""Between the parts that one cloth plays."""

WIDTH = "usable width"
"""Begins the part of a key that says for which cloth a length is."""

_KINDS = {MakeKind.UNIT: "unit ", MakeKind.BLOCK: "block "}


@dataclass(frozen=True)
class Fact:
    """One published value: its key, the exact value and the published one, as text.

    ``said`` is the published value as a sentence says it, with its unit.
    """

    key: str
    exact: str
    published: str
    said: str = field(default="", compare=False)


@dataclass(frozen=True)
class _Desk:
    """What every fact needs: the design and what its fabrics are called in keys."""

    design: Design
    called: Mapping[str, str]

    def length(self, key: str, exact: Number, published: Fraction | None = None) -> Fact:
        """A length in the pattern's unit."""
        measure = self.design.measure
        shown = _exactly(exact) if published is None else published
        return Fact(key, _text(measure, exact), measure.show(shown), show_length(measure, shown))

    def group(self, fabrics: Group) -> str:
        """The parts of a group, in one name."""
        return PLUS.join(self.called[fabric] for fabric in fabrics)


def facts_of(
    design: Design, publication: Publication, requirements: Requirements
) -> tuple[Fact, ...]:
    """All facts of one size."""
    desk = _Desk(design, called(design))
    return (
        *_whole(desk, publication),
        *(fact for piece in publication.pieces for fact in _piece(desk, piece)),
        *(_words(*line) for line in print_lines(design, publication, desk.called)),
        *(fact for make in publication.makes for fact in _make(desk, publication, make)),
        *_finishing(desk, publication),
        *_shopping(desk, requirements),
        *(fact for need in requirements.needs for fact in _need(desk, need)),
    )


def called(design: Design) -> Mapping[str, str]:
    """What each fabric is called in keys: as in the text, or by its name where that cannot be."""
    return {
        name: fabric.called if _fits_in_a_key(fabric.called) else f"{name} (fabric)"
        for name, fabric in design.fabrics.items()
    }


def _fits_in_a_key(text: str) -> bool:
    plain = text.replace(" ", "a").replace("-", "a").replace("'", "a")
    return plain.isalnum() and text == " ".join(text.split()) and not text.isdecimal()


def _count(key: str, count: int) -> Fact:
    return Fact(key, str(count), str(count), str(count))


def _words(key: str, words: str) -> Fact:
    return Fact(key, words, words, words)


def _exactly(number: Number) -> Fraction:
    assert not isinstance(number, Surd)
    return number


def _text(measure: Measure, number: Number) -> str:
    return show_exact(number) if isinstance(number, Surd) else measure.show(number)


def _whole(desk: _Desk, publication: Publication) -> Iterator[Fact]:
    yield _words("measure", publication.measure)
    yield desk.length("ruler's step", publication.step)
    yield desk.length("seam allowance", publication.seam)
    yield _count("tops", publication.quantity)
    yield desk.length("finished size, width", publication.width)
    yield desk.length("finished size, height", publication.height)
    yield _words(
        "finished size, about", about(desk.design.measure, publication.width, publication.height)
    )


def _piece(desk: _Desk, piece: Piece) -> Iterator[Fact]:
    measure, name = desk.design.measure, f"piece {piece.letter}, {desk.called[piece.fabric]}"
    needed = [_text(measure, side) for side in (piece.needed_short, piece.needed_long)]
    exact = " x ".join(f"({side})" if " root " in side else side for side in needed)
    cut = f"{measure.show(piece.short)} x {measure.show(piece.long)}"
    yield Fact(f"{name}, cut", exact, cut, show_size(measure, piece.short, piece.long))
    yield _count(f"{name}, count", piece.count)
    if piece.oversize:
        yield desk.length(f"{name}, oversize", piece.oversize)
    uses = dict.fromkeys(use.removesuffix(SET_B) for use in piece.uses)
    yield _words(f"{name}, used in", ", ".join(uses))
    if piece.template is not None:
        for part, words in template_lines(measure, piece.template):
            yield _words(f"{name}, template, {part}", words)
        yield _count(f"{name}, template, cuts along it", cuts_around(piece))


def _make(desk: _Desk, publication: Publication, make: Make) -> Iterator[Fact]:
    name, seams = name_of(make), 2 * publication.seam
    if make.method:
        yield _words(f"{name}, method", make.method)
    if make.kind is MakeKind.TRIANGLE:
        yield desk.length(f"{name}, cut, width", make.width)
        yield desk.length(f"{name}, cut, height", make.height)
    else:
        yield desk.length(f"{name}, finished, width", make.width - seams)
        yield desk.length(f"{name}, finished, height", make.height - seams)
        yield desk.length(f"{name}, unfinished, width", make.width)
        yield desk.length(f"{name}, unfinished, height", make.height)
    yield _count(f"{name}, rounds", make.rounds)
    yield _count(f"{name}, from each round", make.each)
    yield _count(f"{name}, make", make.rounds * make.each)
    yield _count(f"{name}, use", make.wanted)
    yield _count(f"{name}, spare", make.spare)
    for extra in make.extras:
        yield from _extra(desk, f"{name}, besides, {extra.name}", make, extra)
    if make.oversize:
        yield desk.length(f"{name}, oversize", make.oversize)
    yield from _trimmed_off(desk, publication, make)
    yield from _usual(desk, publication, name, make)
    if any(isinstance(step, JoinMarks) for step in make.steps):
        yield _count(f"{name}, set-in seams", set_in_seams(make))
    letters = {piece.letter for piece in publication.pieces}
    for number, step in enumerate(make.steps, 1):
        for part, words in step_lines(desk.design.measure, step, letters):
            yield _words(f"{name}, step {number}{part}", words)


def _usual(desk: _Desk, publication: Publication, name: str, make: Make) -> Iterator[Fact]:
    """What metric handbooks add, and what it lacks to a tenth of a millimetre."""
    pieces = {piece.letter: piece for piece in publication.pieces}
    found = usual_addition(desk.design.measure, publication.seam, make, pieces)
    if found is not None:
        yield desk.length(f"{name}, usual addition", found.addition)
        yield desk.length(f"{name}, usual addition, short by", found.short, found.shown)


def _extra(desk: _Desk, name: str, make: Make, extra: Extra) -> Iterator[Fact]:
    yield desk.length(f"{name}, unfinished, width", extra.width)
    yield desk.length(f"{name}, unfinished, height", extra.height)
    yield _count(f"{name}, from each round", extra.each)
    yield _count(f"{name}, use", extra.wanted)
    yield _count(f"{name}, spare", make.spare_of(extra))


def name_of(make: Make) -> str:
    """``unit point``, ``block star``, ``quilt centre``, ``top``."""
    return f"{_KINDS.get(make.kind, '')}{make.name}"


def _trimmed_off(desk: _Desk, publication: Publication, make: Make) -> Iterator[Fact]:
    """What the first trim takes off in all; the page says it up to the ruler's next step."""
    trim = make.trim
    if trim is not None:
        across, down = trim.off_left + trim.off_right, trim.off_top + trim.off_bottom
        for side, off in (("width", across), ("height", down)):
            yield desk.length(
                f"{name_of(make)}, trimmed off, {side}", off, ceil_to(off, publication.step)
            )


def _finishing(desk: _Desk, publication: Publication) -> Iterator[Fact]:
    binding, backing, batting = publication.binding, publication.backing, publication.batting
    if binding is not None:
        yield _words("binding, fabric", desk.called[binding.fabric])
        yield desk.length("binding, cut width", binding.cut_width)
        yield _words("binding, fold", binding.fold)
        yield _words("binding, grain", binding.grain)
        yield desk.length("binding, beyond the edge", binding.extra)
        yield desk.length(
            "binding, length", binding.length, ceil_to(binding.length, publication.step)
        )
    if binding is not None and binding.square is not None:
        yield desk.length("binding, square", binding.square)
    if backing is not None:
        yield _words("backing, fabric", desk.called[backing.fabric])
    for name, part in (("backing", backing), ("batting", batting)):
        if part is not None:
            yield desk.length(f"{name}, beyond the top", part.beyond)
            yield desk.length(f"{name}, size, width", part.width)
            yield desk.length(f"{name}, size, height", part.height)
    if batting is not None:
        yield _words("batting, package in inches", _package(batting))
    if publication.sleeve is not None:
        yield from _sleeve(desk, publication.sleeve)


def _package(batting: BattingFacts) -> str:
    package = batting.package
    if package is None:
        return "none, by length"
    return f"{Measure.INCH.show(package.short)} x {Measure.INCH.show(package.long)}"


def _sleeve(desk: _Desk, sleeve: SleeveFacts) -> Iterator[Fact]:
    yield _words("sleeve, fabric", desk.called[sleeve.fabric])
    yield desk.length("sleeve, depth", sleeve.depth)
    yield desk.length("sleeve, shorter than the top", sleeve.shorter)
    yield desk.length("sleeve, cut width", sleeve.cut_width)
    yield desk.length("sleeve, length", sleeve.length)


def _shopping(desk: _Desk, requirements: Requirements) -> Iterator[Fact]:
    """Which widths are planned, and which parts each cloth plays."""
    measure = desk.design.measure
    widths = ", ".join(measure.show(width) for width in requirements.usable_widths)
    yield _words(f"{WIDTH}s", widths)
    yield desk.length("room left, at least", ROOM[measure])
    yield _words("yards, sold in steps of", "1/8")
    yield _words("metres, sold in steps of", "0.05")
    for played in requirements.played:
        key = f"colourway {played.colourway}, cloth {played.cloth}, plays"
        yield _words(key, desk.group(played.fabrics))


def _need(desk: _Desk, need: Need) -> Iterator[Fact]:
    name = f"{desk.group(need.fabrics)}, {WIDTH} {desk.design.measure.show(need.usable_width)}"
    yield from _cuts(desk, name, need)
    if need.backs is not None:
        yield from _back(desk, f"{name}, back", need.backs.chosen)
        yield from _back(desk, f"{name}, back the other way", need.backs.other)
    for fussy in need.fussy:
        yield from _fussy(desk, f"{name}, motifs {fussy.letter}", fussy)
    yield desk.length(f"{name}, squaring", need.demand.squaring)
    yield from _bought(desk, name, need)
    yield desk.length(f"{name}, room left", need.yardage.room)
    yield _count(f"{name}, cuts", need.cuts.total)
    yield _words(
        f"{name}, cuts, worked out", f"{' + '.join(cuts_by_kind(need.cuts))} = {need.cuts.total}"
    )
    yield desk.length(f"{name}, these cuts fit down to", need.narrowest)
    for other in need.others:
        yield from _bought(desk, f"{name}, long strips {way_of(other)}", other)
    for spare in need.yardage.spares:
        yield _count(f"{name}, spare {spare.letter}, from strip ends", spare.from_ends)
        yield _count(f"{name}, spare {spare.letter}, from the room left", spare.from_room)
    for again in need.yardage.again:
        height = desk.design.measure.show(again.height)
        yield _count(f"{name}, spare strips {height} wide", again.strips)


def _bought(desk: _Desk, name: str, need: Need) -> Iterator[Fact]:
    yield desk.length(f"{name}, needed", need.yardage.needed)
    yield _yards(desk.design.measure, f"{name}, yards", need)
    yield _metres(desk.design.measure, f"{name}, metres", need)


def _fussy(desk: _Desk, name: str, fussy: Fussy) -> Iterator[Fact]:
    """Repeat times count: how many across, how many rows, what that takes."""
    yield desk.length(f"{name}, apart across", fussy.apart_across)
    yield _count(f"{name}, side by side", fussy.abreast)
    yield desk.length(f"{name}, apart along", fussy.apart_along)
    yield _count(f"{name}, rows", fussy.rows)
    show = desk.design.measure.show
    yield _words(
        f"{name}, worked out",
        f"{fussy.rows - 1} x {show(fussy.apart_along)} + one repeat {show(fussy.repeat_along)} "
        f"+ one piece {show(fussy.along)} = {show(fussy.length)}",
    )
    yield desk.length(f"{name}, length", fussy.length)


def _cuts(desk: _Desk, name: str, need: Need) -> Iterator[Fact]:
    measure, plan = desk.design.measure, need.plan
    for number, strip in enumerate(plan.strips, 1):
        cuts = "; ".join(_segment(measure, segment) for segment in strip.segments)
        head = f"{_many(strip.count, 'strip')} {measure.show(strip.height)} wide"
        yield _words(f"{name}, cut {number}", f"{head}: {cuts}")
    for run in plan.joined:
        (long,) = (long for long in need.demand.longs if long.letter == run.letter)
        yield _words(f"{name}, join {run.letter}", _joined(measure, run, long, plan))
    yield desk.length(f"{name}, strips in all", plan.length)


def _segment(measure: Measure, segment: Segment) -> str:
    """``7 cross-cuts of 3, each 2 A 3 x 1 1/2``: across the cloth first, then along it."""
    show = measure.show
    stacks = " and ".join(
        f"{cut.count} {cut.letter} {show(cut.across)} x {show(cut.along)}" for cut in segment.cuts
    )
    return f"{_many(segment.count, 'cross-cut')} of {show(segment.length)}, each {stacks}"


def _joined(measure: Measure, run: Joined, long: Long, plan: Plan) -> str:
    show = measure.show
    return (
        f"{_many(run.strips, 'strip')} {show(long.width)} x {show(plan.width)} at most, joined "
        f"end to end ({run.join}, each join takes {show(run.loss)}) into {show(run.run)}, "
        f"for {run.count} of {show(run.length)}"
    )


def _back(desk: _Desk, name: str, back: BackPlan) -> Iterator[Fact]:
    seams = "none" if back.panels == 1 else back.seams.value
    yield _words(f"{name}, seams", seams)
    yield desk.length(f"{name}, cloth width", back.width)
    yield _count(f"{name}, panels of one back", back.panels)
    yield _count(f"{name}, panels cut in half", back.halved)
    if back.panels == 1:
        yield _count(f"{name}, side by side", back.abreast)
    else:
        yield desk.length(f"{name}, seam allowance", back.seam)
    yield _count(f"{name}, lengths of cloth", back.lengths)
    yield desk.length(f"{name}, each length", back.length)
    yield desk.length(f"{name}, total", back.total)


def _yards(measure: Measure, key: str, need: Need) -> Fact:
    inches = need.yardage.needed / (1 if measure is Measure.INCH else CM_PER_INCH)
    yards = Measure.INCH.show(need.yards)
    said = f"{yards} {'yard' if need.yards <= 1 else 'yards'}"
    return Fact(key, Measure.INCH.show(inches / 36), yards, said)


def _metres(measure: Measure, key: str, need: Need) -> Fact:
    centimetres = need.yardage.needed * (CM_PER_INCH if measure is Measure.INCH else 1)
    metres = Measure.CENTIMETRE.show(need.metres)
    return Fact(key, _decimal(centimetres / 100), metres, f"{metres} m")


def _decimal(value: Fraction) -> str:
    """All decimals of a length in metres: multiples of 1/8 in or 0.1 cm end after at most seven."""
    scaled = value * 10**9
    assert scaled.denominator == 1
    whole, rest = divmod(scaled.numerator, 10**9)
    return f"{whole}.{rest:09d}".rstrip("0").rstrip(".")


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"
