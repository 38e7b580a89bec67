"""From the design to what is cut and sewn: pieces asked for, makes, steps and counts.

In: a design, its layouts and its drawing. Out: a `Draft` for one size, in which pieces still go by
the roles they play; `lettering` turns the drafts of all sizes into publications. Problems where
a size leaves the ruler's grid or a method cannot make it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from quicktions import Fraction

from pieceproof.borders import border_number, border_width, end_name, side_name
from pieceproof.cells import Laid, Layout
from pieceproof.geometry import looks, moved
from pieceproof.inside_seams import inside_seams, pressed_as
from pieceproof.layout import CENTRE, RESERVED, TOP, AnyLayout, all_grids, setting_name
from pieceproof.lengths import Surd, floor_to
from pieceproof.methods import method_named, method_of
from pieceproof.methods.method import (
    MIRRORED,
    SET_B,
    Cut,
    Method,
    Pressing,
    Recipe,
    Workroom,
    cut_finished,
    mirror_cut,
    workroom,
)
from pieceproof.model import (
    AnyBorder,
    Design,
    MitredBorder,
    PiecedBorder,
    Size,
)
from pieceproof.nesting import nest
from pieceproof.on_point import OnPointLayout
from pieceproof.pressing_choices import (
    NO_CHOICE,
    Choice,
    Pressed,
    choices,
    choosable,
    joined_in_rows,
    mirrored,
    name_in_file,
)
from pieceproof.problems import Place, Problem
from pieceproof.published import Drawing, Extra, Make, MakeKind
from pieceproof.seam_ends import Ended, plain
from pieceproof.seams_met import Sewing
from pieceproof.sewing_borders import BorderWork, mitre_problem, sew_border
from pieceproof.sewing_on_point import SQUARE, end_cut, on_point_steps, square_of, triangle_steps
from pieceproof.steps import (
    Assemble,
    Placed,
    Step,
    Take,
    Trim,
    TrimToFoundation,
    Yield,
    mirror_step,
    placed_in,
    pressed_other_way,
    with_sources,
)
from pieceproof.unit_ends import Slot, unit_ended


@dataclass(frozen=True)
class Part:
    """A piece by the role it plays: ``make: slot``. ``cut`` is as it lies there."""

    role: str
    make: str
    cut: Cut
    count: int


@dataclass(frozen=True)
class Draft:
    """One size before its pieces have letters. ``Take`` and ``Placed`` name pieces by role."""

    design: Design
    parts: tuple[Part, ...]
    makes: tuple[Make, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """All that is made: every make and what its rounds give besides."""
        things = ((make.name, *(extra.name for extra in make.extras)) for make in self.makes)
        return tuple(name for names in things for name in names)


@dataclass(frozen=True)
class _Plan:
    """A make before counting: what one round takes from piles of pieces and of other makes."""

    name: str
    kind: MakeKind
    method: str
    each: int
    size: Size
    cuts: Mapping[str, Cut]
    steps: tuple[Step, ...]
    extras: Mapping[str, _Besides] = field(default_factory=dict)
    wishes: Mapping[str, str] = field(default_factory=dict)
    """What the layout wishes for its seams."""


@dataclass(frozen=True)
class _Besides:
    """What a round gives besides, by its full name in the plan."""

    each: int
    size: Size


def construct(
    design: Design, layouts: Mapping[str, AnyLayout], drawing: Drawing
) -> tuple[Draft, tuple[Problem, ...]]:
    """Pieces, makes and counts of one size."""
    room = workroom(design)
    plans: dict[str, _Plan] = {}
    problems: list[Problem] = []
    shop = _Shop(design, layouts, drawing, room, plans, problems)
    _plan_setting(shop, setting_name(design))
    if design.borders:
        plans[TOP] = _plan_borders(shop)
    plans = _pressed(shop)
    makes, parts = _count(plans, design)
    return Draft(design, parts, makes), tuple(problems)


@dataclass(frozen=True)
class _Shop:
    """What planning needs at every turn, and the two lists it fills."""

    design: Design
    layouts: Mapping[str, AnyLayout]
    drawing: Drawing
    room: Workroom
    plans: dict[str, _Plan]
    problems: list[Problem]


def _plan_make(shop: _Shop, name: str, variant: str) -> str | None:
    """Plan a unit or block (once) and all it needs; its name, or None for one bare piece."""
    key = name + variant
    if key in shop.plans or any(key in plan.extras for plan in shop.plans.values()):
        return key
    if name in shop.layouts:
        return _plan_grid(shop, name, variant).name
    unit = shop.design.units[name]
    recipe = method_of(unit).recipe(unit, shop.room)
    _check_grid_of_ruler(shop, recipe, unit.at["size"], f"unit `{name}`")
    if any(cut.template is not None for cut in recipe.cuts):
        _check_finished_size(shop, name)
    if _is_bare(recipe):
        return None
    both_hands = any(isinstance(s, Yield) and s.extra == MIRRORED for s in recipe.steps)
    _plan_unit(shop, name, "" if both_hands else variant, recipe)
    return key


def _check_finished_size(shop: _Shop, name: str) -> None:
    """A unit of template pieces must meet pieces that are cut on the ruler's grid."""
    unit, seams = shop.design.units[name], 2 * shop.room.seam
    size = method_of(unit).size(unit)
    for side in dict.fromkeys((size.width, size.height)):
        if ((side + seams) / shop.room.step).denominator != 1:
            what = f"unit `{name}` finishes at"
            _off_the_ruler(shop, side + seams, unit.at["size"], what, "checked at")


def _plan_unit(shop: _Shop, name: str, variant: str, recipe: Recipe) -> None:
    unit, key = shop.design.units[name], name + variant
    method = method_of(unit)
    parts = {part: _plan_part(shop, name, part, variant) for part in recipe.parts}
    extras = {p.name: Size(p.width, p.height) for p in method.extras(unit)}
    steps = tuple(mirror_step(s) for s in recipe.steps) if variant else recipe.steps
    steps = tuple(_with_parts(step, parts) for step in steps)
    shop.plans[key] = _Plan(
        key,
        MakeKind.UNIT,
        method.name,
        recipe.each,
        method.size(unit),
        {cut.slot: mirror_cut(cut) if variant else cut for cut in recipe.cuts},
        tuple(_with_full_name(step, name, variant) for step in steps),
        {
            name + step.extra + variant: _Besides(len(step.items), extras[step.extra])
            for step in steps
            if isinstance(step, Yield) and step.extra
        },
    )


def _with_full_name(step: Step, name: str, variant: str) -> Step:
    """An extra goes by the unit's name and what follows it."""
    if isinstance(step, Yield) and step.extra:
        return replace(step, extra=name + step.extra + variant)
    return step


def _plan_setting(shop: _Shop, name: str) -> None:
    layout = shop.layouts[name]
    if not isinstance(layout, OnPointLayout):
        for part in shop.layouts:  # from the inside out, as they are sewn
            if part not in all_grids(shop.design):
                _plan_grid(shop, part, "")
        return
    cuts: dict[str, Cut] = {}
    if layout.end is not None:
        end = end_cut(layout.end)
        _check_grid_of_ruler(shop, Recipe((end,), 1, ()), shop.design.setting.at.here, "a sash")
        cuts[end.slot] = end
    steps = on_point_steps(layout, shop.room.seam, lambda cell: _placed(shop, name, cell, "", cuts))
    for triangle in layout.triangles:
        shop.plans[triangle.name] = _Plan(
            triangle.name,
            MakeKind.TRIANGLE,
            f"{triangle.name}s",
            triangle.each,
            triangle.size,
            {SQUARE: square_of(triangle)},
            triangle_steps(triangle),
        )
    shop.plans[name] = _Plan(name, MakeKind.CENTRE, "", 1, layout.size, cuts, steps)


def _plan_part(shop: _Shop, name: str, part: str, variant: str) -> tuple[str, int]:
    """Plan a part of a unit (once); the make that shows it, and its turn."""
    unit = shop.design.units[name]
    chosen, turn = _variant(shop, name + part, 0, bool(variant))
    key = name + part + chosen
    if key not in shop.plans:
        recipe = method_of(unit).recipe(unit, shop.room).parts[part]
        _check_grid_of_ruler(shop, recipe, unit.at["size"], f"unit `{name}`")
        picture = shop.drawing.pictures[name + part]
        steps = tuple(mirror_step(s) for s in recipe.steps) if chosen else recipe.steps
        shop.plans[key] = _Plan(
            key,
            MakeKind.UNIT,
            method_of(unit).name,
            recipe.each,
            Size(picture.width, picture.height),
            {cut.slot: cut for cut in recipe.cuts},
            steps,
        )
    return key, turn


def _with_parts(step: Step, parts: Mapping[str, tuple[str, int]]) -> Step:
    """Parts by the names and turns of the makes that show them."""

    def shown(source: str, turn: int) -> tuple[str, int]:
        name, quarters = parts.get(source, (source, 0))
        return name, (turn + quarters) % 4

    return with_sources(step, shown)


def _plan_grid(shop: _Shop, name: str, variant: str) -> _Plan:
    layout, key = shop.layouts[name], name + variant
    assert isinstance(layout, Layout)
    cuts: dict[str, Cut] = {}
    rows = []
    for row in layout.rows:
        cells = [_placed(shop, name, cell, variant, cuts) for cell in row]
        rows.append(tuple(reversed(cells) if variant else cells))
    step = Assemble("made", tuple(rows), shop.room.seam, ("right",) * len(rows), "down")
    kind = MakeKind.CENTRE if name in RESERVED else MakeKind.BLOCK
    if border_number(name) is not None:
        kind = MakeKind.BORDER
    if name in shop.design.units:
        kind = MakeKind.UNIT
    plan = _Plan(key, kind, "", 1, layout.size, cuts, (step, Yield(("made",))))
    plan = replace(plan, wishes=_wishes(layout))
    shop.plans[key] = plan
    return plan


def _wishes(layout: Layout) -> Mapping[str, str]:
    rows = {f"row {n}": words for n, words in enumerate(layout.row_press, start=1)}
    return rows if layout.between == "down" else {**rows, "between": layout.between}


def _placed(shop: _Shop, grid: str, cell: Laid, variant: str, cuts: dict[str, Cut]) -> Placed:
    """One cell as taken from a pile: a piece by its slot in ``cuts``, or a make by its name."""
    design = shop.design
    if cell.name in design.fabrics:
        cut = cut_finished(cell.role, cell.name, cell.size, shop.room)
        place = _grid_place(design, grid)
        _check_grid_of_ruler(shop, Recipe((cut,), 1, ()), place, f"a patch of `{cell.name}`")
        cuts[cell.role] = cut
        return Placed(cell.role, 0)
    mirrored = cell.mirrored != bool(variant)
    turn = -cell.turn if variant else cell.turn
    chosen, turn = _variant(shop, cell.name, turn % 4, mirrored)
    source = _plan_make(shop, cell.name, chosen)
    if source is not None:
        return Placed(source, turn)
    unit = design.units[cell.name]
    (bare,) = method_of(unit).recipe(unit, shop.room).cuts
    cuts[cell.name] = replace(bare, slot=cell.name)
    return Placed(cell.name, turn % 2)


def _grid_place(design: Design, name: str) -> Place:
    """Where a grid of the file stands; the setting for the quilt centre and its parts."""
    border = border_number(name)
    if border is not None:
        return design.borders[border - 1].at.here
    grid = design.blocks.get(name) or design.units.get(name)
    return design.setting.at.here if grid is None else grid.at["rows"]


def _variant(shop: _Shop, name: str, turn: int, mirrored: bool) -> tuple[str, int]:
    """The mirror image only where no turn shows the same, and the least turn that shows it."""
    picture = shop.drawing.pictures[name]
    wanted = looks(moved(picture, turn, mirrored))
    for variant in ("", MIRRORED):
        for quarter in range(4):
            if looks(moved(picture, quarter, bool(variant))) == wanted:
                return variant, quarter
    raise AssertionError("a picture shows itself")


def _is_bare(recipe: Recipe) -> bool:
    return all(isinstance(step, Take | Yield) for step in recipe.steps)


def _check_grid_of_ruler(shop: _Shop, recipe: Recipe, place: Place, what: str) -> None:
    """What is trimmed, and what is cut and never trimmed, must be on the ruler's grid."""
    trims = [step for step in recipe.steps if isinstance(step, Trim)]
    for trim in trims:
        for side in (trim.width, trim.height):
            if (side / shop.room.step).denominator != 1:
                _off_the_ruler(shop, side, place, f"{what} finishes at", "trimmed to")
    extras = {n for s in recipe.steps if isinstance(s, Yield) and s.extra for n in s.items}
    if any(trim.item not in extras for trim in trims):
        return
    if any(isinstance(step, TrimToFoundation) for step in recipe.steps):
        return
    for cut in recipe.cuts:
        if cut.template is not None:
            continue
        for exact, published in ((cut.needed_width, cut.width), (cut.needed_height, cut.height)):
            if exact != published and not isinstance(exact, Surd):
                _off_the_ruler(shop, exact, place, f"{what} finishes at", "cut at")


def _off_the_ruler(shop: _Shop, exact: Fraction, place: Place, what: str, done: str) -> None:
    step, seams, show = shop.room.step, 2 * shop.room.seam, shop.design.measure.show
    low = floor_to(exact, step) - seams
    shop.problems.append(
        Problem(
            place,
            "off-the-ruler",
            f"{what} {show(exact - seams)} and would be {done} {show(exact)}",
            f"{done.partition(' ')[0]} sizes in steps of {show(step)}",
            f"use a finished size of {show(low)} or {show(low + step)}",
        )
    )


def _plan_borders(shop: _Shop) -> _Plan:
    steps: list[Step] = [Take(TOP, CENTRE)]
    cuts: dict[str, Cut] = {}
    size = shop.layouts[CENTRE].size
    for number, border in enumerate(shop.design.borders, start=1):
        if isinstance(border, PiecedBorder):
            for name in (side_name(number), end_name(number)):
                _plan_make(shop, name, "")
        work = sew_border(number, border, size, shop.design, shop.room, TOP)
        cuts |= work.cuts
        steps += work.steps
        _check_border(shop, number, border, work)
        width = border_width(number, border, shop.layouts)
        size = Size(size.width + 2 * width, size.height + 2 * width)
    return _Plan(TOP, MakeKind.TOP, "", 1, size, cuts, (*steps, Yield((TOP,))))


def _check_border(shop: _Shop, number: int, border: AnyBorder, work: BorderWork) -> None:
    for cut in work.cuts.values():
        place = border.at["width"]
        _check_grid_of_ruler(shop, Recipe((cut,), 1, ()), place, f"`border {number}`")
    if isinstance(border, MitredBorder):
        problem = mitre_problem(border, shop.design)
        shop.problems.extend([problem] if problem else [])


def _pressed(shop: _Shop) -> dict[str, _Plan]:
    """The plans with their seams pressed; some in two sets."""
    plans = shop.plans
    sewings = [sewing for plan in plans.values() for sewing in _sewings(shop, plan)]
    chosen, problems = choices(shop.design, _choosable(shop, sewings))
    shop.problems.extend(problems)
    pressed: dict[str, _Plan] = {}
    for make in nest([_with_choice(shop, sewing, chosen) for sewing in sewings]):
        plan = plans.get(make.name.removesuffix(SET_B))
        if plan is not None:
            extras = plan.extras if plan.name == make.name else {}
            pressed[make.name] = replace(plan, name=make.name, steps=make.steps, extras=extras)
    return pressed


def _sewings(shop: _Shop, plan: _Plan) -> Iterator[Sewing]:
    """A plan for the solver, after what its rounds give besides."""
    for name, extra in plan.extras.items():
        yield Sewing(name, extra.size, (), ended=plain(extra.size.width, extra.size.height))
    pieces = {slot: _finished_piece(shop, cut) for slot, cut in plan.cuts.items()}
    ended, turnable = None, False
    if plan.method and not any(isinstance(step, Assemble) for step in plan.steps):
        method = method_named(plan.method)
        turnable = method is not None and method.pressing is Pressing.DARKER
        ended = _ended(shop, plan, method)
    yield Sewing(plan.name, plan.size, plan.steps, pieces, ended, turnable, plan.wishes)


def _choosable(shop: _Shop, sewings: Sequence[Sewing]) -> Mapping[str, Pressed]:
    """What the writer may choose for, by its name in the file."""
    things = {}
    for sewing in sewings:
        thing = choosable(sewing.steps, Pressing.DARKER if sewing.turnable else None)
        if thing is not None:
            things[name_in_file(shop.design, sewing.name)] = thing
    return things


def _with_choice(shop: _Shop, sewing: Sewing, chosen: Mapping[str, Choice]) -> Sewing:
    choice = chosen.get(name_in_file(shop.design, sewing.name), NO_CHOICE)
    seams = joined_in_rows(sewing.steps)
    if sewing.name.endswith(MIRRORED) and seams is not None:
        choice = mirrored(choice, seams.rows)
    if not choice.inside:
        return replace(sewing, choice=choice)
    steps = sewing.steps if choice.dark is not False else map(pressed_other_way, sewing.steps)
    steps = pressed_as(tuple(steps), choice.inside)
    pressed = replace(sewing, choice=choice, steps=steps, turnable=False)
    if sewing.ended is None:
        return pressed
    plan = replace(shop.plans[sewing.name], steps=steps)
    method = method_named(plan.method)
    assert method is not None
    rule = Pressing.IN_STEPS if sewing.turnable else method.pressing
    return replace(pressed, ended=_ended(shop, plan, replace(method, pressing=rule)))


def _finished_piece(shop: _Shop, cut: Cut) -> Size:
    """Exact for pieces that are joined by whole sides; the others are not asked for."""
    seams = 2 * shop.room.seam
    return Size(cut.width - seams, cut.height - seams)


def _ended(shop: _Shop, plan: _Plan, method: Method | None) -> Ended:
    """A triangle that is cut and not sewn has no method and no seams."""
    name = plan.name.removesuffix(MIRRORED)
    picture = shop.drawing.pictures[name]
    if method is None:
        return plain(picture.width, picture.height)
    patches = moved(picture, 0, plan.name.endswith(MIRRORED)).patches
    slots = [Slot(slot, cut.fabric) for slot, cut in plan.cuts.items()]
    shown = replace(picture, name=plan.name, patches=patches)
    unit = shop.design.units.get(name)
    pressed = [seam.press for seam in inside_seams(plan.steps)]
    toward = method.toward(unit, pressed) if isinstance(unit, method.design) else {}
    return unit_ended(shown, method.pressing, plan.steps, slots, shop.room.values, toward)


def _count(plans: Mapping[str, _Plan], design: Design) -> tuple[tuple[Make, ...], tuple[Part, ...]]:
    """Rounds from the top down; then makes in sewing order and parts with their counts."""
    wanted: Counter[str] = Counter({list(plans)[-1]: design.quantity})
    parts: list[Part] = []
    makes: list[Make] = []
    for plan in reversed(list(plans.values())):
        rounds = _rounds(plan, wanted)
        for source, times in _sources(plan.steps).items():
            if source in plan.cuts:
                cut = plan.cuts[source]
                parts.append(Part(_role(plan, source), plan.name, cut, rounds * times))
            else:
                wanted[source] += rounds * times
        makes.append(_make(plan, wanted, rounds, design.seam))
    last = replace(makes[0], kind=MakeKind.TOP)
    return (*reversed(makes[1:]), last), tuple(reversed(parts))


def _rounds(plan: _Plan, wanted: Mapping[str, int]) -> int:
    """Enough for all that is wanted of a make and of what its rounds give besides."""
    each = {plan.name: plan.each, **{name: extra.each for name, extra in plan.extras.items()}}
    return max(-(-wanted[name] // count) for name, count in each.items())


def _sources(steps: tuple[Step, ...]) -> Counter[str]:
    count: Counter[str] = Counter()
    for step in steps:
        if isinstance(step, Take):
            count[step.source] += 1
        count.update(cell.source for cell in placed_in(step))
    return count


def _role(plan: _Plan, slot: str) -> str:
    """Both sets of a thing take the same pieces."""
    return f"{plan.name.removesuffix(SET_B)}: {slot}"


def _make(plan: _Plan, wanted: Mapping[str, int], rounds: int, seam: Fraction) -> Make:
    around = Fraction(0) if plan.kind is MakeKind.TRIANGLE else 2 * seam
    extras = (
        Extra(
            name,
            wanted[name],
            extra.each,
            extra.size.width + 2 * seam,
            extra.size.height + 2 * seam,
        )
        for name, extra in plan.extras.items()
    )
    return Make(
        plan.name,
        plan.kind,
        plan.method,
        wanted[plan.name],
        rounds,
        plan.each,
        plan.size.width + around,
        plan.size.height + around,
        tuple(_by_role(plan, step) for step in plan.steps),
        tuple(extras),
        max((cut.oversize for cut in plan.cuts.values()), default=Fraction(0)),
    )


def _by_role(plan: _Plan, step: Step) -> Step:
    """Takes renamed from slots to roles and turned from the way the piece is listed."""
    return with_sources(step, lambda source, turn: _from_pile(plan, source, turn))


def _from_pile(plan: _Plan, source: str, turn: int) -> tuple[str, int]:
    cut = plan.cuts.get(source)
    if cut is None:
        return source, turn
    if cut.template is not None:
        return _role(plan, source), turn
    lies_across = cut.width > cut.height
    square = cut.width == cut.height
    return _role(plan, source), 0 if square else (turn + lies_across) % 2
