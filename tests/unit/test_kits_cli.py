"""`pieceproof kits`, run as a command: text, JSON and CSV of the same sheet, and wrong words."""

from __future__ import annotations

import csv
import io
import json
import re
from fractions import Fraction
from pathlib import Path

import pytest
from small_shop import PLAIN, STOCK

from pieceproof.cli import main


@pytest.fixture
def patterns(tmp_path: Path) -> Path:
    folder = tmp_path / "patterns" / "eddy-runner"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(PLAIN)
    (folder / "prose.md").write_text("{=Low Water} glitters.\n")
    (tmp_path / "patterns" / "kits.yaml").write_text(STOCK)
    return tmp_path / "patterns"


def run(patterns: Path, *words: str) -> int:
    return main(["--patterns", str(patterns), "kits", "eddy-runner", *words])


def test_the_sheet_as_text(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(patterns, "--size", "large", "--kits", "12") == 0
    text = capsys.readouterr().out
    assert text.startswith('Eddy Runner, Three stars, Low Water: 12 kits, usable width 42"\n')
    assert re.search(r"^Runs out first: \S.*, after \d+ kits$", text, re.MULTILINE)
    assert re.search(
        r"^  strip 1: .*; \d+ stacks? of \d layers?.*, \d+ passes$", text, re.MULTILINE
    )
    assert "  bolt 1, 3 yd: " in text
    assert "price of one kit: " in text


def test_json_holds_the_pattern_s_own_counts(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """N times what `cutlist` says, by its own words."""
    assert run(patterns, "--size", "large", "--kits", "30", "--json") == 0
    sheet = json.loads(capsys.readouterr().out)
    main(["--patterns", str(patterns), "cutlist", "eddy-runner", "--size", "large", "--json"])
    pieces = {p["letter"]: p for p in json.loads(capsys.readouterr().out)["pieces"]}
    cut: dict[str, int] = {}
    for cloth in sheet["cloths"]:
        for strip in cloth["strips"]:
            for segment in strip["cross-cuts"]:
                for piece in segment["pieces"]:
                    count = strip["count"] * segment["count"] * piece["count"]
                    cut[piece["key"]] = cut.get(piece["key"], 0) + count
    parcels = {p["key"]: p for cloth in sheet["cloths"] for p in cloth["in each bag"]}
    assert cut == {key: 30 * (p["count"] + p["spare"]) for key, p in parcels.items()}
    assert any(p["spare"] for p in parcels.values())
    for letter, piece in pieces.items():
        if parcels[letter]["kind"] == "piece":
            assert parcels[letter]["count"] == piece["count"]
            sides = {Fraction(parcels[letter][side]) for side in ("across", "along")}
            assert sides == {Fraction(piece["short side"]), Fraction(piece["long side"])}
    assert sheet["bags"] == list(range(1, 31))


def test_csv_is_rfc_4180(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Lines end in CR LF, every record has as many fields as the first (RFC 4180, section 2)."""
    for table in ("packing", "strips", "bolts", "piles", "bags", "cost"):
        assert run(patterns, "--kits", "7", "--csv", table) == 0
        text = capsys.readouterr().out
        assert text.endswith("\r\n")
        assert text.count("\n") == text.count("\r\n")
        rows = list(csv.reader(io.StringIO(text, newline="")))
        assert len(rows) > 1
        assert {len(row) for row in rows} == {len(rows[0])}
    assert run(patterns, "--kits", "7", "--csv") == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out, newline="")))
    for row in rows:
        assert int(row["batch"]) == 7 * (int(row["pieces"]) + int(row["spares"]))


def test_a_substitute_brings_its_change_sheet(
    patterns: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(patterns, "--kits", "5", "--instead", "Ferry Ochre=Lamp Gold") == 0
    text = capsys.readouterr().out
    assert "star centres: Ferry Ochre becomes Lamp Gold" in text
    assert re.search(r"^  price of one kit: (\S+) becomes (?!\1)\S+ fares$", text, re.M)
    assert "patterns/eddy-runner/prose.md:1 names Low Water: {=Low Water} glitters." in text
    assert run(patterns, "--kits", "5", "--instead", "Ferry Ochre=Lamp Gold", "--json") == 0
    changes = json.loads(capsys.readouterr().out)["changes"]
    tops = ["top-small-low-water.svg", "top-small-low-water.png"]
    assert changes["pictures"][:2] == tops
    assert all(
        name.startswith("cloth-heart-1-small-") and "-low-water-" in name
        for name in changes["pictures"][2:]
    )


@pytest.mark.parametrize("stated", ["", "# sold by: yard\n", "\n"])
def test_what_the_shop_has_not_stated_is_asked_for(
    patterns: Path, stated: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a file, and with one that has only remarks in it."""
    (patterns / "kits.yaml").write_text(stated)
    if not stated:
        (patterns / "kits.yaml").unlink()
    assert run(patterns, "--kits", "5") == 0
    text = capsys.readouterr().out
    assert "how far it goes is not known: state `bolts` of Morning Mist" in text
    assert "No price: the shop has not stated `currency`, `price` of the cloth" in text
    assert "price of one kit" not in text


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--kits", "0"], "`0` kits; write a whole number from 1 to 1000"),
        (["--kits", "1001"], "`1001` kits; write a whole number from 1 to 1000"),
        (["--kits", "-3"], "`-3` kits; write a whole number from 1 to 1000"),
        (["--kits", "a dozen"], "`a dozen` kits; write"),
        (["--kits", "1.5"], "`1.5` kits; write"),
        (["--kits", "9" * 5000], "kits; write"),
        (["--kits", ""], "`` kits; write"),
        (["--width", "wide"], "`wide` is no width"),
        (["--width", ""], "`` is no width"),
        (["--width", "-4"], "`-4` is no width"),
        (["--width", "99999"], "`99999` is no width"),
        (["--width", "0"], "`0` is no width"),
        (["--size", "smal"], "did you mean `small`?"),
        (["--colourway", "low"], "  low-water\n"),
        (["--instead", "Ferry Ochre"], 'write --instead "Name of a cloth='),
        (["--instead", "Ferry Ocre=Wet Slate"], "did you mean `Ferry Ochre`?"),
        (["--instead", "Ferry Ochre=Lamp Gild"], "did you mean `Lamp Gold`?"),
    ],
)
def test_wrong_words(
    patterns: Path,
    words: list[str],
    said: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Told before anything is proved, so at once."""
    monkeypatch.setattr("pieceproof.cli.compile_folders", None)
    assert run(patterns, *words) == 2
    shown = capsys.readouterr()
    assert said in shown.err
    assert shown.out == ""


def test_problems_of_the_shop_s_file_are_all_told(
    patterns: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("pieceproof.cli.compile_folders", None)
    (patterns / "kits.yaml").write_text("wage: much\nlayers: 99\n")
    assert run(patterns) == 1
    shown = capsys.readouterr().err
    assert "patterns/kits.yaml:1:7: bad-amount" in shown
    assert "patterns/kits.yaml:2:9: bad-count" in shown


def test_a_cloth_too_narrow(patterns: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(patterns, "--width", "3") == 1
    assert "larger than the usable width 3" in capsys.readouterr().err


def test_the_shop_s_file_is_never_a_link(
    patterns: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (patterns / "kits.yaml").rename(tmp_path / "elsewhere.yaml")
    (patterns / "kits.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    assert run(patterns) == 1
    assert "patterns/kits.yaml:1:1: not-a-plain-file" in capsys.readouterr().err
