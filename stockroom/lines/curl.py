"""A curl as people read it: the circle that film closes to when it lies free.

curls(curl_per_m)          curls to a 191 mm circle, the other way to a …, lies flat
lies_flat(circle)          whether a circle is too wide to be seen
curl_values(curl_per_m)    the same for a script
"""

from stockroom.film.bending import circle_mm
from stockroom.units import MM, System
from stockroom.units.shown import show_width

_FLAT_FROM_MM = 10_000.0  # a strip of 300 mm stands a millimetre high


def curls(curl_per_m: float, system: System = System.METRIC) -> str:
    """What film does when it is let go."""
    circle = circle_mm(curl_per_m)
    if circle is None or lies_flat(circle):
        return "lies flat"
    way = "the other way " if curl_per_m < 0 else ""
    return f"curls {way}to a {show_width(_whole_mm(circle), system)} circle"


def lies_flat(circle: float) -> bool:
    """Whether nobody can tell a circle of so many millimetres from a straight strip."""
    return circle >= _FLAT_FROM_MM


def curl_values(curl_per_m: float) -> dict[str, float | None]:
    """The circle, null for film that lies flat, and the curl, below 0 the other way."""
    circle = circle_mm(curl_per_m)
    return {
        "circle_mm": None if circle is None else round(circle, 6),
        "curl_per_m": round(curl_per_m, 9),
    }


def _whole_mm(circle: float) -> int:
    """No finer than a curl is known."""
    return round(circle) * MM
