"""What storage left in a piece: the air it was in block by block, its curl, and what holds that flat.

past_of(book, code, now=…)   Past
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.books.catalog import jobs, shop
from stockroom.books.climates import Climates
from stockroom.books.opening import Book
from stockroom.books.pieces import standing
from stockroom.books.sensors import second_of
from stockroom.books.values import Job, Material, Standing
from stockroom.film.assumed import assumed
from stockroom.film.bending import Plate, curl_of_circle_per_m
from stockroom.film.dates import parse_partial_date
from stockroom.film.heat import temperature_at_rate_c
from stockroom.film.limits import Basis, Figure
from stockroom.film.rules import shelf_age, wound_age
from stockroom.film.verdict import Curl, Storage
from stockroom.units import UM
from stockroom.work.forecast import LONGEST_DAYS
from stockroom.work.judging import View, view
from stockroom.work.reserved import reserved
from stockroom.work.storage import Stored
from stockroom.work.windings import Wraps, wraps_of

_BLOCKS_DAYS = (1, 7, 28, 91)
_MOST_BLOCKS = 36
_POISSON = 0.4  # of most plastics, from memory: 0.3 or 0.5 is an eighth of the energy at most


@dataclass(frozen=True, slots=True)
class AirStrip:
    """The mean kinetic temperature of each block of days since a day; None where nobody measured."""

    since: date
    block_days: int
    kinetic_c: tuple[float | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What it takes to hold the outer wrap flat, against what the adhesive holds, both in J/m²."""

    bond: Figure
    flat_j_m2: float | None
    """None where its thickness as applied, or its modulus, is not known."""
    modulus: Figure | None
    """In GPa; None where not even a guess is known."""


@dataclass(frozen=True, slots=True)
class Installed:
    """What a piece curls to on the day of the job it is kept for, if nothing is cut and the air goes on."""

    on: date
    job: str
    curl: Curl


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """What is known of how a piece was kept, beside what its rules say; None is not known."""

    air: AirStrip | None
    curl: Curl | None
    wraps: Wraps | None
    """Where its film lies, as long as it is wound."""
    holding: Holding | None
    is_film: bool = True
    installed: Installed | None = None


def past_of(book: Book, code: str, *, now: datetime) -> Past:
    """What storage left in a piece up to now."""
    with book.reading() as connection:
        seen = view(shop(connection, now), now=now, today=None)
        found = standing(connection, code, now)
        if not found.material.kind.comes_in_rolls:
            return Past(air=None, curl=None, wraps=None, holding=None, is_film=False)
        known = jobs(connection).values() if found.state.reserved else ()
        climates = Climates(connection, seen.shop, now, few=True)
        stored = Stored(climates, seen)
        storage = stored.storage_of(found)
        return Past(
            air=_air(stored, found, storage, seen) if climates.is_measured else None,
            curl=storage.curl,
            wraps=wraps_of(found.state) if found.state.is_wound else None,
            holding=_holding(found.material, storage.curl),
            installed=_installed(found, known, climates, seen),
        )


def _installed(
    found: Standing, known: Iterable[Job], climates: Climates, seen: View
) -> Installed | None:
    """Of the first job to come it is reserved for; None where none has a day that is known."""
    kept_for = {one.job for one in reserved(found.state, seen.today)}
    days = [
        (parse_partial_date(job.on_day).last, job.code)
        for job in known
        if job.code in kept_for and job.on_day is not None
    ]
    ahead = [(day, code) for day, code in days if 0 < (day - seen.today).days <= LONGEST_DAYS]
    if not ahead:
        return None
    day, code = min(ahead)
    then = replace(seen, today=day, moment=seen.shop.end_of(day))
    curl = Stored(climates, then).storage_of(found).curl
    return None if curl is None else Installed(day, code, curl)


def _air(stored: Stored, found: Standing, storage: Storage, seen: View) -> AirStrip | None:
    """The air since the piece was wound; since its shelf age counts where it lies flat."""
    since = _since(storage, seen.today)
    if since is None:
        return None
    energy = found.material.facts.get("energy") or seen.shop.house.energy()
    since = max(since, seen.today - timedelta(days=_BLOCKS_DAYS[-1] * _MOST_BLOCKS - 1))
    days = (seen.today - since).days + 1
    block = next(one for one in _BLOCKS_DAYS if days <= one * _MOST_BLOCKS)
    begins = [since + timedelta(days=done) for done in range(0, days, block)]
    ends = [*begins[1:], None]
    kinetic = tuple(
        _kinetic_c(stored, found.code, seen, stretch, energy.value)
        for stretch in zip(begins, ends, strict=True)
    )
    return AirStrip(since, block, kinetic)


def _since(storage: Storage, today: date) -> date | None:
    on_shelf = shelf_age(storage, today)
    wound = wound_age(storage, on_shelf, today) if storage.is_wound else None
    if wound is not None:
        return wound.anchor + timedelta(days=storage.wound_days_before)
    return None if on_shelf is None else on_shelf.anchor


def _kinetic_c(
    stored: Stored, code: str, seen: View, stretch: tuple[date, date | None], energy_kj: float
) -> float | None:
    """The one temperature that would have aged it as much, of what was measured from one day to another."""
    begin, end = stretch
    until = seen.moment if end is None else seen.shop.begin_of(end)
    found = stored.exposure(code, second_of(seen.shop.begin_of(begin)), second_of(until), energy_kj)
    if not found.measured_s:
        return None
    return temperature_at_rate_c(found.like_days_measured / found.measured_days, energy_kj)


def _holding(material: Material, curl: Curl | None) -> Holding | None:
    """None where no bond was entered, or the film does not curl."""
    bond = material.facts.get("bond")
    if bond is None or curl is None or curl.outer_mm is None:
        return None
    modulus = material.facts.get("modulus") or _usual_modulus(material)
    flat_j_m2 = None
    if modulus is not None and material.applied_nm is not None:
        default = assumed(material.kind)
        poisson = default.poisson if default is not None and default.poisson else _POISSON
        plate = Plate(modulus.value, poisson, material.applied_nm / UM)
        flat_j_m2 = plate.flat_energy_j_m2(curl_of_circle_per_m(curl.outer_mm))
    return Holding(bond=bond, flat_j_m2=flat_j_m2, modulus=modulus)


def _usual_modulus(material: Material) -> Figure | None:
    default = assumed(material.kind)
    if default is None or default.modulus_gpa is None:
        return None
    return Figure(default.modulus_gpa, Basis.DEFAULT)
