"""Looking: the rack, one piece with its history, the log; nothing is written."""

from collections.abc import Generator, Hashable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Unpack

from stockroom.books.catalog import jobs as all_jobs
from stockroom.books.catalog import material_named, name_key, shop
from stockroom.books.catalog import materials as all_materials
from stockroom.books.catalog import places as all_places
from stockroom.books.climates import Climates
from stockroom.books.journal import Sought, act_by_request, acts
from stockroom.books.opening import Book
from stockroom.books.pieces import standing, standings, standings_as_of
from stockroom.books.stamp import stamp as book_stamp
from stockroom.books.values import Act, Job, Material, Place, Standing
from stockroom.errors import Code, Refusal
from stockroom.film.limits import House
from stockroom.film.roll import core_mass_kg, mass_kg
from stockroom.film.verdict import Verdict
from stockroom.units import MM, M
from stockroom.work.judging import Judged, View, judged, only_making, view
from stockroom.work.layers import layers_of
from stockroom.work.measuring import CORE_DENSITY_KG_M3
from stockroom.work.storage import Stored


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which pieces of the rack are asked for; None and nothing mean all."""

    verdict: Verdict | None = None
    material: str = ""
    place: str = ""
    find: str = ""
    is_out: bool = False
    """Only what is away."""


@dataclass(frozen=True, slots=True)
class Rack:
    """Every piece on hand that was asked for, by code, and the day they are judged for."""

    view: View
    pieces: tuple[Judged, ...]


@dataclass(frozen=True, slots=True)
class Card:
    """Everything about one piece, its acts newest first."""

    view: View
    judged: Judged
    acts: tuple[Act, ...]
    mass_kg: float | None


EVERYTHING = Wanted()


def rack(
    book: Book, *, now: datetime, today: date | None = None, wanted: Wanted = EVERYTHING
) -> Rack:
    """Every piece on hand with its verdict: now, on a day gone by, or on a day to come."""
    with on_hand(book, now=now, today=today) as (seen, climates, there):
        asked = there if wanted == EVERYTHING else (one for one in there if _is_wanted(one, wanted))
        pieces = judged(asked, seen, Stored(climates, seen).storage_of)
        if wanted.verdict is not None:
            pieces = (one for one in pieces if _has(one, wanted.verdict))
        return Rack(seen, tuple(pieces))


@contextmanager
def on_hand(
    book: Book, *, now: datetime, today: date | None
) -> Generator[tuple[View, Climates, Iterator[Standing]]]:
    """The day that is asked for, the climates up to it, and every piece that was on hand."""
    with book.reading() as connection, only_making():
        seen = view(shop(connection, now), now=now, today=today)
        if seen.is_past:
            seen = _judging_by(shop(connection, seen.moment).house, seen)
            found = standings_as_of(connection, seen.moment)
        else:
            found = standings(connection, now)
        climates = Climates(connection, seen.shop, min(seen.moment, now))
        yield seen, climates, (one for one in found if one.state.ended is None)


def piece(book: Book, code: str, *, now: datetime, today: date | None = None) -> Card:
    """One piece, ended ones too, with its verdict and its acts up to the day of the view."""
    with book.reading() as connection:
        seen = view(shop(connection, now), now=now, today=today)
        found = standing(connection, code, now)
        history = acts(connection, piece=code)
        if seen.is_past:
            seen = _judging_by(shop(connection, seen.moment).house, seen)
            found = _then(standings_as_of(connection, seen.moment, code=code), code, seen)
            history = _known_by(seen.moment, history)
        climates = Climates(connection, seen.shop, min(seen.moment, now), few=True)
        one = next(iter(judged([found], seen, Stored(climates, seen).storage_of)))
    return Card(seen, one, history, mass_left_kg(found))


def mass_left_kg(found: Standing) -> float | None:
    """What is left of a piece weighs so much, without its core; None where the layers are unknown."""
    state = found.state
    layers = layers_of(state, found.material)
    if state.width_nm is None or not layers:
        return None
    return mass_kg(state.width_nm / MM, state.balance / M, layers)


def lifted_kg(found: Standing) -> float | None:
    """What a person lifts: the film that is left, and the core where it is known."""
    film_kg, state = mass_left_kg(found), found.state
    if film_kg is None or state.core_inside_nm is None or state.core_wall_nm is None:
        return film_kg
    return film_kg + core_mass_kg(
        state.core_inside_nm / MM,
        state.core_wall_nm / MM,
        (state.width_nm or 0) / MM,
        CORE_DENSITY_KG_M3,
    )


def stamp(book: Book, *, now: datetime) -> Hashable:
    """What is the same as long as nothing was written and the shop's day has not changed."""
    with book.reading() as connection:
        return book_stamp(connection), shop(connection, now).day_of(now)


def log(book: Book, *, now: datetime, **sought: Unpack[Sought]) -> tuple[Act, ...]:
    """Acts, newest first."""
    with book.reading() as connection:
        if code := sought.get("piece"):
            standing(connection, code, now)
        return acts(connection, **sought)


def act_of(book: Book, request: str) -> Act | None:
    """The act a request made; None where it made none yet."""
    with book.reading() as connection:
        found = act_by_request(connection, request)
    return found[0] if found else None


def materials(book: Book, *, now: datetime) -> tuple[Material, ...]:
    """Every material, by name."""
    with book.reading() as connection:
        return tuple(all_materials(connection, now).values())


def material(book: Book, name: str, *, now: datetime) -> Material:
    """One material by its name."""
    with book.reading() as connection:
        return material_named(connection, name, now)


def places(book: Book, *, now: datetime) -> tuple[Place, ...]:
    """Every place, by name."""
    with book.reading() as connection:
        return tuple(all_places(connection, now).values())


def jobs(book: Book) -> tuple[Job, ...]:
    """Every job, oldest first."""
    with book.reading() as connection:
        return tuple(all_jobs(connection).values())


def job(book: Book, code: str) -> tuple[Job, tuple[Act, ...]]:
    """One job and its acts, newest first."""
    with book.reading() as connection:
        found = next((one for one in all_jobs(connection).values() if one.code == code), None)
        if found is None:
            raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
        return found, acts(connection, job=code)


def _judging_by(house: House, seen: View) -> View:
    """The view with the limits of its day; the clock and the units stay those of today."""
    return replace(seen, shop=replace(seen.shop, house=house))


def _known_by(moment: datetime, history: tuple[Act, ...]) -> tuple[Act, ...]:
    """The acts up to an instant, as they stood then: reversed, or not yet."""
    known = [act for act in history if act.at <= moment]
    reversed_then = {act.reverses for act in known}
    return tuple(replace(act, is_reversed=act.id in reversed_then) for act in known)


def _then(found: tuple[Standing, ...], code: str, seen: View) -> Standing:
    if not found:
        raise Refusal(Code.NO_PIECE, f"{code} was not here yet on {seen.today}.")
    return found[0]


def _has(one: Judged, verdict: Verdict) -> bool:
    """Whether a piece has a verdict, or must wait where that is asked for."""
    if verdict is Verdict.WAIT:
        return one.judgement.wait_until is not None
    return one.judgement.verdict is verdict


def _is_wanted(found: Standing, wanted: Wanted) -> bool:
    if wanted.is_out and found.state.out_to is None:
        return False
    texts = _texts(found)
    return all(
        name_key(asked) in text
        for asked, text in (
            (wanted.material, name_key(found.material.name)),
            (
                wanted.place,
                name_key(f"{found.place.name} {found.place.code}") if found.place else "",
            ),
            (wanted.find, " ".join(texts)),
        )
        if asked
    )


def _texts(found: Standing) -> Iterator[str]:
    yield found.code.casefold()
    yield name_key(found.material.name)
    yield name_key(found.state.lot or "")
    if found.place is not None:
        yield name_key(found.place.name)
    yield name_key(found.state.out_to or "")
    if found.job is not None:
        yield name_key(f"{found.job.code} {found.job.name}")
