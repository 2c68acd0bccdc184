"""The numbers in the cells of a logger, checked: each text is read once and remembered.

number_of(cell)          Number, or None
Temperatures(scale)      cell → degrees Celsius, or Unread
Humidities()             cell → per cent, None where it is not known
  .odd                   what is wrong with those that say something else
"""

import re
from typing import NamedTuple

from stockroom.errors import clean_text
from stockroom.feeds.headings import Scale, scale_of
from stockroom.feeds.reading import Unread, Wrong, checked_humidity, checked_temperature

_NUMBER = re.compile(
    r"\s*([-+\N{MINUS SIGN}]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))"
    r"\s*(?:((?:°|º|deg\.?)?\s?[CF]|℃|℉|celsius|fahrenheit)|(%[^%]{0,8}))?\s*",
    re.IGNORECASE,
)
_SILENCE = re.compile(
    r"\s*[-\N{EN DASH}\N{EM DASH}_.?*#/]*\s*|\s*(?:n\.?/?a\.?|nan|null|none|nil|inf|-inf|err(?:or)?|fault|fail(?:ed)?"
    r"|open|short|ol|lo|hi|low|high|disconnected|no data|no sensor|---.*)\s*",
    re.IGNORECASE,
)
_MOST_KEPT = 100_000


class Number(NamedTuple):
    """A number as it stands in a cell, with its unit of either kind."""

    value: float
    is_whole: bool
    degrees: str | None
    percent: str | None


def number_of(cell: str) -> Number | None:
    """The number of a cell; None where it holds none."""
    found = _NUMBER.fullmatch(cell)
    if found is None:
        return None
    plain = found[1].replace(",", ".").replace("\N{MINUS SIGN}", "-")
    return Number(float(plain), "." not in plain, found[2], found[3])


class Temperatures(dict[str, float]):
    """Degrees Celsius of the cells of one column; a unit in the cell goes over the column's."""

    def __init__(self, scale: Scale) -> None:
        super().__init__()
        self._scale = scale

    def __missing__(self, cell: str) -> float:
        if len(self) >= _MOST_KEPT:
            self.clear()
        found = number_of(cell)
        if found is None or found.percent:
            raise _no_temperature(cell)
        scale = scale_of(found.degrees or "") or self._scale
        celsius = checked_temperature(found.value, is_fahrenheit=scale is Scale.FAHRENHEIT)
        self[cell] = celsius
        return celsius


class Humidities(dict[str, float | None]):
    """Per cent of the cells of one column; what is odd is not known, and said in `odd`."""

    def __init__(self) -> None:
        super().__init__()
        self.odd: dict[str, str] = {}

    def __missing__(self, cell: str) -> float | None:
        if len(self) >= _MOST_KEPT:
            self.clear()
        found = self[cell] = self._read(cell)
        return found

    def _read(self, cell: str) -> float | None:
        if _SILENCE.fullmatch(cell):
            return None
        found = number_of(cell)
        if found is None or found.degrees:
            self.odd[cell] = (
                f"“{clean_text(cell, 40)}” is no humidity: the temperature alone is kept"
            )
            return None
        try:
            return checked_humidity(found.value)
        except Unread as unread:
            self.odd[cell] = unread.text
            return None


def _no_temperature(cell: str) -> Unread:
    said = clean_text(cell, 40)
    if not said:
        return Unread(Wrong.NO_TEMPERATURE, "it has no temperature")
    if _SILENCE.fullmatch(cell):
        return Unread(Wrong.ERROR_CODE, f"“{said}” stands where the temperature should be")
    return Unread(Wrong.NO_TEMPERATURE, f"“{said}” is no temperature")
