"""One measurement of a piece, as people type it."""

from functools import partial
from typing import Any

from stockroom.cli.desk import Desk, maybe
from stockroom.units.typed import parse_count, parse_length, parse_mass


def measurement(
    desk: Desk,
    *,
    length: str | None,
    outside: str | None,
    round_: str | None,
    mass: str | None,
    number: str | None,
    zero: bool = False,
) -> dict[str, Any]:
    """What was measured, as a request holds it; `zero` where nothing left is an answer."""
    system = desk.shop.system
    typed = partial(parse_length, system=system)
    return {
        "length_nm": maybe(length, partial(typed, zero=zero)),
        "outside_nm": maybe(outside, typed),
        "round_nm": maybe(round_, typed),
        "mass_mg": maybe(mass, partial(parse_mass, system=system)),
        "number": maybe(number, lambda text: _number(text, zero=zero)),
    }


def _number(text: str, *, zero: bool) -> int:
    return 0 if zero and text.strip() == "0" else parse_count(text)
