"""Which fabrics meet, and how colourways read."""

from __future__ import annotations

from pathlib import Path

import pytest
from examples import EXAMPLES, publish_one
from quicktions import Fraction
from small_shop import PLAIN

from pieceproof.cli import FINE, main
from pieceproof.colours import Eyes
from pieceproof.compile import Pattern, compile_pattern
from pieceproof.model import Value
from pieceproof.neighbours import Meeting, meetings
from pieceproof.published import Drawing, Patch, Picture
from pieceproof.shapes import rectangle
from pieceproof.value_check import readings

F = Fraction


def compiled(text: str) -> Pattern:
    pattern = compile_pattern("eddy-runner", {"pattern.yaml": text.encode()})
    assert not pattern.problems, pattern.problems
    return pattern


def pairs(found: tuple[Meeting, ...]) -> dict[frozenset[str], str]:
    return {frozenset((m.one, m.other)): m.make for m in found}


def test_patches_that_share_a_seam_meet_where_they_first_do() -> None:
    """By eye: in the stars' points, in the star, at the sashing and at the border."""
    _, publication, drawing = publish_one(EXAMPLES["runner"]())
    found = pairs(meetings(publication, drawing))
    assert found[frozenset(("ground", "wing"))] == "point"
    assert found[frozenset(("wing", "heart"))] == "star"
    assert frozenset(("heart", "water")) not in found


def test_corners_that_only_touch_do_not_meet() -> None:
    """Four squares: those across from each other meet at a point."""
    one, two = F(1), F(2)
    patches = tuple(
        Patch(name, rectangle(one, one, (x, y)))
        for name, x, y in (("a", F(0), F(0)), ("b", one, F(0)), ("c", one, one), ("d", F(0), one))
    )
    _, publication, _ = publish_one(EXAMPLES["runner"]())
    drawing = Drawing({m.name: Picture(m.name, two, two, patches) for m in publication.makes})
    found = pairs(meetings(publication, drawing))
    assert set(found) == {frozenset(pair) for pair in ("ab", "bc", "cd", "ad")}


def test_parts_played_by_one_cloth_are_meant_to_merge() -> None:
    sized = compiled(PLAIN).sizes[0]
    boathouse = sized.values[1]
    assert boathouse.colourway == "boathouse"
    met = {frozenset((p.meeting.one, p.meeting.other)) for p in boathouse.pairs}
    assert frozenset(("wing", "water")) not in met
    assert frozenset(("ground", "water")) in met


def test_neighbours_that_merge_are_named_with_their_place() -> None:
    text = PLAIN.replace('colour: "#d09a3e"', "lab: 32 2 -10")
    pattern = compiled(text)
    (note,) = [note for note in pattern.notes if note.code == "values-merge"]
    assert "star points and star centres, which meet in star" in note.found
    assert "low-water" in note.found
    facts = {fact.key: fact.published for fact in pattern.sizes[0].facts}
    assert "value low-water, close in grey, star points, star centres, in star" in facts
    assert facts["value low-water, star centres"] == "dark, L* 32.0"


def test_different_hues_of_one_lightness_are_close_in_grey_only() -> None:
    text = PLAIN.replace('colour: "#3b5166"', "lab: 50 0 -60").replace(
        'colour: "#d09a3e"', "lab: 50 0 60"
    )
    reading = compiled(text).sizes[0].values[0]
    (pair,) = [p for p in reading.pairs if p.grey == 0]
    assert pair.is_close_in_grey
    assert not pair.merges
    assert not pair.close_to


def test_red_and_green_come_close_to_some_eyes() -> None:
    text = PLAIN.replace('"#3b5166"', '"#a0522d"').replace('"#d09a3e"', '"#667a35"')
    reading = compiled(text).sizes[0].values[0]
    pair = next(p for p in reading.pairs if {p.meeting.one, p.meeting.other} == {"wing", "heart"})
    seen = dict(pair.eyes)
    assert min(seen[Eyes.DEUTAN], seen[Eyes.PROTAN]) < pair.colour / 2


def test_light_and_dark_the_other_way_round_is_noted() -> None:
    design, publication, drawing = publish_one(EXAMPLES["runner"]())
    assert design.fabrics["ground"].value is Value.LIGHT
    found = readings(design, meetings(publication, drawing))
    assert not found[0].contrary
    swapped = PLAIN.replace('"#eceae1"', '"#111111"')
    notes = compiled(swapped).notes
    assert {note.code for note in notes} >= {"value-contrary"}


@pytest.mark.parametrize("least", [5, 60])
def test_a_least_difference_is_a_demand(least: int) -> None:
    text = PLAIN.replace("\nsizes:", f"\nvalues: {{least: {least}}}\n\nsizes:")
    problems = compile_pattern("eddy-runner", {"pattern.yaml": text.encode()}).problems
    assert {problem.code for problem in problems} == ({"values-too-near"} if least > 50 else set())


def test_check_says_notes_and_is_content(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "patterns" / "eddy-runner"
    folder.mkdir(parents=True)
    text = PLAIN.replace('colour: "#d09a3e"', "lab: 32 2 -10")
    (folder / "pattern.yaml").write_text(text, "utf-8")
    where = ["--patterns", str(folder.parent)]
    assert main([*where, "facts"]) == FINE
    assert main([*where, "check"]) == FINE
    assert "values-merge" in capsys.readouterr().err
