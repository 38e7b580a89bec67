"""Whether units fill the sides of a border, and the nearest designs in which they do.

In: how long the units of a motif are, the size inside the border, the design around it. Out: how
many places fill a side; in words, what would make them fit, each with how many units it takes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, cycle, product
from math import gcd

from quicktions import Fraction

from pieceproof.model import Border, Cell, Design, MitredBorder, Setting, Size

MOST_PLACES = 200
"""Units along one side."""

SizeOf = Callable[[Cell], Size | None]
"""The finished size of a cell as it lies, None for a fabric."""

_NEAR = 3
"""How many blocks more or fewer still count as near."""


@dataclass(frozen=True)
class Filled:
    """So many places of the motif, and how long they are together."""

    count: int
    length: Fraction


def counts(lengths: Sequence[Fraction], side: Fraction) -> tuple[Filled, Filled]:
    """The most places that are not longer than a side, and one place more."""
    last = Filled(0, Fraction(0))
    for count, total in enumerate(accumulate(cycle(lengths)), start=1):
        if total > side:
            return last, Filled(count, total)
        last = Filled(count, total)
    raise AssertionError("a cycle has no end")


def remedies(
    design: Design, number: int, inner: Size, lengths: Sequence[Fraction], size_of: SizeOf
) -> str:
    """Other widths, units, blocks and sizes inside with which the units fit: what there is.

    ``inner`` is the size inside border ``number``; each way tells how many units it takes.
    """
    fitting = _Fitting(design, inner, lengths)
    ways = [
        *_by_coping(fitting, number),
        *_by_units(fitting),
        *_by_blocks(fitting, size_of),
        _by_inside(fitting),
    ]
    return "; or ".join(ways)


@dataclass(frozen=True)
class _Fitting:
    """A design, the size inside one of its borders, and the lengths of the units of that."""

    design: Design
    inner: Size
    lengths: Sequence[Fraction]

    def show(self, length: Fraction) -> str:
        return self.design.measure.show(length)

    def fits(self, inside: Size) -> bool:
        """Whether the units fill this size."""
        return all(fits(self.lengths, side) for side in (inside.width, inside.height))

    def told(self, inside: Size) -> str:
        """``for 7 along the top and 5 along the side``, of a size that the units fill."""
        across, down = (counts(self.lengths, s)[0].count for s in (inside.width, inside.height))
        return _told(across, down)


def _by_coping(fitting: _Fitting, number: int) -> Iterator[str]:
    coping = _coping(fitting.design, fitting.inner, fitting.lengths)
    if coping is None:
        return
    inner = fitting.inner
    told = fitting.told(Size(inner.width + 2 * coping, inner.height + 2 * coping))
    before = fitting.design.borders[number - 2] if number > 1 else None
    if isinstance(before, Border | MitredBorder):
        yield f"widen border {number - 1} to {fitting.show(before.width + coping)}, {told}"
    else:
        yield f"put a border {fitting.show(coping)} wide just inside it, {told}"


def _by_units(fitting: _Fitting) -> Iterator[str]:
    inner = fitting.inner
    for unit in _unit_lengths(fitting.design, inner, fitting.lengths):
        told = _told(int(inner.width / unit), int(inner.height / unit))
        yield f"make its units {fitting.show(unit)} long, {told}"


def _by_blocks(fitting: _Fitting, size_of: SizeOf) -> Iterator[str]:
    """The nearest size of blocks, and numbers of blocks, of a straight setting of squares."""
    setting, inner = fitting.design.setting, fitting.inner
    if not isinstance(setting, Setting):
        return
    sizes = {size for row in setting.rows for cell in row if (size := size_of(cell)) is not None}
    sides = {side for size in sizes for side in (size.width, size.height)}
    if len(sides) != 1:
        return
    (block,) = sides
    across, down = setting.across or len(setting.rows[0]), setting.down or len(setting.rows)
    for more in _outward(fitting.design.measure.step, block / 4):
        grown = Size(inner.width + across * more, inner.height + down * more)
        if fitting.fits(grown):
            yield f"make the blocks {fitting.show(block + more)} wide, {fitting.told(grown)}"
            break
    if setting.pieced_sashing is not None:
        return
    pitch = block + (setting.sashing.width if setting.sashing else Fraction(0))
    for wide, tall in sorted(product(range(-_NEAR, _NEAR + 1), repeat=2), key=_change):
        grown = Size(inner.width + wide * pitch, inner.height + tall * pitch)
        if min(across + wide, down + tall) > 0 and fitting.fits(grown):
            yield f"set {across + wide} x {down + tall} blocks, {fitting.told(grown)}"
            return


def _change(blocks: tuple[int, ...]) -> tuple[int, bool, int]:
    """The least change first, of equal ones the one that adds."""
    return abs(blocks[0]) + abs(blocks[1]), sum(blocks) < 0, blocks[0]


def _outward(step: Fraction, most: Fraction) -> Iterator[Fraction]:
    """Steps less and more in turn, as far as ``most``."""
    for number in range(1, int(most / step) + 1):
        yield from (-number * step, number * step)


def _by_inside(fitting: _Fitting) -> str:
    near = _nearest_inside(fitting.inner, fitting.lengths)
    size = f"{fitting.show(near.width)} x {fitting.show(near.height)}"
    return f"change what lies inside it to {size}, {fitting.told(near)}"


def _told(across: int, down: int) -> str:
    """``for 7 along each side``, ``for 7 along the top and 5 along the side``."""
    if across == down:
        return f"for {across} along each side"
    return f"for {across} along the top and {down} along the side"


def _coping(design: Design, inner: Size, lengths: Sequence[Fraction]) -> Fraction | None:
    """The least width of a plain border all round after which the units fit, up to two motifs."""
    reach = inner.width + 4 * sum(lengths)
    for total in accumulate(cycle(lengths)):
        width = (total - inner.width) / 2
        if total > reach:
            return None
        around = replace(inner, height=inner.height + 2 * width)
        if width > 0 and _on_ruler(design, width) and fits(lengths, around.height):
            return width
    raise AssertionError("a cycle has no end")


def _unit_lengths(design: Design, inner: Size, lengths: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """The next shorter and longer length on the ruler that divides both sides."""
    if len(set(lengths)) > 1:
        return ()
    most = _common(inner.width, inner.height)
    whole = (most / n for n in range(1, MOST_PLACES + 1))
    able = [length for length in whole if _on_ruler(design, length)]
    shorter = max((length for length in able if length < lengths[0]), default=None)
    longer = min((length for length in able if length > lengths[0]), default=None)
    near = (n for n in (shorter, longer) if n is not None)
    return tuple(n for n in near if lengths[0] / 2 <= n <= 2 * lengths[0])


def _nearest_inside(inner: Size, lengths: Sequence[Fraction]) -> Size:
    """The nearest width and height inside that the units fill."""

    def nearest(old: Fraction) -> Fraction:
        able = (side.length for side in counts(lengths, old) if side.count)
        return min(able, key=lambda length: abs(length - old))

    return Size(nearest(inner.width), nearest(inner.height))


def fits(lengths: Sequence[Fraction], side: Fraction) -> bool:
    return counts(lengths, side)[0].length == side


def _on_ruler(design: Design, finished: Fraction) -> bool:
    return ((finished + 2 * design.seam) / design.measure.step).denominator == 1


def _common(first: Fraction, second: Fraction) -> Fraction:
    """The largest length that divides both."""
    top = gcd(first.numerator * second.denominator, second.numerator * first.denominator)
    return Fraction(top, first.denominator * second.denominator)
