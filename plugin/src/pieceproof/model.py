"""The design of one size of one pattern, as its writer states it.

These frozen classes are the file format: `reading` fills them from YAML by their annotations
and `schema` turns the same annotations into a JSON Schema. A field is a key of the file exactly
if its annotation describes it; the key is the field's name with spaces for underscores. Every
length is a *finished* size in the pattern's own unit unless the field's name says ``cut``.
Nothing is optional after reading: defaults are filled in.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Annotated, NewType, TypeAlias

from quicktions import Fraction

from pieceproof.lengths import show_decimal, show_fraction
from pieceproof.problems import Place

FabricName = NewType("FabricName", str)
"""The name of a part that a fabric plays, declared under ``fabrics``."""

ClothName = NewType("ClothName", str)
"""The name of a real cloth, declared under ``cloths``."""

Colour = NewType("Colour", str)
"""A colour as ``#rrggbb``."""

NOWHERE = Place("", 1, 1)

MOST_PLANNING_EFFORT = 60


@dataclass(frozen=True)
class AtMost:
    """The largest number, or the most characters, items or entries, that make sense."""

    count: int


@dataclass(frozen=True)
class AtLeast:
    """The fewest items or entries that make sense."""

    count: int


@dataclass(frozen=True)
class ZeroToo:
    """A length that may be nothing."""


@dataclass(frozen=True)
class Example:
    """What to write, for messages; for a mapping a name in it."""

    text: str


@dataclass(frozen=True)
class Chosen:
    """One of several classes; this key of the file says which, ``usual`` where it is left out."""

    key: str
    usual: str = ""


@dataclass(frozen=True)
class Places:
    """Where a part of the file stands: the key that introduces it, or the start of a list item.

    ``of`` gives the place of each key's value, ``keys`` that of each key. Below a key, entries and
    items (counted from 1) are found with a slash: ``parts/ground``, ``columns/2``.
    """

    here: Place = NOWHERE
    of: Mapping[str, Place] = field(default_factory=dict)
    keys: Mapping[str, Place] = field(default_factory=dict)

    def __getitem__(self, key: str) -> Place:
        return self.of.get(key, self.here)

    def key(self, key: str) -> Place:
        """Where the key itself stands."""
        return self.keys.get(key, self.here)


@dataclass(frozen=True)
class Node:
    """Part of a model that knows its place in the file."""

    at: Places = field(kw_only=True, default_factory=Places, compare=False, repr=False)


class Measure(Enum):
    """The unit of every length of a pattern."""

    INCH = "inch"
    CENTIMETRE = "centimetre"

    @property
    def step(self) -> Fraction:
        """The ruler's grid: 1/8 in or 1 mm."""
        return Fraction(1, 8) if self is Measure.INCH else Fraction(1, 10)

    def show(self, length: Fraction) -> str:
        """A length as written in this unit: ``3 1/4`` in inches, ``7.5`` in centimetres."""
        return show_fraction(length) if self is Measure.INCH else show_decimal(length)

    def usual(self, inches: Fraction, centimetres: Fraction) -> Fraction:
        """What is customary in this unit, where a pattern does not say."""
        return inches if self is Measure.INCH else centimetres


class Value(Enum):
    """How light a fabric is to the eye, where no colour says it better."""

    LIGHT = "light"
    MEDIUM = "medium"
    DARK = "dark"


class Print(Enum):
    """Whether a fabric's print has a right way up."""

    ANY = "any way up"
    DIRECTIONAL = "directional"


class BorderOrder(Enum):
    """Which pair of border strips is sewn on first."""

    SIDES_FIRST = "sides first"
    ENDS_FIRST = "top and bottom first"


SETTING_SEAMS = "setting"
"""The name of the quilt's centre among the things that are pressed."""
BORDER_SEAMS = "borders"
"""The name of the top with borders there: its seams are theirs."""


class SeamWay(Enum):
    """Where the allowances of a seam go."""

    LEFT = "left"
    RIGHT = "right"
    UP = "up"
    DOWN = "down"
    INWARD = "inward"
    OUTWARD = "outward"
    OPEN = "open"
    SPUN = "spun"
    TO_DARK = "to the dark"
    TO_LIGHT = "to the light"
    TO_ADDED = "to the added"
    FROM_ADDED = "from the added"


class SashingPlace(Enum):
    """Where sashing runs."""

    BETWEEN = "between blocks"
    AROUND = "between and around"


@dataclass(frozen=True)
class Size:
    """Width and height, finished."""

    width: Fraction
    height: Fraction


@dataclass(frozen=True)
class Amount:
    """A sum of money or another plain number, exact."""

    value: Fraction


@dataclass(frozen=True)
class Position:
    """A place in a unit, finished: how far from its left and from its top side."""

    across: Fraction
    down: Fraction


@dataclass(frozen=True)
class Cell:
    """One place of a grid: a unit, block or fabric, mirrored left to right, then turned."""

    name: str
    turn: int = 0
    mirrored: bool = False
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Lab:
    """A measured colour: CIELAB coordinates under illuminant D50, as instruments give them."""

    lightness: Fraction
    a: Fraction
    b: Fraction


Rows: TypeAlias = tuple[Annotated[tuple[Cell, ...], AtLeast(1)], ...]


@dataclass(frozen=True)
class Motif(Node):
    """How far the motifs of a print lie apart, from middle to middle."""

    across: Annotated[Fraction, "From selvage to selvage", Example("4")]
    along: Annotated[Fraction, "Along the selvage", Example("6")]


@dataclass(frozen=True)
class Fabric(Node):
    """A part that a fabric plays in the design."""

    called: Annotated[
        str,
        "What the part is called in the text, such as background",
        AtMost(60),
        Example("background"),
    ]
    value: Annotated[Value, "How light it is"] = Value.MEDIUM
    print: Annotated[Print, "Whether its print has a right way up, along the selvage"] = Print.ANY
    motif: Annotated[
        Motif | None, "The print's repeat, where each piece is to show one motif in its middle"
    ] = None


@dataclass(frozen=True)
class Swatch(Node):
    """A photograph of a cloth, seen straight on and evenly lit."""

    file: Annotated[str, "A PNG or JPEG in the pattern's folder", AtMost(100), Example("mist.jpg")]
    width: Annotated[Fraction, "How wide a piece of cloth it shows", Example("4")]


@dataclass(frozen=True)
class Cloth(Node):
    """A real cloth of the shop. ``colour`` is worked out from ``lab`` where that is given."""

    name: Annotated[str, "What the shop calls it", AtMost(60), Example("Morning Mist")]
    colour: Annotated[Colour, "Its colour as #rrggbb, unless `lab` gives it"] = Colour("")
    lab: Annotated[
        Lab | None, "Its measured colour: CIELAB lightness, a and b under D50, such as 52 18 -7"
    ] = None
    swatch: Annotated[Swatch | None, "A photograph of it"] = None


@dataclass(frozen=True)
class Colourway(Node):
    """Which cloth plays which part."""

    name: Annotated[str, "What the shop calls this colourway", AtMost(60), Example("Low Water")]
    parts: Annotated[Mapping[FabricName, ClothName], "A cloth for every fabric"]


class SeenBy(Enum):
    """Who finds a page from the pattern's own."""

    SHOP = "the shop"
    CUSTOMERS = "customers"


@dataclass(frozen=True)
class Audition(Node):
    """Cloths tried out for one or two parts, side by side on whole tops."""

    name: Annotated[str, "Its heading", AtMost(60), Example("Sashing and border")]
    candidates: Annotated[
        Mapping[FabricName, Annotated[tuple[ClothName, ...], AtLeast(1), AtMost(6)]],
        "One or two fabrics, each with the cloths to try",
        AtLeast(1),
        AtMost(2),
    ]
    colourway: Annotated[
        str | None, "The colourway that plays all other parts; the first if left out"
    ] = None
    seen_by: Annotated[SeenBy, "Who finds it from the pattern's page"] = SeenBy.SHOP


@dataclass(frozen=True)
class Unit(Node, ABC):
    """Base of the methods' own classes: a name in the file and a finished size."""

    @abstractmethod
    def fabrics(self) -> tuple[str, ...]:
        """The fabrics that the unit shows."""


@dataclass(frozen=True)
class Grid(Node):
    """Rows of cells; a block, or a unit made of units."""

    rows: Annotated[Rows, "Rows from the top, cells from the left", AtLeast(1)]
    columns: Annotated[tuple[Fraction, ...], "Column widths where no unit gives them"] = ()
    heights: Annotated[tuple[Fraction, ...], "Row heights where no unit gives them"] = ()


@dataclass(frozen=True)
class Sashing(Node):
    """Strips between the blocks."""

    fabric: Annotated[FabricName, "The fabric of the strips"]
    width: Annotated[Fraction, "Finished width"]
    cornerstones: Annotated[FabricName | None, "A fabric for squares where strips meet"] = None
    place: Annotated[SashingPlace, "Where the strips run"] = SashingPlace.BETWEEN


@dataclass(frozen=True)
class PiecedSashing(Node):
    """Units between the blocks, and others where these meet."""

    sash: Annotated[Cell, "A unit or block as it stands between two blocks side by side"]
    cornerstones: Annotated[Cell, "A unit, block or fabric for the squares where sashes meet"]
    place: Annotated[SashingPlace, "Where the sashes run"] = SashingPlace.BETWEEN


@dataclass(frozen=True)
class Setting(Node):
    """How blocks sit in the top: the rows are repeated until across and down are filled."""

    rows: Annotated[Rows, "Blocks, row by row; repeated as a motif", AtLeast(1)]
    across: Annotated[
        int | None, "Blocks in a row; the motif's own width if left out", AtMost(100)
    ] = None
    down: Annotated[int | None, "Rows; the motif's own height if left out", AtMost(100)] = None
    sashing: Annotated[Sashing | None, "Strips between the blocks"] = None
    pieced_sashing: Annotated[PiecedSashing | None, "Units between the blocks"] = None


@dataclass(frozen=True)
class SashingOnPoint(Node):
    """Strips between and around blocks on point, a square wherever two meet."""

    fabric: Annotated[FabricName, "The fabric of the strips"]
    width: Annotated[Fraction, "Finished width"]
    cornerstones: Annotated[
        FabricName | None, "The fabric of the squares; `fabric` if left out"
    ] = None


@dataclass(frozen=True)
class PiecedSashingOnPoint(Node):
    """Units between and around blocks on point, a square wherever two meet."""

    sash: Annotated[Cell, "A unit or block as it stands between two blocks of a row"]
    cornerstones: Annotated[FabricName, "The fabric of the squares"]


@dataclass(frozen=True)
class OnPoint(Node):
    """Blocks turned by an eighth to the left: full rows, and alternate blocks between them."""

    rows: Annotated[
        Rows, "Blocks of the full rows, each turned an eighth to the left; a motif", AtLeast(1)
    ]
    sides: Annotated[FabricName, "The fabric of the side setting triangles"]
    corners: Annotated[
        FabricName | None, "The fabric of the corner setting triangles; `sides` if left out"
    ] = None
    across: Annotated[
        int | None, "Blocks in a full row; the motif's own width if left out", AtMost(100)
    ] = None
    down: Annotated[int | None, "Full rows; the motif's own height if left out", AtMost(100)] = None
    alternates: Annotated[
        Rows, "Blocks between the full rows, as a motif; `rows` again if left out"
    ] = ()
    float: Annotated[
        Fraction, "How far the setting goes on beyond the blocks' tips, at least", ZeroToo()
    ] = Fraction(0)
    trim_to: Annotated[
        Size | None, "Finished width x height of the setting; the next ruler size if left out"
    ] = None
    sashing: Annotated[SashingOnPoint | None, "Strips between and around the blocks"] = None
    pieced_sashing: Annotated[
        PiecedSashingOnPoint | None, "Units between and around the blocks"
    ] = None


@dataclass(frozen=True)
class Strip(Node):
    """A strip of one fabric between other things."""

    fabric: Annotated[FabricName, "The fabric of the strip"]
    width: Annotated[Fraction, "Finished width"]


@dataclass(frozen=True)
class SetRow(Node):
    """A row of a setting whose rows differ, or a column of one whose columns do."""

    cells: Annotated[tuple[Cell, ...], "Units and blocks in order", AtLeast(1), AtMost(100)]
    times: Annotated[int, "How often the cells are repeated", AtMost(100)] = 1
    spacers: Annotated[Strip | None, "Strips between the cells"] = None
    coping: Annotated[
        FabricName | None, "A fabric for strips at both ends that make up the missing length"
    ] = None


@dataclass(frozen=True)
class UnequalRows(Node):
    """Rows with cells and a height of their own."""

    rows: Annotated[tuple[SetRow, ...], "Rows from the top", AtLeast(1), AtMost(100)]
    spacers: Annotated[Strip | None, "Strips between the rows"] = None
    sashing: None = None


@dataclass(frozen=True)
class UnequalColumns(Node):
    """Columns with cells and a width of their own."""

    columns: Annotated[tuple[SetRow, ...], "Columns from the left", AtLeast(1), AtMost(100)]
    spacers: Annotated[Strip | None, "Strips between the columns"] = None
    sashing: None = None


@dataclass(frozen=True)
class PlainRound(Node):
    """Four strips around what is there, like a border."""

    fabric: Annotated[FabricName, "The fabric of the strips"]
    width: Annotated[Fraction, "Finished width"]
    corners: Annotated[Cell | None, "A unit, block or fabric for squares in the corners"] = None


@dataclass(frozen=True)
class PiecedRound(Node):
    """Units side by side along all four sides, as many as fit."""

    unit: Annotated[Cell, "A unit or block as it stands above the centre; sides are its turns"]
    corners: Annotated[Cell, "A unit, block or fabric as it lies in the top left corner"]


@dataclass(frozen=True)
class CopingRound(Node):
    """Plain strips as wide as it takes to reach a size that the next round fits."""

    fabric: Annotated[FabricName, "The fabric of the strips"]
    to: Annotated[Size, "Finished width x height to reach"]


Round: TypeAlias = PlainRound | PiecedRound | CopingRound

ROUNDS: Mapping[str, type[Round]] = {
    "plain": PlainRound,
    "pieced": PiecedRound,
    "coping": CopingRound,
}
"""The classes of a round by its key ``round``."""


@dataclass(frozen=True)
class Medallion(Node):
    """A centre with rounds about it."""

    centre: Annotated[Cell, "The unit or block in the middle"]
    rounds: Annotated[
        tuple[Annotated[Round, Chosen("round")], ...],
        "Rounds from the inside out",
        AtLeast(1),
        AtMost(40),
    ]
    sashing: None = None


@dataclass(frozen=True)
class Border(Node):
    """A border whose second pair of strips runs from edge to edge, or ends in cornerstones."""

    fabric: Annotated[FabricName, "The fabric of the strips"]
    width: Annotated[Fraction, "Finished width"]
    order: Annotated[BorderOrder, "Which pair is sewn on first"] = BorderOrder.SIDES_FIRST
    cornerstones: Annotated[FabricName | None, "A fabric for squares in the corners"] = None


@dataclass(frozen=True)
class MitredBorder(Node):
    """A border whose strips meet on the diagonal of each corner."""

    fabric: Annotated[FabricName, "The fabric of the strips"]
    width: Annotated[Fraction, "Finished width"]
    extra: Annotated[
        Fraction | None,
        "Length of each strip beyond the border's outer edge; 2 in or 5 cm if left out",
    ] = None


@dataclass(frozen=True)
class PiecedBorder(Node):
    """A border of units repeated along each side. It is as wide as they are high."""

    units: Annotated[
        tuple[Cell, ...],
        "Units as they lie along the top; repeated as a motif, turned for the other sides",
        AtLeast(1),
        AtMost(20),
    ]
    corners: Annotated[Cell, "A unit or fabric as it lies at the top left, turned for the others"]


AnyBorder: TypeAlias = Border | MitredBorder | PiecedBorder

BORDERS: Mapping[str, type[AnyBorder]] = {
    "butted": Border,
    "mitred": MitredBorder,
    "pieced": PiecedBorder,
}
"""The classes of a border by its key ``style``."""


class BindingFold(Enum):
    """How a binding is folded lengthwise before it is sewn on."""

    DOUBLE = "double"
    SINGLE = "single"


class BindingGrain(Enum):
    """How a binding is cut: strips across the cloth, or one bias strip from a square."""

    STRAIGHT = "straight"
    BIAS = "bias"


class MiddleSeam(Enum):
    """Whether a back may have a seam down its middle."""

    ALLOWED = "allowed"
    AVOIDED = "avoided"


@dataclass(frozen=True)
class Binding(Node):
    """The strip round the edge."""

    fabric: Annotated[FabricName, "The fabric of the binding"]
    fold: Annotated[BindingFold, "How it is folded"] = BindingFold.DOUBLE
    grain: Annotated[BindingGrain, "How it is cut"] = BindingGrain.STRAIGHT
    cut_width: Annotated[
        Fraction | None,
        "Width to cut; if left out 2 1/2 in or 6.5 cm, or 1 1/4 in or 3.5 cm folded single",
    ] = None
    extra: Annotated[
        Fraction | None, "Length beyond the edge; 10 in or 25 cm if left out", ZeroToo()
    ] = None


@dataclass(frozen=True)
class Backing(Node):
    """The back, larger than the top all round."""

    fabric: Annotated[FabricName, "The fabric of the backing"]
    beyond: Annotated[
        Fraction | None, "Overhang on each side; 4 in or 10 cm if left out", ZeroToo()
    ] = None
    seam: Annotated[
        Fraction | None, "Seam allowance of its joins; 1/2 in or 1.5 cm if left out"
    ] = None
    middle_seam: Annotated[MiddleSeam, "Whether a join may run down the middle"] = (
        MiddleSeam.ALLOWED
    )
    usable_width: Annotated[
        Fraction | None, "Of extra-wide cloth, such as 106; the usual widths if left out"
    ] = None


class StripCut(Enum):
    """How a strip longer than the cloth is wide is cut."""

    CROSSWISE = "crosswise"
    LENGTHWISE = "lengthwise"


class StripJoin(Enum):
    """How strips across the cloth are sewn end to end."""

    DIAGONAL = "diagonal"
    STRAIGHT = "straight"


@dataclass(frozen=True)
class LongStrips(Node):
    """Borders and sashing longer than the cloth is wide."""

    cut: Annotated[StripCut, "Across the cloth and joined, or whole along the selvage"] = (
        StripCut.CROSSWISE
    )
    join: Annotated[StripJoin, "How strips across the cloth are joined"] = StripJoin.DIAGONAL


class Mattress(Enum):
    """Beds by their usual names."""

    TWIN = "twin"
    TWIN_XL = "twin xl"
    FULL = "full"
    QUEEN = "queen"
    KING = "king"
    CALIFORNIA_KING = "california king"


@dataclass(frozen=True)
class Bed(Node):
    """The bed that a size is meant for."""

    mattress: Annotated[Mattress, "The bed's usual name"]
    drop: Annotated[Fraction, "How far the quilt hangs down at the sides and the foot"]
    size: Annotated[Size | None, "Width x length of the mattress, if it is not the usual one"] = (
        None
    )


@dataclass(frozen=True)
class Sleeve(Node):
    """A sleeve at the back to hang the quilt by."""

    fabric: Annotated[FabricName, "The fabric of the sleeve"]
    depth: Annotated[Fraction | None, "Finished depth; 4 in or 10 cm if left out"] = None
    shorter: Annotated[
        Fraction | None,
        "How much shorter than the top is wide it is cut; 2 in or 5 cm if left out",
        ZeroToo(),
    ] = None


@dataclass(frozen=True)
class Batting(Node):
    """The batting, larger than the top all round."""

    beyond: Annotated[
        Fraction | None, "Overhang on each side; 4 in or 10 cm if left out", ZeroToo()
    ] = None


@dataclass(frozen=True)
class TipRoom(Node):
    """What the writer demands of the tips of all units."""

    least: Annotated[
        Fraction,
        "Least clearance from any tip to its seam line; 0 lets tips end on it, but not beyond",
        ZeroToo(),
        Example("1/4"),
    ]


class Stage(Enum):
    """Where a maker stands when she needs a fact."""

    CHOOSING = "choosing"
    SHOPPING = "shopping"
    CUTTING = "cutting"
    TEMPLATES = "templates"
    SEWING = "sewing"


@dataclass(frozen=True)
class Erratum(Node):
    """A published fact that was wrong; what is right is worked out, and so is the remedy."""

    edition: Annotated[str, "The edition that puts it right", AtMost(12), Example("1.1")]
    fact: Annotated[
        str,
        "What was wrong, by its key in the facts files",
        AtMost(200),
        Example('"piece A, background, cut"'),
    ]
    was: Annotated[str, "What was printed before", AtMost(400), Example("3 x 4")]
    sizes: Annotated[tuple[str, ...], "Sizes in which it was wrong; all if left out"] = ()
    remedy: Annotated[
        str | None, "What to do for those who followed it, where there is more to say", AtMost(400)
    ] = None


@dataclass(frozen=True)
class Release(Node):
    """What customers hold: the edition, its date and what it puts right."""

    edition: Annotated[
        str,
        "Number of the edition; 1.1 corrects 1.0, 2.0 is another design",
        AtMost(12),
        Example("1.0"),
    ]
    date: Annotated[str, "The day on which it came out", AtMost(20), Example("14 September 2026")]
    errata: Annotated[tuple[Erratum, ...], "What was wrong in earlier editions", AtMost(60)] = ()


@dataclass(frozen=True)
class Expectation(Node):
    """Facts that somebody knows in another way, checked for ever."""

    source: Annotated[
        str,
        "How they are known: sewn, measured, worked out by hand",
        AtMost(200),
        Example("worked out on paper"),
    ]
    facts: Annotated[
        tuple[Annotated[str, AtMost(400), Example("seam allowance = 1/4")], ...],
        "Lines as in the facts files: `key = value`",
        AtLeast(1),
        AtMost(200),
    ]
    size: Annotated[str | None, "The size they hold for; all if left out", AtMost(40)] = None


@dataclass(frozen=True)
class Trial(Node):
    """A test sewing: who made which size, when, in what time, and what came out."""

    size: Annotated[str, "The size that was made", AtMost(40), Example("short")]
    tester: Annotated[str, "Who made it", AtMost(60), Example("a first-time tester")]
    date: Annotated[str, "The day on which it was finished", AtMost(20), Example("3 May 2026")]
    hours: Annotated[Fraction | None, "How long it took"] = None
    colourway: Annotated[str | None, "The colourway that was made", AtMost(40)] = None
    measured: Annotated[
        tuple[Annotated[str, AtMost(400), Example("finished size, width = 36 7/8")], ...],
        "What was measured and what was left over: `key = value`",
        AtMost(60),
    ] = ()
    unclear: Annotated[str | None, "The first step that was not clear", AtMost(400)] = None


@dataclass(frozen=True)
class ValueRoom(Node):
    """What the writer demands of neighbours in every colourway."""

    least: Annotated[
        int,
        "Least difference of lightness (CIE L*, of 100) between neighbours of different cloth",
        AtMost(90),
    ]


@dataclass(frozen=True)
class UnevenSeams(Node):
    """Seams that are each off by chance, to see how a block takes it."""

    deviation: Annotated[
        Fraction, "Standard deviation of a seam allowance, such as 1/32", Example("1/32")
    ]
    repeats: Annotated[int, "How often each block is sewn", AtMost(1000)] = 100


AnySetting: TypeAlias = Setting | OnPoint | UnequalRows | UnequalColumns | Medallion

LAYOUTS: Mapping[str, type[AnySetting]] = {
    "straight": Setting,
    "on point": OnPoint,
    "rows": UnequalRows,
    "columns": UnequalColumns,
    "medallion": Medallion,
}
"""The classes of a setting by its key ``layout``."""


@dataclass(frozen=True)
class Design(Node):
    """One size of a pattern. ``size`` is its key under ``sizes``, ``label`` its printed name."""

    slug: str
    size: str
    label: str
    name: Annotated[str, "The pattern's name", AtMost(60), Example("Heron Landing")]
    kind: Annotated[str, "What it makes, such as table runner", AtMost(60), Example("table runner")]
    summary: Annotated[
        str, "One or two sentences for the catalogue", AtMost(600), Example("Stars in a line.")
    ]
    measure: Annotated[Measure, "The unit of every length"]
    seam: Annotated[Fraction, "Seam allowance", Example("1/4")]
    fabrics: Annotated[
        Mapping[str, Fabric],
        "The parts that fabrics play, in order of use",
        AtLeast(1),
        AtMost(40),
        Example("ground"),
    ]
    cloths: Annotated[
        Mapping[str, Cloth], "The shop's cloths", AtLeast(1), AtMost(100), Example("mist")
    ]
    colourways: Annotated[
        Mapping[str, Colourway],
        "Which cloth plays which part",
        AtLeast(1),
        AtMost(24),
        Example("low-water"),
    ]
    setting: Annotated[AnySetting, "How the blocks sit in the top", Chosen("layout")]
    units: Annotated[
        Mapping[str, Annotated[Unit | Grid, Chosen("method")]],
        "What is sewn from pieces, each by one method",
        AtMost(100),
        Example("point"),
    ] = field(default_factory=dict)
    blocks: Annotated[
        Mapping[str, Grid], "Grids of units, fabrics and other blocks", AtMost(100), Example("star")
    ] = field(default_factory=dict)
    borders: Annotated[
        tuple[
            Annotated[
                AnyBorder, Chosen("style", "butted"), Example("{fabric: ground, width: 2 1/2}")
            ],
            ...,
        ],
        "Borders from the inside out",
        AtMost(12),
    ] = ()
    binding: Annotated[Binding | None, "The binding"] = None
    backing: Annotated[Backing | None, "The backing"] = None
    batting: Annotated[Batting | None, "The batting"] = None
    usable_width: Annotated[
        Fraction | None,
        "Width without selvages that strips across the cloth are cut to; 40 in or 100 cm "
        "if left out",
    ] = None
    cloth_widths: Annotated[
        tuple[Fraction, ...],
        "Widths without selvages to work out lengths of cloth for, the usual one first; "
        "42, 40, 44, 54 and 108 in or 107, 100, 112, 137 and 274 cm if left out",
        AtMost(8),
    ] = ()
    planning_effort: Annotated[
        int,
        "How hard cutting plans are looked for: times the usual effort, 60 at most; 1 if left out",
        AtMost(MOST_PLANNING_EFFORT),
    ] = 1
    long_strips: Annotated[
        LongStrips, "How borders and sashing longer than the cloth is wide are cut"
    ] = field(default_factory=LongStrips)
    sleeve: Annotated[Sleeve | None, "A hanging sleeve"] = None
    bed: Annotated[Bed | None, "The bed it is meant for"] = None
    tips: Annotated[TipRoom | None, "How much room every tip must have"] = None
    auditions: Annotated[
        Mapping[str, Audition],
        "Cloths to try out side by side",
        AtMost(12),
        Example("sashing-and-border"),
    ] = field(default_factory=dict)
    values: Annotated[ValueRoom | None, "How different in value neighbours must be"] = None
    uneven_seams: Annotated[
        UnevenSeams | None, "Chance errors of seams, to see what comes of them"
    ] = None
    pressing: Annotated[
        Mapping[
            str,
            Annotated[
                Mapping[str, SeamWay],
                "Seams, such as `row 1`, `row 1 seam 2`, `rows`, `between 2`, `seam 3` or `seams`",
                AtMost(100),
                Example("row 1"),
            ],
        ],
        "Which way seams go, where that is not left to be worked out",
        AtMost(100),
        Example("star"),
    ] = field(default_factory=dict)
    quantity: Annotated[
        int, "How many tops the pattern makes, for sets such as place mats", AtMost(100)
    ] = 1
    release: Annotated[Release | None, "The edition that customers hold; a draft if left out"] = (
        None
    )
    expect: Annotated[
        tuple[Expectation, ...], "Facts that are known in another way", AtMost(60)
    ] = ()
    trials: Annotated[tuple[Trial, ...], "Test sewings", AtMost(60)] = ()
