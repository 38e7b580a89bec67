"""The drawing of a binding: what is folded comes to lie where the next stage shows it."""

from __future__ import annotations

from dataclasses import replace

from small_shop import PLAIN

from pieceproof.compile import compile_pattern
from pieceproof.diagrams.binding import binding_corner
from pieceproof.diagrams.subject import WRONG_SIDE
from pieceproof.drawing.scene import Area, Group, Line, LineKind, Place, Scene
from pieceproof.model import BindingFold, Design


def designed() -> Design:
    pattern = compile_pattern("eddy-runner", {"pattern.yaml": PLAIN.encode()})
    assert not pattern.problems
    return pattern.sizes[0].design


def drawn(design: Design) -> Scene:
    scene = binding_corner(design, '1/4"')
    assert scene is not None
    return scene


def strips(scene: Scene, stage: int) -> list[Area]:
    group = scene.items[stage - 1]
    assert isinstance(group, Group)
    return [item for item in group.items if isinstance(item, Area) and item.cloth]


def seams(scene: Scene, stage: int) -> list[Line]:
    group = scene.items[stage - 1]
    assert isinstance(group, Group)
    return [i for i in group.items if isinstance(i, Line) and i.kind is LineKind.SEAM]


def folded(points: list[Place], fold: tuple[Place, Place]) -> set[Place]:
    """Mirrored in a line at 45 degrees either way."""
    (x, y), (to_x, to_y) = fold
    way = 1 if (to_x - x) * (to_y - y) > 0 else -1
    assert abs(to_x - x) == abs(to_y - y)
    return {(x + way * (py - y), y + way * (px - x)) for px, py in points}


def corners(area: Area) -> list[Place]:
    return [(float(x), float(y)) for x, y in area.points]


def heights(points: set[Place]) -> tuple[float, float]:
    return min(y for _, y in points), max(y for _, y in points)


def test_joined_strips_open_to_one_straight_strip() -> None:
    scene = drawn(designed())
    lower, upper = strips(scene, 1)
    (seam,) = seams(scene, 1)
    start, end = ((float(x), float(y)) for x, y in seam.points)
    opened = folded(corners(upper), (start, end))
    assert heights(opened) == heights({*corners(lower)})


def test_the_strip_turns_the_corner_with_its_raw_edge_on_the_next_side() -> None:
    """Fold of 45 degrees: what ran along the upper edge runs up in line with the right one."""
    scene = drawn(designed())
    (along,) = strips(scene, 2)
    _, up = strips(scene, 3)
    _, down = strips(scene, 4)
    fold = corners(up)[0], corners(up)[1]
    right = max(x for x, _ in corners(up))
    top = min(y for _, y in corners(along))
    assert corners(up)[1] == (right, top)
    turned = folded(corners(along), fold)
    assert max(x for x, _ in turned) == right
    assert {x for x, _ in corners(up)} == {x for x, _ in corners(down)} == {x for x, _ in turned}
    assert min(y for _, y in corners(down)) == top


def test_a_single_binding_is_sewn_on_with_its_wrong_side_up() -> None:
    design = designed()
    assert design.binding is not None
    single = replace(design, binding=replace(design.binding, fold=BindingFold.SINGLE))
    assert strips(drawn(design), 2)[0].cloth == "edge"
    assert strips(drawn(single), 2)[0].cloth == "edge" + WRONG_SIDE
    assert strips(drawn(single), 3)[1].cloth == "edge"
    assert binding_corner(replace(design, binding=None), '1/4"') is None
