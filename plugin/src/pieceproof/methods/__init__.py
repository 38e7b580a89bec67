"""The construction methods, one module each. Adding a method adds one entry to METHODS."""

from pieceproof.methods import (
    applique,
    courthouse_steps,
    eight_point_star,
    flying_geese,
    flying_geese_four,
    foundation_piecing,
    full_circle,
    half_rectangle_triangles,
    half_square_triangles,
    half_square_triangles_eight,
    half_square_triangles_four,
    hexagons,
    log_cabin,
    partial_seams,
    plain_patch,
    quarter_circle,
    quarter_square_triangles,
    six_point_star,
    sixty_degree_triangles,
    square_in_square,
    stitched_corners,
    strings,
    strip_sets,
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
    half_rectangle_triangles.METHOD,
    flying_geese.METHOD,
    flying_geese_four.METHOD,
    stitched_corners.METHOD,
    square_in_square.METHOD,
    log_cabin.METHOD,
    courthouse_steps.METHOD,
    strip_sets.METHOD,
    foundation_piecing.METHOD,
    strings.METHOD,
    partial_seams.METHOD,
    template_patches.METHOD,
    eight_point_star.METHOD,
    six_point_star.METHOD,
    hexagons.METHOD,
    quarter_circle.METHOD,
    full_circle.METHOD,
    applique.METHOD,
    sixty_degree_triangles.METHOD,
)


def method_of(unit: object) -> Method:
    """The method whose class a unit is."""
    return next(method for method in METHODS if isinstance(unit, method.design))


def method_named(name: str) -> Method | None:
    """The method that a make says it is made by; a triangle that is only cut has none."""
    return next((method for method in METHODS if method.name == name), None)


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
        else:
            problems += _names_taken(design, name, method)
    return tuple(problems)


def _names_taken(design: Design, name: str, method: Method) -> list[Problem]:
    """Names of the pattern that a unit's parts and extras need for themselves."""
    unit = design.units[name]
    needed = [name + thing.name for thing in (*method.parts(unit), *method.extras(unit))]
    return [
        Problem(
            design.at.key(f"{section}/{taken}"),
            "name-clash",
            f"the name `{taken}`",
            f"another name, because {method.name} `{name}` gives this one to a part of it",
            "choose another name, here and where it is used",
        )
        for section in ("fabrics", "units", "blocks")
        for taken in needed
        if taken in getattr(design, section)
    ]
