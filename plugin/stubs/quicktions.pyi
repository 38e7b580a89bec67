"""quicktions is the standard library's fractions, compiled; so are its types."""

from fractions import Fraction as Fraction
