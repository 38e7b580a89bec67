"""Drawings of two editions side by side: which ones differ, and where.

In: the same size of a pattern, compiled from the old text and from the new one by today's program.
Out: the drawings that differ, with what differs in each. It draws nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pieceproof.compile import Pattern, Sized
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.plates import plates
from pieceproof.diagrams.strips import cutting
from pieceproof.diagrams.subject import WRONG_SIDE, subject
from pieceproof.drawing.scene import Area, Flat, Group, Place, Scene, flat, shifted
from pieceproof.facts import PLUS, WIDTH
from pieceproof.model import Design


@dataclass(frozen=True)
class Picture:
    """A scene, its colours, and the items of it that the other edition does not have."""

    scene: Scene
    colours: Mapping[str, str]
    differing: tuple[Flat, ...] = ()


@dataclass(frozen=True)
class Redrawn:
    """A drawing that changed; None where it did not or does not exist."""

    name: str
    old: Picture | None
    new: Picture | None
    sizes: tuple[str, ...]
    colourway: str = ""


def redrawn(old: Pattern, new: Pattern, makes: Mapping[str, str]) -> tuple[Redrawn, ...]:
    """The drawings that differ in the sizes that both have; alike changes of sizes as one.

    ``makes`` are the units and blocks that have another name now.
    """
    before = {sized.design.size: sized for sized in old.sizes}
    found: dict[str, Redrawn] = {}
    for sized in new.sizes:
        if sized.design.size in before:
            for change in _in_size(before[sized.design.size], sized, makes):
                key = repr((change.name, change.old, change.new, change.colourway))
                sizes = found[key].sizes if key in found else ()
                found[key] = replace(change, sizes=(*sizes, sized.design.size))
    return tuple(found.values())


def _in_size(old: Sized, new: Sized, makes: Mapping[str, str]) -> Iterator[Redrawn]:
    parts = _parts_now(old.design, new.design)
    called = {name: fabric.called for name, fabric in new.design.fabrics.items()}
    before = {
        _of_make(name, makes): _with_parts(scene, parts)
        for name, scene in _scenes(old, {p: called.get(now, now) for p, now in parts.items()})
    }
    after, size = dict(_scenes(new, called)), (new.design.size,)
    key = next(iter(new.design.colourways))
    colours = [
        _under(parts, palette(old.design, next(iter(old.design.colourways)))),
        palette(new.design, key),
    ]
    for name in dict.fromkeys((*after, *before)):
        first, second = before.get(name), after.get(name)
        if _looks_like(first, second):
            continue
        left, right = _differing(first, second)
        yield Redrawn(
            name,
            None if first is None else Picture(first, colours[0], left),
            None if second is None else Picture(second, colours[1], right),
            size,
        )
    yield from _recoloured(old, new, parts, before["top"], after["top"])


def _parts_now(old: Design, new: Design) -> Mapping[str, str]:
    """Parts of the old text by their names in the new one: by what they are called if renamed,
    else by their order among as many others.
    """
    called = {fabric.called: name for name, fabric in new.fabrics.items()}
    now = {
        name: name if name in new.fabrics else called.get(fabric.called, "")
        for name, fabric in old.fabrics.items()
    }
    gone = [name for name, other in now.items() if not other]
    come = [name for name in new.fabrics if name not in now.values()]
    others = dict(zip(gone, come, strict=True)) if len(gone) == len(come) else {}
    return {name: other or others.get(name, name) for name, other in now.items()}


def _under(parts: Mapping[str, str], colours: Mapping[str, str]) -> Mapping[str, str]:
    return {_renamed(name, parts): colour for name, colour in colours.items()}


def _renamed(cloth: str, parts: Mapping[str, str]) -> str:
    part = cloth.removesuffix(WRONG_SIDE)
    return parts.get(part, part) + cloth[len(part) :]


def _with_parts(scene: Scene, parts: Mapping[str, str]) -> Scene:
    """The scene without groups, its cloths named as they are now."""
    items = (
        replace(item, cloth=_renamed(item.cloth, parts))
        if isinstance(item, Area) and item.cloth
        else item
        for item in flat(scene.items)
    )
    return replace(scene, items=tuple(items))


def _looks_like(old: Scene | None, new: Scene | None) -> bool:
    if old is None or new is None:
        return old is new
    return [_key(i) for i in flat(old.items)] == [_key(i) for i in flat(new.items)] and (
        _rounded(old.box) == _rounded(new.box)
    )


def _recoloured(
    old: Sized, new: Sized, parts: Mapping[str, str], first: Scene, second: Scene
) -> Iterator[Redrawn]:
    """Colourways that both have and whose colours differ, shown on the whole top."""
    for key, colourway in new.design.colourways.items():
        if key not in old.design.colourways:
            continue
        before, after = _under(parts, palette(old.design, key)), palette(new.design, key)
        if any(before.get(part, colour) != colour for part, colour in after.items()):
            yield Redrawn(
                "top",
                Picture(first, before, _in_parts(first, before, after)),
                Picture(second, after, _in_parts(second, after, before)),
                (new.design.size,),
                colourway.name,
            )


def _in_parts(scene: Scene, here: Mapping[str, str], there: Mapping[str, str]) -> tuple[Flat, ...]:
    """The areas of parts whose colour differs."""
    parts = {part for part, colour in here.items() if there.get(part, colour) != colour}
    return tuple(item for item in flat(scene.items) if getattr(item, "cloth", None) in parts)


def _of_make(name: str, makes: Mapping[str, str]) -> str:
    what, _, make = name.partition(" ")
    return f"{what} {makes[make]}" if make in makes else name


def _scenes(sized: Sized, called: Mapping[str, str]) -> Iterator[tuple[str, Scene]]:
    """All drawings of a size by name, cutting plans included."""
    of = subject(sized.design, sized.publication, sized.drawing)
    yield from plates(of).items()
    for need in sized.requirements.needs:
        if need.plan.strips or need.fussy:
            parts = PLUS.join(called[fabric] for fabric in need.fabrics)
            width = sized.design.measure.show(need.usable_width)
            scene = cutting(of, need.fabrics, need.plan, need.fussy)
            yield f"strips of {parts}, {WIDTH} {width}", scene


def _differing(old: Scene | None, new: Scene | None) -> tuple[tuple[Flat, ...], tuple[Flat, ...]]:
    """Items that only one of the scenes has, laid with corners or with middles on each other."""
    if old is None or new is None:
        return (), ()
    tries = [_apart(old, new, (0.0, 0.0)), _apart(old, new, _middles_apart(old, new))]
    return min(tries, key=lambda found: len(found[0]) + len(found[1]))


def _apart(old: Scene, new: Scene, move: Place) -> tuple[tuple[Flat, ...], tuple[Flat, ...]]:
    before, after = flat(old.items), flat(new.items)
    moved = flat([Group(old.items, shifted(*move))])
    left = Counter(map(_key, moved)) - Counter(map(_key, after))
    right = Counter(map(_key, after)) - Counter(map(_key, moved))
    return _taken(before, moved, left), _taken(after, after, right)


def _taken(items: Sequence[Flat], placed: Iterable[Flat], wanted: Counter[str]) -> tuple[Flat, ...]:
    """The items whose keys, when placed, are wanted, as often as they are."""
    left = Counter(wanted)
    taken: list[Flat] = []
    for item, at in zip(items, placed, strict=True):
        if left[_key(at)]:
            left[_key(at)] -= 1
            taken.append(item)
    return tuple(taken)


def _middles_apart(old: Scene, new: Scene) -> Place:
    def middle(scene: Scene) -> Place:
        box = scene.box
        x, y = float(box.x) + float(box.width) / 2, float(box.y) + float(box.height) / 2
        return x, y

    (ox, oy), (nx, ny) = middle(old), middle(new)
    return nx - ox, ny - oy


def _key(item: Flat) -> str:
    """What an item is and where, to a thousandth, so that sums of floats compare."""
    return repr(_rounded(item))


def _rounded(value: object) -> object:
    if isinstance(value, float):
        return round(value, 3) + 0.0
    if isinstance(value, tuple | list):
        return tuple(_rounded(part) for part in value)
    fields = getattr(value, "__dataclass_fields__", None)
    if fields is None:
        return value
    return (type(value).__name__, *(_rounded(getattr(value, name)) for name in fields))
