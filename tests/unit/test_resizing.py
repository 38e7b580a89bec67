"""`pieceproof resize`: finished sizes are scaled in place, cut sizes are worked out again."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_shop import PLAIN

from pieceproof.cli import main
from pieceproof.fact_files import parse_facts

REMARK = "# The star is nine wide.\n"
HALVES = """\
    method: half-rectangle triangles
    size: 4 x 2 1/2
    oversize: 1/8
    upper: ground
    lower: wing
"""
EXPECT = "expect:\n  - {source: sewn, facts: [seam allowance = 1/4]}\n"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "eddy-runner"
    folder.mkdir()
    text = PLAIN.replace("blocks:\n", f"{REMARK}blocks:\n") + EXPECT
    (folder / "pattern.yaml").write_text(text)
    (folder / "prose.md").write_text("A runner.\n")
    return tmp_path


def run(root: Path, *words: str) -> int:
    return main(["--patterns", str(root), "resize", "eddy-runner", *words])


def changed(root: Path, slug: str) -> dict[str, str]:
    """Lines that differ, old by new; what is left out is not counted."""
    old = (root / "eddy-runner" / "pattern.yaml").read_text().removesuffix(EXPECT).split("\n")
    new = (root / slug / "pattern.yaml").read_text().split("\n")
    return {b.strip(): a.strip() for a, b in zip(old, new, strict=True) if a != b}


def facts(root: Path, slug: str) -> dict[str, str]:
    file = root / slug / "facts-large.txt"
    return {fact.key: fact.published for fact in parse_facts(file.read_text())}


def test_a_block_twice_as_wide(root: Path) -> None:
    """Worked out by hand: 4 becomes 8, 2 1/2 becomes 5, and a corner 4 1/2 + 1/2 is cut 5."""
    assert run(root, "--block", "18") == 0
    assert changed(root, "eddy-runner-18-in") == {
        "size: 8 x 5": "size: 4 x 2 1/2",
        "bottom left: {fabric: wing, leg: 4 1/2}": "bottom left: {fabric: wing, leg: 2 1/4}",
        "bottom right: {fabric: wing, leg: 4 1/2}": "bottom right: {fabric: wing, leg: 2 1/4}",
        "- {fabric: water, width: 4, order: sides first}": (
            "- {fabric: water, width: 2, order: sides first}"
        ),
    }
    found = facts(root, "eddy-runner-18-in")
    assert found["piece C, star points, cut"] == "5 x 5"
    assert found["seam allowance"] == "1/4"
    assert REMARK in (root / "eddy-runner-18-in" / "pattern.yaml").read_text()
    assert main(["--patterns", str(root), "check", "eddy-runner-18-in"]) == 0


def test_in_centimetres_it_is_drawn_anew(root: Path) -> None:
    """9 in redrawn as 25.2 cm: 2 1/4 becomes 6.3, and 6.3 with two seams of 0.75 is 7.8."""
    assert run(root, "--to", "centimetre", "--block", "25.2") == 0
    found = facts(root, "eddy-runner-25-2-cm")
    assert found["seam allowance"] == "0.75"
    assert found["block star, finished, width"] == "25.2"
    assert found["piece C, star points, cut"] == "7.8 x 7.8"


def test_customary_lengths_stay_on_the_ruler(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """2 1/4 times 2.5 is 5.625, which no ruler shows; 5.7 is the next that still goes round."""
    file = root / "eddy-runner" / "pattern.yaml"
    text = file.read_text().replace("{fabric: edge}", "{fabric: edge, cut width: 2 1/4, extra: 12}")
    file.write_text(text.replace("backing: {fabric: back}", "backing: {fabric: back, beyond: 3}"))
    assert run(root, "--to", "centimetre", "--block", "25.2") == 0
    assert "rounded up to the ruler's grid of 0.1: 5.625 to 5.7" in capsys.readouterr().out
    found = facts(root, "eddy-runner-25-2-cm")
    assert found["binding, cut width"] == "5.7"
    assert found["binding, beyond the edge"] == "30"
    assert found["backing, beyond the top"] == "7.5"


def test_what_is_there_for_the_sewing_is_not_scaled(root: Path) -> None:
    file = root / "eddy-runner" / "pattern.yaml"
    before, _, rest = file.read_text().partition("    method: stitched corners\n")
    _, _, blocks = rest.partition("\nblocks:")
    file.write_text(f"{before}{HALVES}\nblocks:{blocks}")
    assert run(root, "--block", "18") == 0
    assert (
        "    size: 8 x 5\n    oversize: 1/8\n"
        in (root / "eddy-runner-18-in" / "pattern.yaml").read_text()
    )


def test_an_inch_is_redrawn_as_two_and_a_half_centimetres(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Common practice: a block of 12 in becomes one of 30 cm, never 30.48."""
    assert run(root, "--to", "centimetre") == 1
    said = capsys.readouterr().err
    assert "blocks of 22.5, finished" in said
    assert "not on the ruler's grid of 0.1: 10 x 6.25; 5.625" in said
    assert "nearest blocks with every size on the grid: 21.6 or 25.2" in said


def test_sizes_off_the_ruler_are_named_and_nothing_is_written(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """In ninths of 10, 2 1/4 is 2 1/2 and stays on the ruler; 4 is 4 4/9 and does not."""
    assert run(root, "--block", "10") == 1
    said = capsys.readouterr().err
    assert "not on the ruler's grid of 1/8: 4 4/9 x 2 7/9" in said
    assert "nearest blocks with every size on the grid: 9 or 13 1/2" in said
    assert sorted(path.name for path in root.iterdir()) == ["eddy-runner"]


def test_it_never_overwrites(root: Path) -> None:
    (root / "eddy-runner-18-in").mkdir()
    assert run(root, "--block", "18") == 2
    assert list((root / "eddy-runner-18-in").iterdir()) == []


def test_it_wants_to_know_what_to_do(root: Path) -> None:
    assert run(root) == 2


@pytest.mark.parametrize("words", ["ten", "-3", "0"])
def test_a_block_is_a_length(root: Path, words: str) -> None:
    assert run(root, f"--block={words}") == 2
