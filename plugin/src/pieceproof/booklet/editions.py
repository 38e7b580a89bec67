"""The kinds of booklet and the papers they are printed on.

In: nothing. Out: sizes in millimetres, names of files.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from pieceproof.pages.tokens import token


class Paper(Enum):
    """Sheets that printers take."""

    LETTER = "letter"
    A4 = "a4"

    @property
    def called(self) -> str:
        """As it is called in words."""
        return "Letter" if self is Paper.LETTER else "A4"

    @property
    def half_called(self) -> str:
        """What the sheet folded once is called."""
        return "half-letter" if self is Paper.LETTER else "A5"

    @property
    def sheet_mm(self) -> tuple[float, float]:
        """Width and height, upright."""
        return (215.9, 279.4) if self is Paper.LETTER else (210.0, 297.0)  # ANSI Y14.1; ISO 216

    @property
    def half_mm(self) -> tuple[float, float]:
        """Width and height of a page when the sheet is folded once."""
        return (139.7, 215.9) if self is Paper.LETTER else (148.0, 210.0)  # ANSI Y14.1; ISO 216


class Edition(Enum):
    """What is printed."""

    FULL = "booklet"
    """Everything, a page a sheet."""
    LARGE = "large-print"
    """Everything in large type, one column, no italics."""
    FOLDED = "folded"
    """Everything but templates, two pages on a side, to be printed on both and folded."""
    SHEETS = "templates"
    """Only templates and foundations."""


@dataclass(frozen=True)
class Copy:
    """One file to make."""

    edition: Edition
    paper: Paper

    def file_name(self, slug: str, size: str) -> str:
        """The file's name.

        >>> Copy(Edition.FULL, Paper.A4).file_name("heron-landing", "one size")
        'heron-landing-one_size-booklet-a4.pdf'
        """
        return f"{slug}-{token(size)}-{self.edition.value}-{self.paper.value}.pdf"

    @property
    def label(self) -> str:
        """What a link to the file says."""
        return f"{_LABELS[self.edition]}, {self.paper.called}, PDF".replace(
            "{half}", self.paper.half_called
        )


ON_SITE = (Edition.FULL, Edition.LARGE)
"""What customers are offered; the others are for the shop's printer."""

_LABELS = {
    Edition.FULL: "Booklet",
    Edition.LARGE: "Booklet in large print",
    Edition.FOLDED: "Booklet to fold to {half}, for printing on both sides",
    Edition.SHEETS: "Templates and foundations at true size",
}
