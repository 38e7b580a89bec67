"""Exact lengths: what a ruler shows, and the square roots that diagonal seams bring in.

In: text such as ``3 1/4`` and exact numbers. Out: exact numbers, their text, and ruler steps.
A length is a `Fraction` whenever it is rational; otherwise it is a `Surd`, a sum of rational
multiples of square roots. No float takes part until `float()` is called for a drawing.
Lengths carry no unit: a pattern states its unit once (inch or centimetre).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from math import gcd, isqrt, sqrt
from typing import TypeAlias

from quicktions import Fraction

Number: TypeAlias = "Fraction | Surd"

_LENGTH = re.compile(r"(?:(\d+)(?: +(\d+)/(\d+))?|(\d+)/(\d+)|(\d+)\.(\d+))\Z")


class Surd:
    """An irrational number a + b*sqrt(m) + c*sqrt(n) + ..., exact.

    ``terms`` maps square-free radicands to non-zero coefficients; radicand 1 is the rational
    part. Results of arithmetic that turn out rational come back as `Fraction`. Square roots of
    different square-free integers are linearly independent over the rationals (Besicovitch
    1940), so equality is equality of terms, and a sign can always be decided.
    """

    __slots__ = ("_near", "terms")

    def __init__(self, terms: tuple[tuple[int, Fraction], ...]) -> None:
        self.terms = terms
        self._near: tuple[float, float] | None = None

    def __repr__(self) -> str:
        return f"Surd({show_exact(self)})"

    def __hash__(self) -> int:
        return hash(self.terms)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Surd) and self.terms == other.terms

    def __neg__(self) -> Surd:
        return Surd(tuple([(n, -c) for n, c in self.terms]))

    def __add__(self, other: Number | int) -> Number:
        if not isinstance(other, Surd):
            return self._plus(other)
        total = dict(self.terms)
        for n, c in other.terms:
            total[n] = total[n] + c if n in total else c
        return _number(total)

    def _plus(self, other: Fraction | int) -> Surd:
        """The sum with a rational, whose place is always first."""
        if not other:
            return self
        if self.terms[0][0] != 1:
            return Surd(((1, Fraction(other)), *self.terms))
        total = self.terms[0][1] + other
        return Surd(((1, total), *self.terms[1:]) if total else self.terms[1:])

    __radd__ = __add__

    def __sub__(self, other: Number | int) -> Number:
        if not isinstance(other, Surd):
            return self._plus(-other)
        total = dict(self.terms)
        for n, c in other.terms:
            total[n] = total[n] - c if n in total else -c
        return _number(total)

    def __rsub__(self, other: Number | int) -> Number:
        return -self + other

    def __mul__(self, other: Number | int) -> Number:
        if not isinstance(other, Surd):
            if other == 1:
                return self
            return Surd(tuple([(n, c * other) for n, c in self.terms])) if other else Fraction(0)
        total: dict[int, Fraction] = {}
        for n, c in self.terms:
            for m, d in other.terms:
                factor = gcd(n, m)  # Both are square-free, so what is left is so too.
                radicand = n * m // (factor * factor)
                part = c * d * factor
                total[radicand] = total[radicand] + part if radicand in total else part
        return _number(total)

    __rmul__ = __mul__

    def __truediv__(self, other: Number | int) -> Number:
        if isinstance(other, Surd):
            return self * _reciprocal(other)
        return self * (Fraction(1) / other)

    def __rtruediv__(self, other: Number | int) -> Number:
        return _reciprocal(self) * other

    def __lt__(self, other: Number | int) -> bool:
        return _order(self, other) < 0

    def __le__(self, other: Number | int) -> bool:
        return _order(self, other) <= 0

    def __gt__(self, other: Number | int) -> bool:
        return _order(self, other) > 0

    def __ge__(self, other: Number | int) -> bool:
        return _order(self, other) >= 0

    def __abs__(self) -> Surd:
        return -self if sign(self) < 0 else self

    def __float__(self) -> float:
        low, high = _bounds(self, 80)
        return float((low + high) / 2)


def square_root(square: Fraction | int) -> Number:
    """The exact square root of a rational that is not negative."""
    value = Fraction(square)
    if value < 0:
        raise ValueError(f"no real square root of {value}")
    factor, radicand = _square_part(value.numerator * value.denominator)
    return _number({radicand: Fraction(factor, value.denominator)})


def sign(value: Number | int) -> int:
    """-1, 0 or 1, decided exactly."""
    if not isinstance(value, Surd):
        return (value > 0) - (value < 0)
    near, far_off = _near(value)
    if abs(near) > far_off:
        return 1 if near > 0 else -1
    bits = 64
    while True:
        low, high = _bounds(value, bits)
        if low > 0:
            return 1
        if high < 0:
            return -1
        bits *= 2


def side_sign(a: Number, x: Number, b: Number, y: Number, c: Number) -> int:
    """The sign of ``a*x + b*y - c``, decided exactly: by floats where these leave no doubt.

    Each of the five is off by at most its own bound, and each of the four operations by 2**-53 of
    its result; what 2**-40 in every bound leaves over covers them and the products of bounds.
    """
    if not (isinstance(x, Surd) or isinstance(y, Surd) or isinstance(c, Surd)):
        return sign(a * x + b * y - c)
    (p, p_off), (q, q_off), (r, r_off) = _near(a), _near(b), _near(c)
    (u, u_off), (v, v_off) = _near(x), _near(y)
    off = 2 * (p_off * abs(u) + abs(p) * u_off + q_off * abs(v) + abs(q) * v_off + r_off)
    value = p * u + q * v - r
    if abs(value) > off:
        return 1 if value > 0 else -1
    return sign(a * x + b * y - c)


def magnitude(value: Number) -> Number:
    """The value without its sign."""
    return -value if sign(value) < 0 else value


def floor_to(value: Number, step: Fraction) -> Fraction:
    """The largest multiple of ``step`` that is not above ``value``."""
    ratio = value / step
    if not isinstance(ratio, Surd):
        return (ratio.numerator // ratio.denominator) * step
    bits = 64
    while True:
        low, high = (b.numerator // b.denominator for b in _bounds(ratio, bits))
        if low == high:
            return low * step
        bits *= 2


def ceil_to(value: Number, step: Fraction) -> Fraction:
    """The smallest multiple of ``step`` that is not below ``value``."""
    return -floor_to(-value, step)


def parse_length(text: str) -> Fraction | None:
    """``10``, ``3 1/4``, ``7/8`` or ``2.5`` as an exact number; None for anything else."""
    match = _LENGTH.match(text.strip())
    if match is None:
        return None
    whole, num, den, only_num, only_den, units, decimals = match.groups()
    if units is not None:
        return Fraction(int(units + decimals), 10 ** len(decimals))
    top, bottom = (only_num, only_den) if only_den else (num or "0", den or "1")
    if int(bottom) == 0:
        return None
    return int(whole or 0) + Fraction(int(top), int(bottom))


def show_fraction(value: Fraction) -> str:
    """A mixed fraction as the trade writes it: ``3 1/4``, ``7/8``, ``10``."""
    whole, rest = divmod(abs(value), 1)
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{rest.numerator}/{rest.denominator}")
    return ("-" if value < 0 else "") + " ".join(parts)


def show_decimal(value: Fraction) -> str:
    """A decimal without trailing zeros, for metric lengths on a decimal grid: ``7.5``."""
    scaled = value * 1000
    if scaled.denominator != 1:
        return show_fraction(value)
    return f"{scaled.numerator / 1000:.3f}".rstrip("0").rstrip(".")


def show_exact(value: Number) -> str:
    """The exact value with its roots spelled out: ``3 1/2 + 1/4 root 2``."""
    if not isinstance(value, Surd):
        return show_fraction(value)
    words = []
    for radicand, coefficient in value.terms:
        body = show_fraction(abs(coefficient))
        if radicand != 1:
            body = f"root {radicand}" if body == "1" else f"{body} root {radicand}"
        words.append((coefficient < 0, body))
    first = ("-" if words[0][0] else "") + words[0][1]
    return first + "".join(f" {'-' if minus else '+'} {body}" for minus, body in words[1:])


def _near(value: Number | int) -> tuple[float, float]:
    """The value as a binary float, and more than that can be off.

    Each of at most three roundings per term and one per sum is off by at most 2**-53 of the terms'
    sizes added up; 2**-40 of them leaves room for two thousand terms.
    """
    if not isinstance(value, Surd):
        near = value.numerator / value.denominator
        return near, abs(near) * 2**-40
    if value._near is None:
        parts = [c.numerator / c.denominator * sqrt(n) for n, c in value.terms]
        value._near = sum(parts), sum(map(abs, parts)) * 2**-40
    return value._near


def _order(first: Surd, second: Number | int) -> int:
    """-1, 0 or 1 as the first is less, equal or more: by floats where these leave no doubt."""
    (near, off), (other, other_off) = _near(first), _near(second)
    if abs(near - other) > 2 * (off + other_off):
        return 1 if near > other else -1
    return sign(first - second)


def _number(total: Mapping[int, Fraction]) -> Number:
    terms = tuple(sorted([term for term in total.items() if term[1]]))
    if not terms:
        return Fraction(0)
    if len(terms) == 1 and terms[0][0] == 1:
        return terms[0][1]
    return Surd(terms)


@cache
def _square_part(value: int) -> tuple[int, int]:
    """``value = factor**2 * radicand`` with a square-free radicand."""
    factor, radicand, divisor = 1, value, 2
    while divisor * divisor <= radicand:
        while radicand % (divisor * divisor) == 0:
            radicand //= divisor * divisor
            factor *= divisor
        divisor += 1
    return factor, radicand


def _bounds(value: Surd, bits: int) -> tuple[Fraction, Fraction]:
    """Rational numbers on either side of ``value``, closer as ``bits`` grows."""
    scale = 1 << bits
    low = high = Fraction(0)
    for radicand, coefficient in value.terms:
        root = isqrt(radicand * scale * scale)
        exact = root * root == radicand * scale * scale
        ends = (
            coefficient * Fraction(root, scale),
            coefficient * Fraction(root + 1 - exact, scale),
        )
        low += min(ends)
        high += max(ends)
    return low, high


def _reciprocal(value: Surd) -> Number:
    """1 / value, by clearing one prime of the radicands after the other."""
    numerator: Number = Fraction(1)
    denominator: Number = value
    while isinstance(denominator, Surd):
        prime = _smallest_prime(denominator)
        mirror = Surd(tuple((n, -c if n % prime == 0 else c) for n, c in denominator.terms))
        numerator = numerator * mirror
        denominator = denominator * mirror
    return numerator / denominator


def _smallest_prime(value: Surd) -> int:
    radicand = next(n for n, _ in value.terms if n > 1)
    return next((p for p in range(2, isqrt(radicand) + 1) if radicand % p == 0), radicand)
