"""What is summed over the readings of a zone, so that every stretch of storage costs two look-ups.

ageing(energy_kj)           seconds at 23 °C that would have aged film as much
hotter_than(limit_c)        seconds above a temperature
outside_of(low, high)       seconds drier or damper than a band, in % of humidity
sum_named(name)             the sum of a name, as it was stored
Sum
  .of                       what was read: Quantity.TEMPERATURE or HUMIDITY
  .levels(read)             what the readings are to the measure: themselves, or rates
  .measure                  what a line between two levels adds
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from stockroom.film.course import Measure, above, outside, under_line
from stockroom.film.heat import Rates


class Quantity(StrEnum):
    """What a sensor reads."""

    TEMPERATURE = "temperature"
    HUMIDITY = "humidity"


@dataclass(frozen=True, slots=True)
class Sum:
    """One thing that is summed; two of the same name are the same."""

    name: str
    of: Quantity
    measure: Measure
    energy_kj: float | None = None

    def levels(self, read: Sequence[float]) -> Sequence[float]:
        """What the readings are to the measure."""
        return read if self.energy_kj is None else Rates(read, self.energy_kj)


def ageing(energy_kj: float) -> Sum:
    """The seconds at 23 °C that would have aged film as much, for an activation energy in kJ/mol."""
    return Sum(f"age {float(energy_kj)!r}", Quantity.TEMPERATURE, under_line, energy_kj)


def hotter_than(limit_c: float) -> Sum:
    """The seconds above a temperature."""
    return Sum(f"above {float(limit_c)!r}", Quantity.TEMPERATURE, above(limit_c))


def outside_of(low_pct: float, high_pct: float) -> Sum:
    """The seconds in which the air is drier or damper than a band."""
    name = f"outside {float(low_pct)!r} {float(high_pct)!r}"
    return Sum(name, Quantity.HUMIDITY, outside(low_pct, high_pct))


def sum_named(name: str) -> Sum:
    """The sum of a name, as one of the others gave it; ValueError where there is none."""
    kind, *numbers = name.split()
    match kind, [float(number) for number in numbers]:
        case "age", [energy_kj]:
            return ageing(energy_kj)
        case "above", [limit_c]:
            return hotter_than(limit_c)
        case "outside", [low_pct, high_pct]:
            return outside_of(low_pct, high_pct)
        case _:
            raise ValueError(f"nothing is summed as {name}")
