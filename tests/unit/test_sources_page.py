"""The handbook's table of sources has the values that the program takes, and no others."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from method_path import MIST, design_of
from quicktions import Fraction

from pieceproof.backs import BACK_SEAM
from pieceproof.beds import MATTRESSES_IN
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, FIVE_CM
from pieceproof.demands import SQUARING
from pieceproof.finishing import PACKAGES_IN, backing_of, batting_of, binding_of, sleeve_of
from pieceproof.methods.method import workroom
from pieceproof.model import Backing, Batting, Binding, Design, Measure, Size, Sleeve
from pieceproof.requirements import CM_PER_INCH, ROOM, USABLE_WIDTHS
from pieceproof.writing.resizing import METRIC_SEAM, REDRAFT
from pieceproof.writing.starting import starting_folder

PAGE = Path(__file__).parents[2] / "site_src" / "handbook" / "sources.md"
TOP = Size(Fraction(60), Fraction(80))


def finished(measure: Measure) -> Design:
    """A design that says nothing of its finishing but that there is some."""
    plain = design_of({}, measure, Fraction(1, 4), ())
    return replace(
        plain, binding=Binding(MIST), backing=Backing(MIST), batting=Batting(), sleeve=Sleeve(MIST)
    )


def both(value: Callable[[Measure], Fraction]) -> str:
    inches, centimetres = (measure.show(value(measure)) for measure in Measure)
    return f"{inches} in, {centimetres} cm"


def of_finishing(part: Callable[[Design, Size], object], name: str) -> str:
    def value(measure: Measure) -> Fraction:
        found = getattr(part(finished(measure), TOP), name)
        assert isinstance(found, Fraction)
        return found

    return both(value)


def widths(measure: Measure) -> str:
    return ", ".join(map(measure.show, USABLE_WIDTHS[measure]))


def rows() -> Iterator[str]:
    """What the first column must say."""
    files, _ = starting_folder("a", Measure.INCH)
    assert b"\nseam: 1/4\n" in files["pattern.yaml"]
    show = Measure.CENTIMETRE.show
    yield f"seam allowance: 1/4 in, {show(METRIC_SEAM)} cm"
    yield f"cut sizes rounded up to: {both(lambda measure: measure.step)}"
    yield f"an inch redrawn as: {show(REDRAFT)} cm"
    yield f"an inch in cloth and finished sizes: {show(CM_PER_INCH)} cm"
    room = {measure: workroom(finished(measure)) for measure in Measure}
    yield f"pieces for foundations, larger each way by: {both(lambda m: room[m].ample)}"
    yield f"truing one end of a strip set: {both(lambda m: room[m].squaring)}"
    yield f"usable widths: {widths(Measure.INCH)} in; {widths(Measure.CENTIMETRE)} cm"
    yield f"squaring the end of the cloth: {both(lambda m: SQUARING[m])}"
    yield f"room for a cut that went wrong: {both(lambda m: ROOM[m])}"
    yield f"sold in steps of: {EIGHTH_YARD_IN / 36} yd, {show(FIVE_CM / 100)} m"
    yield f"seams down the back: {both(lambda m: BACK_SEAM[m])}"
    yield f"binding cut: {of_finishing(binding_of, 'cut_width')}"
    yield f"binding beyond the edge: {of_finishing(binding_of, 'extra')}"
    yield f"backing beyond the top on each side: {of_finishing(backing_of, 'beyond')}"
    yield f"batting beyond the top on each side: {of_finishing(batting_of, 'beyond')}"
    yield f"hanging sleeve, depth: {of_finishing(sleeve_of, 'depth')}"
    yield f"hanging sleeve, shorter than the top: {of_finishing(sleeve_of, 'shorter')}"
    yield f"packages of batting: {', '.join(f'{p.short} x {p.long}' for p in PACKAGES_IN)} in"
    yield f"mattresses: {', '.join(f'{w} x {h}' for w, h in MATTRESSES_IN.values())} in"


def test_the_page_has_the_values_of_the_program() -> None:
    lines = PAGE.read_text("utf-8").splitlines()
    cells = [line.split(" | ")[0].removeprefix("| ") for line in lines if line.startswith("| ")]
    assert [cell for cell in cells if cell not in ("what", "---")] == list(rows())
