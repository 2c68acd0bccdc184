"""A job with what it used: as plain lines and as values."""

from collections.abc import Iterable
from typing import Any

from stockroom.books.values import Place, Shop, Standing
from stockroom.lines import answers, text_setup, words
from stockroom.lines.text_acts import act_words, subject
from stockroom.lines.text_table import Columns, pairs, table
from stockroom.units.money import show_money
from stockroom.units.shown import show_area
from stockroom.work.job_use import JobUse, Used

_USED = Columns(
    heads=("piece", "film", "used", "waste", "kept", "cost"),
    right=frozenset({2, 3, 4, 5}),
    flex=1,
)
_BY_PANEL = Columns(
    heads=("panel", "cut", "film", "waste", "cost"), right=frozenset({1, 2, 3, 4}), flex=0
)


def lines(found: JobUse, shop: Shop, places: Iterable[Place], width: int) -> list[str]:
    """The job, what it used of each piece and in all, and what was done for it, newest first."""
    known = tuple(places)
    acts = [
        (words.moment(act.at, shop), f"{subject(act)}  {act_words(act, shop, known)}")
        for act in found.acts
    ]
    used = _table(found, shop, width) if found.pieces else ["nothing yet"]
    if found.expected_minor is not None:
        expected = show_money(found.expected_minor, shop.currency)
        used.append(f"expected when film was kept: {expected}")
    if found.minutes is not None:
        used.append(f"work: {found.minutes / 60:.4g} h, {_labour(found, shop)}")
    if found.panels:
        used += ["", "By panel", *_panels(found, shop, width)]
    return [*text_setup.job(found.job), "", "Used", *used, "", "Acts", *pairs(acts)]


def _table(found: JobUse, shop: Shop, width: int) -> list[str]:
    rows = [
        (
            words.code(one.standing.code),
            one.standing.material.name,
            *amounts(one.used, one.standing, shop),
        )
        for one in found.pieces
    ]
    total = ("", "in all", *areas(found.total, shop), cost(found, shop))
    return table(_USED, [*rows, total], width)


def _labour(found: JobUse, shop: Shop) -> str:
    if found.labour_minor is None:
        return "no rate is set: `stockroom book set labour`"
    return show_money(found.labour_minor, shop.currency)


def _panels(found: JobUse, shop: Shop, width: int) -> list[str]:
    """Each panel that was cut as planned, with its share of waste and cost."""
    rows = [
        (
            one.name,
            str(one.number),
            show_area(one.used_mm2, shop.system),
            show_area(one.wasted_mm2, shop.system) if one.wasted_mm2 else "-",
            show_money(one.cost_minor, shop.currency),
        )
        for one in found.panels
    ]
    return table(_BY_PANEL, rows, width)


def amounts(used: Used, standing: Standing, shop: Shop) -> tuple[str, ...]:
    """What was used, wasted and kept of a piece, and its cost."""
    priced = standing.state.cost_minor is not None
    paid = show_money(used.cost_minor, shop.currency) if priced else words.UNKNOWN
    if standing.state.form == "box":
        return words.count(used.number), "", "", paid
    return *areas(used, shop), paid


def areas(used: Used, shop: Shop) -> tuple[str, ...]:
    """The area used, wasted and kept."""
    return tuple(
        show_area(area, shop.system) if area else "-"
        for area in (used.used_mm2, used.wasted_mm2, used.kept_mm2)
    )


def cost(found: JobUse, shop: Shop) -> str:
    """What a job cost so far; what has no price is not in it."""
    return show_money(found.total.cost_minor, shop.currency) + (" + ?" if found.unpriced else "")


def values(found: JobUse, shop: Shop) -> dict[str, Any]:
    """The job, what it used, and its acts."""
    return answers.job(found.job) | {
        "pieces": [
            {
                "code": one.standing.code,
                "material": one.standing.material.name,
                "lot": one.standing.state.lot,
                **_used(one.used),
                "taken_count": one.used.number if one.standing.state.form == "box" else None,
                "cost_minor": (
                    None if one.standing.state.cost_minor is None else one.used.cost_minor
                ),
            }
            for one in found.pieces
        ],
        "total": _used(found.total)
        | {"cost_minor": found.total.cost_minor, "unpriced_pieces": found.unpriced},
        "expected_minor": found.expected_minor,
        "work_minutes": found.minutes,
        "labour_minor": found.labour_minor,
        "by_panel": [
            {
                "name": one.name,
                "count": one.number,
                "used_area_mm2": one.used_mm2,
                "wasted_area_mm2": one.wasted_mm2,
                "cost_minor": one.cost_minor,
            }
            for one in found.panels
        ],
        "currency": shop.currency,
        "acts": [answers.act(one, shop) for one in found.acts],
    }


def _used(used: Used) -> dict[str, Any]:
    return {
        "used_area_mm2": used.used_mm2,
        "wasted_area_mm2": used.wasted_mm2,
        "kept_area_mm2": used.kept_mm2,
    }
