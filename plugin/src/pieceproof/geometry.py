"""The finished pictures of a design: every patch of every unit, block and top in its place.

In: a design and its layouts. Out: a `Drawing`. Knows nothing of seams or pieces.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from quicktions import Fraction

from pieceproof.borders import border_patches, border_width, pieced_places
from pieceproof.cells import Laid, Layout
from pieceproof.layout import CENTRE, TOP, AnyLayout
from pieceproof.methods import method_of
from pieceproof.methods.method import MIRRORED, SET_B
from pieceproof.model import Design, Grid, PiecedBorder, Size
from pieceproof.on_point import OnPointLayout, edge_patches
from pieceproof.published import Drawing, Patch, Picture
from pieceproof.shapes import Motion, canonical, mirror_left_right, quarter_turns, rectangle, shift


def draw(design: Design, layouts: Mapping[str, AnyLayout]) -> Drawing:
    """Pictures of all units, their extras and blocks as drawn, and of the top."""
    pictures: dict[str, Picture] = {}
    for name, unit in design.units.items():
        if not isinstance(unit, Grid):
            method = method_of(unit)
            size = method.size(unit)
            pictures[name] = Picture(name, size.width, size.height, method.patches(unit))
            for part in (*method.parts(unit), *method.extras(unit)):
                pictures[name + part.name] = replace(part, name=name + part.name)
    for name, layout in layouts.items():
        if isinstance(layout, OnPointLayout):
            pictures.update(_triangle_pictures(layout))
            pictures[name] = _on_point_picture(name, layout, pictures)
        else:
            pictures[name] = _grid_picture(name, layout, pictures)
    if design.borders:
        pictures[TOP] = _with_borders(design, layouts, pictures)
    return Drawing({name: _tidied(picture) for name, picture in pictures.items()})


def with_mirror_images(drawing: Drawing, names: Iterable[str]) -> Drawing:
    """The pictures of ``names`` and no others; mirror images are drawn where they are missing."""
    return Drawing({name: _picture_of(drawing.pictures, name) for name in names})


def _picture_of(known: Mapping[str, Picture], name: str) -> Picture:
    """Both sets of a thing look alike."""
    shown = name.removesuffix(SET_B)
    return replace(known.get(shown) or _mirror_image(known, shown), name=name)


def _mirror_image(pictures: Mapping[str, Picture], name: str) -> Picture:
    picture = moved(pictures[name.removesuffix(MIRRORED)], 0, True)
    return replace(_tidied(picture), name=name)


def moved(picture: Picture, turn: int, mirrored: bool) -> Picture:
    """The picture mirrored left to right, if so, and then turned clockwise by quarters."""
    mirror = mirror_left_right(picture.width) if mirrored else Motion()
    motion = quarter_turns(turn, picture.width, picture.height).after(mirror)
    upright = turn % 2 == 0
    return Picture(
        picture.name,
        picture.width if upright else picture.height,
        picture.height if upright else picture.width,
        _carried(picture.patches, motion),
    )


def looks(picture: Picture) -> frozenset[tuple[str, int, object]]:
    """What a picture shows, comparable: equal for pictures that show the same."""
    return frozenset(
        (patch.fabric, patch.layer, canonical(patch.outline)) for patch in picture.patches
    )


def _grid_picture(name: str, layout: Layout, pictures: Mapping[str, Picture]) -> Picture:
    patches: list[Patch] = []
    top = Fraction(0)
    for row in layout.rows:
        left = Fraction(0)
        for cell in row:
            patches += _carried(_cell_picture(cell, pictures).patches, shift(left, top))
            left += cell.size.width
        top += row[0].size.height
    return Picture(name, layout.size.width, layout.size.height, tuple(patches))


def _on_point_picture(name: str, layout: OnPointLayout, pictures: Mapping[str, Picture]) -> Picture:
    patches = [Patch(fabric, outline) for fabric, outline in edge_patches(layout)]
    for row in (*layout.rows, *layout.strips):
        for left, cell in zip(row.edges, row.cells, strict=False):
            motion = layout.into_top().after(shift(left, row.top))
            patches += _carried(_cell_picture(cell, pictures).patches, motion)
    return Picture(name, layout.size.width, layout.size.height, tuple(patches))


def _triangle_pictures(layout: OnPointLayout) -> Iterator[tuple[str, Picture]]:
    """The setting triangles as they are cut."""
    for triangle in layout.triangles:
        name, size = triangle.name, triangle.size
        patch = Patch(triangle.fabric, triangle.outline())
        yield name, Picture(name, size.width, size.height, (patch,))


def _cell_picture(cell: Laid, pictures: Mapping[str, Picture]) -> Picture:
    if cell.name in pictures:
        return moved(pictures[cell.name], cell.turn, cell.mirrored)
    patch = Patch(cell.name, rectangle(cell.size.width, cell.size.height))
    return Picture(cell.name, cell.size.width, cell.size.height, (patch,))


def _with_borders(
    design: Design, layouts: Mapping[str, AnyLayout], pictures: Mapping[str, Picture]
) -> Picture:
    centre = pictures[CENTRE]
    size = Size(centre.width, centre.height)
    patches = list(centre.patches)
    for number, border in enumerate(design.borders, start=1):
        w = border_width(number, border, layouts)
        patches = [*_carried(tuple(patches), shift(w, w))]
        patches += border_patches(border, size)
        if isinstance(border, PiecedBorder):
            for name, turn, place in pieced_places(number, size, w):
                side = moved(pictures[name], turn, mirrored=False)
                patches += _carried(side.patches, shift(place.width, place.height))
        size = Size(size.width + 2 * w, size.height + 2 * w)
    return Picture(TOP, size.width, size.height, tuple(patches))


def _carried(patches: tuple[Patch, ...], motion: Motion) -> tuple[Patch, ...]:
    return tuple(replace(p, outline=motion.polygon(p.outline)) for p in patches)


def _tidied(picture: Picture) -> Picture:
    patches = tuple(replace(p, outline=canonical(p.outline)) for p in picture.patches)
    return Picture(picture.name, picture.width, picture.height, patches)
