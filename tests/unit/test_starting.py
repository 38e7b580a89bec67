"""`pieceproof new`: what it writes checks clean, and nothing that is there is touched."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
import yaml

from pieceproof.cli import main
from pieceproof.folders import read_folders
from pieceproof.model import Measure
from pieceproof.pages.site import NOTHING, publish_site
from pieceproof.shelf import compile_folders


def run(root: Path, *words: str) -> int:
    return main(["--patterns", str(root), *words])


def everything(root: Path) -> dict[str, bytes]:
    files = (path for path in root.rglob("*") if path.is_file())
    return {path.relative_to(root).as_posix(): path.read_bytes() for path in files}


@pytest.mark.parametrize("measure", list(Measure))
def test_a_new_pattern_checks_clean(tmp_path: Path, measure: Measure) -> None:
    assert run(tmp_path, "new", "low-tide", "--measure", measure.value) == 0
    assert run(tmp_path, "check") == 0
    assert run(tmp_path, "facts") == 0


def test_a_new_pattern_has_a_page(tmp_path: Path) -> None:
    """As the site builds it: the page, its pictures, a card in the catalogue."""
    run(tmp_path, "new", "low-tide")
    folders, problems = read_folders(tmp_path)
    site = publish_site(compile_folders(folders, {}), NOTHING, "index.html", {})
    assert not problems
    page = site.pages["patterns/low-tide/index.md"]
    assert any("<h1>Low Tide</h1>" in fragment for fragment in page.fragments)
    assert not any('role="alert"' in fragment for fragment in page.fragments)
    assert "low-tide/index.html" in "".join(site.pages["patterns/index.md"].fragments)


def test_its_first_line_leads_an_editor_to_the_schema(tmp_path: Path) -> None:
    """The first line is the one that the YAML language server (MIT) reads."""
    run(tmp_path, "new", "low-tide")
    file = tmp_path / "low-tide" / "pattern.yaml"
    mark, _, address = file.read_text().splitlines()[0].partition("$schema=")
    assert mark == "# yaml-language-server: "
    schema = json.loads((file.parent / address).read_text())
    jsonschema.Draft202012Validator(schema).validate(yaml.safe_load(file.read_text()))


def test_it_never_overwrites(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "low-tide").mkdir()
    (tmp_path / "low-tide" / "notes.md").write_text("mine")
    (tmp_path / "high-tide").symlink_to(tmp_path / "nowhere")
    for slug in ("low-tide", "high-tide"):
        assert run(tmp_path, "new", slug) == 2
        assert "is there already; nothing was changed" in capsys.readouterr().err
    assert everything(tmp_path) == {"low-tide/notes.md": b"mine"}


@pytest.mark.parametrize(
    "slug", ["../low", "/low", "low/tide", ".", "..", "", "Low", "low tide", "a\\b", "-a", "a" * 61]
)
def test_it_stays_in_the_folder_of_patterns(
    tmp_path: Path, slug: str, capsys: pytest.CaptureFixture[str]
) -> None:
    root = tmp_path / "patterns"
    root.mkdir()
    assert run(root, "new", "--", slug) == 1
    assert "folder-name" in capsys.readouterr().err
    assert everything(tmp_path) == {}


def test_without_a_folder_of_patterns_it_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path / "nowhere", "new", "low-tide") == 2
    assert "there is no folder" in capsys.readouterr().err
