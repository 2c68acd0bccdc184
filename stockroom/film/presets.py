"""The widths and lengths film is usually sold in, to choose from instead of typing.

    usual(kind)      Presets: widths, and lengths of a roll, in nm; empty where nothing is usual

All of it is common practice, no source: window film 36, 48, 60 and 72 in by 100 ft, protective
film 24, 36, 60 and 72 in by 50 ft, vinyl 1370 and 1520 mm by 10, 25 and 50 yd.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stockroom.film.kinds import Kind
from stockroom.units import FOOT, INCH, MM

_YARD = 3 * FOOT


@dataclass(frozen=True, slots=True)
class Presets:
    """Widths of the film and lengths of a new roll."""

    widths_nm: tuple[int, ...] = ()
    lengths_nm: tuple[int, ...] = ()


_VINYL = Presets((1370 * MM, 1520 * MM), (10 * _YARD, 25 * _YARD, 50 * _YARD))
_USUAL: Mapping[Kind, Presets] = MappingProxyType(
    {
        Kind.WINDOW_FILM: Presets((36 * INCH, 48 * INCH, 60 * INCH, 72 * INCH), (100 * FOOT,)),
        Kind.PROTECTIVE_FILM: Presets((24 * INCH, 36 * INCH, 60 * INCH, 72 * INCH), (50 * FOOT,)),
        Kind.PRINT_VINYL: _VINYL,
        Kind.CALENDERED_VINYL: _VINYL,
    }
)


def usual(kind: Kind) -> Presets:
    """What a kind is usually sold in."""
    return _USUAL.get(kind, Presets())
