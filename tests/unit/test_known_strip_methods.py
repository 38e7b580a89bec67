"""Strips, logs and foundations: known units, every changed number, faults and words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bites import misjudged, shapely_differs
from method_path import (
    CLAY,
    MIST,
    NIGHT,
    REED,
    SLATE,
    Sewn,
    design_of,
    faults,
    sewn,
    sewn_unit,
)
from mutate import mutations
from quicktions import Fraction
from strip_units import (
    UNITS,
    arrow,
    courthouse_steps,
    four_patch,
    log_cabin,
    nine_patch,
    pieced_centre,
    rail_fence,
    ring,
)

from pieceproof.bench import prove
from pieceproof.methods import check_methods
from pieceproof.methods.courthouse_steps import CourthouseSteps
from pieceproof.methods.foundation_piecing import (
    FoundationPiecing,
    FoundationPoint,
    FoundationSection,
    Toward,
)
from pieceproof.methods.log_cabin import LogCabin
from pieceproof.methods.logs import Logs
from pieceproof.methods.strings import Strings, StringStrip
from pieceproof.methods.strip_sets import StripSets
from pieceproof.model import Cell, Measure, Size, Unit
from pieceproof.steps import CloseSeam, Foundation, Step

F = Fraction
QUARTER = F(1, 4)


def in_inches(unit: Unit) -> Sewn:
    return sewn_unit(unit, Measure.INCH, QUARTER)


@pytest.mark.parametrize("name", UNITS)
def test_it_sews_as_drawn(name: str) -> None:
    assert in_inches(UNITS[name]()).disagreements() == []


@pytest.mark.parametrize("name", UNITS)
def test_an_outside_library_sews_the_same(name: str) -> None:
    built = in_inches(UNITS[name]())
    assert not shapely_differs(built.publication, built.drawing)


@pytest.mark.parametrize("name", UNITS)
def test_every_changed_number_is_noticed(name: str) -> None:
    built = in_inches(UNITS[name]())
    assert not misjudged(built.publication, built.drawing, mutations(built.publication))


@pytest.mark.parametrize("name", UNITS)
def test_a_mirrored_unit_sews_as_drawn(name: str) -> None:
    cells = (Cell("unit", 0, True), Cell("unit", 2, True))
    assert sewn_unit(UNITS[name](), Measure.INCH, QUARTER, cells).disagreements() == []


def test_logs_are_cut_to_their_finished_length_and_two_seams() -> None:
    """Logs cut to length, each round squared: common practice, no source."""
    cut = in_inches(log_cabin()).cut("unit")
    inner_dark = [(short, long) for fabric, short, long, _ in cut if fabric == SLATE]
    assert inner_dark == [(F(3, 2), F(9, 2)), (F(3, 2), F(7, 2))]
    outer_dark = [(short, long) for fabric, short, long, _ in cut if fabric == NIGHT]
    assert outer_dark == [(F(2), F(7)), (F(2), F(11, 2))]


def test_a_log_unit_says_what_does_not_match() -> None:
    one, two = Logs((MIST,), (F(1),)), Logs((SLATE, NIGHT), (F(1),))
    square = Size(F(2), F(2))
    assert faults(LogCabin(square, one, two, centre=CLAY)) == [
        "log cabin `unit`: 1 light and 2 dark fabrics; as many dark as light fabrics, or one less "
        "for a last half round; list 1 dark fabrics, or as many light ones as dark ones"
    ]
    assert faults(LogCabin(square, Logs((MIST, REED), (F(1),) * 3), two, centre=CLAY)) == [
        "log cabin `unit`: 3 widths for 2 fabrics; one width for all rounds, or one for each "
        "fabric; list 2 widths, or one"
    ]
    assert faults(CourthouseSteps(square, Logs((MIST,), (F(15, 16),)), one, centre=CLAY)) == [
        "courthouse steps `unit`: a finished size of 15/16, to be cut at 1 7/16; cut sizes in "
        "steps of 1/8; use 7/8 or 1"
    ]


def test_segments_are_made_in_the_number_that_is_wanted() -> None:
    """Ten nine-patches need 20 and 10 segments; a set of 40 in gives 15 of 2 1/2 in."""
    built = sewn_unit(nine_patch(), Measure.INCH, QUARTER, (Cell("unit"),) * 10)
    counts = [(m.name, m.wanted, m.rounds, m.each, m.spare) for m in built.publication.makes[:-1]]
    assert counts == [
        ("unit segment 1", 20, 2, 15, 10),
        ("unit segment 2", 10, 1, 15, 5),
        ("unit set B", 5, 5, 1, 0),
        ("unit", 5, 5, 1, 0),
    ]


def test_rows_upside_down_come_from_one_set() -> None:
    built = in_inches(four_patch())
    assert [m.name for m in built.publication.makes] == [
        *("unit segment 1", "unit set B", "unit", "top"),
    ]


def test_strips_are_as_long_as_the_pattern_says() -> None:
    design = design_of({"unit": rail_fence()}, Measure.INCH, QUARTER, ((Cell("unit"),),), F(42))
    assert {long for _, _, long, _ in sewn(design).cut("unit")} == {F(42)}
    metric = sewn_unit(StripSets(((MIST, CLAY),), (F(4),), (F(8),)), Measure.CENTIMETRE, F(3, 4))
    assert {long for _, _, long, _ in metric.cut("unit")} == {F(100)}


def test_a_segment_wider_than_the_cloth_is_cut_along_it() -> None:
    tall = in_inches(StripSets(((MIST, CLAY),), (F(2),), (F(60),)))
    assert {long for _, _, long, _ in tall.cut("unit")} == {F(61)}
    assert tall.disagreements() == []


def test_a_strip_set_says_what_does_not_match() -> None:
    rows = ((MIST, CLAY), (CLAY, MIST))
    assert faults(StripSets((*rows, (MIST,)), (F(2),), (F(2),))) == [
        "strip sets `unit`: rows of 2 and of 1 fabrics; rows of one length; give every row 2 "
        "fabrics, or as many as your longest one has"
    ]
    assert faults(StripSets(rows, (F(2),) * 3, (F(2),))) == [
        "strip sets `unit`: 3 lengths for 2 columns; one length for all columns, or one for each; "
        "list 2 lengths, or one"
    ]
    assert faults(StripSets(rows, (F(2),), (F(33, 16),))) == [
        "strip sets `unit`: a finished size of 2 1/16, to be cut at 2 9/16; cut sizes in steps of "
        "1/8; use 2 or 2 1/8"
    ]


def test_a_part_keeps_its_name_to_itself() -> None:
    units = {"nine": nine_patch(), "nine segment 1": four_patch()}
    design = design_of(units, Measure.INCH, QUARTER, ((Cell("nine"), Cell("nine segment 1")),))
    assert [p.found for p in check_methods(design)] == ["the name `nine segment 1`"]


def test_the_words_of_a_strip_set() -> None:
    built = in_inches(nine_patch())
    assert built.words("unit segment 1") == (
        "Sew the strips together side by side along their long edges, from left to right: **B**, "
        "**A**, **B**. Sew every other seam from the other end, so that the set stays straight.",
        "Press all seams toward **B**.",
        "Square up one end of the set. From there, cut 15 segments across the strips, each "
        '2 1/2" wide.',
    )
    assert built.words("unit")[0] == (
        "Lay out the segments from the top as in the picture: unit segment 1; unit segment 2; "
        "unit segment 1."
    )


def test_a_piece_covers_its_section_and_its_allowances() -> None:
    """With 1/4 in seams pieces are 1 in larger than finished sections each way: common practice."""
    unit = FoundationPiecing(
        Size(F(4), F(4)),
        CLAY,
        (
            FoundationSection(MIST, ("a", "b"), Toward.LEFT),
            FoundationSection(SLATE, ("c", "d"), Toward.RIGHT),
        ),
        {
            "a": FoundationPoint(F(1)),
            "b": FoundationPoint(F(1), F(4)),
            "c": FoundationPoint(F(3)),
            "d": FoundationPoint(F(3), F(4)),
        },
    )
    assert in_inches(unit).cut("unit") == [
        ("mist", F(2), F(5), 2), ("clay", F(3), F(5), 2), ("slate", F(2), F(5), 2)
    ]  # fmt: skip
    metric = sewn_unit(unit, Measure.CENTIMETRE, F(3, 4)).cut("unit")
    assert [(short, long) for _, short, long, _ in metric] == [
        (F(7, 2), F(13, 2)), (F(9, 2), F(13, 2)), (F(7, 2), F(13, 2))
    ]  # fmt: skip


def test_the_foundation_is_printed_as_the_mirror_image() -> None:
    built = in_inches(arrow())
    printed = next(s for s in built.make("unit").steps if isinstance(s, Foundation))
    assert (printed.width, printed.height) == (F(9, 2), F(9, 2))
    sky = built.drawing.pictures["unit"].patches[1].outline
    assert max(x for x, _ in sky) < 4
    assert min(x for x, _ in printed.sections[1]) > 0


def test_foundation_piecing_says_what_does_not_work() -> None:
    def said(line: tuple[str, ...], toward: Toward, *more: FoundationSection) -> list[str]:
        points = {"a": FoundationPoint(F(1)), "b": FoundationPoint(F(1), F(4))}
        sections = (FoundationSection(MIST, line, toward), *more)
        return faults(FoundationPiecing(Size(F(4), F(4)), CLAY, sections, points))

    assert said(("a", "bb"), Toward.LEFT)[0].endswith("; write `b`")
    assert "without a direction" in said(("a", "a"), Toward.LEFT)[0]
    assert "along its own line" in said(("a", "b"), Toward.TOP)[0]
    hides = FoundationSection(SLATE, ("top right", "top left"), Toward.BOTTOM)
    assert "section 1, which shows nothing" in said(("a", "b"), Toward.LEFT, hides)[0]
    outside = {"far": FoundationPoint(F(5))}
    section = FoundationSection(MIST, ("far", "bottom left"), Toward.LEFT)
    assert faults(FoundationPiecing(Size(F(4), F(4)), CLAY, (section,), outside))[0] == (
        "foundation piecing `unit`: the point `far` at 5 across, 0 down; a point of the unit, at "
        "most 4 across and 4 down; use at most 4 and 4, or make the unit larger"
    )


def test_strings_say_how_wide_the_last_strip_must_be() -> None:
    def said(last: F, *more: StringStrip) -> list[str]:
        strips = (StringStrip(MIST, F(1)), StringStrip(MIST, last), *more)
        whole = (StringStrip(MIST, F(3)),)
        return faults(Strings(F(4), StringStrip(CLAY, F(1)), strips, whole))

    # The corner of 4 1/2 in is 3.18 in from the diagonal; 2.93 with the strip's own allowance.
    assert said(F(5, 4)) == [
        "strings `unit`: strips that end 2 3/4 from the diagonal; strips that cover the corner "
        "with its seam allowances, about 2.93; make the last one at least 1 1/2 wide, or add "
        "another"
    ]
    assert said(F(3, 2)) == []
    assert said(F(3, 2), StringStrip(MIST, F(1))) == [
        "strings `unit`: a last strip that begins 3 from the diagonal; one that begins before the "
        "corner, about 2.83 from it; leave out the last strip of `top left`, or make the strips "
        "before it narrower"
    ]


def test_the_words_of_a_ring() -> None:
    words = in_inches(ring()).words("unit")
    assert words[0] == (
        'Lay one **A** (1 1/2" x 3 3/4") on the top of the centre, **C**, right sides together, '
        "the ends on the right even: it hangs over the centre at the other end. Sew from the right "
        "end and stop at the middle of the centre, with a few stitches back. Press the sewn half "
        "toward **A**."
    )
    assert words[3].startswith("Fold the loose end of **A** out of the way and sew **E**")
    assert len(words) == 5


def test_a_ring_is_only_closed_when_it_is_full() -> None:
    built = in_inches(ring())
    index = built.publication.makes.index(built.make("unit"))

    def said(steps: tuple[Step, ...]) -> str:
        make = replace(built.make("unit"), steps=steps)
        makes = (*built.publication.makes[:index], make, *built.publication.makes[index + 1 :])
        found = prove(replace(built.publication, makes=makes), built.drawing)
        return f"{found[0].expected}, {found[0].found}"

    steps = built.make("unit").steps
    closing = next(i for i, s in enumerate(steps) if isinstance(s, CloseSeam))
    early = (*steps[: closing - 2], steps[closing], *steps[closing - 2 : closing], steps[-1])
    assert said(early) == "its missing corner filled before the seam is finished, a gap"
    assert (
        said((*steps[:closing], steps[-1])) == "“centre” without an open seam, a seam sewn in part"
    )


def test_the_words_of_a_log_cabin() -> None:
    words = in_inches(log_cabin()).words("unit")
    assert words[1:3] == (
        'Begin with the centre, **E**. Sew **B** (1 1/2" x 2 1/2") to its top. Press toward **B**.',
        'Sew **A** (1 1/2" x 3 1/2") to the right. Press toward **A**.',
    )
    assert len(words) == 9


def test_the_words_of_a_pieced_centre() -> None:
    built = in_inches(pieced_centre())
    assert built.words("unit centre") == (
        "Lay out the patches of the centre as in the picture.",
        "Sew each row together from left to right. Press the seams of row 1 to the right and those "
        "of row 2 to the left.",
        "Sew the rows together from the top, matching the seams. Press this seam down. Seams that "
        "meet lie opposite ways and lock together.",
    )
    assert built.words("unit")[1].startswith("Begin with the pieced centre. Sew ")
    assert built.cut("unit centre") == [
        ("clay", F(3, 2), F(2), 4),
        ("night", F(3, 2), F(2), 4),
    ]


def test_a_centre_is_plain_or_pieced() -> None:
    one = Logs((MIST,), (F(1),))
    square = Size(F(2), F(2))
    both = LogCabin(square, one, one, centre=CLAY, centre_rows=((CLAY, NIGHT),))
    ragged = LogCabin(square, one, one, centre_rows=((CLAY, NIGHT), (CLAY,)))
    found = [faults(unit)[0].split("; ")[0] for unit in (LogCabin(square, one, one), both, ragged)]
    assert found == [
        "log cabin `unit`: neither `centre` nor `centre rows`",
        "log cabin `unit`: `centre` and `centre rows`",
        "log cabin `unit`: rows of 2, 1 patches",
    ]


def test_the_words_of_courthouse_steps() -> None:
    words = in_inches(courthouse_steps()).words("unit")
    assert words[1:] == (
        'Begin with the centre, **C**. Sew one **A** (1 1/2" x 2 1/2") to its top and one to its '
        "bottom. Press toward **A**.",
        'Sew one **D** (2" x 5 1/2") to the left and one to the right. Press toward **D**.',
        'Sew one **B** (1 1/2" x 5 1/2") to the top and one to the bottom. Press toward **B**.',
    )
