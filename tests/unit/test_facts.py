"""Facts: every published number is in them, one change is one line, files are compared."""

from dataclasses import replace

import pytest
from change_numbers import changes
from cloth_samples import SLUGS, Sized, published, small
from mutate import mutations
from quicktions import Fraction

from pieceproof.fact_files import (
    compare,
    differences,
    fact_file_problems,
    facts_text,
    file_name,
    parse_facts,
)
from pieceproof.facts import Fact, called, facts_of
from pieceproof.model import Design, Fabric
from pieceproof.published import Publication
from pieceproof.requirements import USABLE_WIDTHS, Requirements, requirements

F = Fraction

Whole = tuple[Design, Publication, Requirements]

_NOT_SHOWN = (
    "demand.wants",  # the pieces, and shown with the cuts
    "demand.longs",
    "demand.usable_width",
    "demand.step",
    "plan.width",  # the usable width, which is in the key
    "plan.bound",  # not published
    "plan.proven",
    ".turned",  # seen in the sizes as they lie
    "plan.squaring",  # the demand's
    "yardage.published",  # shown as yards or metres
    "others[",  # other ways to cut long strips, see below
    ".repeat_",  # the print's own, shown where the sum is
)


def whole(sized: Sized) -> Whole:
    design, publication = sized
    found, problems = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
    assert not problems
    return design, publication, found


def by_key(facts: tuple[Fact, ...]) -> dict[str, Fact]:
    assert len({fact.key for fact in facts}) == len(facts)
    return {fact.key: fact for fact in facts}


def test_facts_of_a_runner() -> None:
    facts = by_key(facts_of(*whole(published("heron-landing")[1])))
    expected = {
        "seam allowance": ("1/4", '1/4"'),
        "finished size, width": ("57 1/2", '57 1/2"'),
        "piece A, background, cut": ("3 x 4 1/2", '3" x 4 1/2"'),
        "unit point, make": ("20", "20"),
        "block star, unfinished, width": ("9 1/2", '9 1/2"'),
        "block star, step 1, row 2": ("point turned 3, piece D, point turned 1",) * 2,
        "border, usable width 42, join G": (
            "3 strips 3 x 42 at most, joined end to end (diagonal, each join takes 3) into 116, "
            "for 2 of 58",
        )
        * 2,
        "colourway low-water, cloth reed, plays": ("sashing + backing",) * 2,
        "sashing + backing, usable width 42, back, total": ("49", '49"'),
        "sashing + backing, usable width 42, back the other way, total": ("65 1/2", '65 1/2"'),
    }
    assert {key: (facts[key].published, facts[key].said) for key in expected} == expected


def test_rounded_values_show_both_sides() -> None:
    facts = facts_of(*whole(published("weir-pool")[0]))
    lines = facts_text(facts).split("\n")
    assert (
        "piece A, background, cut = (4 1/2 + 1/4 root 2) x (4 1/2 + 1/4 root 2) ~ 4 7/8 x 4 7/8"
        in lines
    )
    assert "unit blade, trimmed off, width = 3/8 - 1/4 root 2 ~ 1/8" in lines
    said = by_key(facts)["backing, usable width 42, yards"]
    assert (said.exact, said.published, said.said) == (
        "1 13/36",
        "1 3/8",
        "1 3/8 yards",
    )  # 48 and 1 in


@pytest.mark.parametrize("slug", SLUGS)
def test_keys_are_unique_and_files_can_be_read_back(slug: str) -> None:
    for sized in published(slug):
        facts = facts_of(*whole(sized))
        by_key(facts)
        assert parse_facts(facts_text(facts)) == facts
        assert not any(mark in fact.key for fact in facts for mark in ("=", "~", "{", "}"))


def test_every_number_of_a_publication_is_a_fact() -> None:
    design, publication, found = whole(published("weir-pool")[0])
    text = facts_text(facts_of(design, publication, found))
    hidden = [
        mutation.path
        for mutation in mutations(publication)
        if mutation.publication.step  # a ruler without a grid is no ruler
        if facts_text(facts_of(design, mutation.publication, found)) == text
    ]
    assert hidden == []


@pytest.mark.parametrize("sized", [published("heron-landing")[1], published("ferry-wake")[1]])
def test_every_number_of_the_requirements_is_a_fact(sized: Sized) -> None:
    design, publication, found = whole(sized)
    found = replace(found, needs=found.needs[::4])
    text = facts_text(facts_of(design, publication, found))
    hidden = [
        path
        for path, changed in changes("", found)
        if not any(part in path for part in _NOT_SHOWN)
        if ".seam" not in path and ".abreast" not in path  # said where it matters, see below
        if facts_text(facts_of(design, publication, changed)) == text
    ]
    assert hidden == []


def test_other_ways_to_cut_long_strips_are_facts() -> None:
    facts = by_key(facts_of(*whole(published("heron-landing")[1])))
    name = "border, usable width 42, long strips"
    assert facts[f"{name} lengthwise, needed"].published == "59"
    assert facts[f"{name} crosswise, straight joins, yards"].published == "1/2"
    assert f"{name} crosswise, diagonal joins, needed" not in facts


def test_a_back_tells_its_seam_or_how_many_lie_side_by_side() -> None:
    facts = by_key(facts_of(*whole(published("heron-landing")[1])))
    name = "backing, usable width 42, back"
    assert facts[f"{name}, seams"].published == "upright"
    assert facts[f"{name}, seam allowance"].published == "1/2"
    assert facts[f"{name} the other way, seams"].published == "none"
    assert facts[f"{name} the other way, side by side"].published == "1"


def test_one_changed_number_is_one_changed_line() -> None:
    design, publication, found = whole(published("heron-landing")[0])
    piece = replace(publication.pieces[0], count=13)
    changed = replace(publication, pieces=(piece, *publication.pieces[1:]))
    before, after = (facts_text(facts_of(design, p, found)) for p in (publication, changed))
    assert compare(before, after, "facts-short.txt") == (
        "--- facts-short.txt (committed)\n"
        "+++ facts-short.txt (computed)\n"
        "@@ -8,3 +8,3 @@\n"
        " piece A, background, cut = 3 x 4 1/2\n"
        "-piece A, background, count = 12\n"
        "+piece A, background, count = 13\n"
        " piece A, background, used in = point\n"
    )
    assert compare(before, before) == ""


def test_another_size_changes_no_key() -> None:
    """Pieces keep their letters where the new size orders them alike, as here."""
    all_sizes = published("heron-landing")
    keys = [{fact.key for fact in facts_of(*whole(sized))} for sized in all_sizes]
    sewing = [{key for key in size if "usable width" not in key} for size in keys]
    assert sewing[0] == sewing[1] == sewing[2]


def test_a_part_whose_words_cannot_be_a_key_goes_by_its_name() -> None:
    design, _ = small({"sky": [(F(2), F(2), 1, "star")], "sea": [(F(2), F(2), 1, "star")]})
    fabrics = {"sky": Fabric("sky = {blue}"), "sea": Fabric("deep sea's edge")}
    assert called(replace(design, fabrics=fabrics)) == {
        "sky": "sky (fabric)",
        "sea": "deep sea's edge",
    }


def test_file_names_are_plain_and_differ() -> None:
    assert file_name("one size") == "facts-one_size.txt"
    assert file_name("one-size") == "facts-one-size.txt"


def test_missing_stale_and_left_over_files() -> None:
    computed = {"facts-short.txt": "a = 1\nb = 2\n", "facts-long.txt": "a = 3\n"}
    committed = {
        "facts-short.txt": "a = 1\nb = 5 ~ 6\n",
        "facts-wide.txt": "a = 9\n",
        "pattern.yaml": "name: x\n",
        "prose.md": "x = y\n",
    }
    problems = fact_file_problems("patterns/x", computed, committed)
    assert [(str(p.place), p.code, p.found, p.expected) for p in problems] == [
        (
            "patterns/x/facts-long.txt:1:1",
            "facts-missing",
            "no such file",
            "the 1 facts of this size",
        ),
        ("patterns/x/facts-short.txt:2:1", "facts-stale", "`b = 5 ~ 6`", "`b = 2`"),
        (
            "patterns/x/facts-wide.txt:1:1",
            "facts-orphan",
            "facts of a size that the pattern does not have",
            "one file for each size: facts-long.txt, facts-short.txt",
        ),
    ]
    assert differences(computed, committed).count("\n+++ ") == 3
    assert fact_file_problems("patterns/x", computed, computed) == ()
    assert differences(computed, computed) == ""


def test_a_file_without_its_last_newline_is_stale() -> None:
    computed, committed = {"facts-a.txt": "a = 1\n"}, {"facts-a.txt": "a = 1"}
    (problem,) = fact_file_problems("patterns/x", computed, committed)
    assert problem.code == "facts-stale"
    assert differences(computed, committed) != ""
