"""What vectors of pieces leave when whole fillings of a vertex are taken out of them.

Goes in: a vertex. Comes out: for a vector one whole number of 63 bits, its remainder; two vectors
differ by whole multiples of the vertex's fillings only if their remainders are equal (the group of
Gomory, Linear Algebra Appl. 2 (1969) 451-558, packed field by field). Arrays of remainders are
added in one stroke.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pieceproof.cutting.exact import residues_of
from pieceproof.cutting.relaxed import Vector, Vertex

Ints = NDArray[np.int64]
BITS = 62


class Field(NamedTuple):
    """A residue: `row` times the vector modulo `modulus`, kept from bit `shift` on."""

    modulus: int
    row: tuple[int, ...]
    shift: int


class Remainders(NamedTuple):
    """`guard` is the top bit of every field, `bias` guard - modulus in every field.

    Where not all residues find room, equal remainders are necessary and not sufficient.
    """

    fields: tuple[Field, ...]
    guard: int
    bias: int

    def of(self, vector: Vector) -> int:
        """The remainder of one vector."""
        total = 0
        for modulus, row, shift in self.fields:
            total |= (sum(row[place] * n for place, n in vector.items()) % modulus) << shift
        return total

    def of_all(self, vectors: Ints) -> Ints:
        """The remainders of vectors, one in each row."""
        total = np.zeros(len(vectors), np.int64)
        for modulus, row, shift in self.fields:
            residue = np.zeros(len(vectors), np.int64)
            for place, entry in enumerate(row):
                residue = (residue + vectors[:, place] * (entry % modulus)) % modulus
            total |= residue << shift
        return total

    def sums(self, one: Ints, other: Ints) -> Ints:
        """The remainders of sums of vectors."""
        return self._reduced(one + other)

    def left(self, whole: int, taken: Ints) -> Ints:
        """The remainders of what is left of a whole when vectors are taken out of it."""
        moduli = sum(modulus << shift for modulus, _, shift in self.fields)
        return self._reduced(whole + moduli - taken)

    def _reduced(self, total: Ints) -> Ints:
        over = (total + self.bias) & self.guard
        for modulus, _, shift in self.fields:
            top = shift + modulus.bit_length()
            total = total - ((over >> top) & 1) * (modulus << shift)
        return total


def remainders_of(vertex: Vertex) -> Remainders:
    """The remainders of a vertex; the largest residues come first."""
    rows = range(len(vertex.basis))
    matrix = [[vector.get(row, 0) for vector in vertex.vectors] for row in rows]
    found = residues_of(matrix, vertex.scale)
    fields: list[Field] = []
    guard = bias = used = 0
    for modulus, row in sorted(zip(found.moduli, found.rows, strict=True), reverse=True):
        top = used + modulus.bit_length()
        if top < BITS:
            fields.append(Field(modulus, row, used))
            guard += 1 << top
            bias += (1 << top) - (modulus << used)
            used = top + 1
    return Remainders(tuple(fields), guard, bias)
