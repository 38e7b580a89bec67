"""Editions and dates as a pattern states them.

In: texts, and a design's release, errata and trials. Out: editions that can be compared, dates in
words, problems. Which facts an edition has is not known here. There is no clock: a date is what
the pattern says.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from pieceproof.model import Design, Places
from pieceproof.problems import Place, Problem
from pieceproof.wording import quoted

_EDITION = re.compile(r"([1-9][0-9]{0,2})\.(0|[1-9][0-9]{0,2})")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)
_DATE = re.compile(rf"([1-9]|[12][0-9]|3[01]) ({'|'.join(_MONTHS)}) ([0-9]{{4}})")
_NUMBERS = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})")


@dataclass(frozen=True, order=True)
class Edition:
    """``1.1``: the first correction of the first design."""

    design: int
    correction: int

    def __str__(self) -> str:
        return f"{self.design}.{self.correction}"


FIRST = Edition(1, 0)


def parse_edition(text: str) -> Edition | None:
    """``1.1``; None for anything else."""
    match = _EDITION.fullmatch(text.strip())
    return Edition(int(match[1]), int(match[2])) if match else None


def parse_date(text: str) -> date | None:
    """``14 September 2026``, a day that the calendar has; None for anything else."""
    match = _DATE.fullmatch(" ".join(text.split()))
    return _day(match[3], 1 + _MONTHS.index(match[2]), match[1]) if match else None


def show_date(day: date) -> str:
    """``14 September 2026``."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def edition_of(design: Design) -> Edition | None:
    """The edition that customers hold; None for a draft."""
    return parse_edition(design.release.edition) if design.release else None


def edition_problems(design: Design) -> tuple[Problem, ...]:
    """Editions and dates that cannot be read, and errata of editions that are none."""
    return tuple(_problems(design))


def _problems(design: Design) -> Iterator[Problem]:
    for trial in design.trials:
        yield from _date_problems(trial.at, trial.date)
    release = design.release
    if release is None:
        return
    yield from _date_problems(release.at, release.date)
    edition = parse_edition(release.edition)
    if edition is None:
        yield _bad_edition(release.at["edition"], release.edition)
    for erratum in release.errata:
        corrected = parse_edition(erratum.edition)
        if corrected is None:
            yield _bad_edition(erratum.at["edition"], erratum.edition)
        elif edition is not None and not FIRST < corrected <= edition:
            yield _no_such_edition(erratum.at["edition"], corrected, edition)


def _date_problems(at: Places, text: str) -> Iterator[Problem]:
    if parse_date(text) is None:
        match = _NUMBERS.fullmatch(text.strip())
        day = _day(match[1], int(match[2]), match[3]) if match else None
        yield Problem(
            at["date"],
            "bad-date",
            f"{quoted(text)} as a date",
            "a day such as `14 September 2026`",
            f"write `{show_date(day)}`" if day else "write the day, the whole month and the year",
        )


def _day(year: str, month: int, day: str) -> date | None:
    try:
        return date(int(year), month, int(day))
    except ValueError:
        return None


def _bad_edition(place: Place, text: str) -> Problem:
    return Problem(
        place,
        "bad-edition",
        f"{quoted(text)} as an edition",
        "two numbers with a point between them, such as `1.0`",
        "count designs before the point and corrections behind it; a new pattern is `1.0`",
    )


def _no_such_edition(place: Place, corrected: Edition, edition: Edition) -> Problem:
    return Problem(
        place,
        "erratum-edition",
        f"an erratum that `{corrected}` puts right, in edition `{edition}`",
        f"an edition after `{FIRST}` and not after `{edition}`",
        f"write `edition: {edition}` here if the present edition puts it right"
        if edition > FIRST
        else "raise `edition` of the release first, to `1.1` for a correction",
    )
