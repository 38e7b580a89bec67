"""Any bytes at all, and patterns with something changed: problems, never an exception, in time."""

import time
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from pieceproof.checks import check_designs
from pieceproof.methods import METHODS
from pieceproof.problems import Problem, show_problem
from pieceproof.reading import read_pattern
from pieceproof.schema import pattern_schema
from pieceproof.source import MAX_BYTES

ROOT = Path(__file__).parents[2]
FILE = "patterns/heron-landing/pattern.yaml"
DEMOS = [path.read_bytes() for path in sorted(ROOT.glob("patterns/*/pattern.yaml"))]
LONGEST_SECONDS = 1.0
SCHEMA = Draft202012Validator(pattern_schema(METHODS))

SCRAPS = st.sampled_from(
    [
        *(b"\t", b"\x00", b"\xff", b"\xc3", b"\r", b"\xe2\x80\xa8", b"\xef\xbb\xbf", b"\n---\n"),
        *(b"[", b"]", b"{", b"}", b":", b": ", b"- ", b"#", b" #", b"'", b'"', b"|", b">", b"?"),
        *(b"&a ", b"*a", b"!!int ", b"<<: ", b"\\U00110000", b'"\\ud800"', b'"\\0"', b"%YAML 9\n"),
        *(
            b"0",
            b"-1",
            b"1/0",
            b"9" * 5000,
            "½".encode(),
            "٣".encode(),
            b"none",
            b"x",
            b" turned 5",
        ),
        *(b"method: grid", b"rows: [[star]]", b"star", b"sizes: {a: {label: A}}\n", b"\n  "),
    ]
)

CHANGES = st.lists(
    st.tuples(st.floats(0, 1), st.integers(0, 12), st.one_of(SCRAPS, st.binary(max_size=6))),
    max_size=6,
)


def all_problems(data: bytes) -> tuple[Problem, ...]:
    start = time.process_time()
    designs, problems, lines = read_pattern(FILE, data, METHODS)
    problems += check_designs(designs, problems)
    assert time.process_time() - start < LONGEST_SECONDS
    for problem in problems:
        line = problem.place.line
        assert problem.place.file == FILE
        assert 1 <= line <= max(len(lines), 1) + 1
        show_problem(problem, lines[line - 1] if line <= len(lines) else "").encode("utf-8")
    return problems


@given(st.binary(max_size=400))
@settings(max_examples=150, deadline=None)
def test_any_bytes(data: bytes) -> None:
    assert all_problems(data)


@given(st.text(max_size=400))
@settings(max_examples=150, deadline=None)
def test_any_text(text: str) -> None:
    assert all_problems(text.encode("utf-8", errors="surrogatepass"))


@given(st.sampled_from(DEMOS), CHANGES)
@settings(max_examples=400, deadline=None)
def test_changed_patterns(demo: bytes, changes: list[tuple[float, int, bytes]]) -> None:
    """Nothing raises, and what reading accepts the schema accepts too."""
    for where, length, scrap in changes:
        start = int(where * len(demo))
        demo = demo[:start] + scrap + demo[start + length :]
    if not all_problems(demo):
        tree = yaml.load(demo, Loader=yaml.BaseLoader)
        assert [error.message for error in SCHEMA.iter_errors(tree)] == []


@given(st.sampled_from(DEMOS), st.data())
@settings(max_examples=150, deadline=None)
def test_lines_left_out_or_swapped(demo: bytes, data: st.DataObject) -> None:
    lines = demo.split(b"\n")
    order = data.draw(st.permutations(range(len(lines))).map(lambda p: p[: len(p) // 8]))
    kept = [line for number, line in enumerate(lines) if number not in order[:3]]
    for here in order[3:]:
        kept[here % len(kept)], kept[0] = kept[0], kept[here % len(kept)]
    all_problems(b"\n".join(kept))


@pytest.mark.parametrize(
    "piece",
    [
        *(
            b"[",
            b"{",
            b"a: ",
            b"- ",
            b"? ",
            b"a:\n",
            b"k: {a: b}\n",
            b"'",
            b'"\n',
            b"\t\n",
            b"\xff",
        ),
        *(b"&a ", b"!a ", b"#", b"%a\n", b"|\n", b"a, ", b"\x00", b"\\U", b"]", b"a: [\n", b"*a "),
    ],
)
def test_the_largest_file_of_one_piece(piece: bytes) -> None:
    all_problems((piece * MAX_BYTES)[:MAX_BYTES])


def test_many_misspelt_names_in_many_sizes() -> None:
    sizes = b"".join(b"  s%d: {label: S%d, setting: {across: %d}}\n" % (i, i, i) for i in range(12))
    units = b"".join(b"  u%d: {methid: grid, rows: [[x%d, y%d]]}\n" % (i, i, i) for i in range(90))
    head = DEMOS[1].split(b"units:")[0]
    cells = b"[" + b", ".join(b"c%d" % i for i in range(4000)) + b"]"
    data = head + b"units:\n" + units + b"setting:\n  rows: [" + cells + b"]\nsizes:\n" + sizes
    assert len(all_problems(data)) > 100


def test_grids_that_double_many_times_are_refused_at_once() -> None:
    blocks = b"".join(b"  b%d: {rows: [[b%d, b%d]]}\n" % (i + 1, i, i) for i in range(90))
    data = DEMOS[1] + b"\n"
    data = data.replace(b"blocks:\n", b"blocks:\n  b0: {rows: [[point]]}\n" + blocks)
    assert "too-many-patches" in {problem.code for problem in all_problems(data)}
