"""Prose: sections, citations filled in for each size, and what is made harmless."""

import pytest
from cloth_samples import PATTERNS, SLUGS, published
from quicktions import Fraction

from pieceproof.citing import cited
from pieceproof.facts import Fact, facts_of
from pieceproof.prose import Passage, SizeFacts, size_facts, write_prose
from pieceproof.prose_source import Where
from pieceproof.requirements import USABLE_WIDTHS, requirements

F = Fraction
FILE = "patterns/low-water/prose.md"


def real(slug: str) -> tuple[SizeFacts, ...]:
    sizes = []
    for design, publication in published(slug):
        found, _ = requirements(design, publication, USABLE_WIDTHS[design.measure][:2])
        sizes.append(size_facts(publication, facts_of(design, publication, found)))
    return tuple(sizes)


def sizes(**facts: str) -> tuple[SizeFacts, ...]:
    """One size whose facts say these words."""
    made = {key.replace("_", " "): said for key, said in facts.items()}
    by_key = {key: Fact(key, said, said, said) for key, said in made.items()}
    return (SizeFacts("short", ("Cutting", "Unit: point", "Rows", "Finishing"), by_key),)


def passages(text: str, of: tuple[SizeFacts, ...]) -> tuple[Passage, ...]:
    prose, problems, _ = write_prose(FILE, text.encode(), of, ("heron.jpg",))
    assert problems == ()
    return prose.sizes[of[0].size]


@pytest.mark.parametrize("slug", SLUGS)
def test_the_repositorys_prose_has_no_problems(slug: str) -> None:
    data = (PATTERNS / slug / "prose.md").read_bytes()
    prose, problems, _ = write_prose(f"patterns/{slug}/prose.md", data, real(slug), ())
    assert problems == ()
    for written in prose.sizes.values():
        assert written[0].section == ""
        assert written[-1].section == "Finishing"


def test_sections_before_after_and_instead() -> None:
    text = "Low water.\n\n## Cutting\n\nFirst.\n\n## Cutting (after)\nThen.\n\n"
    text += "## Rows (instead)\n\nSo.\n"
    assert passages(text, sizes()) == (
        Passage("", Where.BEFORE, "Low water."),
        Passage("Cutting", Where.BEFORE, "First."),
        Passage("Cutting", Where.AFTER, "Then."),
        Passage("Rows", Where.INSTEAD, "So."),
    )


def test_every_size_has_its_own_numbers() -> None:
    text = "## Unit: point\n\nMake {unit point, make} of them; the runner is {finished size}.\n"
    prose, problems, _ = write_prose(FILE, text.encode(), real("heron-landing"), ())
    assert problems == ()
    assert [written[0].text for written in prose.sizes.values()] == [
        'Make 12 of them; the runner is 37" x 16 1/2".',
        'Make 20 of them; the runner is 57 1/2" x 16 1/2".',
        'Make 28 of them; the runner is 78" x 16 1/2".',
    ]


@pytest.mark.parametrize(
    ("slug", "citation", "said"),
    [
        ("heron-landing", "seam allowance", '1/4"'),
        ("heron-landing", "piece A, background, cut", '3" x 4 1/2"'),
        ("heron-landing", "piece A, cut", '3" x 4 1/2"'),
        ("heron-landing", "unit point, unfinished", '4 1/2" x 3"'),
        ("heron-landing", "background, yards", "3/8 yard"),
        ("heron-landing", "background, usable width 40, metres", "0.3 m"),
        ("heron-landing", "batting, size", '45" x 24 1/2"'),
        ("ferry-wake", "seam allowance", "0.75 cm"),
        ("ferry-wake", "block mat, finished", "42 x 30 cm"),
        ("ferry-wake", "unit goose, unfinished, height", "7.5 cm"),
    ],
)
def test_citations_and_their_short_forms(slug: str, citation: str, said: str) -> None:
    assert cited(real(slug)[0].facts, citation).said == said


def test_a_section_of_another_size_is_left_out() -> None:
    short, long = sizes()[0], SizeFacts("long", ("Borders",), {"border": Fact("b", "1", "1", "1")})
    text = "## Borders\n\nSew {border} on.\n"
    prose, problems, _ = write_prose(FILE, text.encode(), (short, long), ())
    assert problems == ()
    assert prose.sizes == {
        "short": (),
        "long": (Passage("Borders", Where.BEFORE, "Sew 1 on."),),
    }


def test_citations_may_run_over_a_line_end() -> None:
    assert passages("Make {unit point,\nmake} points.", sizes(**{"unit_point,_make": "20"})) == (
        Passage("", Where.BEFORE, "Make 20 points."),
    )


@pytest.mark.parametrize(
    ("text", "filled"),
    [
        (r"a \{brace\} and a lone }", "a &#123;brace&#125; and a lone &#125;"),
        ("a < b and `code` ~~no~~", "a &#60; b and &#96;code&#96; &#126;&#126;no&#126;&#126;"),
        ("{make}. Then sew.", "&#50;0. Then sew."),
        ("**{make}** points", "**20** points".replace("20", "&#50;0")),
        ("Use {called}.", "Use &#42;red&#42; &#60;b&#62;."),
        ("![A heron](heron.jpg)", "![A heron](heron.jpg)"),
        ("[rows](#top), [more](https://example.org/a?b=1#c)",) * 2,
    ],
)
def test_what_could_be_more_than_text_is_made_harmless(text: str, filled: str) -> None:
    assert passages(text, sizes(make="20", called="*red* <b>"))[0].text == filled


def test_pictures_are_listed_once() -> None:
    text = "![A heron](heron.jpg)\n\n## Cutting\n\n![The heron again](heron.jpg)\n"
    assert write_prose(FILE, text.encode(), sizes(), ("heron.jpg",))[0].pictures == ("heron.jpg",)


@pytest.mark.parametrize(
    "text",
    [
        *('a 1/4" seam', "1/4 inch", "a 1/4-inch seam", "two 3″ squares", "20 in each row"),
        *("a quarter-inch seam", "three-inch squares", "3 x 3 squares", "¼ inch", "3in. squares"),
        *("twenty in all", "make twenty", "cut one first", "1. First.", "[map](heron.jpg#10)"),
        *("{=10 minutes}", "rows of 20", "a quarter of it", "half of them", "3 in wide"),
    ],
)
def test_numbers_of_the_pattern_may_be_typed(text: str) -> None:
    passages(text, sizes(seam_allowance='1/4"', piece='3" x 3"', **{"unit_point,_make": "20"}))


def test_what_stands_as_it_is_is_printed_and_made_harmless() -> None:
    assert (
        passages("Rest {=10 minutes\nor *so*}.", sizes())[0].text
        == "Rest 10 minutes or &#42;so&#42;."
    )


@pytest.mark.parametrize("text", ['3/4" seam', "1 1/4 inches", "0.5 cm", "2 yards", '13"', "4.5 x"])
def test_other_measurements_are_reported(text: str) -> None:
    _, problems, _ = write_prose(FILE, text.encode(), sizes(seam='1/4"', piece='3" x 3"'), ())
    assert [problem.code for problem in problems] == ["prose-number"]
