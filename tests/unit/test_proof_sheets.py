"""Proof sheets: both sides of every check, what changed since the release, what testers found."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from small_shop import PLAIN

from pieceproof.compile import compile_pattern
from pieceproof.pages.proof import INDEX, Sheet, proof_pages, sheet_of
from pieceproof.prose import Prose
from pieceproof.review.evidence import Table, evidence
from pieceproof.review.kept import files_to_keep
from pieceproof.shelf import Shelved

SLUG = "eddy-runner"
KNOWN = """\
expect:
  - source: worked out on paper
    size: small
    facts: ["finished size, width = 22"]
trials:
  - size: small
    tester: <b>a neighbour</b>
    date: 3 May 2026
    hours: 6 1/2
    colourway: boathouse
    measured:
      - finished size, width = 21 3/4
      - "piece E, border, cut = 2 1/2 x 22 1/2"
      - binding, usable width 42, room left = 3 1/2
    unclear: The corners.
release: {edition: 1.0, date: 1 June 2026}
"""


@cache
def shelved(text: str = PLAIN + KNOWN, now: str = "") -> Shelved:
    """A pattern released as ``text`` and changed to ``now``."""
    files = {"pattern.yaml": text.encode()}
    files |= files_to_keep(compile_pattern(SLUG, files), files)
    files["pattern.yaml"] = (now or text).encode()
    pattern = compile_pattern(SLUG, files)
    assert not pattern.problems
    return Shelved(files, pattern, Prose(), ())


def table(sheet: Sheet, heading: str) -> Table:
    found = [t for *_, tables in sheet.sizes for t in tables if t.heading == heading]
    return found[0]


def test_both_sides_of_every_check() -> None:
    sheet = sheet_of(shelved())
    named = [(label, anchor) for label, anchor, _ in sheet.sizes]
    assert named == [("Two stars", "size-small"), ("Three stars", "size-large")]
    sewn = table(sheet, "Drawn and sewn").rows
    assert sewn[0] == ("unit point", "4 1/2 x 3", "4 1/2 x 3", "nothing")
    assert sewn[-1] == ("top", "22 1/2 x 13 1/2", "22 1/2 x 13 1/2", "nothing")
    cut = table(sheet, "Cut and used").rows
    assert ("C, star points", "16", "16", "16", "0") in cut
    assert all(row[1] == row[2] == row[3] and row[4] == "0" for row in cut)
    for row in table(sheet, "Cloth").rows:
        assert (row[3] == "none, proved") == (row[1] == row[2])
    assert ("point: lower tip of background", "1", "1/4", "floating") in table(sheet, "Tips").rows
    met = dict(table(sheet, "Seams that meet").rows)
    assert met["seams that meet, clashing"] == "0"
    assert int(met["seams that meet, nested"]) > 0
    assert {row[0] for row in table(sheet, "Light and dark").rows} == {"Low Water", "Boathouse"}
    assert table(sheet, "Known in another way").rows == (
        ("finished size, width", "22", "22", "worked out on paper"),
    )


@pytest.mark.parametrize(("text", "proven", "told"), [
    ("", True, False),
    ("", False, True),
    ("planning effort: 59\n", False, True),
    ("planning effort: 60\n", False, False),
])  # fmt: skip
def test_a_plan_without_proof_names_the_remedy(text: str, proven: bool, told: bool) -> None:
    """Sixty times the usual effort is the most that can be asked for."""
    sized = shelved(PLAIN + text).pattern.sizes[0]
    first, *others = sized.requirements.needs
    assert first.plan.proven
    if not proven:
        plan = replace(first.plan, bound=first.plan.bound - 1, proven=False)
        first = replace(first, plan=plan)
    known = replace(sized.requirements, needs=(first, *others))
    tables = evidence(replace(sized, requirements=known))
    cloth = next(table for table in tables if table.heading == "Cloth")
    assert ('More "planning effort" in the pattern' in cloth.sentence) is told


def test_prints_are_planned_as_they_are_cut() -> None:
    """Points and border of a print that runs one way, star centres around motifs."""
    text = (PLAIN + KNOWN).replace("value: light}", "value: light, print: directional}")
    text = text.replace(
        "heart: {called: star centres,",
        "heart: {motif: {across: 5, along: 6}, called: star centres,",
    )
    assert "directional" in text
    assert "motif" in text
    cut = table(sheet_of(shelved(text)), "Cut and used").rows
    assert all(row[1] == row[2] == row[3] for row in cut)


def test_widths_for_which_cloth_is_the_same_share_a_row() -> None:
    names = [row[0] for row in table(sheet_of(shelved()), "Cloth").rows]
    assert len(names) == len(set(names))
    assert "star centres, 42, 40, 44, 54, 108 wide" in names


def test_trials_are_held_against_what_is_stated() -> None:
    (trial,) = sheet_of(shelved()).trials
    assert (
        trial.heading == "Two stars, by <b>a neighbour</b>, 3 May 2026; in Boathouse; 6 1/2 hours"
    )
    assert trial.sentence.endswith("First unclear: The corners.")
    assert trial.rows == (
        ("finished size, width", "22", "21 3/4", "-1/4"),
        ("piece E, border, cut", "2 1/2 x 22 1/2", "2 1/2 x 22 1/2", ""),
        ("binding, usable width 42, room left", "3", "3 1/2", "+1/2"),
    )


@pytest.mark.parametrize(
    ("text", "now", "said"),
    [
        (PLAIN + KNOWN, "", "No published fact differs from edition 1.0."),
        (
            PLAIN + KNOWN,
            (PLAIN + KNOWN).replace("called: background", "called: sky"),
            "0 facts changed since edition 1.0, which asks for a correction. "
            'The part "background" is "sky" now.',
        ),
    ],
)
def test_what_changed_since_the_release(text: str, now: str, said: str) -> None:
    assert sheet_of(shelved(text, now)).since == said


def test_pages_hold_no_raw_words_and_are_listed() -> None:
    pages = proof_pages({SLUG: shelved()}, "index.html")
    assert list(pages) == [INDEX, f"shop/proof/{SLUG}/index.md"]
    assert 'href="eddy-runner/index.html"' in pages[INDEX].fragments[0]
    whole = "".join(
        (
            pages[f"shop/proof/{SLUG}/index.md"].markdown,
            *pages[f"shop/proof/{SLUG}/index.md"].fragments,
        )
    )
    assert "<b>a neighbour" not in whole
    assert "&lt;b&gt;a neighbour" in whole
    assert "Tester: Three stars, made as written" in whole


def test_a_draft_has_a_sheet_too() -> None:
    files = {"pattern.yaml": PLAIN.encode()}
    sheet = sheet_of(Shelved(files, compile_pattern(SLUG, files), Prose(), ()))
    assert sheet.since == "Nothing was released yet."
    assert sheet.trials == sheet.changes == ()


def test_methods_are_compared_where_there_is_a_choice() -> None:
    """The pinwheels of Weir Pool, of half-square triangles; the pattern's own method is marked."""
    folder = Path(__file__).parents[2] / "patterns" / "weir-pool"
    files = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
    tables = {t.heading: t for t in evidence(compile_pattern("weir-pool", files).sizes[0])}
    rows = tables["Methods compared"].rows
    named = {row[1].strip("* ") for row in rows}
    assert {"half-square triangles", "half-square triangles eight at a time"} <= named
    units = {row[0] for row in rows}
    assert sum(row[1].startswith("*") for row in rows) == len(units)


def test_seams_are_shown_with_their_numbers_where_sizes_differ() -> None:
    """A block is alike in both sizes; the setting and its borders are not."""
    sheet = sheet_of(shelved())
    small, large = ([thing.name for thing in things] for things in sheet.seams)
    assert small == ["point", "star", "setting", "borders"]
    assert large == ["setting", "borders"]
    fragments = proof_pages({SLUG: shelved()}, "")[f"shop/proof/{SLUG}/index.md"].fragments
    shown = [fragment for fragment in fragments if "Seams by number" in fragment]
    assert [fragment.count("<svg") for fragment in shown] == [4, 2]
    drawings = [thing.drawing for things in sheet.seams for thing in things]
    idents = [ident for drawing in drawings for ident in re.findall(r'\bid="([^"]+)"', drawing)]
    assert len(idents) == len(set(idents))
