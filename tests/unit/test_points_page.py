"""The page's section on points and seams: words and numbers against the seam check itself."""

from __future__ import annotations

from dataclasses import replace

import pytest
from quicktions import Fraction
from small_shop import PLAIN

from pieceproof.bench.ranking import Care, SeamEffect
from pieceproof.bench.surroundings import IN_ROWS, Seam
from pieceproof.compile import Sized, compile_pattern
from pieceproof.diagrams.subject import subject
from pieceproof.pages.choices import Axis, Option
from pieceproof.pages.points import Points, points
from pieceproof.seam_words import ranked

F = Fraction
UNEVEN = "\nuneven seams: {deviation: 1/32, repeats: 20}\n"


def compiled(text: str) -> tuple[Sized, ...]:
    pattern = compile_pattern("eddy-runner", {"pattern.yaml": text.encode()})
    assert not pattern.problems, pattern.problems
    return pattern.sizes


@pytest.fixture(scope="module")
def sizes() -> tuple[Sized, ...]:
    return compiled(PLAIN + UNEVEN)


def section_of(sizes: tuple[Sized, ...]) -> Points:
    axis = Axis("size", "Size", tuple(Option(s.design.size, s.design.label) for s in sizes))
    return points(axis, sizes, [subject(s.design, s.publication, s.drawing) for s in sizes])


@pytest.fixture(scope="module")
def section(sizes: tuple[Sized, ...]) -> Points:
    return section_of(sizes)


def test_a_unit_that_one_size_lacks_stands_under_the_others_only(
    sizes: tuple[Sized, ...],
) -> None:
    without = replace(sizes[0], tips=replace(sizes[0].tips, groups=()))
    (unit,) = section_of((without, *sizes[1:])).units
    assert unit.name.content == "point"
    assert unit.name.holds == {"size": (sizes[1].design.size,)}


def test_what_floats_is_said_with_its_widest_seam(section: Points) -> None:
    """Legs of 2 1/4 in a unit 2 1/2 high float by 1/4: whole up to a seam of 1/2."""
    (words,) = section.standing
    assert words.content == 'All tips float: they stay whole up to a seam of 1/2" beside them.'
    (unit,) = section.units
    assert [mark.sign for mark in unit.marks[0].content] == ["+", "+"]
    assert unit.marks[0].content[0].words == 'lower tip of background: 1/4" to spare'


def test_the_test_strips(section: Points) -> None:
    """1 1/2 strips: 3 1/2 together, the middle one 1 (check values 101 and 102: SEAM)."""
    assert (section.strip, section.true.three, section.true.middle) == ('1 1/2"', '3 1/2"', '1"')
    assert [o.three for o in section.choices] == [
        *('3 3/4"', '3 5/8"', '3 1/2"', '3 3/8"', '3 1/4"', '3 1/8"', '3"')
    ]
    assert len({o.token for o in section.choices}) == len(section.choices)


def test_a_wide_seam_says_what_comes_out(section: Points) -> None:
    """Three patches and two seams across: 1/16 too wide costs 4/16 (2e a seam, common practice)."""
    wide = next(v.content for v in section.outcomes if v.content.three == '3 1/4"')
    assert (wide.own, wide.off, wide.too_wide) == ('5/16"', '1/16"', "yes")
    assert (wide.sizes[0].what, wide.sizes[0].found) == ("star block", '9 1/4" x 9 1/4"')
    assert wide.sizes[0].meant == '9 1/2" x 9 1/2"'
    assert not wide.lost


SASHING = "{fabric: water, width: 1, cornerstones: heart, place: between and around}"


def test_what_does_not_fit_is_a_single_strip_or_a_row_that_is_joined() -> None:
    """A star has two seams each way and comes out 4/16 small; a row of sashes meets two stars."""
    sashed = PLAIN.replace("  across: 3\n", f"  across: 3\n  sashing: {SASHING}\n", 1)
    section = section_of(compiled(sashed))
    wide = next(v.content for v in section.outcomes if v.content.three == '3 1/4"')
    assert wide.misfits[0] == (
        "Too long in the quilt centre for what they are sewn to: "
        'each **H** by 1/4", the row joined of **E** and **H** by 1/2".'
    )
    assert wide.misfits[1].startswith("Too long in the quilt top for what they are sewn to: each ")
    listed = next(row for row in section.table[0].content if row.three == '3 1/4"')
    assert listed.worst == wide.worst
    assert listed.worst.startswith("by up to ")
    assert listed.worst.endswith(", in the quilt top")


def test_seams_off_by_chance_are_reckoned_alike_every_time(sizes: tuple[Sized, ...]) -> None:
    (first,) = sizes[0].seam_check.uneven
    (again,) = compiled(PLAIN + UNEVEN)[0].seam_check.uneven
    assert first == again
    assert (first.repeats, first.deviation) == (20, F(1, 32))
    assert first.widths[0] < F(19, 2) < first.widths[1]


def test_without_the_setting_nothing_is_left_to_chance() -> None:
    assert not compiled(PLAIN)[0].seam_check.uneven


def test_seams_alike_are_named_together_and_at_their_worst(sizes: tuple[Sized, ...]) -> None:
    publication = sizes[0].publication
    top = publication.makes[-1].name
    effects = (
        SeamEffect(Seam("star", 1, IN_ROWS), F(1, 16), F(0), F(3, 4), F(1)),
        SeamEffect(Seam(top, 3), F(1, 16), F(1, 16), F(1, 8), F(0)),
        SeamEffect(Seam(top, 5), F(1, 16), F(0), F(1, 8), F(1, 4)),
    )
    found = ranked(publication, effects)
    assert found[0].what == "Seams within the rows of the star block"
    assert [seams.what.count("**") for seams in found[1:]] == [2]
    assert (found[1].effect.cut, found[1].effect.size) == (F(1, 16), F(1, 4))
    assert found[1].care is Care.EXACT
