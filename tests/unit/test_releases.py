"""Releases on disk, step by step as a shop goes: what may go out, what customers are told."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_shop import PLAIN

from pieceproof.cli import main
from pieceproof.compile import compile_pattern
from pieceproof.editions import Edition, parse_date, parse_edition, show_date
from pieceproof.facts import Fact
from pieceproof.folders import read_folders
from pieceproof.pages.choices import Axis, Option
from pieceproof.pages.corrections import corrections_page, notices_by_place
from pieceproof.review.changes import changes
from pieceproof.review.kept import files_to_keep
from pieceproof.review.releases import Step, least_step, release_problems
from pieceproof.review.remedies import notices, remedy

SLUG = "eddy-runner"
PARTS = "{ground: mist, wing: ochre, heart: rose, water: brick, edge: brick, back: rose}"
FIRST = "release: {edition: 1.0, date: 1 June 2026}\n"
NARROW = PLAIN.replace("binding: {fabric: edge}", "binding: {fabric: edge, cut width: 2 1/4}")
SECOND = """\
release:
  edition: 1.1
  date: 2 July 2026
  errata:
    - {edition: 1.1, fact: "binding, cut width", was: 2 1/2}
    - {edition: 1.1, fact: "binding, usable width 42, metres", sizes: [small], was: "0.25"}
    - {edition: 1.1, fact: "binding, usable width 42, metres", sizes: [large], was: "0.3"}
"""


@pytest.fixture
def patterns(tmp_path: Path) -> Path:
    (tmp_path / "patterns" / SLUG).mkdir(parents=True)
    return tmp_path / "patterns"


def write(patterns: Path, text: str) -> None:
    (patterns / SLUG / "pattern.yaml").write_text(text)
    assert run(patterns, "facts") == 0


def run(patterns: Path, *words: str) -> int:
    return main(["--patterns", str(patterns), *words])


def released(patterns: Path) -> dict[str, str]:
    folder = patterns / SLUG / "released"
    return {path.name: path.read_text() for path in folder.iterdir()}


def test_from_draft_to_correction(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(patterns, PLAIN)
    assert run(patterns, "release", SLUG) == 2
    assert "is a draft" in capsys.readouterr().err

    write(patterns, PLAIN + FIRST)
    assert run(patterns, "check") == 1
    assert "release-not-kept" in capsys.readouterr().err
    assert run(patterns, "release", SLUG) == 0
    assert run(patterns, "check") == 0
    kept = released(patterns)
    assert sorted(kept) == ["edition.txt", "facts-large.txt", "facts-small.txt", "pattern.yaml"]
    assert kept["facts-small.txt"] == (patterns / SLUG / "facts-small.txt").read_text()

    write(patterns, NARROW + FIRST)
    capsys.readouterr()
    assert run(patterns, "check") == 1
    assert "release-changed" in capsys.readouterr().err
    assert run(patterns, "release", SLUG) == 1
    assert released(patterns) == kept

    write(patterns, NARROW + FIRST.replace("1.0", "1.1"))
    assert run(patterns, "release", SLUG) == 1
    assert "release-no-erratum" in capsys.readouterr().err

    write(patterns, NARROW + SECOND)
    assert run(patterns, "compare", "release") == 0
    assert "- binding, cut width: `2 1/2` -> `2 1/4`\n" in capsys.readouterr().out
    assert run(patterns, "release", SLUG) == 0
    assert run(patterns, "check") == 0
    assert released(patterns)["edition.txt"] == "1.1\n"


def test_an_edition_that_nobody_has_may_be_replaced(patterns: Path) -> None:
    write(patterns, PLAIN + FIRST)
    assert run(patterns, "release", SLUG) == 0
    fewer = PLAIN.replace("  small: {label: Two stars, setting: {across: 2}}\n", "")
    write(patterns, fewer + FIRST)
    assert run(patterns, "release", SLUG) == 1
    assert run(patterns, "release", SLUG, "--again") == 0
    assert sorted(released(patterns)) == ["edition.txt", "facts-large.txt", "pattern.yaml"]
    assert run(patterns, "check") == 0


def test_a_released_pattern_is_left_out_of_no_other_reading(patterns: Path) -> None:
    """What is kept is neither an orphan among the facts nor another pattern."""
    write(patterns, PLAIN + FIRST)
    run(patterns, "release", SLUG)
    folders, problems = read_folders(patterns)
    assert (list(folders), problems) == ([SLUG], ())
    assert run(patterns, "facts") == 0


def facts(**values: str) -> dict[str, list[Fact]]:
    return {"only": [Fact(key.replace("_", " "), v, v, v) for key, v in values.items()]}


@pytest.mark.parametrize(
    ("old", "new", "step"),
    [
        ({"finished size, width": "20"}, {"finished size, width": "21"}, Step.DESIGN),
        ({"seam allowance": "1/4"}, {"seam allowance": "3/8"}, Step.DESIGN),
        ({"unit a, make": "2"}, {"unit a, make": "3"}, Step.CORRECTION),
        ({"unit a, make": "2", "tops": "1"}, {"tops": "1"}, Step.CORRECTION),
        ({"tops": "1"}, {"tops": "1", "unit a, make": "2"}, Step.CORRECTION),
        ({"tops": "1"}, {"tops": "1"}, Step.NONE),
    ],
)
def test_the_least_step(old: dict[str, str], new: dict[str, str], step: Step) -> None:
    assert least_step(changes(facts(**old), facts(**new))) is step


def test_a_new_letter_or_a_lost_size_is_another_design() -> None:
    def edition(letters: str) -> dict[str, str]:
        return {
            f"piece {letter}, border, {what}": value
            for letter, use in zip(letters, ("top", "star"), strict=True)
            for what, value in (("cut", "3 x 4"), ("used in", use))
        }

    assert least_step(changes(facts(**edition("AB")), facts(**edition("BA")))) is Step.DESIGN
    assert least_step(changes({"one": [], "two": []}, {"one": []})) is Step.DESIGN


def test_editions_and_dates() -> None:
    assert parse_edition("1.10") == Edition(1, 10)
    assert Edition(1, 10) > Edition(1, 9)
    assert [parse_edition(t) for t in ("1", "0.1", "1.01", "v1.0", "1.0.0", "")] == [None] * 6
    day = parse_date("29 February 2028")
    assert day is not None
    assert show_date(day) == "29 February 2028"
    assert parse_date("29 February 2027") is None


@pytest.mark.parametrize(
    ("key", "was", "now", "said"),
    [
        ("piece G, border, cut", "3 x 78", "3 x 78 1/2", "too small: cut 2 of them again"),
        ("piece G, border, cut", "3 x 79", "3 x 78 1/2", "Trim each piece G to"),
        ("piece G, border, cut", "3 1/2 x 78", "3 x 78 1/2", "too small"),
        ("piece G, border, count", "1", "2", "Cut 1 more."),
        ("piece G, border, count", "3", "2", "1 of them are left over"),
        ("border, usable width 42, yards", "1/3 ~ 3/8", "1/2", "Buy 1/8 yard more."),
        ("border, usable width 42, metres", "0.35", "0.5", "Buy 0.15 m more."),
        ("border, usable width 42, yards", "5/8", "1/2", "What you bought is enough"),
        ("unit point, step 4", "sew it", "turn it", ""),
        ("piece G, border, cut", "nothing", "3 x 78", "Cut 2, "),
        ("border, usable width 42, yards", "nothing", "1/2", "Buy 1/2"),
    ],
)
def test_remedies(key: str, was: str, now: str, said: str) -> None:
    around = {"piece G, border, count": Fact("piece G, border, count", "2", "2", "2")}
    sentence = remedy(key, was, Fact(key, now, now, now), around)
    assert said in sentence
    assert bool(said) == bool(sentence)


def test_notices_stand_where_they_matter_for_whom_they_matter() -> None:
    text = NARROW + SECOND.replace("was: 2 1/2}", "was: 2 1/2, sizes: [small]}")
    pattern = compile_pattern(SLUG, {"pattern.yaml": text.encode()})
    found = notices(
        pattern.sizes[0].design, {sized.design.size: sized.facts for sized in pattern.sizes}
    )
    *shopping, notice = found
    assert [n.remedy for n in shopping] == [
        "What you bought is enough; some of it will be left over."
    ] * 2
    assert (notice.sizes, notice.was, notice.now) == (("small",), '2 1/2"', '2 1/4"')
    assert notice.already == "If you have already cut by an edition before 1.1"
    axis = Axis("size", "Size", (Option("small", "Two"), Option("large", "Three")))
    places = notices_by_place(axis, pattern.sizes)
    assert [variant.holds for variant in places["cutting"]] == [{"size": ("small",)}]
    assert [variant.holds for variant in places["materials"]] == [
        {"size": ("small",), "width": ("42",)},
        {"size": ("large",), "width": ("42",)},
    ]
    assert places["sewing"] == ()
    page = corrections_page([pattern])
    assert "## Eddy Runner { #eddy-runner }" in page.markdown
    assert "(Two stars)" in page.fragments[0]


SLEEVE = PLAIN.replace("batting: {}", "batting: {}\nsleeve: {fabric: back}")


def problems_after(now: str, forgotten: str = "") -> list[str]:
    """Codes of what is wrong with ``now`` after `PLAIN` was released as 1.0 by a program that did
    not state facts whose key holds ``forgotten``."""
    files = {"pattern.yaml": (PLAIN + FIRST).encode()}
    kept = dict(files_to_keep(compile_pattern(SLUG, files), files))
    if forgotten:
        for name in [n for n in kept if n.startswith("released/facts-")]:
            lines = kept[name].decode().splitlines(keepends=True)
            kept[name] = "".join(line for line in lines if forgotten not in line).encode()
    files = {"pattern.yaml": now.encode(), **kept}
    pattern = compile_pattern(SLUG, files)
    assert not pattern.problems
    return [problem.code for problem in release_problems(pattern, files)]


def test_facts_that_the_program_did_not_state_before_are_no_change() -> None:
    assert problems_after(PLAIN + FIRST, "clearance") == []
    called = (PLAIN + FIRST).replace("Two sizes of one block", "Two sizes of a block")
    assert problems_after(called, "clearance") == []


def test_what_the_pattern_adds_is_a_new_edition() -> None:
    """Nothing that a customer holds is otherwise; but two unlike texts would be edition 1.0."""
    gold = PLAIN.replace("auditions:", f"  gold:\n    name: Gold\n    parts: {PARTS}\n\nauditions:")
    assert problems_after(gold + FIRST) == ["release-changed"]
    assert problems_after(gold + FIRST.replace("1.0", "1.1")) == ["release-not-kept"]
    third = PLAIN.replace(
        "sizes:\n", "sizes:\n  third: {label: Four stars, setting: {across: 4}}\n"
    )
    assert problems_after(third + FIRST) == ["release-changed"]
    assert problems_after(third + FIRST.replace("1.0", "1.1")) == ["release-not-kept"]


def test_what_is_to_be_cut_as_well_has_an_erratum() -> None:
    """Also when an older program kept fewer facts."""
    for forgotten in ("", "clearance"):
        assert problems_after(SLEEVE + FIRST, forgotten) == ["release-changed"]
        without = problems_after(SLEEVE + FIRST.replace("1.0", "1.1"), forgotten)
        assert set(without) == {"release-no-erratum"}
