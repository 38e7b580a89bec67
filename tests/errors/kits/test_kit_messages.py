"""Every problem that a shop's ``kits.yaml`` can have: a bad file beside the exact message."""

from functools import cache
from pathlib import Path

import pytest
from small_shop import PLAIN

from pieceproof.compile import Pattern, compile_pattern
from pieceproof.kits.orders import run_problems
from pieceproof.kits.stock import read_book
from pieceproof.problems import Problem, show_problem

HERE = Path(__file__).parent
FILE = "patterns/kits.yaml"
CASES = sorted(path.stem for path in HERE.glob("*.yaml"))


@cache
def pattern() -> Pattern:
    compiled = compile_pattern("eddy-runner", {"pattern.yaml": PLAIN.encode()})
    assert not compiled.problems
    return compiled


def problems_of(case: str) -> tuple[tuple[Problem, ...], tuple[str, ...]]:
    book, problems, lines = read_book(FILE, (HERE / f"{case}.yaml").read_bytes())
    return problems or tuple(run_problems(book, {"eddy-runner": pattern()})), lines


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    problems, lines = problems_of(case)
    shown = [show_problem(problem, lines[problem.place.line - 1]) for problem in problems]
    assert "\n\n".join(shown) + "\n" == (HERE / f"{case}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", [case for case in CASES if case != "several-at-once"])
def test_a_case_shows_its_code_only(case: str) -> None:
    assert {p.code for p in problems_of(case)[0]} == {case.split(".", maxsplit=1)[0]}


def test_the_shop_of_the_repository_has_no_problem() -> None:
    data = (HERE.parents[2] / "patterns" / "kits.yaml").read_bytes()
    assert read_book(FILE, data)[1] == ()
