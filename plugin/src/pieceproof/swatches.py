"""Photographs of cloths, made safe and small.

In: the designs and the bytes of a pattern's files. Out: for each cloth with a photograph its print,
and problems. A photograph is a file of the pattern's own folder, named without a path; it is
decoded as PNG or JPEG and nothing else, with a limit on bytes and pixels, and written anew, so that
what reaches a page holds nothing but its pixels.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO

from PIL import Image, UnidentifiedImageError
from quicktions import Fraction

from pieceproof.model import Cloth, Design
from pieceproof.problems import Problem, nearest
from pieceproof.wording import quoted

MOST_BYTES = 1024 * 1024
MOST_PIXELS = 4000 * 4000
SHOWN_PX = 320
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*\.(png|jpg|jpeg)")


@dataclass(frozen=True)
class Print:
    """A cloth's photograph as a PNG file, and how wide and high the cloth in it is."""

    file: str
    data: bytes
    width: Fraction
    height: Fraction


def prints_of(
    designs: Sequence[Design], files: Mapping[str, bytes]
) -> tuple[Mapping[str, Print], tuple[Problem, ...]]:
    """The prints by cloth; cloths are the same in all sizes."""
    found: dict[str, Print] = {}
    problems: list[Problem] = []
    for name, cloth in designs[0].cloths.items() if designs else ():
        for outcome in _print(name, cloth, files):
            if isinstance(outcome, Print):
                found[name] = outcome
            else:
                problems.append(outcome)
    return found, tuple(problems)


def decoded(data: bytes) -> Image.Image | None:
    """The picture in plain colours and at most so large; None if these bytes are none."""
    if len(data) > MOST_BYTES:
        return None
    try:
        with Image.open(BytesIO(data), formats=("PNG", "JPEG")) as picture:
            if picture.width * picture.height > MOST_PIXELS:
                return None
            plain = picture.convert("RGB")
    except (UnidentifiedImageError, Image.DecompressionBombError, OSError, ValueError, SyntaxError):
        return None
    plain.thumbnail((SHOWN_PX, SHOWN_PX))
    return plain


def _print(name: str, cloth: Cloth, files: Mapping[str, bytes]) -> Iterator[Print | Problem]:
    swatch = cloth.swatch
    if swatch is None:
        return
    if _NAME.fullmatch(swatch.file) is None or swatch.file not in files:
        yield _missing(cloth, swatch.file, files)
        return
    picture = decoded(files[swatch.file])
    if picture is None:
        yield _unreadable(cloth, swatch.file)
        return
    out = BytesIO()
    picture.save(out, "PNG", optimize=True)
    height = swatch.width * picture.height / picture.width
    yield Print(f"print-{name.replace(' ', '_')}.png", out.getvalue(), swatch.width, height)


def _missing(cloth: Cloth, file: str, files: Mapping[str, bytes]) -> Problem:
    pictures = [known for known in files if _NAME.fullmatch(known)]
    near = nearest(file, pictures)
    return Problem(
        cloth.at["swatch"],
        "no-swatch",
        f"a photograph {quoted(file)} that is not in the pattern's folder",
        "the name, without a path, of a PNG or JPEG file beside `pattern.yaml`",
        f"write {quoted(near)}" if near else "put the file there, or delete `swatch`",
    )


def _unreadable(cloth: Cloth, file: str) -> Problem:
    return Problem(
        cloth.at["swatch"],
        "bad-swatch",
        f"{quoted(file)}, which cannot be shown",
        f"a PNG or JPEG picture of at most {MOST_BYTES // 1024} KB and 16 million pixels",
        "save it again from a picture program, smaller",
    )
