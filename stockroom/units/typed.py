"""What people type becomes whole numbers, or one sentence that says why it does not.

    length, thickness    nanometres         3.2m  3200  10'6"  12ft 6 1/2in  50 yd  2mil  200 ga
    size                 across, along      300x1000  300 mm x 1.2 m
    mass                 milligrams         4.1 kg  9 lb
    density              kg per cubic m     1390  1.39 g/cm3
    temperature          degrees Celsius    23  73.4 F
    count                pieces             12
    duration             seconds            6h  90 min  2d
    number               as it is           50  50 %

A number without a unit has the unit of the book's system. Values are exact fractions, rounded once
at the end, half to even. A point is always a decimal mark, a comma is one where it cannot divide
thousands. A gauge is the American one, 1/100 mil, not the 0.25 micrometre of British polythene.
"""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import inf

from stockroom.errors import Code, Refusal, clean_text
from stockroom.units import FOOT, GRAM, INCH, KG, MIL, MM, OUNCE, POUND, UM, M, System

_MOST_COUNTED = 1_000_000
_WIDEST = 10 * M  # no film or offcut has a side beyond it that was typed without a unit
_COLDEST_C, _HOTTEST_C = -100.0, 200.0
_LONGEST_TEXT = 60


def _units(names: Mapping[str, Fraction | int]) -> dict[str, Fraction]:
    """Each spelling and what it is worth; spellings of one unit stand together."""
    return {name: Fraction(worth) for row, worth in names.items() for name in row.split()}


_LENGTHS = _units(
    {
        "um \u03bcm micron microns": UM,
        "mm": MM,
        "cm": 10 * MM,
        "m metre metres meter meters": M,
        "km": 1000 * M,
        "ga gauge": Fraction(MIL, 100),
        "mil mils thou": MIL,
        '" in inch inches': INCH,
        "' ft foot feet": FOOT,
        "yd yds yard yards": 3 * FOOT,
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """What is being read, in which units, up to where, and how a person would write it."""

    name: str
    code: Code
    units: Mapping[str, Fraction]
    bare: Mapping[System, str]
    most: tuple[Fraction | int, str]
    example: str

    def refuse(self, text: str) -> Refusal:
        """The refusal of a text that cannot be read."""
        shown = clean_text(text, 40)
        said = f"“{shown}” is not a {self.name}" if shown else f"A {self.name} is missing"
        return Refusal(self.code, f"{said}; write it like {self.example}.")


_LENGTH = _Kind(
    name="length",
    code=Code.BAD_LENGTH,
    units=_LENGTHS,
    bare={System.METRIC: "mm", System.US: "in"},
    most=(100_000 * M, "100 km"),
    example="3.2m, 3200 mm, 10'6\" or 126 in",
)
_THICKNESS = _Kind(
    name="thickness",
    code=Code.BAD_LENGTH,
    units=_LENGTHS,
    bare={System.METRIC: "um", System.US: "mil"},
    most=(100 * MM, "100 mm"),
    example="50.8um, 2mil or 200 ga",
)
_MASS = _Kind(
    name="mass",
    code=Code.BAD_MASS,
    units=_units({"mg": 1, "g": GRAM, "kg": KG, "t": 1000 * KG, "oz": OUNCE, "lb lbs": POUND}),
    bare={System.METRIC: "kg", System.US: "lb"},
    most=(10_000 * KG, "10 t"),
    example="4.1 kg or 9 lb",
)
_DENSITY = _Kind(
    name="density",
    code=Code.BAD_LAYER,
    units=_units(
        {
            "kg/m3": 1,
            "g/cm3 g/cc": 1000,
            "lb/ft3": POUND / KG / (Fraction(FOOT, M) ** 3),
        }
    ),
    bare={System.METRIC: "kg/m3", System.US: "kg/m3"},
    most=(25_000, "25 000 kg/m3"),
    example="1390 kg/m3 or 1.39 g/cm3",
)
_DURATION = _Kind(
    name="length of time",
    code=Code.BAD_SPAN,
    units=_units({"s": 1, "min minutes": 60, "h hour hours": 3_600, "d day days": 86_400}),
    bare={System.METRIC: "h", System.US: "h"},
    most=(36_525 * 86_400, "a century"),
    example="6h, 90 min or 2d",
)

_NUMBER = r"\d+[ -]\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+"
_BARE = re.compile(_NUMBER, re.ASCII)
_SINGLE = re.compile(rf"(?P<number>{_NUMBER}) ?(?P<unit>[a-z\u03bc\"'][a-z/3]*)?\.?", re.ASCII)
_FEET_INCHES = re.compile(
    rf"(?P<feet>\d+) ?(?:'|ft\.?|foot|feet)(?: ?- ?| ?)(?P<inches>{_NUMBER}) ?(?:\"|in\.?|inch|inches)?",
    re.ASCII,
)
_TEMPERATURE = re.compile(r"(?P<number>-?\d+(?:[.,]\d+)?) ?\u00b0? ?(?P<scale>[cf])?", re.ASCII)
_DECIMAL = re.compile(r"-?(?:\d*[.,]\d+|\d+)", re.ASCII)
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+(?!\d)|\d[.,]\d+[.,]\d", re.ASCII)
_SPELLED = str.maketrans(
    dict.fromkeys("\u2010\u2012\u2013\u2014\u2212", "-")
    | dict.fromkeys("\u2018\u2019\u2032", "'")
    | dict.fromkeys("\u201c\u201d", '"')
    | {"\u2044": "/"}
)


def _plain(text: str) -> str:
    """What was typed with one spelling for each dash, prime, space and letter; too long is nothing."""
    if len(text) > _LONGEST_TEXT:
        return ""
    spaced = "".join(
        f" {one}" if unicodedata.decomposition(one).startswith("<fraction>") else one
        for one in text
    )
    folded = unicodedata.normalize("NFKC", spaced).translate(_SPELLED).casefold()
    return " ".join(folded.split()).replace("''", '"')


def _number(text: str) -> Fraction:
    """The exact value of a number that matched; ZeroDivisionError from a fraction over zero."""
    return sum((Fraction(part) for part in re.split("[ -]", text.replace(",", "."))), Fraction())


def _refuse_grouped(text: str, plain: str, code: Code) -> None:
    """Refuse a number in which a comma may divide thousands or decimals."""
    if _GROUPED.search(plain):
        shown = clean_text(text, 40)
        raise Refusal(
            code, f"“{shown}” can be read in two ways; write it with one point and no commas."
        )


def _worth(plain: str, kind: _Kind, system: System) -> Fraction | None:
    """What a text is worth in the smallest unit, or None if it cannot be read."""
    if kind.units is _LENGTHS and (both := _FEET_INCHES.fullmatch(plain)):
        inches = _number(both["inches"])
        return Fraction(both["feet"]) * FOOT + inches * INCH if inches < FOOT // INCH else None
    one = _SINGLE.fullmatch(plain)
    factor = kind.units.get(one["unit"] or kind.bare[system]) if one else None
    return _number(one["number"]) * factor if one and factor is not None else None


def _read(text: str, kind: _Kind, system: System, *, zero: bool = False) -> Fraction:
    """The exact quantity in a text, or a refusal that says what is wrong with it."""
    plain = _plain(text)
    _refuse_grouped(text, plain, kind.code)
    try:
        worth = _worth(plain.removeprefix("-"), kind, system)
    except ZeroDivisionError:
        worth = None
    if worth is None:
        raise kind.refuse(text)
    if plain.startswith("-") or not (worth or zero):
        raise Refusal(
            kind.code, f"A {kind.name} is more than zero; “{clean_text(text, 40)}” is not."
        )
    if worth > kind.most[0]:
        shown = f"“{clean_text(text, 40)}” is more than {kind.most[1]}"
        raise Refusal(kind.code, f"{shown}; check the number and its unit.")
    return worth


def _whole(text: str, kind: _Kind, system: System, *, zero: bool = False) -> int:
    """The quantity in whole smallest units; one that rounds to nothing is zero."""
    worth = round(_read(text, kind, system, zero=zero))
    if not (worth or zero):
        raise kind.refuse(text)
    return worth


def parse_length(text: str, system: System = System.METRIC, *, zero: bool = False) -> int:
    """Nanometres in a typed length; a bare number is millimetres or inches."""
    return _whole(text, _LENGTH, system, zero=zero)


def parse_thickness(text: str, system: System = System.METRIC) -> int:
    """Nanometres in a typed thickness; a bare number is micrometres or mils."""
    return _whole(text, _THICKNESS, system)


def _reads_two_ways(one: str, other: str, system: System) -> bool:
    """Whether one side is a bare number that could as well be meant in the other's unit.

    600x1m cannot: no film is 600 m wide, so the bare number has the book's unit.
    """
    if not _BARE.fullmatch(one) or _BARE.fullmatch(other):
        return False
    unit = _BARE.sub("", other, count=1)
    as_other = _worth(one + unit, _LENGTH, system)
    if as_other is None or as_other > _WIDEST:
        return False
    return as_other != _worth(one, _LENGTH, system)


def parse_size(text: str, system: System = System.METRIC) -> tuple[int, int]:
    """Nanometres across and along the roll; a lone unit must be the one of a bare number."""
    across, by, along = (
        part.strip() for part in _plain(text).replace("\u00d7", "x").partition("x")
    )
    shown = clean_text(text, 40)
    if not (across and by and along) or "x" in along:
        raise Refusal(
            Code.BAD_LENGTH, f"“{shown}” is not a size; write across x along, like 300x1000."
        )
    size = parse_length(across, system), parse_length(along, system)
    if _reads_two_ways(across, along, system) or _reads_two_ways(along, across, system):
        raise Refusal(
            Code.BAD_LENGTH, f"“{shown}” can be read in two ways; write the unit of both sides."
        )
    return size


def parse_mass(text: str, system: System = System.METRIC) -> int:
    """Milligrams in a typed mass; a bare number is kilograms or pounds."""
    return _whole(text, _MASS, system)


def parse_density(text: str) -> float:
    """Kilograms per cubic metre in a typed density; a bare number already is."""
    return float(_read(text, _DENSITY, System.METRIC))


def parse_count(text: str) -> int:
    """A whole number of pieces, from 1 to a million."""
    plain = _plain(text)
    count = int(plain) if re.fullmatch(r"\d{1,9}", plain, re.ASCII) else 0
    if not 1 <= count <= _MOST_COUNTED:
        shown = clean_text(text, 40)
        raise Refusal(
            Code.BAD_NUMBER, f"“{shown}” is not a number of pieces; write 1 to {_MOST_COUNTED}."
        )
    return count


def parse_duration(text: str) -> int:
    """Seconds in a typed length of time; a bare number is hours."""
    return _whole(text, _DURATION, System.METRIC)


def parse_number(text: str, name: str, within: tuple[float, float], unit: str = "") -> float:
    """A number within two others, the unit written or not; the name is said where it is refused."""
    least, most = within
    plain = _plain(text).removesuffix(unit.lower()).rstrip()
    _refuse_grouped(text, plain, Code.BAD_NUMBER)
    number = float(plain.replace(",", ".")) if _DECIMAL.fullmatch(plain) else inf
    if least <= number <= most:
        return number
    to = f"{most:g} {unit}".rstrip()
    raise Refusal(
        Code.BAD_NUMBER,
        f"“{clean_text(text, 40)}” is not {name}; write a number from {least:g} to {to}.",
    )


def parse_temperature(text: str, system: System = System.METRIC) -> float:
    """Degrees Celsius in a typed temperature; a bare number is Celsius or Fahrenheit."""
    read = _TEMPERATURE.fullmatch(_plain(text))
    if read:
        degrees = float(read["number"].replace(",", "."))
        fahrenheit = read["scale"] == "f" or (not read["scale"] and system is System.US)
        celsius = (degrees - 32) / 1.8 if fahrenheit else degrees
        if _COLDEST_C <= celsius <= _HOTTEST_C:
            return celsius
    raise Refusal(
        Code.BAD_NUMBER,
        f"“{clean_text(text, 40)}” is not a temperature of a store; write it like 23 C or 73.4 F.",
    )
