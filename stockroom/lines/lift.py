"""How heavy a roll may be for a lift, as people and programs read it: a caution, never a leave.

lift           the recommended weight, and what a mass is beside it
lift_values    the same for a script
"""

from stockroom.film import lifting
from stockroom.film.lifting import Lift
from stockroom.units import KG, System
from stockroom.units.shown import show_mass

_SOME, _NEARLY_ALL = 1.0, 3.0  # indices of the equation above which people are at increased risk
_RULED_OUT = (
    "too far from the body",
    "too high",
    "too far up or down",
    "too far round",
    "too often",
    "out of hand",
)
"""What takes a lift out of the equation, in the order of its multipliers."""


def lift(mass_kg: float, one: Lift, system: System = System.METRIC) -> str:
    """What is recommended for a lift, and what a mass is beside it."""
    index = lifting.lifting_index(mass_kg, one)
    if index is None:
        return f"This lift is not recommended at any weight: it goes {_ruled_out(one)}."
    limit = show_mass(round(lifting.recommended_kg(one) * KG), system)
    mass = show_mass(round(mass_kg * KG), system)
    return f"At most {limit} is recommended for this lift. {mass} is {index:.2f} of that{_risk(index)}."


def lift_values(mass_kg: float, one: Lift) -> dict[str, float | None]:
    """The limit, 0 where none is recommended; the index is null then."""
    index = lifting.lifting_index(mass_kg, one)
    return {
        "rwl_kg": round(lifting.recommended_kg(one), 6),
        "lifting_index": None if index is None else round(index, 6),
        **{
            f"{name}_multiplier": round(value, 6)
            for name, value in lifting.multipliers(one)._asdict().items()
        },
    }


def _ruled_out(one: Lift) -> str:
    why = zip(_RULED_OUT, lifting.multipliers(one), strict=True)
    return " and ".join(words for words, multiplier in why if not multiplier)


def _risk(index: float) -> str:
    if index > _NEARLY_ALL:
        return ": nearly everybody is at increased risk"
    return ": some people are at increased risk" if index > _SOME else ""
