"""The handbook's tutorial, done as it says; every command that is named anywhere is understood."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from pieceproof.cli import command_line, main

ROOT = Path(__file__).parents[2]
HANDBOOK = ROOT / "site_src" / "handbook"
BLOCK = re.compile(
    r"^(?:`([^`\n]+)`(, at the end)?:\n\n)?```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL
)


def test_the_tutorial_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "patterns").mkdir()
    monkeypatch.chdir(tmp_path)
    said = ""
    blocks = BLOCK.findall((HANDBOOK / "writing.md").read_text("utf-8"))
    for name, at_the_end, language, text in blocks:
        if language == "sh":
            for line in text.splitlines():
                assert line.startswith("pieceproof ")
                assert main(shlex.split(line)[1:]) == 0, capsys.readouterr().err
                said += capsys.readouterr().out
            continue
        before = (tmp_path / name).read_text("utf-8") if at_the_end else ""
        (tmp_path / name).write_text(before + text, "utf-8")
    assert "piece B, lights, One size: 2 1/2 x 2 1/2" in said
    assert "to square the end of the cloth" in said
    assert "lantern-row: edition 1.0 is kept" in said


SAID = re.compile(r"^(?:\S+=\S+ )?(?:\.venv/bin/)?pieceproof (.*?)(?: +#.*)?$", re.MULTILINE)
NAMED = re.compile(r"`(?:\.venv/bin/)?pieceproof ([^`]*)`")


@pytest.mark.parametrize(
    "page", [ROOT / "README.md", *sorted(HANDBOOK.glob("*.md"))], ids=lambda page: page.name
)
def test_every_command_is_understood(page: Path) -> None:
    """Whole lines of shell with all their words; those named in a sentence by their first."""
    text = page.read_text("utf-8")
    for block in re.findall(r"^```sh\n(.*?)^```$", text, re.MULTILINE | re.DOTALL):
        for words in SAID.findall(block):
            command_line().parse_args(shlex.split(words))
    for words in NAMED.findall(text):
        with pytest.raises(SystemExit) as left:
            command_line().parse_args([shlex.split(words)[0], "--help"])
        assert left.value.code == 0, words
