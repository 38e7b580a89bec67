"""How hard to try, counted in steps of arithmetic and not in seconds.

A step is about one number in a list added or compared. The same demand with the same effort gives
the same plan on every machine, a slow one only later.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

STEPS_PER_SECOND = 20_000_000  # measured on one core of the machine of the benchmark; only a guide


@dataclass(slots=True)
class Effort:
    """Steps that are left; goes below zero when spent."""

    left: int

    def spend(self, steps: int) -> None:
        """Take steps away."""
        self.left -= steps

    @contextmanager
    def share(self, part: float) -> Iterator["Effort"]:
        """A part of what is left; what is left of the part afterwards comes back."""
        given = Effort(int(part * self.left))
        self.left -= given.left
        yield given
        self.left += max(given.left, 0)

    @property
    def spent(self) -> bool:
        """Whether nothing is left."""
        return self.left <= 0


class GaveUpError(Exception):
    """The arithmetic of a search lost its footing; what was found before stays valid."""
