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

from pieceproof.lengths import show_fraction
from pieceproof.model import Cloth, Design, Measure, Swatch
from pieceproof.problems import Problem, nearest
from pieceproof.wording import quoted

MOST_BYTES = 1024 * 1024
MOST_PIXELS = 4000 * 4000
SHOWN_PX = 320
QUALITY = 88
"""Of a JPEG, where no more of it can be seen in a cloth of this size."""
NARROWEST = Fraction(1, 4)
"""Of cloth in a photograph; a narrower repeat would only be a colour in a drawing."""
WIDEST = {Measure.INCH: Fraction(48), Measure.CENTIMETRE: Fraction(120)}
"""More than is between the selvages of most cloth."""
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*\.(png|jpg|jpeg)")


@dataclass(frozen=True)
class PictureFile:
    """A picture as PNG or JPEG, whichever is smaller."""

    kind: str
    data: bytes


@dataclass(frozen=True)
class Print:
    """A cloth's photograph, made small, and how wide and high the cloth in it is."""

    name: str
    picture: PictureFile
    width: Fraction
    height: Fraction

    @property
    def file(self) -> str:
        """The picture's name as a file."""
        return f"{self.name}.{self.picture.kind}"


def prints_of(
    designs: Sequence[Design], files: Mapping[str, bytes]
) -> tuple[Mapping[str, Print], tuple[Problem, ...]]:
    """The prints by cloth; cloths are the same in all sizes."""
    found: dict[str, Print] = {}
    problems: list[Problem] = []
    for name, cloth in designs[0].cloths.items() if designs else ():
        for outcome in _print(name, cloth, files, WIDEST[designs[0].measure]):
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


def shrunk(picture: PictureFile, width_px: int) -> PictureFile:
    """The picture at most so many pixels wide; what is smaller already stays as it is."""
    with Image.open(BytesIO(picture.data), formats=("PNG", "JPEG")) as opened:
        if opened.width <= width_px:
            return picture
        size = (max(1, width_px), max(1, round(opened.height * width_px / opened.width)))
        return _filed(opened.convert("RGB").resize(size, Image.Resampling.LANCZOS))


def _filed(picture: Image.Image) -> PictureFile:
    files = (_written(picture, "png", optimize=True), _written(picture, "jpeg", quality=QUALITY))
    return min(files, key=lambda file: len(file.data))


def _written(picture: Image.Image, kind: str, **options: int) -> PictureFile:
    out = BytesIO()
    picture.save(out, kind, **options)
    return PictureFile(kind, out.getvalue())


def _print(
    name: str, cloth: Cloth, files: Mapping[str, bytes], widest: Fraction
) -> Iterator[Print | Problem]:
    swatch = cloth.swatch
    if swatch is None:
        return
    if _NAME.fullmatch(swatch.file) is None or swatch.file not in files:
        yield _missing(cloth, swatch.file, files)
        return
    if not NARROWEST <= swatch.width <= widest:
        yield _of_no_cloth(swatch, widest)
        return
    picture = decoded(files[swatch.file])
    if picture is None:
        yield _unreadable(cloth, swatch.file)
        return
    height = swatch.width * picture.height / picture.width
    yield Print(f"print-{name.replace(' ', '_')}", _filed(picture), swatch.width, height)


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


def _of_no_cloth(swatch: Swatch, widest: Fraction) -> Problem:
    return Problem(
        swatch.at["width"],
        "bad-swatch",
        f"{quoted(show_fraction(swatch.width))} as the width of a photographed cloth",
        f"{show_fraction(NARROWEST)} to {show_fraction(widest)}",
        "lay a ruler on the cloth and measure how wide a piece of it the photograph shows",
    )
