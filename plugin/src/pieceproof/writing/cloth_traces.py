"""Why so much cloth: from the strips of the cutting plan to what is bought, as lines of a sum.

In: one size of a compiled pattern and a fact's key taken apart. Out: lines; none for facts that
are steps of the plan or words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from quicktions import Fraction

from pieceproof.backs import BackPlan, Seams
from pieceproof.compile import Sized
from pieceproof.cut_words import cuts_by_kind
from pieceproof.cutting.plan import Joined, Strip
from pieceproof.facts import PLUS, WIDTH, called
from pieceproof.lengths import parse_length
from pieceproof.model import Measure
from pieceproof.requirements import CM_PER_INCH, ROOM, Need, way_of
from pieceproof.writing.lines import Line, added

CLOTH = re.compile(rf"(?P<parts>.+), {WIDTH} (?P<width>[^,]+), (?P<what>.+)")
"""The key of a fact of one cloth."""


def cloth_lines(sized: Sized, key: re.Match[str]) -> Iterator[Line]:
    """The sum of one fact of a cloth."""
    need = _need(sized, key["parts"], parse_length(key["width"]))
    if need is None:
        return
    what = key["what"]
    for longer in need.others:
        way = f"long strips {way_of(longer)}, "
        if what.startswith(way):
            need = longer
            what = what.removeprefix(way)
    if what == "strips in all":
        yield from _strips(sized, need)
    elif what == "needed":
        yield from _needed(sized, need)
    elif what in ("yards", "metres"):
        yield from _sold(sized, need, what)
    elif what == "room left":
        show = sized.design.measure.show
        yield Line("", show(need.yardage.published), "bought")
        yield Line("-", show(need.yardage.needed), "needed")
        yield Line("=", show(need.yardage.room), "")
    elif what == "cuts":
        kinds = (words.split(" ", 1) for words in cuts_by_kind(need.cuts))
        yield from added([(count, words) for count, words in kinds], str(need.cuts.total))
    elif what.startswith("join "):
        run = next(run for run in need.plan.joined if run.letter == what.removeprefix("join "))
        yield from _run(sized, need, run)
    elif what.startswith("back") and need.backs is not None:
        other = what.startswith("back the other way, ")
        plan = need.backs.other if other else need.backs.chosen
        yield from _back(sized, plan, what.rpartition(", ")[2])


def _need(sized: Sized, parts: str, width: Fraction | None) -> Need | None:
    names = called(sized.design)
    for need in sized.requirements.needs:
        if need.usable_width == width and PLUS.join(names[f] for f in need.fabrics) == parts:
            return need
    return None


def _strips(sized: Sized, need: Need) -> Iterator[Line]:
    """All strips across the cloth."""
    show = sized.design.measure.show
    parts = [
        (show(strip.count * strip.height), f"{strip.count} x {show(strip.height)}, {_cut(strip)}")
        for strip in need.plan.strips
    ]
    yield from added(parts, show(need.plan.length))


def _cut(strip: Strip) -> str:
    letters = dict.fromkeys(cut.letter for segment in strip.segments for cut in segment.cuts)
    return f"for {', '.join(letters)}"


def _needed(sized: Sized, need: Need) -> Iterator[Line]:
    show = sized.design.measure.show
    parts = [
        (show(need.plan.length), "strips in all"),
        (show(need.demand.squaring), "to square the end of the cloth"),
    ]
    parts += [(show(f.length), f"motifs of {f.letter}, {f.rows} rows") for f in need.fussy]
    if need.backs is not None:
        back = need.backs.chosen
        parts.append((show(back.total), f"the back, {back.lengths} x {show(back.length)}"))
    yield from added(parts, show(need.yardage.needed))


def _sold(sized: Sized, need: Need, unit: str) -> Iterator[Line]:
    """The strips, squaring and room, in inches or centimetres; then as it is sold."""
    measure = sized.design.measure
    room = ROOM[measure] if need.plan.strips else Fraction(0)
    *parts, _ = _needed(sized, need)
    yield from parts
    yield Line("+", measure.show(room), "room for one cut that went wrong")
    whole = need.yardage.needed + room
    yield Line("=", measure.show(whole), "")
    yards = unit == "yards"
    if yards is not (measure is Measure.INCH):
        factor = CM_PER_INCH if measure is Measure.INCH else 1 / CM_PER_INCH
        whole *= factor
        sort = "centimetres" if measure is Measure.INCH else "inches"
        yield Line("", _decimal(whole), f"in {sort}, 2.54 cm to the inch")
    sold, step = (need.yards, "36 in to the yard, sold in steps of 1/8") if yards else (
        need.metres, "100 cm to the metre, sold in steps of 0.05")  # fmt: skip
    shown = Measure.INCH.show(sold) if yards else Measure.CENTIMETRE.show(sold)
    yield Line("=", shown, f"{unit}: {step}, rounded up")


def _decimal(value: Fraction) -> str:
    return f"{float(value):.2f}"


def _run(sized: Sized, need: Need, run: Joined) -> Iterator[Line]:
    """Strips end to end, less the joins."""
    show, width, joins = sized.design.measure.show, need.plan.width, run.strips - 1
    yield Line("", show(run.strips * width), f"{run.strips} strips of {show(width)}")
    yield Line("-", show(joins * run.loss), f"{joins} x {show(run.loss)}, what a join takes")
    reach = run.strips * width - joins * run.loss
    yield Line("=", show(reach), f"enough for {run.count} x {show(run.length)}; one less is not")


def _back(sized: Sized, plan: BackPlan, what: str) -> Iterator[Line]:
    show, facts = sized.design.measure.show, sized.publication.backing
    assert facts is not None
    sides = {Seams.UPRIGHT: (facts.width, facts.height), Seams.LEVEL: (facts.height, facts.width)}
    across, along = sides[plan.seams]
    joins = plan.panels + plan.halved - 1
    if what == "panels of one back":
        reach = plan.panels * plan.width - 2 * joins * plan.seam
        yield Line("", show(plan.panels * plan.width), f"{plan.panels} x {show(plan.width)} wide")
        yield Line("-", show(2 * joins * plan.seam), f"{joins} seams, {show(plan.seam)} each side")
        yield Line("=", show(reach), f"enough for a back {show(across)} across; one less is not")
        yield Line("", str(plan.panels), "panels")
    elif what == "each length":
        yield Line("", show(along), "along the back's seams")
        yield Line("=", show(plan.length), "rounded up to the ruler")
    elif what == "total":
        yield Line("", str(plan.lengths), "lengths of cloth")
        yield Line("x", show(plan.length), "each")
        yield Line("=", show(plan.total), "")
