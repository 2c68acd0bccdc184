"""A curl trial in words and values.

curls_within(facts, shop)   what the strip did, and its limit: curls to a 210 mm circle, limit …
reaches(done, shop)         how long a pass holds, and for which wraps
values(done)                the trial for a script
"""

from collections.abc import Mapping
from typing import Any

from stockroom.books.values import Shop
from stockroom.lines.answers import Values, mm
from stockroom.lines.curl import curl_values, lies_flat
from stockroom.units import MM
from stockroom.units.shown import show_width
from stockroom.work.curl_trial import CurlTried, shown_circle


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
