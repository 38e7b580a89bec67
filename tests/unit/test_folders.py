"""Folders are read without leaving them; files are written whole."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from pieceproof.folders import TEXT_BYTES, read_folders, replace_file


def test_texts_are_read_by_their_path_below_the_folder(tmp_path: Path) -> None:
    (tmp_path / "weir" / "facts").mkdir(parents=True)
    (tmp_path / "weir" / "pattern.yaml").write_bytes(b"name: Weir\n")
    (tmp_path / "weir" / "facts" / "small.txt").write_bytes(b"top\n")
    (tmp_path / "weir" / "notes.odt").write_bytes(b"PK")
    (tmp_path / "weir" / ".pattern.yaml.swp").write_bytes(b"?")
    folders, problems = read_folders(tmp_path)
    assert folders == {"weir": {"pattern.yaml": b"name: Weir\n", "facts/small.txt": b"top\n"}}
    assert problems == ()


@pytest.mark.parametrize("inside", ["prose.md", "more"])
def test_links_are_not_followed(tmp_path: Path, inside: str) -> None:
    secret = tmp_path / "secret"
    secret.mkdir()
    (secret / "prose.md").write_text("not yours")
    target = secret / "prose.md" if inside.endswith(".md") else secret
    (tmp_path / "patterns" / "weir").mkdir(parents=True)
    (tmp_path / "patterns" / "weir" / inside).symlink_to(target)
    folders, problems = read_folders(tmp_path / "patterns")
    assert folders == {"weir": {}}
    assert [(p.code, p.place.file) for p in problems] == [
        ("not-a-plain-file", f"patterns/weir/{inside}")
    ]


def test_a_folder_that_is_a_link_is_no_pattern(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "patterns").mkdir()
    (tmp_path / "patterns" / "weir").symlink_to(tmp_path / "elsewhere")
    folders, problems = read_folders(tmp_path / "patterns")
    assert folders == {}
    assert [problem.code for problem in problems] == ["not-a-plain-file"]


def test_pipes_are_not_opened(tmp_path: Path) -> None:
    (tmp_path / "weir").mkdir()
    os.mkfifo(tmp_path / "weir" / "prose.md")
    _, problems = read_folders(tmp_path)
    assert [problem.code for problem in problems] == ["not-a-plain-file"]


def test_large_files_are_refused(tmp_path: Path) -> None:
    (tmp_path / "weir").mkdir()
    (tmp_path / "weir" / "prose.md").write_bytes(b"x" * TEXT_BYTES)
    (tmp_path / "weir" / "more.md").write_bytes(b"x" * (TEXT_BYTES + 1))
    folders, problems = read_folders(tmp_path)
    assert list(folders["weir"]) == ["prose.md"]
    assert [(p.code, p.place.file.rpartition("/")[2]) for p in problems] == [
        ("file-too-large", "more.md")
    ]


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    path = tmp_path / "new" / "facts.txt"
    replace_file(path, b"first\n")
    replace_file(path, b"second\n")
    assert path.read_bytes() == b"second\n"
    assert [p.name for p in path.parent.iterdir()] == ["facts.txt"]


def test_a_failed_write_leaves_the_old_file(tmp_path: Path) -> None:
    path = tmp_path / "facts.txt"
    path.write_bytes(b"old\n")
    with pytest.raises(TypeError):
        replace_file(path, "not bytes")  # type: ignore[arg-type]
    assert path.read_bytes() == b"old\n"
    assert [p.name for p in tmp_path.iterdir()] == ["facts.txt"]
