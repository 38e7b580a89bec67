"""Names and widths as words of a page's markup; different ones stay different."""

from quicktions import Fraction


def token(name: str) -> str:
    """A name of the pattern's file, which holds no underscores, without its spaces.

    >>> token("one size")
    'one_size'
    """
    return name.replace(" ", "_")


def width_token(width: Fraction) -> str:
    """A usable width.

    >>> width_token(Fraction(81, 2))
    '81-2'
    """
    return str(width).replace("/", "-")
