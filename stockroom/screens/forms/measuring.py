"""How a piece is measured in a form: by one of several lines, and counted by it."""

from collections.abc import Mapping
from typing import Any

from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.lines import bench as typed
from stockroom.lines import card as lines
from stockroom.lines import text_done
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.forms.on_card import OnCard
from stockroom.units.typed import parse_count, parse_length, parse_mass
from stockroom.work.count import Count, count

BY_SIZE = {
    "outside": "diameter, 96mm",
    "round": "tape round it, 302mm",
    "mass": "4.1 kg, core and all",
}
"""What else can be measured of a roll than its length."""


def count_blank(on: OnCard) -> Blank:
    """What was measured? One line is enough."""
    station, asking = on.station, on.station.asking()
    hints = {
        "box": {"number": "how many are in the box"},
        "offcut": {"length": "along the roll, 1.2m"},
        "roll": {"length": "12.4m", **BY_SIZE},
    }[on.form]

    def write(said: Mapping[str, str]) -> str:
        given = one_of(said, hints)
        if not given:
            raise Refusal(Code.BAD_USAGE, "Fill in a line: a count needs a measurement.")
        request = Count(**asking, piece=on.code, **given_as(given, on))
        found = count(request, book=station.book, now=station.now())
        return " · ".join(text_done.counted(found, on.shop))

    return Blank(
        title=f"Count {grouped(on.code)}",
        fields=tuple(Field(name=name, hint=hint) for name, hint in hints.items()),
        write=write,
        caution=lines.caution(on.card),
    )


def one_of(said: Mapping[str, str], names: Mapping[str, str]) -> dict[str, str]:
    """The one measurement that was typed, or none; several are refused."""
    given = {name: said[name] for name in names if said[name]}
    if len(given) > 1:
        raise Refusal(Code.BAD_USAGE, "Fill in one line: one measurement is one count.")
    return given


def given_as(given: Mapping[str, str], on: OnCard) -> dict[str, Any]:
    """A measurement as a request holds it; what is left may be nothing."""
    if not given:
        return {}
    ((name, text),) = given.items()
    system = on.shop.system
    with mending(name):
        match name:
            case "number":
                return {"number": parse_count(text)}
            case "length":
                return {"length_nm": typed.length(text, system)}
            case "left":
                return _left(text.removeprefix("="), on)
            case "mass":
                return {"mass_mg": parse_mass(text, system)}
            case _:
                return {f"{name}_nm": parse_length(text, system)}


def _left(text: str, on: OnCard) -> dict[str, int]:
    if on.form == "box":
        return {"number": 0 if text == "0" else parse_count(text)}
    return {"length_nm": typed.length(text, on.shop.system, zero=True)}
