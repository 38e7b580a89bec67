"""Every problem of a setting that needs sizes to be seen: a bad file beside the exact message.

Cases are pairs of files as in the folder above. Codes that other grids have too have a case here
for each way a setting can bring them about.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import pieceproof
from pieceproof.checks import check_designs
from pieceproof.construct import construct
from pieceproof.geometry import draw
from pieceproof.layout import lay_out
from pieceproof.methods import METHODS
from pieceproof.problems import Problem, show_problem
from pieceproof.reading import read_pattern

HERE = Path(__file__).parent
FILE = "patterns/low-water/pattern.yaml"
STAGES = ("layout", "rounds", "unequal_rows")
CASES = sorted(path.stem for path in HERE.glob("*.yaml"))


def problems_of(case: str) -> tuple[tuple[Problem, ...], tuple[str, ...]]:
    designs, problems, lines = read_pattern(FILE, (HERE / f"{case}.yaml").read_bytes(), METHODS)
    problems = (*problems, *check_designs(designs, problems))
    if not problems:
        layouts, problems = lay_out(designs[0])
        problems = problems or construct(designs[0], layouts, draw(designs[0], layouts))[1]
    return tuple(sorted(set(problems))), lines


def messages(case: str) -> str:
    problems, lines = problems_of(case)
    return "\n\n".join(show_problem(p, lines[p.place.line - 1]) for p in problems) + "\n"


def emitted_codes() -> Iterator[str]:
    for stage in STAGES:
        path = Path(pieceproof.__file__).with_name(f"{stage}.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Problem":
                code = node.args[1]
                assert isinstance(code, ast.Constant)
                yield code.value


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    assert messages(case) == (HERE / f"{case}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", CASES)
def test_a_case_shows_its_code_only(case: str) -> None:
    assert {p.code for p in problems_of(case)[0]} == {case.split(".", maxsplit=1)[0]}


def test_every_code_has_a_case() -> None:
    assert set(emitted_codes()) <= {case.split(".")[0] for case in CASES}


def test_every_expected_message_has_its_file() -> None:
    assert sorted(path.stem for path in HERE.glob("*.txt")) == CASES
