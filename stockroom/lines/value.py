"""What the room is worth: as plain lines, as values, and as a sheet of its pieces."""

from collections.abc import Sequence
from typing import Any

from stockroom.books.values import Job, Material, Shop
from stockroom.film.sentences import counted
from stockroom.lines import today, words
from stockroom.lines.sheet import sheet
from stockroom.lines.text_table import Columns, pairs, table
from stockroom.units.money import show_money
from stockroom.units.shown import show_area
from stockroom.work.charging import cost_between
from stockroom.work.judging import Judged
from stockroom.work.value import Value, Waste
from stockroom.work.worth import Worth, band_of

_GROUPS = Columns(heads=("", "pieces", "value"), right=frozenset({1, 2}))
_LOTS = Columns(heads=("material", "lot", "pieces", "value"), right=frozenset({2, 3}))
_SLOW = Columns(heads=("material", "since", "pieces", "value"), right=frozenset({2, 3}))
_WASTE = Columns(heads=("", "used", "waste", "share"), right=frozenset({1, 2, 3}))
_MOST_JOBS = 10
_PIECE = (
    *("code", "material", "kind", "lot", "form", "received_on", "shelf_days", "age", "verdict"),
    *("job", "cost_minor", "value_minor"),
)


def lines(found: Value, width: int) -> list[str]:
    """All of it, one table after the other; of jobs the ten that wasted most."""
    shop = found.view.shop
    parts: tuple[tuple[str, list[str]], ...] = (
        ("By verdict", _groups([(words.marked(one), it) for one, it in found.verdicts], shop)),
        ("By age", _groups([(one.value, it) for one, it in found.ages], shop)),
        ("By lot", _lots(found, width)),
        (f"Nothing taken for {counted(found.wanted.slow_days, 'day')}", _slow(found, width)),
        (f"In {counted(found.wanted.days, 'day')}", pairs(_flows(found))),
        ("Waste of film for jobs", _waste(found.film_waste, shop, width)),
        ("Waste of jobs, the most first", _waste(found.job_waste[:_MOST_JOBS], shop, width)),
    )
    said = [today.title(found.view), _all_of_it(found.total, shop)]
    for head, body in parts:
        said += ["", head, *(f"  {line}" for line in body)] if body else []
    return said


def _all_of_it(total: Worth, shop: Shop) -> str:
    if not total.pieces:
        return "Nothing of ours is here."
    return f"{counted(total.pieces, 'piece')} worth {_money(total, shop)}"


def _money(worth: Worth, shop: Shop) -> str:
    """An amount; what has no price is not in it."""
    if worth.pieces == worth.unpriced:
        return words.UNKNOWN
    return show_money(worth.value_minor, shop.currency) + (" + ?" if worth.unpriced else "")


def _groups(rows: Sequence[tuple[str, Worth]], shop: Shop) -> list[str]:
    cells = [(name, str(worth.pieces), _money(worth, shop)) for name, worth in rows]
    return table(_GROUPS, cells, 78)[1:] if cells else []


def _lots(found: Value, width: int) -> list[str]:
    rows = [
        (
            one.material.name,
            words.known(one.lot),
            str(one.worth.pieces),
            _money(one.worth, found.view.shop),
        )
        for one in found.lots
    ]
    return table(_LOTS, rows, width - 2) if rows else []


def _slow(found: Value, width: int) -> list[str]:
    rows = [
        (
            one.material.name,
            words.day(one.since),
            str(one.worth.pieces),
            _money(one.worth, found.view.shop),
        )
        for one in found.slow
    ]
    return table(_SLOW, rows, width - 2) if rows else []


def _flows(found: Value) -> list[tuple[str, str]]:
    """Where money went, and how often the room was used up."""
    currency, taken, turnover = found.view.shop.currency, found.taken, found.turnover
    times = turnover.times_a_year
    return [
        ("taken for jobs", show_money(taken.cost_minor, currency)),
        ("without a job", show_money(taken.without_job_minor, currency)),
        ("discarded", show_money(taken.discarded_minor, currency)),
        ("found by counts, or with - missed", show_money(taken.counted_minor, currency)),
        (
            "turnover",
            words.UNKNOWN
            if times is None
            else f"{times:.1f} a year, of {show_money(round(turnover.mean_minor), currency)} "
            "in the mean",
        ),
    ]


def _waste(found: Sequence[Waste], shop: Shop, width: int) -> list[str]:
    rows = [
        (
            _name(one.of),
            show_area(one.amounts.used, shop.system),
            show_area(one.amounts.wasted, shop.system),
            words.UNKNOWN if one.share is None else f"{float(one.share) * 100:.1f} %",
        )
        for one in found
    ]
    return table(_WASTE, rows, width - 2) if rows else []


def _name(of: Material | Job) -> str:
    return of.name if isinstance(of, Material) else f"{words.code(of.code)}  {of.name}"


def values(found: Value) -> dict[str, Any]:
    """The same for a script, with every piece and every job."""
    taken, turnover = found.taken, found.turnover
    times = turnover.times_a_year
    return {
        "day": found.view.today.isoformat(),
        "currency": found.view.shop.currency,
        "value_minor": found.total.value_minor,
        "total": _worth(found.total),
        "verdicts": [{"verdict": one.value, **_worth(it)} for one, it in found.verdicts],
        "ages": [{"age": one.value, **_worth(it)} for one, it in found.ages],
        "lots": [
            {"material": one.material.name, "lot": one.lot, **_worth(one.worth)}
            for one in found.lots
        ],
        "slow_days": found.wanted.slow_days,
        "slow": [
            {"material": one.material.name, "since": one.since.isoformat(), **_worth(one.worth)}
            for one in found.slow
        ],
        "days": found.wanted.days,
        "taken_minor": taken.cost_minor,
        "without_job_minor": taken.without_job_minor,
        "discarded_minor": taken.discarded_minor,
        "counted_minor": taken.counted_minor,
        "mean_value_minor": round(turnover.mean_minor),
        "turnover_per_year": None if times is None else round(times, 4),
        "film_waste": [{"material": one.of.name, **_wasted(one)} for one in found.film_waste],
        "job_waste": [
            {"job": one.of.code, "name": one.of.name, **_wasted(one)}
            for one in found.job_waste
            if isinstance(one.of, Job)
        ],
        "pieces": _pieces(found),
    }


def sheet_of(found: Value) -> list[str]:
    """Every piece for a spreadsheet."""
    return sheet(_PIECE, _pieces(found), found.view.shop.currency)


def _worth(worth: Worth) -> dict[str, Any]:
    return {
        "pieces": worth.pieces,
        "value_minor": worth.value_minor,
        "unpriced_pieces": worth.unpriced,
    }


def _wasted(one: Waste) -> dict[str, Any]:
    return {
        "used_area_mm2": one.amounts.used,
        "wasted_area_mm2": one.amounts.wasted,
        "waste_share": None if one.share is None else round(float(one.share), 6),
    }


def _pieces(found: Value) -> list[dict[str, Any]]:
    return [_piece(one, found) for one in found.pieces]


def _piece(one: Judged, found: Value) -> dict[str, Any]:
    standing, state = one.standing, one.standing.state
    priced = state.cost_minor is not None
    return {
        "code": one.code,
        "material": standing.material.name,
        "kind": standing.material.kind.value,
        "lot": state.lot,
        "form": state.form,
        "received_on": state.received,
        "shelf_days": one.judgement.shelf_days,
        "age": band_of(one, found.view.today).value,
        "verdict": one.judgement.verdict.value,
        "job": standing.job and standing.job.code,
        "cost_minor": state.cost_minor,
        "value_minor": cost_between(state, state.balance, 0) if priced else None,
    }
