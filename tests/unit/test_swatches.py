"""Photographs of cloths: what is taken, what is refused, what reaches a page."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image
from quicktions import Fraction
from small_shop import PLAIN

from pieceproof.compile import Pattern, compile_pattern
from pieceproof.swatches import MOST_BYTES, SHOWN_PX, decoded


def picture(kind: str, width: int = 40, height: int = 30) -> bytes:
    out = BytesIO()
    Image.new("RGB", (width, height), "#336699").save(out, kind)
    return out.getvalue()


def compiled(file: str, files: dict[str, bytes]) -> Pattern:
    text = PLAIN.replace(
        'colour: "#eceae1"}', f'colour: "#eceae1", swatch: {{file: "{file}", width: 2}}}}'
    )
    return compile_pattern("eddy-runner", {"pattern.yaml": text.encode(), **files})


@pytest.mark.parametrize(("file", "kind"), [("mist.png", "PNG"), ("mist.jpg", "JPEG")])
def test_a_photograph_keeps_its_scale(file: str, kind: str) -> None:
    """40 x 30 pixels of cloth 2 wide: 1 1/2 high."""
    pattern = compiled(file, {file: picture(kind)})
    assert not pattern.problems
    found = pattern.prints["mist"]
    assert (found.width, found.height) == (2, Fraction(3, 2))
    assert (found.file, found.picture.data[:4]) == ("print-mist.png", b"\x89PNG")


@pytest.mark.parametrize(
    "file",
    ["../mist.png", "/etc/mist.png", "sub/mist.png", "mist.webp", "mist.svg", "mist", ".mist.png"],
)
def test_only_a_plain_name_of_the_folder_will_do(file: str) -> None:
    pattern = compiled(file, {file: picture("PNG")})
    assert [problem.code for problem in pattern.problems] == ["no-swatch"]


def test_a_misspelt_name_is_guessed() -> None:
    (problem,) = compiled("mst.png", {"mist.png": picture("PNG")}).problems
    assert problem.remedy == "write `mist.png`"


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        picture("GIF"),
        picture("PNG")[:60],
        picture("JPEG")[:200],
        picture("PNG", 4001, 4000),
        b"\x89PNG\r\n\x1a\n" + b"\0" * MOST_BYTES,
    ],
    ids=["empty", "svg", "gif", "cut png", "cut jpeg", "huge", "heavy"],
)
def test_what_is_no_small_picture_is_refused(data: bytes) -> None:
    pattern = compiled("mist.png", {"mist.png": data})
    assert [problem.code for problem in pattern.problems] == ["bad-swatch"]


@pytest.mark.parametrize("width", ["1/1000", "48 1/2"])
def test_a_width_that_no_photograph_shows_is_refused(width: str) -> None:
    """A repeat of a thousandth of an inch would be too small for any drawing to show."""
    swatch = f'swatch: {{file: "mist.png", width: {width}}}'
    text = PLAIN.replace('colour: "#eceae1"}', f'colour: "#eceae1", {swatch}}}')
    files = {"pattern.yaml": text.encode(), "mist.png": picture("PNG")}
    (problem,) = compile_pattern("eddy-runner", files).problems
    assert (problem.code, problem.found.split("`")[1]) == ("bad-swatch", width)


def test_a_noisy_photograph_is_kept_as_the_smaller_file() -> None:
    """What a camera sees of woven cloth has no two pixels alike: a JPEG says it in less."""
    out = BytesIO()
    Image.effect_noise((300, 300), 60).save(out, "PNG")
    found = compiled("mist.png", {"mist.png": out.getvalue()}).prints["mist"]
    assert found.file == "print-mist.jpeg"
    assert len(found.picture.data) < len(out.getvalue())


def test_nothing_but_pixels_goes_on_the_page() -> None:
    out = BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "where this was taken"
    Image.new("RGB", (2000, 1000), "#336699").save(out, "JPEG", exif=exif)
    pattern = compiled("mist.jpg", {"mist.jpg": out.getvalue()})
    data = pattern.prints["mist"].picture.data
    assert b"where this was taken" not in data
    with Image.open(BytesIO(data)) as shown:
        assert shown.size == (SHOWN_PX, SHOWN_PX // 2)


def test_the_same_photograph_gives_the_same_bytes() -> None:
    data = picture("JPEG", 700, 500)
    one, two = decoded(data), decoded(data)
    assert one is not None
    assert two is not None
    assert one.tobytes() == two.tobytes()
