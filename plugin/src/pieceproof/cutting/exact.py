"""Matrices of whole numbers: the inverse over a common denominator, and residues modulo columns.

Goes in: a square matrix as rows of ints. Comes out: whole numbers only.
"""

from math import gcd
from typing import NamedTuple

Matrix = list[list[int]]


class Residues(NamedTuple):
    """Two vectors differ by whole multiples of the matrix's columns just when all their residues
    are equal: residue i is rows[i] times the vector, modulo moduli[i].
    """

    moduli: tuple[int, ...]
    rows: tuple[tuple[int, ...], ...]


def inverse_of(matrix: Matrix) -> tuple[Matrix, int] | None:
    """(whole matrix, scale above 0) whose quotient is the inverse; None where there is none.

    Elimination without fractions: Bareiss, Math. Comp. 22 (1968) 565-578.
    """
    size, before = len(matrix), 1
    work = [[*row, *(int(i == j) for j in range(size))] for i, row in enumerate(matrix)]
    for place in range(size):
        chosen = next((row for row in range(place, size) if work[row][place]), None)
        if chosen is None:
            return None
        if chosen != place:
            work[place], work[chosen] = work[chosen], [-entry for entry in work[place]]
        clean = work[place]
        pivot = clean[place]
        for row in range(size):
            if row != place:
                factor = work[row][place]
                work[row] = [
                    (pivot * a - factor * b) // before
                    for a, b in zip(work[row], clean, strict=True)
                ]
        before = pivot
    common = gcd(before, *(entry for row in work for entry in row[size:]))
    common = common if before > 0 else -common
    return [[entry // common for entry in row[size:]] for row in work], before // common


def residues_of(matrix: Matrix, scale: int) -> Residues:
    """Smith's normal form (H. J. S. Smith, Phil. Trans. 151 (1861) 293-326), rows alone kept.

    `scale` is the common denominator of the inverse, a multiple of every modulus.
    """
    size = len(matrix)
    work = [list(row) for row in matrix]
    kept = [[int(i == j) for j in range(size)] for i in range(size)]
    found: list[tuple[int, tuple[int, ...]]] = []
    for place in range(size):
        while not _cleared(work, kept, place, scale):
            pass
        modulus = abs(work[place][place])
        if modulus > 1:
            found.append((modulus, tuple(entry % modulus for entry in kept[place])))
    return Residues(tuple(m for m, _ in found), tuple(row for _, row in found))


def _cleared(work: Matrix, kept: Matrix, place: int, scale: int) -> bool:
    """One round of elimination with the smallest entry; whether its row and column are clear."""
    size = len(work)
    _, row, column = min(
        (abs(work[i][j]), i, j)
        for i in range(place, size)
        for j in range(place, size)
        if work[i][j]
    )
    work[place], work[row] = work[row], work[place]
    kept[place], kept[row] = kept[row], kept[place]
    for entries in work:
        entries[place], entries[column] = entries[column], entries[place]
    pivot = work[place][place]
    for i in range(place + 1, size):
        if times := work[i][place] // pivot:
            work[i] = [a - times * b for a, b in zip(work[i], work[place], strict=True)]
            kept[i] = [(a - times * b) % scale for a, b in zip(kept[i], kept[place], strict=True)]
    for j in range(place + 1, size):
        if times := work[place][j] // pivot:
            for entries in work:
                entries[j] -= times * entries[place]
    return not any(work[i][place] or work[place][i] for i in range(place + 1, size))
