"""How the seams of rows are pressed, and what meets, in plain words.

In: the step that joins the rows, the letters of the pieces and the meetings the bench has found.
Out: sentences in Markdown.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.bench.nesting import Lying, Meeting
from pieceproof.steps import SPUN, Assemble, AssembleOnPoint, Placed, seam_ways


@dataclass(frozen=True)
class PressWords:
    """``rows`` and ``between`` say where seams go, ``meets`` how those that meet lie, or ""."""

    rows: str
    between: str
    meets: str


def in_turn(told: Sequence[str]) -> str:
    """Where some seams are pressed, one after the other where they differ."""
    if len(set(told)) == 1:
        return told[0]
    return f"in the order of sewing: {'; '.join(told)}"


def press_words(
    step: Assemble | AssembleOnPoint,
    letters: Collection[str],
    meetings: Sequence[Meeting],
) -> PressWords:
    """Sentences for one assembly; ``meetings`` are those of its make."""
    if isinstance(step, AssembleOnPoint):
        rows = [tuple(c for c in (row.first, *row.cells, row.last) if c) for row in step.rows]
        ends = {"left": "toward the lower left", "right": "toward the upper right"}
    else:
        rows = list(step.rows)
        ends = {"left": "to the left", "right": "to the right"}
    ways = [
        _way(row, press, letters, ends) for row, press in zip(rows, step.row_press, strict=True)
    ]
    has_seams = [len(row) > 1 for row in rows]
    return PressWords(_in_rows(ways, has_seams), _between(step), _meets(meetings))


def _in_rows(ways: Sequence[str], has_seams: Sequence[bool]) -> str:
    told = {
        way: [n for n, w in enumerate(ways, 1) if w == way and has_seams[n - 1]] for way in ways
    }
    told = {way: numbers for way, numbers in told.items() if numbers}
    if not told:
        return ""
    if len(told) == 1:
        (way,) = told
        return f"Press {'the seams' if len(ways) == 1 else 'the seams of every row'} {way}."
    return f"Press {_each(told, 'of ')}."


def _each(told: Mapping[str, Sequence[int]], of: str) -> str:
    """``the seams of rows 1 and 3 to the left and those of row 2 to the right``."""
    parts = [
        f"{'those' if index else 'the seams'} {of}{_rows(numbers)} {way}"
        for index, (way, numbers) in enumerate(told.items())
    ]
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _rows(numbers: Sequence[int]) -> str:
    """``row 1``, ``rows 1 and 2``, ``rows 1, 3 and 5``."""
    texts = [str(n) for n in numbers]
    if len(texts) == 1:
        return f"row {texts[0]}"
    return f"rows {', '.join(texts[:-1])} and {texts[-1]}"


def _way(row: Sequence[Placed], press: str, letters: Collection[str], ends: dict[str, str]) -> str:
    """Where the seams of one row go: to one side, toward a piece, away from the middle, each."""
    if press in ends:
        return ends[press]
    if press == "open":
        return press
    ways = seam_ways(press, len(row) - 1)
    toward = {n if way < 0 else n + 1 for n, way in enumerate(ways)}
    sources = {row[n].source for n in toward}
    others = {cell.source for n, cell in enumerate(row) if n not in toward}
    if 0 not in ways and len(sources) == 1 and not sources & others:
        (source,) = sources
        return f"toward **{source}**" if source in letters else f"toward the {source}"
    if press in ("inward", "outward"):
        return {"inward": "toward the middle", "outward": "away from the middle"}[press]
    return _one_by_one(ways, ends)


def _one_by_one(ways: Sequence[int], ends: dict[str, str]) -> str:
    words = {-1: ends["left"], 1: ends["right"], 0: "open"}
    return "in this order: " + ", ".join(words[way] for way in ways)


def _between(step: Assemble | AssembleOnPoint) -> str:
    """Where the seams between the rows go."""
    seams = len(step.rows) - 1
    if step.between == SPUN:
        turning = seam_ways(step.row_press[0], 1)[0] > 0
        left, right = ("up", "down") if turning else ("down", "up")
        return (
            "Take out the two or three stitches that hold the upright seams in the allowance of "
            f"the last seam. Press this seam {left} on the left of the middle and {right} on the "
            "right of it: all four seams then go round the middle, and it lies flat."
        )
    if isinstance(step, AssembleOnPoint) and step.between in ("up", "down", "open"):
        return {
            "down": "Press them all toward the lower right.",
            "up": "Press them all toward the upper left.",
            "open": "Press them open.",
        }[step.between]
    if step.between in _ALL:
        what = "this seam" if seams == 1 else "these seams"
        return f"Press {what} {_ALL[step.between]}."
    ways = seam_ways(step.between, seams)
    told = {_WORDS[way]: [n for n, w in enumerate(ways, 1) if w == way] for way in ways}
    return f"Press {_each(told, 'below ')}."


_WORDS = {-1: "up", 1: "down", 0: "open"}

_ALL = {
    "up": "up",
    "down": "down",
    "open": "open",
    "inward": "toward the middle",
    "outward": "away from the middle",
}


def _meets(meetings: Sequence[Meeting]) -> str:
    """That seams which meet lock together; or where they do not."""
    if not meetings:
        return ""
    lying = {meeting.lying for meeting in meetings}
    if lying == {Lying.NESTED}:
        return "Seams that meet lie opposite ways and lock together."
    parts = []
    clashing = [m for m in meetings if m.lying is Lying.CLASHING]
    if clashing:
        parts.append(
            f"Seams that meet lie the same way {_places(clashing)}: pin there, a pin on "
            "either side of the seams."
        )
    kinds = list(dict.fromkeys(name for meeting in meetings for name in meeting.kinds))
    if kinds:
        *most, last = kinds
        named = f"{', '.join(most)} and {last}" if most else last
        parts.append(
            f"The {named} units come in two kinds, cut apart from the same layers: alike in front, "
            "mirrored on the back. How their seams meet others depends on which kind you take: "
            "try one of each in its place and take the one that locks at more seams."
        )
    return " ".join(parts)


_MOST_PLACES = 3


def _places(clashing: Sequence[Meeting]) -> str:
    """The joins with clashes, a few by their names."""
    where = list(dict.fromkeys(meeting.where for meeting in clashing))
    if len(where) > _MOST_PLACES:
        return f"at {len(clashing)} places"
    return "where you join " + "; ".join(where)
