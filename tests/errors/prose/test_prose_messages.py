"""Every problem that a pattern's prose can have: a bad file beside the exact message.

Cases are pairs of files, ``<code>.md`` and ``<code>.txt``; a second case of a code has a word after
a dot. Bad files that cannot be stored as a short text are built here.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from quicktions import Fraction

import pieceproof
from pieceproof.facts import Fact
from pieceproof.problems import Problem, show_problem
from pieceproof.prose import SizeFacts, size_facts, write_prose
from pieceproof.published import Make, MakeKind, Publication

HERE = Path(__file__).parent
FILE = "patterns/low-water/prose.md"
MODULES = (
    *("prose", "prose_markup", "prose_source", "prose_numbers", "prose_parts"),
    "house_terms",
)
NAMES = ("Morning Mist", "Fog")
BUILT = {
    "prose-too-large": b"Water.\n" * 10_000,
    "prose-not-utf-8": b"At low\nwater the caf\xe9 is closed.\n",
    "prose-control-character": "At low\nwater\u202e the caf\u00e9.\n".encode(),
}
STORED = sorted(path.stem for path in HERE.glob("*.md"))
CASES = sorted([*STORED, *BUILT])


def sizes() -> tuple[SizeFacts, ...]:
    """Two sizes of a small pattern; only the long one has rows."""
    side = Fraction(4)
    kinds = {"point": MakeKind.UNIT, "star": MakeKind.BLOCK, "quilt centre": MakeKind.CENTRE}
    makes = [Make(n, kind, "", 1, 1, 1, side, side, ()) for n, kind in kinds.items()]
    facts = [
        Fact("seam allowance", "1/4", "1/4", '1/4"'),
        Fact("finished size, width", "37", "37", '37"'),
        Fact("finished size, height", "16 1/2", "16 1/2", '16 1/2"'),
        Fact("piece A, background, cut", "3 x 4 1/2", "3 x 4 1/2", '3" x 4 1/2"'),
        Fact("piece A, background, count", "12", "12", "12"),
        Fact("piece C, star points, count", "24", "24", "24"),
        Fact("unit point, make", "20", "20", "20"),
        Fact("unit point, unfinished, height", "3", "3", '3"'),
        Fact("background, usable width 42, yards", "17/72", "1/4", "1/4 yard"),
        Fact("background, usable width 42, spare A, from strip ends", "2", "2", "2"),
        Fact("background, usable width 42, spare B, from strip ends", "4", "4", "4"),
        Fact("background, usable width 40, yards", "17/72", "1/4", "1/4 yard"),
    ]
    rows = Fact("quilt centre, unfinished, width", "32", "32", '32"')
    publications = [publication("short", makes[:2]), publication("long", makes)]
    return tuple(
        size_facts(p, f, NAMES) for p, f in zip(publications, (facts, [*facts, rows]), strict=True)
    )


def publication(size: str, makes: list[Make]) -> Publication:
    side = Fraction(1, 4)
    return Publication(
        "low-water", size, "inch", Fraction(1, 8), side, side, side, (), tuple(makes),
        None, None, None,
    )  # fmt: skip


def problems_of(case: str) -> tuple[tuple[Problem, ...], tuple[str, ...]]:
    data = BUILT.get(case) or (HERE / f"{case}.md").read_bytes()
    _, problems, lines = write_prose(FILE, data, sizes(), ("pattern.yaml", "heron.jpg"))
    return problems, lines


def messages(case: str) -> str:
    problems, lines = problems_of(case)
    shown = [
        show_problem(p, lines[p.place.line - 1] if p.place.line <= len(lines) else "")
        for p in problems
    ]
    return "\n\n".join(shown) + "\n"


def emitted_codes() -> Iterator[str]:
    for module in MODULES:
        path = Path(pieceproof.__file__).with_name(f"{module}.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Problem":
                assert isinstance(node.args[1], ast.Constant)
                yield node.args[1].value


@pytest.mark.parametrize("case", CASES)
def test_message_is_exactly_as_stored(case: str) -> None:
    assert messages(case) == (HERE / f"{case}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", [case for case in CASES if case != "several-at-once"])
def test_a_case_shows_its_code_only(case: str) -> None:
    assert {p.code for p in problems_of(case)[0]} == {case.split(".", maxsplit=1)[0]}


def test_every_code_has_a_case() -> None:
    assert set(emitted_codes()) == {case.split(".")[0] for case in CASES} - {"several-at-once"}


def test_every_expected_message_has_its_file() -> None:
    assert sorted(path.stem for path in HERE.glob("*.txt")) == CASES
