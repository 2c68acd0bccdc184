"""What the headings of a logger's columns mean, in the plain words of several languages.

meaning_of(heading)    Meaning, or None where no word is known
scale_of(heading)      Scale, or None where no unit stands in it
offset_of(heading)     the offset of a clock that is named there, like GMT+02:00
plain(heading)         small letters without accents
"""

# ruff: noqa: RUF001 - words of other alphabets

import re
import unicodedata
from datetime import UTC, timedelta, timezone, tzinfo
from enum import Enum, StrEnum


class Meaning(Enum):
    """What a column holds."""

    TEMPERATURE = "temperature"
    HUMIDITY = "humidity"
    OTHER = "other"


class Scale(StrEnum):
    """The scale of a temperature."""

    CELSIUS = "c"
    FAHRENHEIT = "f"


# Stems of words without accents, in the order in which they are looked for: the dew point is a
# temperature too, and a battery has per cent. English, German, French, Spanish, Italian,
# Portuguese, Dutch, Swedish, Danish, Norwegian, Finnish, Polish, Czech, Slovak, Slovenian,
# Croatian, Hungarian, Turkish, Russian, Ukrainian, Greek, Chinese, Japanese, Korean.
_OTHER = (
    r"dew|taupu|rosee|rocio|rugiada|orvalho|dauwp|daggp|dug?gp|kastep|rosy\b|rosn|rosist|harmatp"
    r"|ciy|точк|露|이슬|wet.?bulb|feuchtkugel|heat.?index|hitze|kinetic|\bmkt\b|absol|g/m|batt"
    r"|akku|volt|pressure|druck|\bhpa\b|mbar|alarm|limit|grenz|\bmin\b|\bmax\b|minim|maxim"
)
_HUMIDITY = (
    r"humid|\bhum\b|humed|umid|feucht|vocht|fukt|fugt|kosteu|wilgotn|vlhko|vlaga|vlazn|paratart|\bnem"
    r"|влажн|волог|υγρασ|湿|습도|%\s*r|(?:\b|_)rh(?:\b|_)|\br\.?\s?[hf]\b|\bh\.?r\b|\bur\b"
)
_TEMPERATURE = r"temp|lampotil|teplot|sıcaklık|sicaklik|homersek|темпер|θερμοκ|温|온도"
_WORDS = (
    (Meaning.OTHER, re.compile(_OTHER)),
    (Meaning.HUMIDITY, re.compile(_HUMIDITY)),
    (Meaning.TEMPERATURE, re.compile(_TEMPERATURE)),
)
_UNIT = r"(?:°\s*{0}\b|\bdeg(?:rees?|\.)?\s*{0}\b|[\[(/]\W?\s*{0}\s*(?:[\])]|$)|[_ ,]{0}$|^{0}$)"
_UNITS = (
    (Scale.CELSIUS, re.compile(_UNIT.format("c") + "|celsius")),
    (Scale.FAHRENHEIT, re.compile(_UNIT.format("f") + "|fahrenheit")),
)
_OFFSET = re.compile(r"\b(?:utc|gmt)\s*(?:([+-])\s*(\d{1,2})(?::?(\d{2}))?)?")
_MOST_HOURS = 14


def meaning_of(heading: str) -> Meaning | None:
    """What a column of that heading holds; a unit says it where no word does."""
    text = plain(heading)
    for meaning, words in _WORDS:
        if words.search(text):
            return meaning
    if scale_of(heading) is not None:
        return Meaning.TEMPERATURE
    return Meaning.HUMIDITY if "%" in text else None


def scale_of(heading: str) -> Scale | None:
    """The scale a heading, or a cell, names; None where it names none, or both."""
    text = plain(heading)
    named = [scale for scale, unit in _UNITS if unit.search(text)]
    return named[0] if len(named) == 1 else None


def offset_of(heading: str) -> tzinfo | None:
    """The clock a heading names by its distance from UTC; None where it names none."""
    found = _OFFSET.search(plain(heading))
    if found is None:
        return None
    if found[1] is None:
        return UTC
    away = timedelta(hours=int(found[2]), minutes=int(found[3] or 0))
    if away > timedelta(hours=_MOST_HOURS):
        return None
    return timezone(-away if found[1] == "-" else away)


def plain(heading: str) -> str:
    """Small letters without accents, and one sign for a degree."""
    text = heading.casefold().replace("º", "°").replace("℃", "°c").replace("℉", "°f")
    apart = unicodedata.normalize("NFKD", text.replace("\N{MINUS SIGN}", "-"))
    bare = "".join(one for one in apart if not unicodedata.combining(one))
    return unicodedata.normalize("NFC", bare).strip()
