"""Every problem of sizes and methods: a bad file beside its exact message."""

from pathlib import Path

import pytest

from pieceproof.compile import compile_pattern
from pieceproof.problems import show_problem

HERE = Path(__file__).parent
CASES = sorted(path.stem for path in HERE.glob("*.yaml"))


def messages(case: str) -> str:
    data = (HERE / f"{case}.yaml").read_bytes()
    pattern = compile_pattern("low-water", {"pattern.yaml": data})
    (lines,) = pattern.lines.values()
    shown = [show_problem(p, lines[p.place.line - 1]) for p in pattern.problems]
    return "\n\n".join(shown) + "\n"


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    assert messages(case) == (HERE / f"{case}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", CASES)
def test_a_case_shows_its_code_only(case: str) -> None:
    data = (HERE / f"{case}.yaml").read_bytes()
    problems = compile_pattern("low-water", {"pattern.yaml": data}).problems
    assert {problem.code for problem in problems} == {case.split(".", maxsplit=1)[0]}
