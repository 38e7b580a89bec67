"""The pattern's pictures and booklets as files beside its page.

In: the scene of every size's top, booklets. Out: files by name, the picture that the page shows for
each choice, and links for readers who want the files.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pieceproof.booklet.editions import Copy, Edition, Paper
from pieceproof.compile import Pattern, Sized
from pieceproof.diagrams.legible import scale_of
from pieceproof.diagrams.palette import palette
from pieceproof.diagrams.photographed import photographed
from pieceproof.drawing.raster import to_png
from pieceproof.drawing.scene import Scene
from pieceproof.drawing.style import Look
from pieceproof.drawing.svg import to_svg
from pieceproof.model import Design
from pieceproof.pages.choices import Variant, variants
from pieceproof.pages.chooser import Axes
from pieceproof.pages.pictures import Pictured, pictured
from pieceproof.pages.tokens import token
from pieceproof.swatches import Print

WIDTH_PX = 900
PNG_WIDTH_PX = 900

_LABELS = {
    Look.COLOUR: "Picture in colour",
    Look.INK: "Picture in black and white, hatched",
    Look.OUTLINE: "Outlines to colour in",
}


@dataclass(frozen=True)
class Link:
    """A file to download."""

    href: str
    label: str


@dataclass(frozen=True)
class Picture:
    """One top in one look; ``colourway`` is empty where there are no colours."""

    size: str
    colourway: str
    look: Look
    scene: Scene
    svg: str

    @property
    def stem(self) -> str:
        """The file's name without its ending."""
        last = self.colourway if self.look is Look.COLOUR else self.look.value
        return f"top-{token(self.size)}-{token(last)}"


def pictures(
    designs: Sequence[Design], tops: Mapping[str, Scene], prints: Mapping[str, Print]
) -> tuple[Picture, ...]:
    """The top of every size in every colourway, and once each hatched and in outlines."""
    return tuple(
        picture for design in designs for picture in _of_size(design, tops[design.size], prints)
    )


def picture_files(
    pictures: Sequence[Picture],
) -> tuple[Mapping[str, bytes], tuple[str, ...]]:
    """The pictures as files; PNG only in colour, and why there is none."""
    files: dict[str, bytes] = {}
    faults: dict[str, None] = {}
    for picture in pictures:
        files[f"{picture.stem}.svg"] = picture.svg.encode()
        if picture.look is Look.COLOUR:
            png, problems = to_png(picture.svg, PNG_WIDTH_PX)
            faults |= dict.fromkeys(problems)
            if png:
                files[f"{picture.stem}.png"] = png
    return files, tuple(faults)


def shown(axes: Axes, pictures: Sequence[Picture]) -> tuple[Variant[Pictured], ...]:
    """The picture for each choice."""
    return variants(
        (axes.size, axes.colourway),
        (
            (
                (token(picture.size), token(picture.colourway)),
                pictured(picture.scene, picture.svg, f"{picture.stem}.svg"),
            )
            for picture in pictures
            if picture.look is Look.COLOUR
        ),
    )


def hatched(axes: Axes, pictures: Sequence[Picture]) -> tuple[Variant[Pictured], ...]:
    """The picture for paper, of each size."""
    inked = (picture for picture in pictures if picture.look is Look.INK)
    cases = (
        ((token(picture.size),), pictured(picture.scene, picture.svg, f"{picture.stem}.svg"))
        for picture in inked
    )
    return variants((axes.size,), cases)


def links(
    axes: Axes, pictures: Sequence[Picture], files: Collection[str]
) -> tuple[Variant[tuple[Link, ...]], ...]:
    """Links to the files of each choice."""
    cases = (
        ((token(size), option.token), tuple(_links(_pick(pictures, size, option.token), files)))
        for size in dict.fromkeys(picture.size for picture in pictures)
        for option in axes.colourway.options
    )
    return variants((axes.size, axes.colourway), cases)


def booklet_files(pattern: Pattern, booklets: Mapping[str, bytes]) -> Mapping[str, bytes]:
    """Those of one pattern, by name."""
    names = (name for size in pattern.sizes for name in _booklets_of(pattern, size))
    return {name: booklets[name] for name in names if name in booklets}


def booklet_links(
    axes: Axes, pattern: Pattern, booklets: Mapping[str, bytes]
) -> tuple[Variant[tuple[Link, ...]], ...]:
    """Links to the booklets of each size."""
    cases = (
        (
            (token(sized.design.size),),
            tuple(
                Link(name, label)
                for name, label in _booklets_of(pattern, sized).items()
                if name in booklets
            ),
        )
        for sized in pattern.sizes
    )
    return variants((axes.size,), cases)


def _booklets_of(pattern: Pattern, sized: Sized) -> Mapping[str, str]:
    """The names of the files that a size may have, and what links to them say."""
    copies = (Copy(edition, paper) for edition in Edition for paper in Paper)
    size = sized.design.size
    return {copy.file_name(pattern.slug, size): copy.label for copy in copies}


def _pick(pictures: Sequence[Picture], size: str, colourway: str) -> Iterator[Picture]:
    for picture in pictures:
        if picture.size == size and token(picture.colourway) in ("", colourway):
            yield picture


def _links(pictures: Iterable[Picture], files: Collection[str]) -> Iterator[Link]:
    for picture in pictures:
        for kind in ("svg", "png"):
            name = f"{picture.stem}.{kind}"
            if name in files:
                yield Link(name, f"{_LABELS[picture.look]}, {kind.upper()}")


def _of_size(design: Design, top: Scene, prints: Mapping[str, Print]) -> Iterator[Picture]:
    scale = scale_of(top, WIDTH_PX)
    for key in design.colourways:
        shown = photographed(design, key, prints, scale)
        svg = to_svg(top, Look.COLOUR, "top", WIDTH_PX, palette(design, key), shown)
        yield Picture(design.size, key, Look.COLOUR, top, svg)
    for look in (Look.INK, Look.OUTLINE):
        yield Picture(design.size, "", look, top, to_svg(top, look, "top", WIDTH_PX))
