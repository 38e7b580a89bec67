"""The command line, run as a command: what it prints, what it leaves behind, how it exits."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import jsonschema
import pytest
import yaml
from small_shop import PLAIN

from pieceproof.cli import main
from pieceproof.fact_files import parse_facts
from pieceproof.lengths import parse_length


@pytest.fixture
def patterns(tmp_path: Path) -> Path:
    folder = tmp_path / "patterns" / "eddy-runner"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(PLAIN)
    return tmp_path / "patterns"


def run(patterns: Path, *words: str) -> int:
    return main(["--patterns", str(patterns), *words])


def broken(patterns: Path) -> None:
    file = patterns / "eddy-runner" / "pattern.yaml"
    file.write_text(PLAIN.replace("inch", "inhc").replace("1/4\n", "quarter\n", 1))


def names(patterns: Path) -> list[str]:
    return sorted(path.name for path in (patterns / "eddy-runner").iterdir())


@pytest.mark.parametrize(
    ("words", "status"), [(["cutlist", "eddy-runner"], 0), (["cutlist", "eddy-runer"], 2)]
)
def test_a_pipe_without_a_reader(patterns: Path, words: list[str], status: int) -> None:
    """As `head` leaves it; for what goes wrong as well, which `2>&1` sends the same way."""
    reader, writer = os.pipe()
    os.close(reader)
    command = [sys.executable, "-m", "pieceproof.cli", "--patterns", str(patterns), *words]
    streams = (writer, subprocess.PIPE) if status == 0 else (writer, writer)
    done = subprocess.run(
        command, stdout=streams[0], stderr=streams[1], text=True, timeout=60, check=False
    )
    os.close(writer)
    assert done.returncode == status
    assert not done.stderr


def test_it_runs_as_a_program_without_mkdocs(patterns: Path) -> None:
    """A finder that refuses MkDocs stands before all others."""
    code = (
        "import sys\n"
        "class Refuse:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name.split('.')[0] in ('mkdocs', 'material'):\n"
        "            raise ImportError(name)\n"
        "sys.meta_path.insert(0, Refuse())\n"
        "from pieceproof.cli import main\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "--patterns", str(patterns), "cutlist", "eddy-runner"],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith('Eddy Runner, Two stars, usable width 42"\n')


def test_facts_then_check(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(patterns, "check") == 1
    assert "facts-missing" in capsys.readouterr().err
    assert run(patterns, "facts") == 0
    assert names(patterns) == ["facts-large.txt", "facts-small.txt", "pattern.yaml"]
    assert capsys.readouterr().out.count("wrote ") == 2
    assert run(patterns, "facts") == 0
    assert capsys.readouterr().out == "all facts are as they were\n"
    assert run(patterns, "check", "eddy-runner") == 0
    assert capsys.readouterr().out.startswith("eddy-runner: proved in 2 sizes: ")


def test_facts_deletes_what_no_size_has(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    orphan = patterns / "eddy-runner" / "facts-huge.txt"
    orphan.write_text("tops = 1\n")
    other = patterns / "eddy-runner" / "notes.txt"
    other.write_text("mine\n")
    assert run(patterns, "check") == 1
    assert "facts-orphan" in capsys.readouterr().err
    assert run(patterns, "facts") == 0
    assert not orphan.exists()
    assert other.read_text() == "mine\n"


def test_a_stale_fact_is_shown_as_a_difference(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(patterns, "facts")
    file = patterns / "eddy-runner" / "pattern.yaml"
    file.write_text(PLAIN.replace("width: 2,", "width: 3,"))
    assert run(patterns, "check") == 1
    complaint = capsys.readouterr().err
    assert "facts-stale" in complaint
    assert "\n-finished size, width = 22\n" in complaint
    assert "\n+finished size, width = 24\n" in complaint


def test_problems_are_all_told_and_nothing_is_written(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken(patterns)
    for words in (["check"], ["facts"], ["draw", "eddy-runner", "top", "-o", "top.svg"]):
        assert run(patterns, *words) == 1
        shown = capsys.readouterr()
        assert shown.out == ""
        assert "patterns/eddy-runner/pattern.yaml:4:10: unknown-value" in shown.err
        assert "patterns/eddy-runner/pattern.yaml:5:7: bad-length" in shown.err
    assert names(patterns) == ["pattern.yaml"]
    assert not Path("top.svg").exists()


def test_a_folder_without_a_pattern(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (patterns / "eddy-runner" / "pattern.yaml").rename(patterns / "eddy-runner" / "patern.yaml")
    assert run(patterns, "check") == 1
    assert "rename `patern.yaml`" in capsys.readouterr().err


def test_links_in_other_patterns_do_not_stop_this_one(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (patterns / "weir").mkdir()
    (patterns / "weir" / "pattern.yaml").symlink_to(Path(__file__))
    assert run(patterns, "cutlist", "eddy-runner") == 0
    assert run(patterns, "check", "weir") == 1
    assert "patterns/weir/pattern.yaml:1:1: not-a-plain-file" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["check", "edy-runner"], "did you mean `eddy-runner`?"),
        (["cutlist", "eddy-runner", "--size", "smal"], "did you mean `small`?"),
        (["cutlist", "eddy-runner", "--width", "41"], "  42\n  40\n"),
        (["draw", "eddy-runner", "finished stars", "-o", "x.svg"], "  finished star\n"),
        (["draw", "eddy-runner", "top", "-o", "x.gif"], ".svg or .png"),
        (["draw", "eddy-runner", "top", "--colourway", "low", "-o", "x.svg"], "  low-water\n"),
    ],
)
def test_wrong_words_list_the_right_ones(
    patterns: Path, words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(patterns, *words) == 2
    shown = capsys.readouterr()
    assert said in shown.err
    assert shown.out == ""


@pytest.mark.parametrize("words", [[], ["sew"], ["draw", "eddy-runner"], ["cutlist"]])
def test_wrong_usage_exits_with_two(words: list[str]) -> None:
    with pytest.raises(SystemExit) as stop:
        main(words)
    assert stop.value.code == 2


def test_a_missing_patterns_folder_is_wrong_usage(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path / "nowhere", "check") == 2
    assert "--patterns" in capsys.readouterr().err


def test_a_place_that_cannot_be_written_is_wrong_usage(
    patterns: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("")
    target = str(tmp_path / "file" / "top.svg")
    assert run(patterns, "draw", "eddy-runner", "top", "-o", target) == 2
    assert "cannot write" in capsys.readouterr().err


def test_drawings(patterns: Path, tmp_path: Path) -> None:
    for which, kind, start in (
        ("top", "svg", b"<svg "),
        ("assembly top", "png", b"\x89PNG"),
        ("making point", "svg", b"<svg "),
        ("seams of star", "svg", b"<svg "),
    ):
        path = tmp_path / f"drawing.{kind}"
        words = ["draw", "eddy-runner", which, "--size", "large", "--colourway", "boathouse"]
        assert run(patterns, *words, "-o", str(path)) == 0
        assert path.read_bytes().startswith(start)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["drawing.png", "drawing.svg", "patterns"]


def test_the_cutting_list_agrees_with_the_facts(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(patterns, "facts")
    capsys.readouterr()
    assert run(patterns, "cutlist", "eddy-runner", "--size", "large", "--width", "40") == 0
    text = capsys.readouterr().out
    assert run(patterns, "cutlist", "eddy-runner", "--size", "large", "--json") == 0
    data = json.loads(capsys.readouterr().out)
    file = patterns / "eddy-runner" / "facts-large.txt"
    facts = {fact.key: fact for fact in parse_facts(file.read_text())}
    for piece in data["pieces"]:
        short, long = (Fraction(piece[side]) for side in ("short side", "long side"))
        (key,) = [k for k in facts if k.startswith(f"piece {piece['letter']},") and "cut" in k]
        sides = [parse_length(s) for s in facts[key].published.split(" x ")]
        assert sides == [short, long]
        assert facts[key.replace(", cut", ", count")].published == str(piece["count"])
        listed = re.findall(rf"^    {piece['letter']} \((\d+)\) ", text, re.MULTILINE)
        assert sum(map(int, listed)) == piece["count"]
    assert f"background: {facts['background, usable width 40, yards'].published} yd" in text


def test_the_schema_takes_the_pattern(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(schema).validate(yaml.safe_load(PLAIN))


def test_output_is_the_same_whatever_the_hash_seed(patterns: Path) -> None:
    outputs = {
        subprocess.run(
            [
                *(sys.executable, "-m", "pieceproof.cli", "--patterns", str(patterns)),
                *("cutlist", "eddy-runner", "--json"),
            ],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            timeout=60,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(outputs) == 1
