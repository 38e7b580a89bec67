"""One text of a pattern as a value: lengths, sizes, counts, colours, cells, names.

In: a text and what it should be. Out: the value and what is wrong with it, if anything; a
text that cannot be read gives a stand-in value, so that reading can go on.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from quicktions import Fraction

from pieceproof.forms import LONGEST_LENGTH, Scalar
from pieceproof.lengths import parse_length
from pieceproof.model import Amount, Cell, ClothName, Colour, FabricName, Lab, Position, Size
from pieceproof.problems import Place
from pieceproof.wording import quoted

NAME = r"[a-z][a-z0-9]*([ -][a-z0-9]+)*"
LONGEST_NAME = 40

RESERVED_WORDS = ("none", "null", "true", "false", "yes", "no", "on", "off", "y", "n")
"""Words that say that something is left out, or that YAML readers may not take as text."""

_CELL = re.compile(r"(?P<name>.*?)(?P<mirrored> mirrored)?( turned (?P<turn>[123]))?")
_CELL_HELP = "a name, then `mirrored` if it is, then `turned` 1, 2 or 3: `point mirrored turned 1`"
_TURNS_HELP = "count clockwise quarter turns: 1 to the right, 2 upside down, 3 to the left"
SAYS_HOW = ("mirrored", "turned", "turn", "rotated", "flipped")
"""Words that no name contains."""
_TURNS: Mapping[str, int] = {
    **{"0": 0, "1": 1, "2": 2, "3": 3, "4": 0},
    **{"90": 1, "180": 2, "270": 3, "360": 0, "right": 1, "left": 3},
}
_LENGTH_HELP = "a length such as `10`, `3 1/4` or `2.5`"
_STAND_IN = Fraction(1)
_NO_LAB = (Fraction(-1), Fraction(0), Fraction(0))

STAND_INS: Mapping[Any, Any] = {
    str: "",
    int: 1,
    Fraction: _STAND_IN,
    Amount: Amount(_STAND_IN),
    Size: Size(_STAND_IN, _STAND_IN),
    Position: Position(_STAND_IN, _STAND_IN),
    Cell: Cell(""),
    FabricName: FabricName(""),
    ClothName: ClothName(""),
    Colour: Colour("#808080"),
    Lab: Lab(Fraction(50), Fraction(0), Fraction(0)),
}
"""Values in place of texts that cannot be read."""


@dataclass(frozen=True)
class Complaint:
    """What is wrong with one text, before its place is known."""

    code: str
    found: str
    expected: str
    remedy: str


def read_scalar(form: Scalar, text: str, place: Place) -> tuple[Any, Complaint | None]:
    """The value of a text that is not empty."""
    if form.kind is Fraction:
        return read_length(text, form.zero)
    if form.kind is Amount:
        return read_amount(text, form.most)
    if form.kind is Size:
        return read_size(text)
    if form.kind is Position:
        return read_position(text)
    if form.kind is int:
        return read_count(text, form.most)
    if form.kind is Colour:
        return read_colour(text)
    if form.kind is Lab:
        return read_lab(text)
    if form.kind is Cell:
        return read_cell(text, place)
    return text, _too_many_characters(text, form.most)


def read_length(text: str, zero: bool) -> tuple[Fraction, Complaint | None]:
    """``3 1/4`` as an exact length; ``zero`` tells whether 0 makes sense."""
    length = _plain_length(text)
    if length is None:
        return _STAND_IN, _bad_length(text)
    if length == 0 and not zero:
        return _STAND_IN, Complaint(
            "bad-length", quoted(text), "a length greater than zero", "write the length itself"
        )
    if length > LONGEST_LENGTH:
        return _STAND_IN, Complaint(
            "bad-length",
            quoted(text),
            f"a length of at most {LONGEST_LENGTH}",
            "check the number; the pattern's `measure` is its unit",
        )
    return length, None


def read_amount(text: str, most: int) -> tuple[Amount, Complaint | None]:
    """``12.50`` or ``3 1/4`` as an exact number from 0."""
    amount = _plain_length(text)
    if amount is not None and amount <= most:
        return Amount(amount), None
    near = tidied(re.sub(r"[^0-9.,/ ]", " ", text)) if len(text) <= 24 else None
    remedy = f"write `{near}`" if near else "write the number alone, without a unit"
    return Amount(_STAND_IN), Complaint(
        "bad-amount",
        quoted(text),
        f"a number from 0 to {most}, such as `12`, `12.50` or `3 1/4`",
        remedy if amount is None else "write a smaller number",
    )


def read_size(text: str) -> tuple[Size, Complaint | None]:
    """``4 1/2 x 2 3/4``: width x height."""
    stand_in = Size(_STAND_IN, _STAND_IN)
    sides = re.split(r"\s*[xX×*]\s*|\s+by\s+", text.strip())
    if len(sides) != 2 or "x" not in text:
        return stand_in, _bad_size(text, sides)
    width, complaint = read_length(sides[0], zero=False)
    height, other = read_length(sides[1], zero=False)
    if complaint is None and other is None:
        return Size(width, height), None
    if "bad" in {_sense(side) for side in sides}:
        return stand_in, _bad_size(text, sides)
    return stand_in, complaint or other


def read_position(text: str) -> tuple[Position, Complaint | None]:
    """``2 1/2 across 3 down``; either may be 0."""
    match = re.fullmatch(r"(.+?)\s+across\s+(.+?)\s+down", text.strip())
    places = [_plain_length(part) for part in match.groups()] if match else []
    across, down = places if places else (None, None)
    if across is not None and down is not None and max(across, down) <= LONGEST_LENGTH:
        return Position(across, down), None
    return Position(_STAND_IN, _STAND_IN), Complaint(
        "bad-place",
        quoted(text),
        "a place such as `2 1/2 across 3 down`, from the top left corner",
        "write how far it is from the left side, `across`, how far from the top, and `down`",
    )


def read_count(text: str, most: int) -> tuple[int, Complaint | None]:
    """A whole number from 1."""
    if re.fullmatch(r"[0-9]{1,9}", text) and 1 <= int(text) <= most:
        return int(text), None
    too_large = re.fullmatch(r"[0-9]+", text) and text.strip("0")
    return 1, Complaint(
        "bad-count",
        quoted(text),
        f"a whole number from 1 to {most}",
        "write a smaller number" if too_large else "write the number in digits, without a unit",
    )


def read_colour(text: str) -> tuple[Colour, Complaint | None]:
    """``#b5532f``, in lower case."""
    if re.fullmatch(r"#[0-9a-fA-F]{6}", text):
        return Colour(text.lower()), None
    short = re.fullmatch(r"#?([0-9a-fA-F])([0-9a-fA-F])([0-9a-fA-F])", text)
    bare = re.fullmatch(r"[0-9a-fA-F]{6}", text)
    near = f"#{text}" if bare else "#" + "".join(c * 2 for c in short.groups()) if short else ""
    return Colour("#808080"), Complaint(
        "bad-colour",
        quoted(text),
        "a colour as `#` and six digits or letters a to f, in quotes",
        f'write `"{near}"`' if near else "pick the colour in a drawing program and copy its code",
    )


def _decimal(text: str) -> Fraction:
    whole, _, decimals = text.partition(".")
    return Fraction(int(whole + decimals), 10 ** len(decimals))


def read_lab(text: str) -> tuple[Lab, Complaint | None]:
    """``52 18 -7``: lightness from 0 to 100, a and b from -128 to 127."""
    number = r"(-?[0-9]{1,3}(?:\.[0-9]{1,4})?)"
    match = re.fullmatch(rf"{number}\s+{number}\s+{number}", text.strip())
    lightness, a, b = map(_decimal, match.groups()) if match else _NO_LAB
    if 0 <= lightness <= 100 and max(abs(a), abs(b)) <= 128:
        return Lab(lightness, a, b), None
    return STAND_INS[Lab], Complaint(
        "bad-lab",
        quoted(text),
        "CIELAB lightness from 0 to 100, then a and b from -128 to 128, such as `52 18 -7`",
        "write the three numbers that the instrument shows, with spaces between them",
    )


def read_cell(text: str, place: Place) -> tuple[Cell, Complaint | None]:
    """``point mirrored turned 1``."""
    match = _CELL.fullmatch(" ".join(text.split()))
    if match is None or set(SAYS_HOW) & set(match["name"].split()):
        name, near = meant_cell(text)
        remedy = f"write `{near}`" if near else _TURNS_HELP
        return Cell(name, place=place), Complaint("bad-cell", quoted(text), _CELL_HELP, remedy)
    return Cell(match["name"], int(match["turn"] or 0), match["mirrored"] is not None, place), None


def meant_cell(text: str) -> tuple[str, str]:
    """The name in a cell that cannot be read, and the cell as it may have been meant."""
    words = text.split()
    first = next((i for i, word in enumerate(words) if word.lower() in SAYS_HOW), len(words))
    name = " ".join(words[:first])
    said = [word.lower() for word in words[first:]]
    turns = [_TURNS[word] for word in said if word in _TURNS]
    if not name or len(turns) != ("mirrored" not in said or len(said) > 1):
        return name, ""
    mirrored = " mirrored" if "mirrored" in said else ""
    return name, name + mirrored + (f" turned {turns[0]}" if turns and turns[0] else "")


def name_complaint(text: str) -> Complaint | None:
    """What is wrong with a name that the pattern gives to something."""
    if len(text) > LONGEST_NAME or re.fullmatch(NAME, text) is None:
        return Complaint(
            "bad-name",
            quoted(text),
            f"small letters a to z, digits, single spaces or hyphens; a letter first; at most "
            f"{LONGEST_NAME} characters",
            _name_remedy(text),
        )
    taken = set(SAYS_HOW) & set(text.split()) or {text} & set(RESERVED_WORDS)
    if taken:
        return Complaint(
            "reserved-name",
            f"the name {quoted(text)}",
            f"a name without a meaning of its own; {quoted(min(taken))} has one here",
            "choose another name, here and where it is used",
        )
    return None


def _name_remedy(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    near = re.sub(r"[^a-z0-9]+", " ", plain).strip(" 0123456789")[:LONGEST_NAME].strip()
    if not re.fullmatch(NAME, near):
        return "choose a short name"
    return f"write {quoted(near)}; what customers read goes under `called`, `name` or `label`"


def _too_many_characters(text: str, most: int) -> Complaint | None:
    if len(text) <= most:
        return None
    return Complaint(
        "text-too-long",
        f"a text of {len(text)} characters",
        f"at most {most} characters",
        "shorten it; longer prose goes into the pattern's Markdown files",
    )


def _plain_length(text: str) -> Fraction | None:
    return parse_length(text) if len(text) <= 24 and text.isascii() else None


def _sense(text: str) -> str:
    return "good" if _plain_length(text) is not None else "bad"


def _bad_length(text: str) -> Complaint:
    if re.match(r"\s*[-−–]\s*\d", text):
        return Complaint(
            "bad-length", quoted(text), "a length greater than zero", "delete the minus sign"
        )
    if len(re.split(r" x | by |×", text)) == 2:
        remedy = "write one length; this key gives a side, not width x height"
        return Complaint("bad-length", quoted(text), _LENGTH_HELP, remedy)
    return Complaint("bad-length", quoted(text), _LENGTH_HELP, _length_remedy(text))


def _length_remedy(text: str) -> str:
    near = tidied(text)
    if near is None:
        return "write a whole number, a fraction or a decimal, without words or signs"
    return f"write `{near}`; the unit is given once, by `measure`"


def _bad_size(text: str, sides: list[str]) -> Complaint:
    near = [tidied(side) for side in sides]
    remedy = "write the width, an `x` and the height"
    if len(near) == 1 and near[0]:
        remedy = f"write `{near[0]} x {near[0]}` for a square"
    elif len(near) == 2 and near[0] and near[1]:
        remedy = f"write `{near[0]} x {near[1]}`"
    return Complaint("bad-size", quoted(text), "width x height, such as `4 1/2 x 2 3/4`", remedy)


def tidied(text: str) -> str | None:
    """The length that somebody may have meant: inch marks, units, ``1/2`` signs, commas undone."""
    if len(text) > 24:
        return None
    spaced = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text)
    plain = unicodedata.normalize("NFKC", spaced).replace("\u2044", "/").lower()
    plain = re.sub(r"[\"'″”“′]+|\b(?:inch(?:es)?|in|cm)\b\.?|(?<=\d)(?:in|cm)\b", " ", plain)
    plain = re.sub(r"\s*/\s*", "/", plain)
    plain = re.sub(r"(?<=\d)\s*(?:-|–|\band\b|\+|&)\s*(?=\d+/)", " ", plain)
    plain = re.sub(r"(?<=\d),(?=\d)|(?<!\d)\.(?=\d)", ".", plain)
    plain = " ".join(re.sub(r"(?<!\d)\.(?=\d)", "0.", plain).split())
    return plain if _plain_length(plain) is not None else None
