"""Numbers that a writer typed by hand, against the numbers of the pattern.

In: prose in which citations and what is marked as it stands are blanked, its sections, and the
facts of each size. Out: problems. A measurement, a length of cloth or a count must be a fact of
every size that shows the sentence, because all sizes share the prose, and a fact of what the
sentence speaks of. Numbers in digits are always looked at; numbers in words where they measure
something or say how many to make.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from quicktions import Fraction

from pieceproof.fact_seams import is_outcome
from pieceproof.facts import WIDTH, Fact
from pieceproof.lengths import parse_length
from pieceproof.problems import Place, Problem
from pieceproof.prose_about import (
    Names,
    Things,
    is_of_a_seam,
    is_of_all,
    names_in,
    sentence_at,
    things_of,
)
from pieceproof.prose_markup import place_at
from pieceproof.wording import listed, quoted

Value = tuple[str, Fraction]
"""A unit ("inch", "cm", "yard", "metre", "" for counts) and how many of it."""

Known = Mapping[Value, Sequence[str]]
"""The numbers of one size, each with the keys of all facts that have it."""

_VULGAR = "½¼¾⅛⅜⅝⅞⅓⅔"
_DIGITS = rf"(?:\d+[ -]\d+/\d+|\d+ ?[{_VULGAR}]|[{_VULGAR}]|\d+/\d+|\d+(?:\.\d+)?)"
_UNIT = (
    r"inch(?:es)?|in\.|in(?= (?:wide|long|squares?|strips?|seams?|borders?|blocks?|x)\b)"
    r"|mm|millimetres?|cm|centimetres?|yards?|yds?|metres?|m|feet|foot|ft"
)
_TYPED = re.compile(rf"(?<![\w/.,])({_DIGITS})(?:\s?([\"″”])|[ -]?({_UNIT})(?![\w]))?")
_TIMES = re.compile(rf"\s*(?:x|×|by)\s*(?={_DIGITS})")
_LIST_ITEM = re.compile(r"^[ \t]*(?:>[ \t]*)*\d+[.)](?=[ \t])", re.MULTILINE)
_TARGET = re.compile(r"\]\([^)\n]*\)|\]\[[^\]\n]*\]|\[[^\]\n]*\]:[^\n]*|https?://\S+")

_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
    "nineteen",
)
_TENS = {
    **{"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50},
    **{"sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90},
}
_WHOLE = rf"(?:{'|'.join(_TENS)})(?:-(?:{'|'.join(_ONES[1:10])}))?|{'|'.join(_ONES[1:])}"
_PARTS = {"half": 2, "halves": 2, "third": 3, "quarter": 4, "eighth": 8}
_PART = r"(?:(?:an?|one|two|three|five|seven)[ -])?(?:half|halves|(?:third|quarter|eighth)s?)"
_WORD_UNIT = r"inch(?:es)?|centimetres?|cm|millimetres?|yards?|metres?|feet|foot"
_IN_WORDS = re.compile(
    rf"\b(?:(?P<whole>an?|{_WHOLE})(?: and (?P<rest>{_PART}))?|(?P<part>{_PART})(?: of)?(?: an?)?)"
    rf"[ \n-](?P<unit>{_WORD_UNIT})\b",
    re.IGNORECASE,
)
_MADE = re.compile(
    rf"\b(?:makes?|cut|sew|needs?|takes?|uses?)\s+(?:all\s+)?(?P<many>{_WHOLE})\b"
    r"(?!\s+(?:minutes?|hours?|days?|evenings?|stitch|stitches|times)\b)",
    re.IGNORECASE,
)
_MAKING = re.compile(r"\b(?:makes?|cut|sew|needs?|takes?|uses?)\s+(?:all\s+)?\Z", re.IGNORECASE)
_DOZENS = re.compile(rf"\b(?P<many>an?|half a|{_WHOLE}) dozen\b", re.IGNORECASE)
_FEW = 4
"""Up to so many, a number in words is a way of speaking: cut one star, make two to try."""

_LENGTHS: Mapping[str, Value] = {
    '"': ("inch", Fraction(1)),
    "i": ("inch", Fraction(1)),
    "f": ("inch", Fraction(12)),
    "c": ("cm", Fraction(1)),
    "mm": ("cm", Fraction(1, 10)),
    "y": ("yard", Fraction(1)),
    "m": ("metre", Fraction(1)),
}
_COUNTED = (
    *("count", "make", "use", "rounds", "from each round", "spare", "tops", "panels of one back"),
    *("panels cut in half", "lengths of cloth", "set-in seams", "side by side"),
)

_RECKONED = ("needed", "room left", "strips in all", "squaring")


@dataclass(frozen=True)
class Typed:
    """A number in the text: where, its words and what it says."""

    start: int
    end: int
    words: str
    value: Value
    is_made: bool = False
    """Whether it says how many to make, cut or take."""

    @property
    def is_said_of_something(self) -> bool:
        """Whether it can be held against what the sentence speaks of."""
        return self.is_made or bool(self.value[0])


@dataclass(frozen=True)
class Readers:
    """The sizes that show a stretch of the text, with their numbers, and what it is about."""

    start: int
    end: int
    sizes: Mapping[str, Known]
    about: Things = frozenset()


def known_numbers(facts: Mapping[str, Fact]) -> Known:
    """All numbers of one size."""
    known: dict[Value, list[str]] = {}
    for key, fact in facts.items():
        if not _is_no_instruction(key):
            for value in dict.fromkeys(_values_of(key, fact)):
                known.setdefault(value, []).append(key)
    return known


def _is_no_instruction(key: str) -> bool:
    """What happens with a wrong seam, and sums on the way to a yardage: nobody cuts or sews it."""
    return key.startswith("own seam ") or key.rpartition(", ")[2] in _RECKONED


def number_problems(
    file: str, text: str, readers: Sequence[Readers], measure: str
) -> Iterator[Problem]:
    """Numbers that are not those of every size, or not of what the sentence speaks of.

    ``measure`` is the unit of bare fractions.
    """
    plain = _LIST_ITEM.sub(_blank, _TARGET.sub(_blank, text))
    names = names_in({k for of in readers for known in of.sizes.values() for k in _keys(known)})
    for typed in sorted(_typed(plain, measure), key=lambda t: t.start):
        of = next((r for r in readers if r.start <= typed.start < r.end), None)
        if of is None or not of.sizes:
            continue
        place = place_at(file, text, typed.start)
        lacking = [size for size, known in of.sizes.items() if typed.value not in known]
        if lacking:
            found = _found(typed, of, lacking)
            yield Problem(place, "prose-number", found, _EXPECTED, _remedy(typed, of))
        elif typed.is_said_of_something:
            yield from _misplaced(place, typed, of, plain, names)


def _keys(known: Known) -> Iterator[str]:
    for keys in known.values():
        yield from keys


def _misplaced(
    place: Place, typed: Typed, of: Readers, text: str, names: Names
) -> Iterator[Problem]:
    """A number that the pattern has, but not of what it is said of; or of nobody knows what."""
    keys = [known[typed.value] for known in of.sizes.values()]
    if typed.value[0] and is_of_a_seam(text, typed.end):
        if not all(_SEAM in found for found in keys):
            yield _of_another(place, typed, of, [_SEAM], keys[0])
        return
    said_of = names.next_to(text, typed.end) or (
        names.within(sentence_at(text, typed.start, of.start, of.end)) | of.about
    )
    if said_of:
        if not all(any(is_of_all(k) or things_of(k) & said_of for k in found) for found in keys):
            yield _of_another(place, typed, of, sorted(said_of), keys[0])
    elif not all(_is_clear(found) for found in keys):
        yield _unclear(place, typed, keys[0])


def _is_clear(keys: Sequence[str]) -> bool:
    """Whether all facts that have the number are about one thing."""
    return any(is_of_all(key) for key in keys) or bool(
        frozenset.intersection(*(things_of(key) for key in keys))
    )


_SEAM = "seam allowance"
_EXPECTED = (
    "numbers cited from the facts, such as `{seam allowance}`, so that they change with the pattern"
)


def _of_another(
    place: Place, typed: Typed, of: Readers, said_of: Sequence[str], keys: Sequence[str]
) -> Problem:
    about = {
        value: [key for key in found if things_of(key) & {*said_of}]
        for known in of.sizes.values()
        for value, found in known.items()
    }
    near = _nearest_keys(typed, [{value: found for value, found in about.items() if found}])
    return Problem(
        place,
        "prose-number",
        f"{quoted(typed.words)}, which is no number of {listed(said_of)} but that of `{keys[0]}`",
        _EXPECTED,
        _cite(typed, near or keys),
    )


def _unclear(place: Place, typed: Typed, keys: Sequence[str]) -> Problem:
    """Named by two facts that are about different things."""
    other = next((key for key in keys if not things_of(key) & things_of(keys[0])), keys[-1])
    return Problem(
        place,
        "prose-number-unclear",
        f"{quoted(typed.words)}, and nothing says of what",
        "a sentence that names what it measures, for several things have this number",
        _cite(typed, [keys[0], other]),
    )


def _found(typed: Typed, of: Readers, lacking: Sequence[str]) -> str:
    if len(lacking) == len(of.sizes):
        return f"{quoted(typed.words)}, which is no number of this pattern in any size"
    return f"{quoted(typed.words)}, which is no number of {listed(lacking)}"


def _remedy(typed: Typed, of: Readers) -> str:
    """The fact that has the number elsewhere, or the nearest ones of its unit."""
    keys = [known[typed.value][0] for known in of.sizes.values() if typed.value in known]
    return _cite(typed, keys or _nearest_keys(typed, list(of.sizes.values())))


def _nearest_keys(typed: Typed, sizes: Sequence[Known]) -> Sequence[str]:
    """Facts with the nearest numbers of the same unit, the nearest first."""
    unit, many = typed.value
    near = sorted(
        {
            (abs(v[1] - many), v[1], keys[0])
            for known in sizes
            for v, keys in known.items()
            if v[0] == unit
        }
    )
    return list(dict.fromkeys(key for _, _, key in near))


def _cite(typed: Typed, keys: Sequence[str]) -> str:
    as_it_is = f"if it has nothing to do with the pattern's sizes, write `{{={typed.words}}}`"
    shown = " or ".join(f"`{{{key}}}`" for key in list(dict.fromkeys(keys))[:2])
    return f"cite {shown}; {as_it_is}" if shown else as_it_is


def _typed(text: str, measure: str) -> Iterator[Typed]:
    yield from _in_digits(text, measure)
    for match in _IN_WORDS.finditer(text):
        yield Typed(match.start(), match.end(), match[0], _in_words(match))
    counts: tuple[tuple[re.Pattern[str], Callable[[str], int]], ...] = (
        (_MADE, _whole),
        (_DOZENS, lambda many: 6 if many == "half a" else 12 * _whole(many)),
    )
    for pattern, count in counts:
        for match in pattern.finditer(text):
            many = count(match["many"].lower())
            measured = _IN_WORDS.match(text, match.start("many"))
            dozen = pattern is _MADE and _DOZENS.match(text, match.start("many"))
            if many > _FEW and not measured and not dozen:
                words = match[0][match.start("many") - match.start() :]
                value = ("", Fraction(many))
                yield Typed(match.start("many"), match.end(), words, value, pattern is _MADE)


def _in_digits(text: str, measure: str) -> Iterator[Typed]:
    """In ``3 x 4 1/2 inch`` the unit is that of both; bare fractions and sizes have the usual."""
    matches = list(_TYPED.finditer(text))
    units = [_unit(match) for match in matches]
    sized = [_is_times(text, a, b) for a, b in pairwise(matches)]
    for at in reversed(range(len(matches) - 1)):
        if sized[at]:
            units[at] = units[at] or units[at + 1] or _LENGTHS[measure]
            units[at + 1] = units[at + 1] or _LENGTHS[measure]
    for match, unit in zip(matches, units, strict=True):
        number = _number(match[1])
        if number is None:
            continue
        is_length = number.denominator > 1 or "." in match[1]
        said = unit or (_LENGTHS[measure] if is_length else ("", Fraction(1)))
        value = (said[0], number * said[1])
        made = _MAKING.search(text, max(0, match.start() - 20), match.start()) is not None
        yield Typed(match.start(), match.end(), match[0].strip(), value, made)


def _is_times(text: str, first: re.Match[str], second: re.Match[str]) -> bool:
    between = _TIMES.match(text, first.end())
    return between is not None and between.end() == second.start()


def _unit(match: re.Match[str]) -> Value | None:
    word = (match[2] or match[3] or "").replace("″", '"').replace("”", '"').lower()
    return _length(word) if word else None


def _length(word: str) -> Value:
    if word.startswith(("mm", "milli")):
        return _LENGTHS["mm"]
    return _LENGTHS[word[0]]


def _number(text: str) -> Fraction | None:
    spaced = re.sub(rf"(?<=\d) ?(?=[{_VULGAR}])", " ", text)
    plain = unicodedata.normalize("NFKC", spaced).replace("\u2044", "/").replace("-", " ")
    return parse_length(plain)


def _in_words(match: re.Match[str]) -> Value:
    unit, factor = _length(match["unit"].lower())
    if match["part"]:
        return unit, _part(match["part"]) * factor
    rest = _part(match["rest"]) if match["rest"] else Fraction(0)
    return unit, (_whole(match["whole"].lower()) + rest) * factor


def _whole(words: str) -> int:
    if words in ("a", "an"):
        return 1
    first, _, second = words.partition("-")
    if first in _TENS:
        return _TENS[first] + (_ONES.index(second) if second else 0)
    return _ONES.index(first)


def _part(words: str) -> Fraction:
    *many, part = re.split(r"[ -]", words.lower())
    whole = _PARTS[part if part in _PARTS else part.removesuffix("s")]
    return Fraction(_whole(many[0]) if many else 1, whole)


def _values_of(key: str, fact: Fact) -> Iterator[Value]:
    """The numbers that a fact's words hold; a word in the pattern's unit alone is no count."""
    if is_outcome(fact):
        return
    if key == f"{WIDTH}s":
        for width in fact.said.split(", "):
            number = parse_length(width)
            if number is not None:
                yield from (("inch", number), ("cm", number))
    elif key.rpartition(", ")[2] in _COUNTED and fact.said.isdecimal():
        yield "", Fraction(int(fact.said))
    else:
        yield from _measured(fact.said)


def _measured(said: str) -> Iterator[Value]:
    """In ``7.5 x 13.5 cm`` both are in cm; numbers without a unit are none of these."""
    spread = re.sub(rf"({_DIGITS}) x (?=[0-9./ ]+ cm)", r"\1 cm x ", said)
    for match in _TYPED.finditer(spread):
        unit, number = _unit(match), _number(match[1])
        if unit is not None and number is not None:
            yield unit[0], number * unit[1]


def _blank(match: re.Match[str]) -> str:
    return " " * len(match[0])
