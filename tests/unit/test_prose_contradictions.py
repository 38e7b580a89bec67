"""Prose that contradicts its pattern: every planted sentence is found, by its code, on its line.

The pattern is the small shop's runner: a 1/4 in seam, 8 or 12 points, a border cut 2 1/2 in wide,
two sizes, two colourways.
"""

from __future__ import annotations

from functools import cache

import pytest
from small_shop import PLAIN, PROSE

from pieceproof.compile import compile_pattern
from pieceproof.problems import Problem
from pieceproof.prose import SizeFacts, size_facts, write_prose
from pieceproof.shelf import shop_names

FILE = "patterns/eddy-runner/prose.md"
NUMBER, LETTER, SIDE = "prose-number", "prose-letter", "prose-side"
UNCLEAR = "prose-number-unclear"

PLANTED = {
    "a seam allowance": ('Sew with a 3/8" seam.', NUMBER),
    "a seam allowance in words": ("Sew a scant three-eighths-inch seam.", NUMBER),
    "a part of an inch": ("Leave three quarters of an inch all round.", NUMBER),
    "a cut size": ('Cut the corners 2 5/8" square.', NUMBER),
    "a cut size with its unit in full": ("Cut the border 2 1/4 inches wide.", NUMBER),
    "a size of two sides": ('Trim the point to 4 1/2" x 3 1/8".', NUMBER),
    "a size without a unit": ("Trim the point to 4 1/2 x 3 1/8.", NUMBER),
    "a size with by": ('The block is 9 1/2" by 11".', NUMBER),
    "a fraction without a unit": ("Cut a 2 7/8 strip of the border.", NUMBER),
    "a fraction in one character": ("Cut it 2⅞ inches wide.", NUMBER),
    "a mixed number with a hyphen": ('Cut it 2-7/8" wide.', NUMBER),
    "a typographic inch sign": ("Cut it 7″ wide.", NUMBER),
    "an abbreviated inch": ("Cut it 7 in. wide.", NUMBER),
    "an inch without a point": ("Cut a 7 in strip.", NUMBER),
    "an inch with a hyphen": ("Cut a 7-inch square.", NUMBER),
    "inches in words": ("Cut a seven-inch square.", NUMBER),
    "inches and a half in words": ("It hangs five and a half inches lower.", NUMBER),
    "feet": ("It is 3 feet long.", NUMBER),
    "centimetres": ("Sew with a 1 cm seam.", NUMBER),
    "millimetres": ("Sew with a 6 mm seam.", NUMBER),
    "a yardage": ("Buy 2 1/2 yards of the background.", NUMBER),
    "a yardage in words": ("Three quarters of a yard of binding is ample.", NUMBER),
    "a length in metres": ("Buy 1.2 m for the back.", NUMBER),
    "another width of cloth": ('All cloth is taken to be 45" wide.', NUMBER),
    "a count": ("There are 13 points.", NUMBER),
    "a count after a verb, in words": ("Make thirteen of these.", NUMBER),
    "a dozen too many": ("You need two dozen of them.", NUMBER),
    "a count of one size only": ("Make 12 of them.", NUMBER),
    "a measurement of one size only": ('The runner is 31" long.', NUMBER),
    "a decimal": ("Cut it 2.65 wide.", NUMBER),
    "a border as wide as a point": ('Cut the border 4 1/2" wide.', NUMBER),
    "a part right behind its number": ('Sew on the 4 1/2" border and its star points.', NUMBER),
    "a part behind of": ("Buy 5/8 yard of border beside the backing.", NUMBER),
    "a piece with the size of another": ('Piece E is cut 3" wide.', NUMBER),
    "a seam as wide as a strip": ('Sew a 2 1/2" seam.', NUMBER),
    "as many as of another thing": ("Make 16 star centres.", NUMBER),
    "a size of another thing in the section": (
        'Well.\n\n## Unit: point\n\nIt measures 9 1/2" by 9 1/2".',
        NUMBER,
    ),
    "a number of many things": ('Cut some 2 1/2" wide.', UNCLEAR),
    "a letter of no piece": ("Take piece K.", LETTER),
    "a letter of no piece, before a shape": ("Lay out the K squares.", LETTER),
    "a letter in brackets of another part": ("Pin the star points (A) on.", LETTER),
    "a wrong number of a letter": ("Count 2 C squares into a pile.", LETTER),
    "a colour for a part": ("Sew the blue strips on.", "prose-colour"),
    "two colours for a part": ("Sort the red and white squares.", "prose-colour"),
    "a cloth for a part": ("Ferry Ochre goes in the middle.", "prose-cloth"),
    "a colourway": ("The picture shows Boathouse.", "prose-cloth"),
    "left": ("Press to the left.", SIDE),
    "a right-hand edge": ("Align the right-hand edge.", SIDE),
    "left corners": ("Sew the left corners first.", SIDE),
    "clockwise": ("Turn each one clockwise.", SIDE),
    "counter-clockwise": ("Turn it counter-clockwise.", SIDE),
    "left to right": ("Number them left to right.", SIDE),
    "another word for a thing": ("Cut off the selvedges.", "prose-term"),
    "another spelling of a thing": ("These are half square triangles.", "prose-term"),
    "an abbreviation": ("Lay them RST.", "prose-abbreviation"),
    "a fact that is gone": ("Make {unit pointe, make}.", "prose-unknown-fact"),
    "a fact of no pattern": ("Make {moonlight}.", "prose-unknown-fact"),
    "an unclear fact": ("See {border, spare E}.", "prose-unknown-fact"),
    "a section that is gone": ("Well.\n\n## Unit: pointe\n\nMake it.", "prose-section"),
}

HARMLESS = (
    "A quarter of the stars turn left out of the harbour, and the rest is right as it is.",
    "Cut one star before you cut them all; what is left over goes into the scrap box.",
    "Two of the seams meet, three do not, and half of the work is pressing.",
    "The river is brown in March and blue in May; nobody is ever quite right about it.",
    "The half-square triangles (HST) lie right sides together (RST), and RST they stay.",
    "1. Press.\n2. Trim.\n\nSee [the list](#cutting), or a star (any star).",
    "Rest for {=10 minutes}, then sew the {=red strip} with its {=left edge} up.",
    "Sew with a quarter-inch seam, and mark the star points a quarter inch from the edge.",
    'The 2 1/2" of the border come off one strip; all cloth is 42 inches wide.',
    'The border is cut 2 1/2" wide, or two and a half inches, or 2½″.',
)


@cache
def sizes() -> tuple[SizeFacts, ...]:
    pattern = compile_pattern("eddy-runner", {"pattern.yaml": PLAIN.encode()})
    return tuple(
        size_facts(sized.publication, sized.facts, shop_names(sized.design))
        for sized in pattern.sizes
    )


def problems_of(text: str) -> tuple[Problem, ...]:
    return write_prose(FILE, text.encode(), sizes(), ())[1]


@pytest.mark.parametrize("kind", PLANTED)
def test_a_planted_contradiction_is_found(kind: str) -> None:
    """Alone, it is the only problem; its line is that of the sentence, the fifth or below it."""
    sentence, code = PLANTED[kind]
    problems = problems_of(f"{PROSE.split('##', maxsplit=1)[0]}\nFirst.\n{sentence}\n")
    assert {problem.code for problem in problems} == {code}
    assert all(problem.place.line >= 4 for problem in problems)


def test_all_of_them_are_found_at_once() -> None:
    plain = [(sentence, code) for sentence, code in PLANTED.values() if "##" not in sentence]
    text = "".join(f"{sentence}\n" for sentence, _ in plain)
    found = {(p.place.line, p.code) for p in problems_of(text)}
    planted = [(n, code) for n, (_, code) in enumerate(plain, 1)]
    assert len(planted) >= 30
    assert not set(planted) - found


@pytest.mark.parametrize("text", HARMLESS)
def test_plain_words_raise_no_alarm(text: str) -> None:
    assert problems_of(f"{text}\n") == ()


def test_a_number_of_another_size_names_the_fact_that_has_it() -> None:
    (problem,) = problems_of("Make 12 of them.\n")
    assert problem.found == "`12`, which is no number of `small`"
    assert "`{piece A, background, count}`" in problem.remedy


def test_an_unmatched_number_names_the_nearest_facts() -> None:
    (problem,) = problems_of('Cut the border 2 5/8" wide.\n')
    assert "`{piece C, star points, cut}`" in problem.remedy
    assert '`{=2 5/8"}`' in problem.remedy
