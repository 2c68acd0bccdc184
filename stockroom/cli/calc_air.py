"""`stockroom calc mkt`, `age`, `dewpoint` and `warmup`: what air does to film; no book needed."""

from pathlib import Path
from typing import Annotated

import typer

from stockroom.cli.files import content_of
from stockroom.cli.saying import Answer, say
from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.series import Series, read_series
from stockroom.film.climate import Band, climate, is_temperature
from stockroom.film.course import course
from stockroom.film.exposure import Exposure, History, history
from stockroom.film.heat import DEFAULT_ENERGY_KJ, REFERENCE_C, parse_energy
from stockroom.film.moisture import Moving, dew_point_c, unwrapping
from stockroom.lines import heat, moisture
from stockroom.units import MM, System
from stockroom.units.typed import parse_duration, parse_length, parse_number, parse_temperature

_HUMIDITIES_PCT = 1.0, 100.0  # drier no shop is

Readings = Annotated[
    Path, typer.Argument(metavar="FILE.csv", help="Readings: at,temperature_c[,rh_pct].")
]
Energy = Annotated[
    str,
    typer.Option(
        metavar="KJ/MOL", help="Activation energy, or a factor like 'Q10 2'; default 83.144."
    ),
]
Gap = Annotated[
    str, typer.Option(metavar="TIME", help="Longest time between readings that counts, like 6h.")
]
Air = Annotated[str, typer.Option(metavar="TEMPERATURE", help="Of the air, like 22C.")]
Humidity = Annotated[str, typer.Option("--rh", metavar="PERCENT", help="Of the air, like 50.")]
Units = Annotated[System, typer.Option(help="What a bare number means.")]
AsJson = Annotated[bool, typer.Option("--json", help="Keys carry their units.")]


def mkt(
    file: Readings,
    energy: Energy = "",
    gap: Gap = "",
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say the one temperature that would have aged film as much as the readings did."""
    series = read_series(content_of(file))
    made = _history(series, energy, gap)
    found = _whole(series, made)
    line = course(series.at_s, series.temperatures_c, longest_gap_s=_gap_s(gap))
    air = climate(line, series.at_s[0], series.at_s[-1], Band())
    basis = _basis(energy)
    say(
        Answer(
            values={**heat.kinetic_values(made, found, air), **heat.energy_values(made, basis)},
            lines=[f"{heat.kinetic(made, found, air, units)} {heat.energy(made, basis)}"],
        ),
        as_json=as_json,
    )


def age(
    file: Readings,
    reference: Annotated[
        str, typer.Option(metavar="TEMPERATURE", help="The days are counted at; default 23C.")
    ] = "",
    energy: Energy = "",
    gap: Gap = "",
    assumed: Annotated[
        str, typer.Option(metavar="TEMPERATURE", help="In gaps; without it they are unknown.")
    ] = "",
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say how many days at one temperature would have aged film as much as the readings did."""
    series = read_series(content_of(file))
    reference_c = parse_temperature(reference, units) if reference else REFERENCE_C
    assumed_c = parse_temperature(assumed, units) if assumed else None
    made = _history(series, energy, gap, reference_c)
    found = _whole(series, made, assumed_c)
    basis = _basis(energy)
    say(
        Answer(
            values={**heat.aged_values(made, found), **heat.energy_values(made, basis)},
            lines=[f"{heat.aged(made, found, units)} {heat.energy(made, basis)}"],
        ),
        as_json=as_json,
    )


def dewpoint(
    air: Air,
    rh: Humidity,
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say at what temperature film gets wet in air."""
    found_c = dew_point_c(_store_c(air, units), _humidity(rh))
    say(
        Answer(
            values={"dew_point_c": round(found_c, 6)}, lines=[moisture.dew_point(found_c, units)]
        ),
        as_json=as_json,
    )


def warmup(
    from_: Annotated[
        str, typer.Option("--from", metavar="TEMPERATURE", help="Of the roll, like 2C.")
    ],
    air: Air,
    rh: Humidity,
    outside: Annotated[str, typer.Option(help="Diameter across the roll, like 150mm.")],
    width: Annotated[str, typer.Option(help="Width of the film, like 1524mm.")],
    units: Units = System.METRIC,
    as_json: AsJson = False,
) -> None:
    """Say whether a cold roll gets wet, and how long its wrap stays closed."""
    moving = Moving(
        from_c=_store_c(from_, units),
        air_c=_store_c(air, units),
        humidity=_humidity(rh),
        outside_mm=parse_length(outside, units) / MM,
        width_mm=parse_length(width, units) / MM,
    )
    found = unwrapping(moving)
    say(
        Answer(
            values=moisture.waits_values(found),
            lines=[moisture.waits(moving, found, units)],
            notes=[moisture.BEFORE_UNWRAPPING],
        ),
        as_json=as_json,
    )


def _history(series: Series, energy: str, gap: str, reference_c: float = REFERENCE_C) -> History:
    return history(
        series.at_s,
        series.temperatures_c,
        energy_kj=parse_energy(energy) if energy else DEFAULT_ENERGY_KJ,
        reference_c=reference_c,
        longest_gap_s=_gap_s(gap),
    )


def _whole(series: Series, made: History, assumed_c: float | None = None) -> Exposure:
    return made.between(series.at_s[0], series.at_s[-1], assumed_c)


def _gap_s(gap: str) -> int | None:
    return parse_duration(gap) if gap else None


def _basis(energy: str) -> str:
    return "as typed" if energy else "default"


def _store_c(text: str, units: System) -> float:
    """A temperature that a store, a van or a site can have."""
    found_c = parse_temperature(text, units)
    if is_temperature(found_c):
        return found_c
    shown = clean_text(text, 40)
    raise Refusal(
        Code.BAD_NUMBER, f"“{shown}” is not a temperature of a store; write it like 23 C or 73.4 F."
    )


def _humidity(text: str) -> float:
    """The share that a humidity in per cent is."""
    return parse_number(text, "a humidity", _HUMIDITIES_PCT, "%") / 100
