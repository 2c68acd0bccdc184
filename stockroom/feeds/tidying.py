"""What was taken from a file put in order of time, one reading a second, without those that are none.

tidied(taken, …)   the places of the readings that stand, in order of time
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from stockroom.feeds.reading import SWITCHED_ON, Wrong, switched_on
from stockroom.feeds.taking import Taken


def tidied(taken: Taken, *, is_newest_first: bool) -> Sequence[int]:
    """The places of the readings that stand, in order of time; the others become findings."""
    places: Sequence[int] = range(len(taken.at_s))
    if any(after <= before for before, after in pairwise(taken.at_s)):
        places = _one_a_second(taken, sorted(places, key=lambda at: (taken.at_s[at], at)))
        _find_steps_back(taken, sorted(places), is_newest_first=is_newest_first)
    return _without_switched_on(taken, places)


def _find_steps_back(taken: Taken, places: Sequence[int], *, is_newest_first: bool) -> None:
    """Find lines that go against the order of all the others."""
    for before, after in pairwise(places):
        if (taken.at_s[after] > taken.at_s[before]) is is_newest_first:
            side = "later" if is_newest_first else "earlier"
            taken.find(
                taken.lines[after],
                Wrong.OUT_OF_ORDER,
                f"it is {side} than the line before, and was put where it belongs",
            )


def _one_a_second(taken: Taken, order: Iterable[int]) -> list[int]:
    """Of readings at the same second, the one that stands first in the file."""
    kept: list[int] = []
    for place in order:
        if kept and taken.at_s[kept[-1]] == taken.at_s[place]:
            _find_again(taken, kept[-1], place)
        else:
            kept.append(place)
    return kept


def _find_again(taken: Taken, first: int, again: int) -> None:
    line, celsius = taken.lines[first], taken.temperature_c
    if celsius[first] == celsius[again] and taken.rh_pct[first] == taken.rh_pct[again]:
        taken.find(taken.lines[again], Wrong.SAID_TWICE, f"it says what line {line} says")
        return
    taken.find(
        taken.lines[again],
        Wrong.OTHERWISE,
        f"line {line} says otherwise of the same time: its {celsius[first]:.1f} °C were taken",
    )


def _without_switched_on(taken: Taken, places: Sequence[int]) -> Sequence[int]:
    """Without what a probe says before it has measured."""
    lone = {places[at] for at in switched_on([taken.temperature_c[place] for place in places])}
    for place in sorted(lone):
        taken.find(taken.lines[place], Wrong.ERROR_CODE, SWITCHED_ON)
    return [place for place in places if place not in lone] if lone else places
