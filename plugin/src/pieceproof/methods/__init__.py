"""The construction methods, one module each. Adding a method adds one entry to METHODS."""

from pieceproof.methods import (
    flying_geese,
    half_square_triangles,
    plain_patch,
    stitched_corners,
)
from pieceproof.methods.method import Method

METHODS: tuple[Method, ...] = (
    plain_patch.METHOD,
    half_square_triangles.METHOD,
    flying_geese.METHOD,
    stitched_corners.METHOD,
)


def method_of(unit: object) -> Method:
    """The method whose class a unit is."""
    return next(method for method in METHODS if isinstance(unit, method.design))
