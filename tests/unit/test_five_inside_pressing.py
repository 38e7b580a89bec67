"""The writer settles seams inside units that are sewn by marks: steps, words and bench follow."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
import yaml

from pieceproof.bench.nesting import Lying
from pieceproof.compile import Pattern, Sized, compile_pattern
from pieceproof.steps import AssembleOnPoint, JoinMarks, Press

SHOP = Path(__file__).parents[2] / "patterns"


@cache
def compiled(slug: str, pressing: str) -> Pattern:
    """The first size of a shop's pattern, for one width of cloth."""
    design = yaml.safe_load((SHOP / slug / "pattern.yaml").read_text("utf-8"))
    first = next(iter(design["sizes"]))
    design |= {"sizes": {first: design["sizes"][first]}, "cloth widths": [42]}
    text = yaml.safe_dump(design, sort_keys=False) + f"\npressing: {{{pressing}}}\n"
    return compile_pattern(slug, {"pattern.yaml": text.encode()})


def first_size(slug: str, pressing: str) -> Sized:
    pattern = compiled(slug, pressing)
    codes = {problem.code for problem in pattern.problems}
    assert not {code for code in codes if code.startswith("pressed")}
    return pattern.sizes[0]


def presses(sized: Sized, name: str) -> list[Press]:
    (make,) = (make for make in sized.publication.makes if make.name == name)
    return [step.press for step in make.steps if isinstance(step, JoinMarks)]


def words(sized: Sized, name: str) -> str:
    return " ".join(next(i.steps for i in sized.instructions if i.make.name == name))


@pytest.mark.parametrize(
    ("word", "press"),
    [
        ("to the added", Press.ONTO_ADDED),
        ("from the added", Press.ONTO_BASE),
        ("open", Press.OPEN),
    ],
)
def test_every_seam_of_a_star_can_be_settled(word: str, press: Press) -> None:
    """Fifteen seams by eye: eight points, four sides, four corners."""
    sized = first_size("pilot-star", f"pole star: {{seams: {word}}}")
    assert presses(sized, "pole star") == [press] * 15


def test_single_seams_are_settled_in_steps_words_and_on_the_bench() -> None:
    usual = presses(first_size("pilot-star", ""), "pole star")
    sized = first_size("pilot-star", "pole star: {seam 7: open, seam 3: open}")
    changed = [*usual[:2], Press.OPEN, *usual[3:6], Press.OPEN, *usual[7:]]
    assert presses(sized, "pole star") == changed
    assert "Press open, and let the allowances fan out" in words(sized, "pole star")
    assert Lying.OPEN in {meeting.lying for meeting in sized.meetings}


def test_hexagons_and_curves_too() -> None:
    flower = first_size("lock-garden", "flower: {seam 2: open}")
    assert presses(flower, "flower")[1] is Press.OPEN
    assert "in the order of sewing" in words(flower, "flower")
    bend = first_size("oxbow", "field bend: {seam: open}")
    assert presses(bend, "field bend") == [Press.OPEN]
    assert "Press open." in words(bend, "field bend")


def test_an_unknown_seam_is_told_with_those_there_are() -> None:
    (problem,) = (
        p
        for p in compiled("pilot-star", "pole star: {seam 16: open}").problems
        if p.code.startswith("pressed")
    )
    assert problem.code == "pressed-no-seam"
    assert "`seam 1` (point 2 to point 1)" in problem.expected


def test_rows_on_point_are_pressed_as_settled() -> None:
    sized = first_size("lock-garden", "setting: {between: up}")
    (step,) = (
        step
        for make in sized.publication.makes
        for step in make.steps
        if isinstance(step, AssembleOnPoint)
    )
    assert step.between == "up"
