"""Problems in SARIF 2.1.0, the OASIS standard by which forges show findings at their lines.

In: problems, remarks and where the patterns folder stands. Out: data for JSON. The standard's
sections are named at what they ask for.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePosixPath
from typing import Any
from urllib.parse import quote

from pieceproof.explained import EXPLAINED
from pieceproof.problems import Problem

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)


def sarif(
    problems: Sequence[Problem], remarks: Sequence[Problem], patterns: PurePosixPath
) -> dict[str, Any]:
    """One run with a result for each problem, then for each remark, which stops nothing (3.14).

    ``patterns`` is the path of the patterns folder from the top of the repository.
    """
    codes = sorted({found.code for found in (*problems, *remarks)})
    driver = {"name": "pieceproof", "rules": [_rule(code) for code in codes]}
    said = [("error", problem) for problem in problems] + [("note", note) for note in remarks]
    return {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": driver},
                "columnKind": "unicodeCodePoints",  # 3.14.17: columns count characters
                "results": [_result(level, found, codes, patterns) for level, found in said],
            }
        ],
    }


def _rule(code: str) -> dict[str, Any]:
    """What a forge shows of a code for help (3.49.10)."""
    explained = EXPLAINED.get(code)
    words = {"fullDescription": {"text": explained.means}} if explained else {}
    return {"id": code, **words}


def _result(
    level: str, problem: Problem, codes: list[str], patterns: PurePosixPath
) -> dict[str, Any]:
    """One finding (3.27)."""
    return {
        "ruleId": problem.code,
        "ruleIndex": codes.index(problem.code),
        "level": level,
        "message": {"text": _sentence(problem)},
        "locations": [{"physicalLocation": _location(problem, patterns)}],
    }


def _location(problem: Problem, patterns: PurePosixPath) -> dict[str, Any]:
    """A file by its address below the top (3.4) and a place in it, from 1 (3.30)."""
    place = problem.place
    below = PurePosixPath(*PurePosixPath(place.file).parts[1:])
    return {
        "artifactLocation": {"uri": quote((patterns / below).as_posix()), "uriBaseId": "%SRCROOT%"},
        "region": {"startLine": place.line, "startColumn": place.column},
    }


def _sentence(problem: Problem) -> str:
    return (
        f"Found {problem.found}. Expected: {problem.expected}. "
        f"{problem.remedy[:1].upper()}{problem.remedy[1:]}."
    )
