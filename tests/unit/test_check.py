"""The one command that checks everything: what it says, what a forge gets, how it exits."""

from __future__ import annotations

import io
import json
import subprocess
from pathlib import Path, PurePosixPath
from typing import Any

import jsonschema
import pytest
from small_shop import PLAIN, PROSE

from pieceproof.cli import main
from pieceproof.problems import Place, Problem
from pieceproof.review.sarif import SCHEMA, sarif

SLUG = "eddy-runner"

# What SARIF 2.1.0 (OASIS, errata 01) demands of a log, section by section; written from the text
# of the standard, not copied from its schema.
LOG: dict[str, Any] = {
    "type": "object",
    "required": ["version", "runs"],  # 3.13.2, 3.13.4
    "properties": {
        "$schema": {"const": SCHEMA},
        "version": {"const": "2.1.0"},
        "runs": {"type": "array", "items": {"$ref": "#/$defs/run"}},
    },
    "additionalProperties": False,
    "$defs": {
        "run": {  # 3.14
            "required": ["tool"],
            "properties": {
                "tool": {
                    "required": ["driver"],
                    "properties": {"driver": {"$ref": "#/$defs/driver"}},
                },
                "columnKind": {"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
                "results": {"type": "array", "items": {"$ref": "#/$defs/result"}},
            },
            "additionalProperties": False,
        },
        "driver": {  # 3.19
            "required": ["name"],
            "properties": {
                "name": {"type": "string"},
                "rules": {
                    "uniqueItems": True,
                    "items": {
                        "required": ["id"],  # 3.49.3
                        "properties": {"fullDescription": {"required": ["text"]}},  # 3.12
                    },
                },
            },
            "additionalProperties": False,
        },
        "result": {  # 3.27
            "required": ["message"],
            "properties": {
                "ruleId": {"type": "string"},
                "ruleIndex": {"type": "integer", "minimum": 0},
                "level": {"enum": ["none", "note", "warning", "error"]},
                "message": {"required": ["text"]},  # 3.11.8
                "locations": {"type": "array", "items": {"$ref": "#/$defs/location"}},
            },
            "additionalProperties": False,
        },
        "location": {  # 3.28, 3.29, 3.4, 3.30
            "properties": {
                "physicalLocation": {
                    "required": ["artifactLocation"],
                    "properties": {
                        "artifactLocation": {"properties": {"uri": {"format": "uri-reference"}}},
                        "region": {
                            "properties": {
                                "startLine": {"type": "integer", "minimum": 1},
                                "startColumn": {"type": "integer", "minimum": 1},
                            }
                        },
                    },
                }
            }
        },
    },
}


@pytest.fixture
def patterns(tmp_path: Path) -> Path:
    folder = tmp_path / "my shop" / "patterns" / SLUG
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(PLAIN)
    (folder / "prose.md").write_text(PROSE)
    assert run(folder.parent, "facts") == 0
    return folder.parent


def run(patterns: Path, *words: str) -> int:
    return main(["--patterns", str(patterns), *words])


def test_what_is_right_is_said_with_figures(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert run(patterns, "check") == 0
    said = capsys.readouterr().out
    assert said.startswith(f"{SLUG}: proved in 2 sizes: ")
    assert said.endswith(", prose, draft\n")
    assert ", 0 templates, " in said
    assert ", 2 colourways in grey, " in said
    assert said.count("\n") == 1


def test_a_forge_gets_every_problem_at_its_line(
    patterns: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    subprocess.run(["git", "-C", str(tmp_path), "init", "-q"], check=True)
    (patterns / SLUG / "prose.md").write_text('é Sew it.\n\né Cut it 7" wide, the red strips.\n')
    log = tmp_path / "log.sarif"
    assert run(patterns, "check", "--sarif", str(log)) == 1
    assert "prose.md:3:10: prose-number" in capsys.readouterr().err
    data = json.loads(log.read_text("utf-8"))
    jsonschema.Draft202012Validator(LOG).validate(data)
    (result, other) = data["runs"][0]["results"]
    assert (result["ruleId"], other["ruleId"]) == ("prose-number", "prose-colour")
    place = result["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == f"my%20shop/patterns/{SLUG}/prose.md"
    assert place["region"] == {"startLine": 3, "startColumn": 10}
    rules = data["runs"][0]["tool"]["driver"]["rules"]
    assert rules[result["ruleIndex"]]["id"] == "prose-number"
    assert "no number of the pattern" in rules[result["ruleIndex"]]["fullDescription"]["text"]
    assert {result["level"], other["level"]} == {"error"}


def test_a_forge_gets_remarks_too_which_stop_nothing(patterns: Path, tmp_path: Path) -> None:
    pale = PLAIN.replace('"#3b5166"', '"#e0deda"')
    (patterns / SLUG / "pattern.yaml").write_text(pale)
    log = tmp_path / "log.sarif"
    assert run(patterns, "facts") == 0
    assert run(patterns, "check", "--sarif", str(log)) == 0
    data = json.loads(log.read_text("utf-8"))
    jsonschema.Draft202012Validator(LOG).validate(data)
    found = {(result["ruleId"], result["level"]) for result in data["runs"][0]["results"]}
    assert found == {("values-merge", "note"), ("value-contrary", "note")}


def test_a_summary_that_contradicts_a_size_is_remarked_upon(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The runner is 22 or 31 inches long, and 13 wide in both sizes."""
    for said, is_true in (("13 inches", True), ("31 inches", False), ("60 inches", False)):
        text = PLAIN.replace("small enough", f"{said} one way, small enough")
        (patterns / SLUG / "pattern.yaml").write_text(text)
        assert run(patterns, "check") == 0
        heard = capsys.readouterr().err
        assert ("pattern.yaml:3:10: prose-number" in heard) is not is_true
        assert (f"found:    `{said}`, which is no number of" in heard) is not is_true


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_long_work_is_told_on_a_terminal_only(
    patterns: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (patterns / "second").mkdir()
    (patterns / "second" / "pattern.yaml").write_text("name: 1\n")
    capsys.readouterr()
    assert run(patterns, "check") == 1
    assert "\r" not in capsys.readouterr().err
    monkeypatch.setattr("sys.stderr", terminal := Terminal())
    assert run(patterns, "check") == 1
    first, *_ = terminal.getvalue().split("\r\x1b[K")[1:]
    assert first == f"proving [{'#' * 12}{'.' * 12}] 1 of 2, {SLUG}"


def test_stale_facts_are_problems_with_their_difference(
    patterns: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (patterns / SLUG / "pattern.yaml").write_text(PLAIN.replace("width: 2,", "width: 3,"))
    log = tmp_path / "log.sarif"
    assert run(patterns, "check", "--sarif", str(log)) == 1
    said = capsys.readouterr().err
    assert "facts-stale" in said
    assert "\n+finished size, width = 24\n" in said
    codes = {r["ruleId"] for r in json.loads(log.read_text())["runs"][0]["results"]}
    assert codes == {"facts-stale"}


def test_only_what_changed(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    git = ["git", "-C", str(patterns), "-c", "user.name=R", "-c", "user.email=r@shop.example"]
    for words in (["init", "-q"], ["add", "."], ["commit", "-qm", "One"]):
        subprocess.run([*git, *words], check=True)
    capsys.readouterr()
    assert run(patterns, "check", "--changed-since", "HEAD") == 0
    assert capsys.readouterr().out == "no pattern changed\n"
    (patterns / SLUG / "prose.md").write_text("Well.\n")
    assert run(patterns, "check", "--changed-since", "HEAD") == 0
    assert capsys.readouterr().out.startswith(f"{SLUG}: proved")
    assert run(patterns, "check", "--changed-since", "nowhere") == 2


def test_no_problem_is_a_log_too() -> None:
    data = sarif((), (), PurePosixPath("patterns"))
    jsonschema.Draft202012Validator(LOG).validate(data)
    assert data["runs"][0]["results"] == []


def test_a_sentence_of_three_parts() -> None:
    problem = Problem(Place("patterns/a/b.md", 1, 1), "code", "this", "that", "do it")
    (result,) = sarif([problem], [], PurePosixPath("x"))["runs"][0]["results"]
    assert result["message"]["text"] == "Found this. Expected: that. Do it."
