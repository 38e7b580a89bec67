"""What stops the sewing of a make: an expectation of the steps that the cloth does not meet."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Snag:
    """What a step expects, what lies there instead, and by how much ("" if not a measure)."""

    expected: str
    found: str
    by: str


class CannotSew(Exception):  # noqa: N818
    """Ends a make. Raised by steps and caught by `sewing.sew` only."""

    def __init__(self, expected: str, found: str, by: str = "") -> None:
        super().__init__(expected, found, by)
        self.snag = Snag(expected, found, by)
