"""Two editions compared, in a git repository made here: exactly what changed, and nothing else.

The expected facts are found by comparing the files line by line, which knows no names, letters,
stages or readers.
"""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from small_shop import PLAIN as FIVE_WIDTHS
from small_shop import PROSE

from pieceproof.cli import main
from pieceproof.compile import compile_pattern
from pieceproof.fact_files import facts_text
from pieceproof.model import Stage
from pieceproof.review.compare import Compared, compare
from pieceproof.review.compared_text import NOTHING, compared_text
from pieceproof.review.rows import names, rows
from pieceproof.review.stages import colourways_of, stage_of
from pieceproof.revisions import sides

SLUG = "eddy-runner"
PLAIN = FIVE_WIDTHS.replace("batting: {}", "batting: {}\ncloth widths: [42, 40]")
LINE = "colourway low-water"


def git(folder: Path, *words: str) -> None:
    who = ["-c", "user.name=Reader", "-c", "user.email=reader@shop.example"]
    subprocess.run(["git", "-C", str(folder), *who, *words], check=True, capture_output=True)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One pattern with its facts, committed; the folder of all patterns."""
    folder = tmp_path_factory.mktemp("repository")
    pattern = folder / "site" / "patterns" / SLUG
    pattern.mkdir(parents=True)
    (pattern / "pattern.yaml").write_text(PLAIN)
    (pattern / "prose.md").write_text(PROSE)
    assert main(["--patterns", str(pattern.parent), "facts"]) == 0
    git(folder, "init", "-q")
    git(folder, "add", ".")
    git(folder, "commit", "-qm", "One")
    return pattern.parent


def compared(shop: Path, text: str, prose: str = PROSE) -> tuple[Compared, ...]:
    """The committed pattern against this text in the working tree."""
    (shop / SLUG / "pattern.yaml").write_text(text)
    (shop / SLUG / "prose.md").write_text(prose)
    old, new, complaint = sides(shop, "HEAD", None)
    assert complaint == ""
    return compare(old, new)


def naive(before: str, after: str, size: str) -> dict[str, tuple[str | None, str | None]]:
    """Keys whose line differs, by size; ``before`` and ``after`` are patterns."""

    def lines(text: str) -> dict[str, str]:
        pattern = compile_pattern(SLUG, {"pattern.yaml": text.encode()})
        (sized,) = [sized for sized in pattern.sizes if sized.design.size == size]
        pairs = (line.split(" = ", 1) for line in facts_text(sized.facts).splitlines())
        return dict(pairs)  # type: ignore[arg-type]

    old, new = lines(before), lines(after)
    keys = {*old, *new}
    return {key: (old.get(key), new.get(key)) for key in keys if old.get(key) != new.get(key)}


def found(one: Compared, size: str) -> dict[str, tuple[str | None, str | None]]:
    return {c.key: (c.old, c.new) for c in one.changes.facts if size in c.sizes}


CHANGED = {
    "a cut size": PLAIN.replace("width: 2,", "width: 2 1/4,"),
    "a seam": PLAIN.replace("seam: 1/4", "seam: 3/8"),
    "a colourway": PLAIN.replace("{ground: mist, wing: slate", "{ground: mist, wing: rose"),
    "a size": PLAIN.replace("setting: {across: 2}", "setting: {across: 2, down: 2}"),
}


@pytest.mark.parametrize("what", CHANGED)
def test_exactly_the_facts_that_changed(what: str, shop: Path) -> None:
    (one,) = compared(shop, CHANGED[what])
    assert not one.changes.names
    for size in ("small", "large"):
        assert found(one, size) == naive(PLAIN, CHANGED[what], size)


def test_a_cut_size_is_said_with_old_and_new_and_its_readers(shop: Path) -> None:
    text = compared_text(compared(shop, CHANGED["a cut size"]))
    assert "\n- piece E, border, cut: `2 1/2 x 22 1/2` -> `2 3/4 x 23`  (Two stars)\n" in text
    assert "\n- piece F, border, cut: `2 1/2 x 9 1/2` -> `2 3/4 x 9 1/2`\n" in text
    plain, folded = text.split("<details>")
    assert "\n- border, usable width 42 and 40, yards: `1/4 ~ 3/8`" not in plain
    yards = "- star points + border, usable width 42 and 40, yards: `1/4 ~ 3/8` -> `37/144 ~ 3/8`"
    assert f"\n{yards}  (Two stars; Low Water; 42 and 40 wide)\n" in folded
    assert [line for line in text.splitlines() if line.startswith("#")] == [
        "## Eddy Runner: 306 facts, 26 drawings",
        *("### What it is", "### Shopping", "### Cutting", "### Sewing", "### Drawings"),
    ]


def test_nothing_is_left_out_of_what_is_shown(shop: Path) -> None:
    """Every changed fact stands in a row once, a row for several widths in as many."""
    (one,) = compared(shop, CHANGED["a cut size"])
    shown = rows((*one.changes.printed, *one.changes.reckoned), one.changes, one.labels)
    assert sum(1 + row.key.count(" and 40, ") for row in shown) == len(one.changes.facts)
    text = compared_text([one])
    assert all(f"\n- {row.key}: " in text for row in shown)


def test_a_colourway_concerns_its_own_readers_only(shop: Path) -> None:
    (one,) = compared(shop, CHANGED["a colourway"])
    assert {change.colourways for change in one.changes.facts} == {("low-water",)}
    assert {drawing.colourway for drawing in one.drawings if drawing.name == "top"} == {"Low Water"}


def test_a_cloths_colour_is_a_drawing_and_no_fact(shop: Path) -> None:
    (one,) = compared(shop, PLAIN.replace("#a8482f", "#a8482e"))
    """No fact but how light or dark it is."""
    assert {change.key.split(",")[0] for change in one.changes.facts} == {"value boathouse"}
    assert [(d.name, d.colourway, len(d.sizes)) for d in one.drawings] == 2 * [
        ("top", "Boathouse", 1)
    ]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("called: star centres", "called: hearts", "the part `star centres` is `hearts` now"),
        ("called: background", "called: sky", "the part `background` is `sky` now"),
        (" star", " comet", "the unit or block `star` is `comet` now"),
    ],
)
def test_a_renamed_part_is_one_change(old: str, new: str, said: str, shop: Path) -> None:
    text = PLAIN.replace(old, new) if "called" in old else PLAIN.replace("  star:", "  comet:")
    text = text if "called" in old else text.replace("[[star]]", "[[comet]]")
    (one,) = compared(shop, text)
    assert list(names(one.changes)) == [said]
    assert one.changes.facts == ()


def test_new_letters_are_said_once(shop: Path) -> None:
    """A large square of the background comes before all its other pieces."""
    text = PLAIN.replace("rows: [[star]]", "rows: [[star, field]]").replace(
        "across: 3", "across: 4"
    )
    text = text.replace("blocks:", "blocks:\n  field:\n    rows: [[square]]", 1)
    text = text.replace(
        "units:", "units:\n  square: {method: plain patch, size: 9 x 9, fabric: ground}", 1
    )
    (one,) = compared(shop, text)
    renamed = {(n.old, n.new) for n in one.changes.names}
    assert ("A", "B") in renamed
    assert ("B", "C") in renamed
    cut = {c.key: (c.old, c.new) for c in one.changes.facts if c.key.endswith("background, cut")}
    assert cut == {"piece A, background, cut": (None, "9 1/2 x 9 1/2")}


def test_one_sentence_is_no_fact(shop: Path) -> None:
    (one,) = compared(shop, PLAIN, PROSE.replace("Wash it once", "Wash it twice"))
    assert (one.changes.facts, one.drawings, one.prose) == ((), (), True)
    assert compared(shop, PLAIN) == ()


def test_what_today_cannot_read_has_its_facts_but_no_drawings(shop: Path) -> None:
    (one,) = compared(shop, PLAIN.replace("seam: 1/4", "seam: wide"))
    assert "the new text cannot be drawn by this program" in one.undrawn
    assert "patterns/eddy-runner/pattern.yaml:5:7" in one.undrawn


def test_the_command_with_a_page_on_a_shallow_clone(
    shop: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    compared(shop, CHANGED["a cut size"])
    assert main(["--patterns", str(shop), "facts"]) == 0
    git(shop, "commit", "-qam", "Two")
    clone = tmp_path / "clone"
    subprocess.run(
        ["git", "clone", "-q", "--depth=1", f"file://{shop.parents[1]}/.git", str(clone)],
        check=True,
    )
    git(shop, "reset", "-q", "--hard", "HEAD~1")
    patterns = clone / "site" / "patterns"
    page = tmp_path / "changes.html"
    capsys.readouterr()
    assert main(["--patterns", str(patterns), "compare", "HEAD", "--html", str(page)]) == 0
    assert capsys.readouterr().out.strip() == NOTHING
    assert main(["--patterns", str(patterns), "compare", "HEAD~1"]) == 2
    assert "this clone is shallow" in capsys.readouterr().err
    file = patterns / SLUG / "pattern.yaml"
    file.write_text(file.read_text().replace("width: 2 1/4,", "width: 2,"))
    assert main(["--patterns", str(patterns), "compare", "HEAD", "--html", str(page)]) == 0
    html = page.read_text()
    assert "<del>2 3/4 x 9 1/2</del>" in html
    assert "<ins>2 1/2 x 9 1/2</ins>" in html
    assert html.count('class="change"') == 2 * html.count("<h4>")
    assert "src=" not in html
    assert 'href="' not in html


def test_words_that_look_like_options_are_revisions(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--patterns", str(shop), "compare", "--", "--output=x"]) == 2
    assert "git has no revision" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("key", "stage"),
    [
        ("finished size, width", Stage.CHOOSING),
        ("seam allowance", Stage.CHOOSING),
        ("background + backing, usable width 42, metres", Stage.SHOPPING),
        ("border, usable width 42, spare strips 3 wide", Stage.SHOPPING),
        ("colourway low-water, cloth mist, plays", Stage.SHOPPING),
        ("batting, size, width", Stage.SHOPPING),
        ("border, usable width 42, cut 2", Stage.CUTTING),
        ("backing, usable width 42, back, each length", Stage.CUTTING),
        ("piece A, background, cut", Stage.CUTTING),
        ("binding, cut width", Stage.CUTTING),
        ("piece A, stars, template, seam line", Stage.TEMPLATES),
        ("unit point, step 4", Stage.SEWING),
        ("own seam 3/8, top, unfinished, width", Stage.SEWING),
    ],
)
def test_stages(key: str, stage: Stage) -> None:
    assert stage_of(key) is stage


def test_readers_of_a_key() -> None:
    plays = {
        f"{LINE}, cloth mist, plays": "background + backing",
        f"{LINE}, cloth slate, plays": "border",
        "colourway boathouse, cloth oat, plays": "background",
        "colourway boathouse, cloth bark, plays": "border",
    }
    assert colourways_of("background + backing, usable width 42, yards", plays) == ("low-water",)
    assert colourways_of("border, usable width 42, yards", plays) == ()
    assert colourways_of("piece A, background, cut", plays) == ()
