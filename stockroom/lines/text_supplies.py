"""What is said of supplies that begin to be used: bottles that are opened, tools that are put in use.

began(kind)                  opened, or in use since
opened(sets), in_use(sets)   what an act did, by what its move sets
"""

from collections.abc import Mapping

from stockroom.film.kinds import Kind


def began(kind: Kind) -> str:
    """What a supply of a kind does when it begins to be used."""
    return "opened" if kind is Kind.LIQUID else "in use since"


def opened(sets: Mapping[str, object]) -> str:
    """That a bottle was opened, or one left its box."""
    if "begun" not in sets:
        return "one of it opened"
    keeps = sets.get("keeps_days")
    return "opened" if keeps is None else f"opened, keeps {keeps} d"


def in_use(sets: Mapping[str, object]) -> str:
    """That a tool was put in use, or one left its box."""
    return "put in use" if "begun" in sets else "one of it put in use"
