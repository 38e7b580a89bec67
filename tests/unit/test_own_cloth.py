"""Cloth that is there: what is cut from it, what is still to buy, and lists that cannot be read."""

import json
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_shop import PLAIN

from pieceproof.cli import main
from pieceproof.compile import Sized, compile_pattern
from pieceproof.cutting.planner import plan
from pieceproof.own_cloth import (
    OwnCloths,
    own_cloth_data,
    own_cloth_text,
    own_plan,
    read_own_cloths,
    unknown_parts,
)
from pieceproof.requirements import requirements, usable_widths

LIST = b"""\
measure: inch
cloths:
  - {name: fat quarters of mist, plays: [ground], width: 20, length: 18, count: 2}
  - {name: remnant, plays: [ground, wing], width: 15 1/2, length: 11}
"""


def test_the_list_is_read() -> None:
    own, problems, _ = read_own_cloths("stash.yaml", LIST)
    assert problems == ()
    assert [(cloth.count, cloth.plays) for cloth in own.cloths] == [
        (2, ("ground",)),
        (1, ("ground", "wing")),
    ]


@given(st.binary(max_size=200))
@settings(max_examples=30, deadline=None)
def test_any_bytes(data: bytes) -> None:
    read_own_cloths("stash.yaml", data)


@pytest.fixture(scope="module")
def sized() -> Sized:
    """The smaller size of the small shop's runner: two stars."""
    return compile_pattern("eddy-runner", {"pattern.yaml": PLAIN.encode()}).sizes[0]


def test_what_is_cut_and_what_is_still_to_buy(sized: Sized) -> None:
    """The eight star points of two stars fit on the fat quarters with their corner squares."""
    own, _, _ = read_own_cloths("stash.yaml", LIST)
    found = own_plan(own, sized)
    text = own_cloth_text(found, sized)
    assert found.faults == ()
    assert "fat quarters of mist" in text
    assert "1 of 2 used" in text
    assert "  background: nothing" in text
    assert "  star points: nothing" in text
    assert "  backing: " in text


def test_what_is_still_to_buy_is_planned_with_the_patterns_effort(sized: Sized) -> None:
    """Without any cloth all is to buy as it was planned: then nothing is planned anew."""
    design = replace(sized.design, planning_effort=3)
    found, _ = requirements(design, sized.publication, usable_widths(design))
    before = plan.cache_info().misses
    own_plan(OwnCloths(), replace(sized, design=design, requirements=found))
    assert plan.cache_info().misses == before
    own_plan(OwnCloths(), replace(sized, design=replace(design, planning_effort=5)))
    assert plan.cache_info().misses > before


def test_what_one_cloth_plays_is_bought_together(sized: Sized) -> None:
    """Every piece is bought once, whichever way; cloths of a colourway are fewer than parts."""
    own, _, _ = read_own_cloths("stash.yaml", LIST)
    colourways = sized.design.colourways
    by_part, by_cloth = own_plan(own, sized), own_plan(own, sized, next(iter(colourways)))
    cloths = set(next(iter(colourways.values())).parts.values())
    assert by_cloth.faults == ()
    assert len(by_cloth.bought) == len(cloths) < len(by_part.bought)
    for plans in (by_part, by_cloth):
        assert sorted(part for one in plans.bought for part in one.parts) == sorted(
            part for one in by_part.bought for part in one.parts
        )
    counted = [
        sum((Counter(one.pieces) for one in plans.bought), Counter())
        for plans in (by_part, by_cloth)
    ]
    assert counted[0] == counted[1]


def test_data_for_other_programs(sized: Sized) -> None:
    own, _, _ = read_own_cloths("stash.yaml", LIST)
    found = own_plan(own, sized)
    data = json.loads(json.dumps(own_cloth_data(found, sized)))
    (quarters, _) = data["from the list"]
    assert (quarters["pieces there"], quarters["pieces used"]) == (2, 1)
    cut = Counter[str]()
    for one in quarters["cuts"]:
        for strip in one["strips"]:
            for letter, count in strip["each"].items():
                cut[letter] += len(one["numbers"]) * strip["strips"] * count
    asked = {w.letter: w.count for w in found.used[0].demand.wants}
    assert cut == Counter({letter: n for letter, n in asked.items() if cut[letter]})
    assert {one["cloth"]: one["length"] for one in data["still to buy"]}["background"] == "0"


@pytest.mark.parametrize(
    ("changed", "code", "line"),
    [
        ((b"[ground]", b"[grund]"), "undeclared", 3),
        ((b"width: 20", b"width: -20"), "bad-length", 3),
        ((b"width: 20", b"width: 0"), "bad-length", 3),
        ((b"count: 2", b"count: 10000000"), "bad-count", 3),
        ((b"plays: [ground], ", b""), "missing-key", 3),
        ((b"measure: inch", b"measure: mile"), "unknown-value", 1),
    ],
)
def test_a_wrong_list(sized: Sized, changed: tuple[bytes, bytes], code: str, line: int) -> None:
    own, problems, _ = read_own_cloths("stash.yaml", LIST.replace(*changed))
    problems = problems or tuple(unknown_parts(own, sized))
    assert [(problem.code, problem.place.line) for problem in problems] == [(code, line)]


def test_centimetres_are_converted(sized: Sized) -> None:
    """A sheet of 7.62 cm is exactly 3 in: the 3 in squares fit, and not one step more."""
    words = "measure: centimetre\ncloths:\n  - {name: band, plays: [ground], width: 50.8, "
    own, problems, _ = read_own_cloths(
        "stash.yaml", f"{words}length: 7.62, squaring: 0}}\n".encode()
    )
    assert problems == ()
    assert "1 of 1 used" in own_cloth_text(own_plan(own, sized), sized)


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "patterns" / "eddy-runner").mkdir(parents=True)
    (tmp_path / "patterns" / "eddy-runner" / "pattern.yaml").write_text(PLAIN, "utf-8")
    (tmp_path / "stash.yaml").write_bytes(LIST)
    words = ["--patterns", str(tmp_path / "patterns"), "stash", "eddy-runner"]
    assert main([*words, str(tmp_path / "stash.yaml")]) == 0
    assert "Still to buy:" in capsys.readouterr().out
    assert main([*words, str(tmp_path / "nothing.yaml")]) == 2
