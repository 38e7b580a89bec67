"""The change sheet against real builds: with the colourway changed in the pattern, exactly what the
sheet names is written differently, byte for byte."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest
from small_shop import PLAIN, build, open_shop

from pieceproof.booklet.booklet import booklets_html
from pieceproof.booklet.editions import Edition, Paper
from pieceproof.booklet.press import copies_of, orders_of
from pieceproof.cli import main
from pieceproof.folders import read_folders
from pieceproof.shelf import compile_folders

ONE_SIZE = PLAIN.replace("  small: {label: Two stars, setting: {across: 2}}\n", "").replace(
    "seam: 1/4\n", "seam: 1/4\ncloth widths: [42, 40]\n"
)
GOLD = '  gold: {name: Lamp Gold, colour: "#c8862a"}\n\ncolourways:'


@dataclass(frozen=True)
class Swap:
    """A cloth of a colourway, what stands in for it, and the parts as the pattern would say it."""

    colourway: str
    of: str
    use: str
    was: str
    becomes: str

    @property
    def changed(self) -> str:
        """The pattern's text with the colourway changed."""
        assert ONE_SIZE.count(self.was) == 1
        text = ONE_SIZE.replace(self.was, self.becomes)
        return text.replace("\ncolourways:", GOLD) if "gold" in self.becomes else text


GOLDEN = Swap(
    "low-water",
    "Ferry Ochre",
    "Lamp Gold",
    "heart: ochre, water: slate, edge: ochre",
    "heart: gold, water: slate, edge: gold",
)
SWAPS = {
    "a cloth of the shop": GOLDEN,
    "one cloth for what two were": Swap(
        "low-water",
        "Ferry Ochre",
        "Wet Slate",
        GOLDEN.was,
        "heart: slate, water: slate, edge: slate",
    ),
    "in the second colourway": Swap(
        "boathouse",
        "Towpath Rose",
        "Lamp Gold",
        "heart: rose, water: brick, edge: brick, back: rose",
        "heart: gold, water: brick, edge: brick, back: gold",
    ),
}
PICTURES = (".svg", ".png", ".jpg", ".jpeg")
ALWAYS = {"patterns/eddy-runner/choices.css", "search/search_index.json"}
"""The colours of drawings within the page, and its words; no picture of its own."""


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(tmp_path_factory.mktemp("before"), ONE_SIZE)


def built(folder: Path, text: str) -> Path:
    open_shop(folder)
    shutil.rmtree(folder / "patterns" / "odd-names")
    (folder / "patterns" / "eddy-runner" / "pattern.yaml").write_text(text, "utf-8")
    assert main(["--patterns", str(folder / "patterns"), "facts"]) == 0
    done = build(folder, folder / "site")
    assert done.returncode == 0, done.stderr
    return folder


def differing(one: Path, other: Path) -> set[str]:
    """Files of the first site that are not the same in the other."""
    files = (path.relative_to(one) for path in one.rglob("*") if path.is_file())
    return {
        str(file)
        for file in files
        if not (other / file).is_file() or (one / file).read_bytes() != (other / file).read_bytes()
    }


def sheet(folder: Path, swap: Swap, capsys: pytest.CaptureFixture[str]) -> dict[str, list[str]]:
    words = ["kits", "eddy-runner", "--colourway", swap.colourway, "--kits", "3", "--json"]
    patterns = ["--patterns", str(folder / "patterns")]
    capsys.readouterr()
    assert main([*patterns, *words, "--instead", f"{swap.of}={swap.use}"]) == 0
    found: dict[str, list[str]] = json.loads(capsys.readouterr().out)["changes"]
    return found


@pytest.mark.parametrize("swap", SWAPS.values(), ids=SWAPS)
def test_it_names_what_a_build_writes_differently(
    before: Path, swap: Swap, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The other colourway keeps its pictures; only a number in their names may move on."""
    after = built(tmp_path, swap.changed)
    named = sheet(before, swap, capsys)
    found = differing(before / "site", after / "site")
    other = {"low-water", "boathouse"} - {swap.colourway}
    drawn = {name for name in found if name.endswith(PICTURES)}
    pictures = {name for name in drawn if not other & colourways_in(name)}
    assert {f"patterns/eddy-runner/{name}" for name in named["pictures"]} == pictures
    assert len(pictures) > 2
    assert set(named["pages"]) == {name for name in found if name.endswith(".html")}
    assert {name for name in found if not name.endswith((*PICTURES, ".html"))} <= ALWAYS
    if swap is not SWAPS["one cloth for what two were"]:
        assert drawn == pictures


def colourways_in(name: str) -> set[str]:
    """The colourways that are part of a file's name."""
    return {colourway for colourway in ("low-water", "boathouse") if f"-{colourway}" in name}


def test_it_names_the_booklets_that_differ(
    before: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Their pages before they are pressed, on every paper."""
    (tmp_path / "eddy-runner").mkdir()
    (tmp_path / "eddy-runner" / "pattern.yaml").write_text(GOLDEN.changed)
    pages, changed = booklet_pages(before / "patterns"), booklet_pages(tmp_path)
    assert list(pages) == list(changed)
    named = sheet(before, GOLDEN, capsys)["booklets"]
    assert set(named) == {name for name, html in pages.items() if changed[name] != html}
    assert named


def booklet_pages(patterns: Path) -> dict[str, str]:
    folders, _ = read_folders(patterns)
    shelf = compile_folders({"eddy-runner": folders["eddy-runner"]}, {})
    (order,) = orders_of(shelf, copies_of(list(Edition), list(Paper)), "A small shop")
    html = booklets_html(order.work, order.copies)
    return {order.file_name(copy): text for copy, text in zip(order.copies, html, strict=True)}
