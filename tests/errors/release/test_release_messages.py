"""Every problem of editions, errata, expectations and trials: a bad file beside its exact message.

What was released is made here: the same pattern with the binding of `KEPT`, as edition 1.0, or as
1.2 where a case is about going back.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest

import pieceproof
from pieceproof.compile import compile_pattern
from pieceproof.problems import Problem, show_problem
from pieceproof.review.kept import EDITION_FILE, files_to_keep
from pieceproof.review.releases import release_problems

HERE = Path(__file__).parent
CASES = sorted(path.stem for path in HERE.glob("*.yaml") if path.stem != "kept")
MODULES = ("editions", "promises", "review/releases")
KEPT = HERE / "kept.yaml"


@cache
def kept() -> Mapping[str, bytes]:
    files = {"pattern.yaml": KEPT.read_bytes()}
    return files_to_keep(compile_pattern("low-water", files), files)


def problems_of(case: str) -> tuple[tuple[Problem, ...], tuple[str, ...]]:
    files = {"pattern.yaml": (HERE / f"{case}.yaml").read_bytes(), **kept()}
    if case == "release-back":
        files[EDITION_FILE] = b"1.2\n"
    pattern = compile_pattern("low-water", files)
    (lines,) = pattern.lines.values()
    return pattern.problems or release_problems(pattern, files), lines


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    problems, lines = problems_of(case)
    shown = "\n\n".join(show_problem(p, lines[p.place.line - 1]) for p in problems) + "\n"
    assert shown == (HERE / f"{case}.txt").read_text("utf-8")


@pytest.mark.parametrize("case", CASES)
def test_a_case_shows_its_code_only(case: str) -> None:
    assert {p.code for p in problems_of(case)[0]} == {case.split(".", maxsplit=1)[0]}


def emitted_codes() -> Iterator[str]:
    for module in MODULES:
        path = Path(pieceproof.__file__).parent / f"{module}.py"
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Problem":
                code = node.args[1]
                assert isinstance(code, ast.Constant), f"{module}:{node.lineno}"
                yield code.value


def test_every_code_has_a_case() -> None:
    assert set(emitted_codes()) == {case.split(".")[0] for case in CASES}


def test_what_was_released_has_no_problem() -> None:
    files = {"pattern.yaml": KEPT.read_bytes(), **kept()}
    pattern = compile_pattern("low-water", files)
    assert pattern.problems + release_problems(pattern, files) == ()
