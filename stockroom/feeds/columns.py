"""What the columns of a list of stock, materials or places hold, told by the words of their headings.

    Field                      what a column can hold, how it is read, and the words that name it
    STOCK, MATERIALS, PLACES   the fields of each list
    column_of(…)       Column: the field a heading names, with the unit that stands in it; None without

Words are stems without accents, in English, German, French and Spanish; those that come first are believed
before the others where two columns hold the same: what is left before what there was, a value before a price.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from stockroom.feeds.headings import plain
from stockroom.units.money import DECIMALS


class Reads(Enum):
    """How the cells of a column are read."""

    TEXT = "text"
    LENGTH = "length"
    THICKNESS = "thickness"
    NUMBER = "number"
    MONEY = "money"
    DAY = "day"
    FIGURE = "figure"
    """As it is typed; a bare number gets the unit of the heading."""


@dataclass(frozen=True, slots=True)
class Field:
    """What a column can hold: its name, how it is read, and the words of its headings, best first."""

    name: str
    reads: Reads
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column by its place, from 0: its heading, what it holds, and in which unit where one is written.

    `rank` counts from the best words, at 0; what a person said is before them all.
    """

    place: int
    heading: str
    field: Field
    unit: str | None
    currency: str | None
    rank: int


_MATERIAL = Field(
    "material",
    Reads.TEXT,
    (
        r"^material$",
        r"material\b|\bfilm\b|werkstoff|\bfolie|pelicula|film\b",
        r"product|produkt|producto|produit|article|artikel|articulo|\bitem\b",
        r"descri|bezeichn|designation|^name$",
    ),
)
_LOT = Field("lot", Reads.TEXT, (r"(?<!laminate )\blot\b|\blote\b|batch|charge\b|chargen|\blos\b",))
_WIDTH = Field("width", Reads.LENGTH, (r"width|breite|largeur|\blaize\b|ancho|anchura",))
_CORE = Field("core", Reads.LENGTH, (r"\bcore\b(?!.*wall)|kern(?!.*wand)|hulse|mandrin|nucleo",))
_WALL = Field("wall", Reads.LENGTH, (r"wall|wand|paroi|pared",))
_THICKNESS = Field(
    "thickness", Reads.THICKNESS, (r"thick|dicke|starke|epaisseur|espesor|grosor|gauge",)
)
_COST = Field(
    "cost",
    Reads.MONEY,
    (r"^value", r"^cost|kosten|^cout|coste", r"price|preis|\bprix|precio|value|wert"),
)

STOCK = (
    _MATERIAL,
    Field("form", Reads.TEXT, (r"^form$|^forme?$",)),
    Field(
        "length",
        Reads.LENGTH,
        (r"\bleft\b(?!.*count)|remain|rest(?:lange)?\b|\breste\b", r"length|lange|longueur|longitud|\blargo"),
    ),
    Field(
        "count",
        Reads.NUMBER,
        (r"left.count", r"(?<!full.)\bcount\b", r"quantit|\bqty|\bmenge|anzahl|stuck|cantidad|\bnombre\b|pieces|\bpcs\b"),
    ),
    Field("rolls", Reads.NUMBER, (r"\brolls\b|\brollen\b|rouleaux|rollos|boxes|kartons",)),
    _LOT,
    _WIDTH,
    _CORE,
    _WALL,
    _COST,
    Field("made", Reads.DAY, (r"^made|\bmade\b|manufact|\bmfg|\bmfd|produced|herstell|produktion|fabric",)),
    Field("shipped", Reads.DAY, (r"ship|dispatch|versand|versendet|expedi|enviad",)),
    Field("received", Reads.DAY, (r"receiv|received|eingang|erhalten|\brecu|recib|arriv",)),
    Field("printed", Reads.DAY, (r"printed|gedruckt|druckdatum|imprim|impres",)),
    Field("ink", Reads.TEXT, (r"\bink\b|tinte|\bencre|\btinta",)),
    Field("place", Reads.TEXT, (r"^place", r"place|location|\bbay\b|shelf(?!.*(?:days|life))|lager(?:platz|ort)|\bplatz|\bort\b|emplacement|ubicacion|\bbin\b")),
    Field("owner", Reads.TEXT, (r"owner|eigent|gehort|proprietai|propietari",)),
    Field("held", Reads.TEXT, (r"\bheld\b|\bhold\b|gesperrt|bloque",)),
    Field("damaged", Reads.TEXT, (r"damage|schaden|beschadig|endommag|danad",)),
    Field("ended", Reads.TEXT, (r"^ended$",)),
    Field("laminate_lot", Reads.TEXT, (r"^laminate lot",)),
    Field("mixed", Reads.DAY, (r"^mixed",)),
    Field("begun", Reads.DAY, (r"^begun|^opened|geoffnet",)),
    Field("keeps_days", Reads.NUMBER, (r"^keeps days",)),
    Field("contents", Reads.TEXT, (r"^contents|^inhalt",)),
    Field("hazard", Reads.TEXT, (r"^hazard|gefahr",)),
)  # fmt: skip
"""Of an opening stock: a line is so many rolls of one length, an offcut, or boxes of so many."""

MATERIALS = (
    Field("name", Reads.TEXT, (r"^name$", *_MATERIAL.words[:-1], r"descri|bezeichn|designation|\bnom\b|nombre")),
    Field("kind", Reads.TEXT, (r"^kind$", r"\bkind\b|\btype\b|\btyp\b|\bart\b|\btipo\b",)),
    _WIDTH,
    _THICKNESS,
    Field("applied", Reads.THICKNESS, (r"applied|ohne.liner|without.liner|sans.liner",)),
    _CORE,
    _WALL,
    Field("layers", Reads.FIGURE, (r"layers|schichten|couches|capas",)),
    Field("shelf", Reads.FIGURE, (r"shelf|haltbar|lagerfahig|conservation|caducidad",)),
    Field("counted_from", Reads.TEXT, (r"counted|gezahlt",)),
    Field("wound", Reads.FIGURE, (r"^wound",)),
    Field("opened", Reads.FIGURE, (r"opened|opening|offnung|ouverture|apertura",)),
    Field("energy", Reads.FIGURE, (r"^energy",)),
    Field("curl", Reads.FIGURE, (r"^curl",)),
    Field("bond", Reads.FIGURE, (r"^bond",)),
    Field("modulus", Reads.FIGURE, (r"modul",)),
    _COST,
    Field("finish", Reads.TEXT, (r"finish|oberflache|acabado",)),
    Field("supplier", Reads.TEXT, (r"supplier|lieferant|fournisseur|proveedor|vendor",)),
    Field("spread", Reads.FIGURE, (r"spread|streuung",)),
    Field("lead", Reads.FIGURE, (r"\blead|lieferzeit|delai|plazo",)),
    Field("pack", Reads.FIGURE, (r"^pack\b",)),
    Field("least", Reads.FIGURE, (r"least|minimum|mindest",)),
    Field("expect", Reads.FIGURE, (r"^expect",)),
    Field("breaks", Reads.FIGURE, (r"^breaks|staffel",)),
    Field("series", Reads.TEXT, (r"^series|^serie",)),
    Field("note", Reads.TEXT, (r"note|remark|bemerk|remarque|observ|comment",)),
)  # fmt: skip

PLACES = (
    Field(
        "name",
        Reads.TEXT,
        (r"^name$", r"^place|location|\bbay\b|regal|platz|emplacement|ubicacion"),
    ),
    Field("zone", Reads.TEXT, (r"^zone|\bzona\b|bereich", r"\broom\b|\braum\b|\bsalle\b|\bsala\b")),
)

_NAMES = frozenset({"material", "name"})

_UNITS = {
    Reads.LENGTH: r"mm|millimet\w+|cm|m|met(?:er|re)s?|in|inch(?:es)?|\"|ft|feet|'|yd|yds|yards?",
    Reads.THICKNESS: r"um|\u03bcm|microns?|mm|mils?|thou|ga|gauge|in|inch(?:es)?",
    Reads.MONEY: r"minor",
    Reads.FIGURE: r"mo|months?|d|days?|w|weeks?|y|years?|kj[/_]mol|j[/_]m2|gpa|mm|m|monate?|tage?|jahre?",
}
_UNIT_NAMES = {
    "millimeter": "mm", "millimetre": "mm", "millimeters": "mm", "millimetres": "mm",
    "kj_mol": "kJ/mol", "j_m2": "J/m2", "monat": "mo", "monate": "mo", "tag": "d", "tage": "d", "jahr": "y", "jahre": "y", "m": "m",
}  # fmt: skip
_CURRENCY_SIGNS = {"€": "EUR", "£": "GBP"}
_PASSED_OVER = re.compile(
    r"^full|^parent|^cod[eo]|^verdict|^wait|(?<!keeps )\bdays$|^change|^used|\barea\b"
    r"|\btotal|gesamt|\bsumm?e\b"
    r"|(?:/|\bper\b|\bje\b|\bpro\b|\bpar\b|\bpor\b) ?(?:m|sq|ft|feet|yd|yard|lfm|qm|lfd|meter|metre|metro)"
)
"""Columns of our own tables whose names hold the words of others; sums, and prices of a length or an area."""

_NUMBERS = re.compile(r"\b(?:no|nr|num|number|numero|code|codigo|sku|id|ref)\b|nummer\b|nr\b")
"""An item's number is no name of it."""


def column_of(place: int, heading: str, fields: Sequence[Field]) -> Column | None:
    """The column a heading names; None where it names nothing that is looked for."""
    words = _words(heading)
    if _PASSED_OVER.search(words):
        return None
    ranked = (
        (rank, field)
        for field in fields
        for rank, pattern in enumerate(field.words)
        if re.search(pattern, words) and not (field.name in _NAMES and _NUMBERS.search(words))
    )
    rank, field = min(ranked, key=lambda found: found[0], default=(0, None))
    return None if field is None else as_column(place, heading, field, rank)


def as_column(place: int, heading: str, field: Field, rank: int) -> Column:
    """A column of a field, with the unit and the currency that its heading writes."""
    return Column(
        place=place,
        heading=heading,
        field=field,
        unit=unit_of(heading, field.reads),
        currency=_currency_of(heading) if field.reads is Reads.MONEY else None,
        rank=rank,
    )


def unit_of(heading: str, reads: Reads) -> str | None:
    """The unit that is written in a heading: width_mm, Width (mm), Width [mm], width, mm."""
    units = _UNITS.get(reads)
    if units is None:
        return None
    text = plain(heading)
    found = re.search(rf"(?:[\s_,/(\[:-]|^)({units})(?:[\s)\].]*$|_[a-z]{{3}}$)", text)
    if found is None:
        found = re.search(rf"[(\[]\s*({units})\s*[)\]]", text)
    return None if found is None else _UNIT_NAMES.get(found[1], found[1])


def are_units(cells: Sequence[str]) -> bool:
    """Whether a line holds nothing but units."""
    said = [plain(cell).strip("[]() .") for cell in cells if cell]
    return bool(said) and all(
        any(re.fullmatch(units, cell) for units in _UNITS.values()) or cell.upper() in DECIMALS
        for cell in said
    )


def _currency_of(heading: str) -> str | None:
    for sign, currency in _CURRENCY_SIGNS.items():
        if sign in heading:
            return currency
    named = [word for word in re.findall(r"[A-Z]{3}", heading) if word in DECIMALS]
    return named[0] if len(named) == 1 else None


@lru_cache(maxsize=1_000)
def _words(heading: str) -> str:
    """A heading's words, without what is between brackets."""
    bare = re.sub(r"[(\[][^)\]]*[)\]]", " ", plain(heading))
    return " ".join(bare.replace("_", " ").replace(".", " ").split())
