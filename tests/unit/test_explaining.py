"""Every code of the program is explained and none is left over; command and page say the same."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

import pieceproof
from pieceproof.cli import main
from pieceproof.explained import EXPLAINED, TOPICS
from pieceproof.explained.explanation import Topic
from pieceproof.folders import read_texts
from pieceproof.writing.explaining import reference_page

PACKAGE = Path(pieceproof.__file__).parent
POSITION = {"Problem": 1, "Complaint": 0}
PASSED_ON = {("records.py", "Problem")}
"""A call that passes on the parts of a complaint, whose code is written where it is made."""


def codes_in(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            position = POSITION.get(node.func.id)
            if position is None or (path.name, node.func.id) in PASSED_ON:
                continue
            code = node.args[position]
            yield code.value if isinstance(code, ast.Constant) else named(path, code)


def named(path: Path, code: ast.expr) -> str:
    """The text of a constant of the module."""
    assert isinstance(code, ast.Name), f"{path.name}:{code.lineno}"
    for node in ast.parse(path.read_text("utf-8")).body:
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == code.id:
            return str(ast.literal_eval(node.value))
    raise AssertionError(f"{path.name}:{code.lineno}: {code.id}")


def test_every_code_is_explained_and_none_is_left_over() -> None:
    codes = {code for path in PACKAGE.rglob("*.py") for code in codes_in(path)}
    assert codes - EXPLAINED.keys() == set()
    assert EXPLAINED.keys() - codes == set()


def test_no_code_is_explained_twice() -> None:
    told = Counter(code for topic in TOPICS for code in topic.codes)
    assert [code for code, times in told.items() if times > 1] == []


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.title)
def test_codes_are_in_order_and_sentences_are_whole(topic: Topic) -> None:
    assert list(topic.codes) == sorted(topic.codes)
    for code, explained in topic.codes.items():
        for sentence in (explained.means, explained.remedy):
            assert not sentence[0].islower(), code
            assert sentence.endswith("."), code


def test_the_command_prints_one_and_lists_all(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "off-the-ruler"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("off-the-ruler\n")
    assert "Remedy: Use one of the two finished sizes" in said
    assert main(["explain", "of-the-ruler"]) == 2
    assert "did you mean `off-the-ruler`?" in capsys.readouterr().err


def test_the_page_has_a_place_for_every_code() -> None:
    page = reference_page({})
    assert [code for code in EXPLAINED if f"{{#{code}}}" not in page] == []


def test_the_page_shows_the_stored_messages() -> None:
    """Those of `tests/errors`, which hold word for word; a few problems need more than a file."""
    messages = read_texts(Path(__file__).parents[1] / "errors")
    shown = reference_page(messages)
    assert len(messages.keys() & EXPLAINED.keys()) > 100
    for code in messages.keys() & EXPLAINED.keys():
        section = shown.partition(f"{{#{code}}}")[2].partition("\n### ")[0]
        told = [line.removeprefix("    ") for line in section.splitlines()]
        assert messages[code].splitlines()[0] in told, code
