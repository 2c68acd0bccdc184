"""What is known of a material beside its limits: figures, each with a name and a unit.

energy    kJ/mol   how much faster it ages when it is warm; a Q10 is converted
curl      mm       the circle it may curl to and still be applied
bond      J/m²     what its adhesive holds, against the curl that lifts it
modulus   GPa      how stiff it is
memory    times     its relaxation times against those assumed of its kind; from curl trials

parse_figure(name, text)   the number in that unit; a name or a number it cannot be is refused
show_figure(name, value)   as a person would type it
"""

from collections.abc import Mapping
from difflib import get_close_matches
from types import MappingProxyType

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.heat import parse_energy
from stockroom.units import MM, System
from stockroom.units.shown import show_width
from stockroom.units.typed import parse_length, parse_number

# From a slip of the finger to a slip of the finger: common practice, no source.
_PLAIN: Mapping[str, tuple[str, tuple[float, float]]] = MappingProxyType(
    {
        "bond": (" J/m²", (0.001, 10_000)),
        "modulus": (" GPa", (0.001, 20)),
        "memory": ("x", (0.001, 1_000)),
    }
)
FIGURES = ("energy", "curl", *_PLAIN)

_LEAST_CURL_MM, _MOST_CURL_MM = 10, 100_000


def parse_figure(name: str, text: str, system: System = System.METRIC) -> float:
    """The number a person typed for a figure, in its unit."""
    match name:
        case "energy":
            return parse_energy(text)
        case "curl":
            return _curl_mm(text, system)
        case _ if name in _PLAIN:
            return _plain(name, text)
        case _:
            near = get_close_matches(name, FIGURES, n=1, cutoff=0.4)
            hint = f"did you mean {near[0]}?" if near else f"use one of {', '.join(FIGURES)}."
            raise Refusal(Code.BAD_NAME, f"“{clean_text(name, 40)}” is no figure: {hint}")


def show_figure(name: str, value: float, system: System = System.METRIC) -> str:
    """A figure as a person would type it."""
    if name == "energy":
        return f"{value:g} kJ/mol"
    if name == "curl":
        return show_width(round(value * MM), system)
    return f"{value:.4g}{_PLAIN[name][0]}"


def _curl_mm(text: str, system: System) -> float:
    circle_mm = parse_length(text, system) / MM
    if not _LEAST_CURL_MM <= circle_mm <= _MOST_CURL_MM:
        raise Refusal(
            Code.BAD_NUMBER,
            f"No film is sorted by a circle of {circle_mm:g} mm: write one from 10 mm to 100 m.",
        )
    return circle_mm


def _plain(name: str, text: str) -> float:
    unit, within = _PLAIN[name]
    typed = unit.strip().lower().replace("²", "2")
    number = text.lower().replace("²", "2").strip().removesuffix(typed)
    return parse_number(number, f"a figure of {name}", within, unit)
