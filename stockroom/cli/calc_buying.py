"""`stockroom calc reorder`, `eoq` and `newsvendor`: when to order and how much; no book needed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated, Any

import typer

from stockroom.cli.files import content_of
from stockroom.cli.saying import Answer, say
from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.draws import History, read_draws
from stockroom.film.dates import parse_span
from stockroom.lines import buying
from stockroom.plan.demand import Demand, demand_of, now_of, pattern_of, weekly_m
from stockroom.plan.quantity import (
    Break,
    Year,
    checked,
    economic,
    for_once,
    with_breaks,
    with_steps,
)
from stockroom.plan.reorder import Goods, Prices, Supply, during, order, reorder_point_m
from stockroom.units import M, System
from stockroom.units.typed import parse_count, parse_length, parse_number

_DAYS_A_MONTH = 365.25 / 12
_NO_TIME = "0d"
_AMOUNTS = 0.0001, 1_000_000_000.0
_SHARES = 0.0001, 10.0
_SERVICES = 0.5, 0.9999
_FEW_DAYS = 28

Units = Annotated[System, typer.Option(help="What a bare number means.")]
AsJson = Annotated[bool, typer.Option("--json", help="Keys carry their units.")]
DemandFile = Annotated[
    Path | None, typer.Argument(metavar="DEMAND.csv", help="What was drawn: at,length[,job].")
]


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Demand, and what is to be said of where it comes from."""

    demand: Demand
    values: dict[str, Any]
    notes: tuple[str, ...] = ()


def reorder(
    lead: Annotated[
        str, typer.Option(help="Until film comes, the days between reviews among them, like 7d.")
    ],
    file: DemandFile = None,
    draws_per_day: Annotated[str, typer.Option(metavar="N", help="Instead of a file.")] = "",
    draw_mean: Annotated[str, typer.Option(metavar="LENGTH", help="Of one draw, like 3m.")] = "",
    draw_var: Annotated[str, typer.Option(metavar="M2", help="Its variance, in m².")] = "0",
    lead_var: Annotated[str, typer.Option(metavar="DAYS2", help="Its variance, in days².")] = "0",
    service: Annotated[
        str, typer.Option(metavar="SHARE", help="Of all times that film must last, like 0.95.")
    ] = "0.95",
    position: Annotated[
        str, typer.Option(metavar="LENGTH", help="There and on order, less what is reserved.")
    ] = "",
    roll: Annotated[str, typer.Option(metavar="LENGTH", help="Film on one roll.")] = "",
    pack: Annotated[str, typer.Option(metavar="N", help="Rolls that are sold together.")] = "1",
    least: Annotated[str, typer.Option(metavar="N", help="Fewest rolls that are sold.")] = "1",
    limit: Annotated[
        str, typer.Option(metavar="TIME", help="Film keeps from when it comes, like 365d.")
    ] = "",
    order_cost: Annotated[
        str, typer.Option(metavar="MONEY", help="Of an order: with --holding-rate and --break.")
    ] = "",
    holding_rate: Annotated[
        str, typer.Option(metavar="SHARE", help="Of its price that keeping film costs a year.")
    ] = "",
    break_: Annotated[
        list[str] | None,
        typer.Option(
            "--break", metavar="FROM:PRICE", help="From so many rolls on, the price of one."
        ),
    ] = None,
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say below what length to order film, and how many rolls."""
    if bool(position) != bool(roll) or ((limit or break_) and not roll):
        raise Refusal(
            Code.BAD_USAGE,
            "How many rolls to order follows from --position and --roll; --limit and --break if "
            "they age and have prices.",
        )
    drawn = _from_file(file, units) if file else _typed(draws_per_day, draw_mean, draw_var, units)
    if file and (draws_per_day or draw_mean):
        raise Refusal(Code.BAD_USAGE, "Give a file or --draws-per-day and --draw-mean, not both.")
    supply = Supply(
        days=_days(lead),
        variance_days2=parse_number(lead_var, "a variance in days²", (0, 1_000_000)),
        service=_service(service),
    )
    lead_m = during(drawn.demand, supply.days).mean
    point_m = reorder_point_m(drawn.demand, supply)
    lines = [buying.reorder(lead_m, point_m, units)]
    values = {
        "reorder_point_m": round(point_m, 6),
        "lead_demand_m": round(lead_m, 6),
        **buying.demand_values(drawn.demand),
        **drawn.values,
    }
    if position:
        roll_m = parse_length(roll, units) / M
        goods = Goods(
            roll_m=roll_m,
            pack=parse_count(pack),
            least=parse_count(least),
            life_days=_days(limit) if limit else None,
            prices=_prices(order_cost, holding_rate, break_ or (), roll_m),
        )
        position_m = parse_length(position, units, zero=True) / M
        found = order(drawn.demand, supply, goods, position_m=position_m)
        lines.append(buying.why(found))
        values |= buying.order_values(found)
    say(Answer(values=values, lines=lines, notes=drawn.notes), as_json=as_json)


def eoq(
    demand: Annotated[str, typer.Option(metavar="N", help="Units a year.")],
    order_cost: Annotated[
        str, typer.Option(metavar="MONEY", help="Of an order, whatever its size.")
    ],
    holding: Annotated[
        str, typer.Option(metavar="MONEY", help="Of keeping one unit for a year.")
    ] = "",
    holding_rate: Annotated[
        str, typer.Option(metavar="SHARE", help="Of its price, instead, with --break.")
    ] = "",
    break_: Annotated[
        list[str] | None,
        typer.Option("--break", metavar="FROM:PRICE", help="From so many on, the price of one."),
    ] = None,
    incremental: Annotated[
        bool, typer.Option("--incremental", help="Each price holds only for what lies above.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Say how much to order at once so that ordering and keeping cost least."""
    if bool(holding) == bool(holding_rate) or bool(holding_rate) != bool(break_):
        raise Refusal(
            Code.BAD_USAGE,
            "Give --holding alone, or --holding-rate with the price as --break 0:PRICE.",
        )
    yearly = parse_number(demand, "a demand", _AMOUNTS)
    each = parse_number(order_cost, "the cost of an order", _AMOUNTS)
    if holding:
        found = economic(yearly, each, parse_number(holding, "a holding cost", _AMOUNTS))
    else:
        rate = parse_number(holding_rate, "a holding rate", _SHARES)
        year = Year(demand=yearly, order_cost=each, holding_rate=rate)
        breaks = checked(_break(one) for one in break_ or ())
        found = with_steps(year, breaks) if incremental else with_breaks(year, breaks)
    say(
        Answer(
            values=buying.quantity_values(found),
            lines=[buying.quantity(found, has_prices=not holding)],
        ),
        as_json=as_json,
    )


def newsvendor(
    mean: Annotated[str, typer.Option(metavar="N", help="Of what will be asked for.")],
    sd: Annotated[str, typer.Option(metavar="N", help="Its standard deviation.")],
    under_cost: Annotated[str, typer.Option(metavar="MONEY", help="Of each one too few.")],
    over_cost: Annotated[str, typer.Option(metavar="MONEY", help="Of each one too many.")],
    as_json: AsJson = False,
) -> None:
    """Say how much to order once, for a demand that is uncertain."""
    found = for_once(
        parse_number(mean, "a mean", _AMOUNTS),
        parse_number(sd, "a standard deviation", _AMOUNTS),
        parse_number(under_cost, "a cost", _AMOUNTS),
        parse_number(over_cost, "a cost", _AMOUNTS),
    )
    say(
        Answer(
            values={"quantity": round(max(found, 0.0), 9)},
            lines=[f"Order {max(found, 0.0):,.2f}."],
        ),
        as_json=as_json,
    )


def _from_file(file: Path, units: System) -> _Drawn:
    """The demand of a list of draws, as it is now."""
    history = read_draws(content_of(file), units)
    weeks_m = weekly_m(history.draws, history.first, history.last)
    demand = now_of(demand_of(history.draws, history.days), weeks_m)
    values = {"pattern": pattern_of(weeks_m).value, "days": history.days}
    return _Drawn(demand, values, _too_short(history))


def _too_short(history: History) -> tuple[str, ...]:
    if history.days >= _FEW_DAYS:
        return ()
    return (f"These are draws of {history.days} days only: the answer is no surer than that.",)


def _typed(draws_per_day: str, draw_mean: str, draw_var: str, units: System) -> _Drawn:
    if not (draws_per_day and draw_mean):
        raise Refusal(Code.BAD_USAGE, "Give a file of draws, or --draws-per-day and --draw-mean.")
    demand = Demand(
        draws_per_day=parse_number(draws_per_day, "a number of draws a day", (0.0001, 10_000)),
        draw_mean_m=parse_length(draw_mean, units) / M,
        draw_variance_m2=parse_number(draw_var, "a variance in m²", (0, 1_000_000)),
    )
    return _Drawn(demand, {})


def _prices(
    order_cost: str, holding_rate: str, breaks: Sequence[str], roll_m: float
) -> Prices | None:
    """What rolls cost, by the metre; None where nothing was said of it."""
    if not (order_cost or holding_rate or breaks):
        return None
    if not (order_cost and holding_rate and breaks):
        raise Refusal(
            Code.BAD_USAGE,
            "The cheapest number needs all of --order-cost, --holding-rate and --break.",
        )
    return Prices(
        order_cost=parse_number(order_cost, "the cost of an order", _AMOUNTS),
        holding_rate=parse_number(holding_rate, "a holding rate", _SHARES),
        breaks=[
            replace(one, price=one.price / roll_m) for one in checked(_break(one) for one in breaks)
        ],
    )


def _service(text: str) -> float:
    """The share, also typed in per cent."""
    if text.strip().endswith("%"):
        low, high = _SERVICES
        return parse_number(text, "a service", (low * 100, high * 100), "%") / 100
    return parse_number(text, "a service", _SERVICES)


def _break(text: str) -> Break:
    least, colon, price = text.partition(":")
    if not colon:
        raise Refusal(
            Code.BAD_USAGE, f"“{clean_text(text, 40)}” is no price break; write it like 400:0.72."
        )
    return Break(
        parse_number(least, "a quantity", (0, 1_000_000_000)),
        parse_number(price, "a price", _AMOUNTS),
    )


def _days(text: str) -> float:
    """The days of a span that begins on no particular day; none where it is nothing."""
    if text.strip() in ("0", _NO_TIME):
        return 0.0
    span = parse_span(text)
    return span.months * _DAYS_A_MONTH + span.days
