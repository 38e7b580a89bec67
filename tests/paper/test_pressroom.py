"""The command and the setting: what they write, what they keep, what they say where PDF is missing.

Run for real: the command in this process, the site as MkDocs builds it.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest
from page_tree import read_page
from small_shop import HOSTILE_NAME, PLAIN, open_shop

from pieceproof.cli import main

NO_WEASYPRINT = "raise OSError('cannot load library')\n"


@pytest.fixture
def patterns(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "patterns" / "eddy-runner"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(PLAIN)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "patterns"


def test_the_command_writes_one_booklet_and_keeps_it(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["booklet", "eddy-runner", "--size", "small", "--paper", "a4"]
    assert main(["--patterns", str(patterns), *words]) == 0
    first = capsys.readouterr()
    written = Path("build/booklets/eddy-runner-small-booklet-a4.pdf")
    assert first.out == f"wrote {written}\n"
    assert "booklets [########################] 1 of 1, eddy-runner" in first.err
    pdf = written.read_bytes()
    assert main(["--patterns", str(patterns), *words]) == 0
    assert capsys.readouterr().err == ""
    assert written.read_bytes() == pdf
    design = patterns / "eddy-runner" / "pattern.yaml"
    design.write_text(PLAIN.replace("summary: ", "summary: Now in a new dress. ", 1))
    assert main(["--patterns", str(patterns), *words]) == 0
    assert "1 of 1" in capsys.readouterr().err
    assert written.read_bytes() != pdf


def test_an_unknown_size_is_named(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--patterns", str(patterns), "booklet", "--size", "smal"]) == 2
    assert "did you mean `small`?" in capsys.readouterr().err


def shop_with_booklets(root: Path) -> Path:
    folder = open_shop(root)
    config = folder / "mkdocs.yml"
    config.write_text(
        config.read_text().replace("- pieceproof: {", "- pieceproof: {booklets: true, ")
    )
    assert "booklets: true" in config.read_text()
    return folder


def build(folder: Path, first_on_path: Path) -> subprocess.CompletedProcess[str]:
    """A strict build; modules in ``first_on_path`` stand before all others."""
    path = os.pathsep.join([str(first_on_path), os.environ.get("PYTHONPATH", "")])
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": path, "NO_MKDOCS_2_WARNING": "1"},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )


def test_without_weasyprint_the_site_is_built_and_says_what_is_missing(tmp_path: Path) -> None:
    blocked = tmp_path / "blocked"
    blocked.mkdir()
    (blocked / "weasyprint.py").write_text(NO_WEASYPRINT)
    folder = shop_with_booklets(tmp_path)
    done = build(folder, blocked)
    assert done.returncode == 0, done.stderr
    assert "PDF booklets need WeasyPrint and the Pango library" in done.stderr
    page = read_page(folder / "site" / "patterns" / "eddy-runner" / "index.html")
    assert not [a for a in page.all("a") if a.attributes.get("href", "").endswith(".pdf")]


def test_the_page_links_to_its_booklets_whatever_its_names(tmp_path: Path) -> None:
    """The pattern whose names try to be markup; its booklets print them as words."""
    folder = shop_with_booklets(tmp_path)
    (folder / "patterns" / "eddy-runner").rename(folder / "elsewhere")
    done = build(folder, folder)
    assert done.returncode == 0, done.stderr
    site = folder / "site" / "patterns" / "odd-names"
    links = {
        a.attributes["href"]: a.text
        for a in read_page(site / "index.html").all("a")
        if a.attributes.get("href", "").endswith(".pdf")
    }
    assert links == {
        "odd-names-one_size-booklet-letter.pdf": "Booklet, Letter, PDF",
        "odd-names-one_size-booklet-a4.pdf": "Booklet, A4, PDF",
        "odd-names-one_size-large-print-letter.pdf": "Booklet in large print, Letter, PDF",
        "odd-names-one_size-large-print-a4.pdf": "Booklet in large print, A4, PDF",
    }
    for name in links:
        cover = pypdfium2.PdfDocument(site / name)[0].get_textpage().get_text_range()
        assert "".join(HOSTILE_NAME.split()) in "".join(cover.split())
