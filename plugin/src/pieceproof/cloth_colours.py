"""Every cloth with a colour that a screen shows.

In: designs as they were read. Out: the same with ``colour`` filled in where the writer gives a
measured colour, and problems where a cloth has no colour, or two.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pieceproof.colours import on_screen
from pieceproof.model import Cloth, Colour, Design
from pieceproof.problems import Problem
from pieceproof.wording import quoted


def with_colours(designs: Sequence[Design]) -> tuple[tuple[Design, ...], tuple[Problem, ...]]:
    """All designs with all cloths coloured, and each problem once for all sizes."""
    problems = {problem: None for design in designs for problem in _problems(design)}
    return tuple(_coloured(design) for design in designs), tuple(problems)


def _coloured(design: Design) -> Design:
    cloths = {name: _with_colour(cloth) for name, cloth in design.cloths.items()}
    return replace(design, cloths=cloths)


def _with_colour(cloth: Cloth) -> Cloth:
    if cloth.lab is not None:
        return replace(cloth, colour=Colour(on_screen(cloth.lab)))
    return cloth if cloth.colour else replace(cloth, colour=Colour("#808080"))


def _problems(design: Design) -> Iterator[Problem]:
    for name, cloth in design.cloths.items():
        if not cloth.colour and cloth.lab is None:
            yield Problem(
                cloth.at.here,
                "no-colour",
                f"the cloth {quoted(name)} without `colour` or `lab`",
                "one of them",
                'add a line like `colour: "#b5532f"`, or `lab: 52 18 -7` where it was measured',
            )
        elif cloth.colour and cloth.lab is not None:
            yield Problem(
                cloth.at.key("colour"),
                "two-colours",
                f"the cloth {quoted(name)} with `colour` and `lab`",
                "one of them: the colour on the screen is worked out from what was measured",
                "delete `colour`",
            )
