"""A curl trial in words and values.

curls_within(facts, shop)   what the strip did, and its limit: curls to a 210 mm circle, limit …
STEPS                       what to do, one after the other
foretold(circle, …)         what would be written of it, before it is
reaches(done, shop)         how long a pass holds, and for which wraps
values(done)                the trial for a script
"""

from collections.abc import Mapping
from typing import Any

from stockroom.books.values import Shop
from stockroom.film.limits import Figure
from stockroom.lines.answers import Values, mm
from stockroom.lines.curl import curl_values, lies_flat
from stockroom.units import MM, System
from stockroom.units.shown import show_width
from stockroom.work.curl_trial import CurlTried, passes, shown_circle

STEPS = (
    "1  Cut a strip along the film from the outer end, 300 by 25 mm.",
    "2  Stand it on its long edge on a table, free, for 5 minutes.",
    "3  Measure from end to end, and how high it stands over that line.",
    "4  Type both: what it comes to is shown. A fail holds the piece.",
)
"""Lengths and minutes: common practice, no source."""


def foretold(circle_nm: int | None, limit: Figure, system: System, *, other_way: bool) -> str:
    """What a strip did and whether it passes, in the words of its trial; nothing is written yet."""
    facts = {
        "circle_nm": circle_nm,
        "other_way": other_way,
        "limit_nm": round(limit.value * MM),
        "basis": limit.basis.value,
    }
    passed = "passes" if passes(circle_nm, limit) else "fails, and Enter holds the piece"
    return f"{curls_within(facts, Shop(system=system))}: it {passed}"


def curls_within(facts: Mapping[str, Any], shop: Shop) -> str:
    """The circle a strip curled to, and the limit it was held to, by the facts of its trial."""
    circle_nm, does = facts["circle_nm"], "lies flat"
    if circle_nm is not None and not lies_flat(circle_nm / MM):
        way = "the other way " if facts["other_way"] else ""
        does = f"curls {way}to a {shown_circle(circle_nm, shop.system)} circle"
    return f"{does}, limit {show_width(facts['limit_nm'], shop.system)} ({facts['basis']})"


def reaches(done: CurlTried, shop: Shop) -> list[str]:
    """How long a pass holds, and for which wraps; nothing of a failure."""
    if done.good_until is None:
        return []
    if done.at_diameter_nm is None:
        return [f"good until {done.good_until}"]
    at = show_width(done.at_diameter_nm, shop.system)
    return [f"good until {done.good_until} for wraps outside {at}; further in it is tried again"]


def values(done: CurlTried) -> Values:
    """The circle and its limit, whether it passed, and how far that reaches."""
    return {
        "passed": done.passed,
        **curl_values(done.curl_per_m),
        "limit_mm": done.limit.value,
        "basis": done.limit.basis.value,
        "at_diameter_mm": mm(done.at_diameter_nm),
        "good_until": done.good_until,
    }
