"""What the room is worth: as plain lines, as values, as a sheet of its pieces, and plotted by the week."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from stockroom.books.values import Job, Material, Shop
from stockroom.film.sentences import counted
from stockroom.lines import plot, today, words
from stockroom.lines.plot import LABEL, Limit, Panel, months, stretched
from stockroom.lines.sheet import sheet
from stockroom.lines.text_table import Columns, pairs, table
from stockroom.plan.demand import WEEK
from stockroom.units.money import decimals_of, show_money
from stockroom.units.shown import show_area
from stockroom.work.charging import cost_between
from stockroom.work.judging import Judged
from stockroom.work.value import Value, Waste
from stockroom.work.worth import Worth, band_of

_WORTH = ("pieces", "value")
_WASTE = Columns(heads=("", "used", "waste", "share"), right=frozenset({1, 2, 3}))
_BAR, _FULL = 20, "█"
_MOST_JOBS = 10
_PIECE = (
    *("code", "material", "kind", "lot", "form", "received_on", "shelf_days", "age", "verdict"),
    *("job", "cost_minor", "value_minor"),
)


HIDDEN = "Money is hidden at this station; STOCKROOM_MONEY=shown shows it."


def lines(found: Value, width: int) -> list[str]:
    """All of it, one table after the other; of jobs the ten that wasted most."""
    said = all_of_it(found.total, found.view.shop, shows_money=True)
    return [today.title(found.view), said, *tables(found, width, shows_money=True)]


def tables(found: Value, width: int, *, shows_money: bool) -> list[str]:
    """What stands below what all of it is worth; numbers of pieces alone where no money is shown."""
    shop = found.view.shop
    slow_days = counted(found.wanted.slow_days, "day")
    verdicts = [((words.marked(one),), it) for one, it in found.verdicts]
    ages = [((one.value,), it) for one, it in found.ages]
    slow = [((one.material.name, words.day(one.since)), one.worth) for one in found.slow]
    lots = [((one.material.name, words.known(one.lot)), one.worth) for one in found.lots]
    shown = _Shown(shop, width - 2, shows_money)
    parts: tuple[tuple[str, list[str]], ...] = (
        ("By verdict", shown.groups(verdicts)),
        ("By age", shown.groups(ages)),
        (f"Nothing taken for {slow_days}", shown.table(("material", "since"), slow)),
        (f"In {counted(found.wanted.days, 'day')}", pairs(_flows(found, shows_money=shows_money))),
        ("Waste of film for jobs", _waste(found.film_waste, shop, width)),
        ("Waste of jobs, the most first", _waste(found.job_waste[:_MOST_JOBS], shop, width)),
        ("By lot", shown.table(("material", "lot"), lots)),
    )
    said: list[str] = []
    for head, body in parts:
        said += ["", head, *(f"  {line}" for line in body)] if body else []
    return said


def all_of_it(total: Worth, shop: Shop, *, shows_money: bool) -> str:
    """How many pieces are ours, and what they are worth together."""
    if not total.pieces:
        return "Nothing of ours is here."
    pieces = counted(total.pieces, "piece")
    return f"{pieces} worth {_money(total, shop)}" if shows_money else pieces


def _money(worth: Worth, shop: Shop) -> str:
    """An amount; what has no price is not in it."""
    if worth.pieces == worth.unpriced:
        return words.UNKNOWN
    return show_money(worth.value_minor, shop.currency) + (" + ?" if worth.unpriced else "")


@dataclass(frozen=True, slots=True)
class _Shown:
    """How tables of worth are written: in what width, with or without money."""

    shop: Shop
    width: int
    shows_money: bool

    def groups(self, rows: Sequence[tuple[tuple[str, ...], Worth]]) -> list[str]:
        """Groups without a head, each with a bar of its share."""
        sizes = [worth.value_minor if self.shows_money else worth.pieces for _, worth in rows]
        most = max(sizes, default=0) or 1
        bars = [_FULL * round(size / most * _BAR) for size in sizes]
        return self.table(("",), rows, bars)[1:]

    def table(
        self,
        names: tuple[str, ...],
        rows: Sequence[tuple[tuple[str, ...], Worth]],
        bars: Sequence[str] = (),
    ) -> list[str]:
        """A row for each name: how many pieces, what they are worth, and a bar where one is given."""
        if not rows:
            return []
        heads = (*names, *_WORTH[: 1 + self.shows_money])
        right = frozenset(range(len(names), len(heads)))
        cells = [
            (*said, str(worth.pieces), *([_money(worth, self.shop)] if self.shows_money else []))
            for said, worth in rows
        ]
        if bars:
            heads = (*heads, "")
            cells = [(*one, bar) for one, bar in zip(cells, bars, strict=True)]
        return table(Columns(heads=heads, right=right), cells, self.width)


def _flows(found: Value, *, shows_money: bool) -> list[tuple[str, str]]:
    """Where money went, and how often the room was used up."""
    currency, taken, turnover = found.view.shop.currency, found.taken, found.turnover
    times = turnover.times_a_year
    turned = words.UNKNOWN if times is None else f"{times:.1f} a year"
    if not shows_money:
        return [("turnover", turned)]
    mean = show_money(round(turnover.mean_minor), currency)
    return [
        ("taken for jobs", show_money(taken.cost_minor, currency)),
        ("without a job", show_money(taken.without_job_minor, currency)),
        ("discarded", show_money(taken.discarded_minor, currency)),
        ("found by counts, or with - missed", show_money(taken.counted_minor, currency)),
        ("turnover", turned if times is None else f"{turned}, of {mean} in the mean"),
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


def panel(found: Value, steps: int) -> Panel:
    """What the room was worth in the weeks gone by."""
    levels = stretched(found.weeks, steps)
    known = [one for one in levels if one is not None]
    ends = min(one.lowest for one in known), max(one.highest for one in known)
    lowest, highest = (_whole(end, found.view.shop) for end in ends)
    return Panel(levels, (Limit(at=0.0, label="nothing", upwards=False),), (lowest, highest))


def _whole(minor: float, shop: Shop) -> str:
    """An amount without its decimals, as short as a plot wants it."""
    return f"{minor / 10 ** decimals_of(shop.currency):,.0f}"[: LABEL - 1]


def ticks(found: Value, width: int) -> str:
    """The months under a plot."""
    days = len(found.weeks) * WEEK
    until = found.since + timedelta(days=days)
    marks = months(found.since, until)
    return plot.ticks((((day - found.since).days / days, f"{day:%Y-%m}") for day in marks), width)
