"""Every method's finished patches fill its unit without gap or overlap (against shapely)."""

from hypothesis import given
from hypothesis import strategies as st
from quicktions import Fraction
from shapely import union_all
from shapely.geometry import Polygon as Shape
from shapely.geometry import box
from triangle_units import FAMILIES

from pieceproof.methods import method_of
from pieceproof.methods.flying_geese import FlyingGeese
from pieceproof.methods.plain_patch import PlainPatch
from pieceproof.methods.stitched_corners import StitchedCorner, StitchedCorners
from pieceproof.model import FabricName, Size, Unit
from pieceproof.shapes import area
from pieceproof.steps import Corner

A, B = FabricName("a"), FabricName("b")
lengths = st.integers(4, 96).map(lambda eighths: Fraction(eighths, 8))


@st.composite
def corner_units(draw: st.DrawFn) -> Unit:
    width, height = draw(lengths), draw(lengths)
    corners = draw(st.lists(st.sampled_from(list(Corner)), unique=True, max_size=4))
    most = min(width, height)
    legs = [draw(st.fractions(Fraction(1, 8), most, max_denominator=8)) for _ in corners]
    chosen = {
        corner: StitchedCorner(draw(st.sampled_from([A, B])), min(leg, most))
        for corner, leg in zip(corners, legs, strict=True)
    }
    return StitchedCorners(Size(width, height), A, chosen)


units = st.one_of(
    st.builds(PlainPatch, st.builds(Size, lengths, lengths), st.just(A)),
    lengths.map(lambda h: FlyingGeese(Size(2 * h, h), A, B)),
    corner_units(),
    *(family(lengths) for family in FAMILIES.values()),
)


@given(units)
def test_patches_tile_the_unit(unit: Unit) -> None:
    method = method_of(unit)
    size = method.size(unit)
    outlines = [patch.outline for patch in method.patches(unit)]
    assert sum((area(o) for o in outlines), Fraction(0)) == size.width * size.height
    shapes = [Shape([(float(x), float(y)) for x, y in o]) for o in outlines]
    whole = union_all(shapes)
    assert abs(whole.area - float(size.width * size.height)) < 1e-9
    assert whole.difference(box(0, 0, float(size.width), float(size.height))).area < 1e-9
