"""Short cautions, shown where the work is; local rules and the maker's sheet come first.

Two people from 15 kg or 1.2 m, and the rest: common practice, no source.
"""

from stockroom.film.kinds import Ink, Kind
from stockroom.film.lifting import takes_two
from stockroom.units import MM

BLADE = "Caution: blade and edge."
LIFTING = (
    "Caution: two people from 15 kg, and for more than 1.2 m of width lifted above the shoulder "
    "or off the floor; local rules and the maker's sheet come first."
)
LIFTING_IN_SHORT = "Caution: two people lift it; local rules and the maker's sheet come first."
BY_HAND = (
    "Caution: for two hands, standing, on a dry even floor. A long roll on one shoulder, carrying, "
    "stairs and lifting in twos are not covered; local rules and the maker's sheet come first."
)
FRESH_PRINT = (
    "Caution: ventilate where a fresh solvent print lies; local rules and the maker's sheet "
    "come first."
)
LINER = "Caution: pulling a liner makes sparks: no open solvent at that table; blade and edge."
SCRAP_GLASS = "Caution: try it on scrap glass, never on the pane; blade and edge of film and glass."
GLASS = (
    "Caution: film that absorbs heat can break a pane, laminated, wired, sealed or toughened glass "
    "first: ask the maker's film-to-glass table before it goes up; never cut film on the pane."
)
VEHICLE = (
    "Caution: airbags, sensors and heated panes: the vehicle maker's sheet first; hot-air tools cool "
    "away from film, and vinyl is never burnt; local law says how dark a window may be."
)
GRAPHIC = (
    "Caution: hot-air tools cool away from film, and vinyl is never burnt; ventilate fresh solvent "
    "prints."
)
ON_SITE = (
    "Ladders, traffic, wet floors and mains tools, lone and night work: local rules and licensed "
    "practice come first."
)
TOOL = (
    "Caution: look over its lead and plug first; hot-air tools cool away from film. One that failed is "
    "taken out of use and not opened: licensed repair, local rules and the maker's sheet come first."
)
_AT_JOBS = {"glass": GLASS, "vehicle": VEHICLE, "graphic": GRAPHIC}
_TAKING = {
    Kind.BLADE: "Caution: blades cut; used ones go into a tin.",
    Kind.LIQUID: (
        "Caution: label every bottle you mix or fill, keep solvents from the table where liner "
        "is pulled; the maker's sheet comes first."
    ),
}


def lifting(mass_kg: float | None, width_nm: int | None) -> str | None:
    """What to say before a roll is lifted; None where one person may."""
    width_mm = None if width_nm is None else width_nm / MM
    return LIFTING if takes_two(mass_kg, width_mm) else None


def printing(ink: Ink) -> str | None:
    """What to say of a fresh print; None where its ink gives nothing off to speak of."""
    return None if ink in (Ink.LATEX, Ink.UV) else FRESH_PRINT


def at_job(kind: str) -> tuple[str, ...]:
    """What to say of the work of a kind of job."""
    return (*((_AT_JOBS[kind],) if kind in _AT_JOBS else ()), BLADE, ON_SITE)


def taking(kind: Kind) -> str | None:
    """What to say when goods of a kind are taken out."""
    return _TAKING.get(kind)
