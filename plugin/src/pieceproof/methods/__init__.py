"""The construction methods, one module each. Adding a method adds one entry to METHODS."""

from pieceproof.methods import (
    flying_geese,
    flying_geese_four,
    half_square_triangles,
    half_square_triangles_eight,
    half_square_triangles_four,
    plain_patch,
    quarter_square_triangles,
    stitched_corners,
    template_patches,
)
from pieceproof.methods.method import Method
from pieceproof.model import Design, Grid
from pieceproof.problems import Problem

METHODS: tuple[Method, ...] = (
    plain_patch.METHOD,
    half_square_triangles.METHOD,
    half_square_triangles_four.METHOD,
    half_square_triangles_eight.METHOD,
    quarter_square_triangles.METHOD,
    flying_geese.METHOD,
    flying_geese_four.METHOD,
    stitched_corners.METHOD,
    template_patches.METHOD,
)


def method_of(unit: object) -> Method:
    """The method whose class a unit is."""
    return next(method for method in METHODS if isinstance(unit, method.design))


def check_methods(design: Design) -> tuple[Problem, ...]:
    """A problem for every unit whose method cannot make it at its size."""
    problems = []
    for name, unit in design.units.items():
        if isinstance(unit, Grid):
            continue
        method = method_of(unit)
        fault = method.fault(unit, design.measure, design.seam)
        if fault is not None:
            found = f"{method.name} `{name}`: {fault.found}"
            place = unit.at[fault.key]
            problems.append(Problem(place, "cannot-make", found, fault.expected, fault.remedy))
    return tuple(problems)
