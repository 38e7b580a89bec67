"""Names of the file as words of a page's markup."""


def token(name: str) -> str:
    """A name without spaces; different names stay different, as names hold no underscores.

    >>> token("one size")
    'one_size'
    """
    return name.replace(" ", "_")
