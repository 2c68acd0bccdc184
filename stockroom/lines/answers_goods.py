"""Vans, claims, stocktakes, blind counts and bottles as the dictionaries a script reads."""

from collections.abc import Iterable, Sequence

from stockroom.books.values import Act, Place, Shop, Standing
from stockroom.lines.answers import Values, amount
from stockroom.work.away import CameIn
from stockroom.work.blind import BlindCounted
from stockroom.work.bottle import Mixed
from stockroom.work.sendback import Claims
from stockroom.work.stocktake import Found, Taken
from stockroom.work.stocktakes import PlaceTaken, Stocktakes


def came_in(done: CameIn, standing: Standing) -> Values:
    """What was used of a piece while it was away; money of a piece without a price is unknown."""
    return {
        "code": done.piece,
        "act": done.act.id,
        "job": done.act.job,
        **amount(done.piece, done.before, "before"),
        **amount(done.piece, done.left),
        "rest": list(done.rest),
        "used_area_mm2": done.used_mm2,
        "cost_minor": None if standing.state.cost_minor is None else done.cost_minor,
    }


def blind(done: BlindCounted) -> Values:
    """What a blind count did; the figures are for those who need no longer count blind."""
    return {
        "code": done.piece,
        "act": done.act.id,
        **amount(done.piece, done.found, "found"),
        "settled": not done.waiting,
        "differs": done.differs,
        "counters": [one.by for one in done.waiting],
        **({} if done.waiting else amount(done.piece, done.left)),
    }


def seen(done: Taken, places: Iterable[Place]) -> Values:
    """What a stocktake of a place found."""
    named = {one.id: one.name for one in places}

    def codes(*found: Found) -> list[str]:
        return [one.piece for one in done.of(*found)]

    return {
        "act": done.act.id,
        "place": named[done.place_id],
        "here": codes(Found.HERE),
        "elsewhere": [
            {"code": one.piece, "place": named.get(one.before or 0)}
            for one in done.of(Found.ELSEWHERE)
        ],
        "unexpected": codes(Found.OUT, Found.ENDED),
        "missing": codes(Found.MISSING),
    }


def lot(done: Act) -> Values:
    """The pieces a recall holds or releases."""
    return {
        "act": done.id,
        "kind": done.kind,
        "lot": done.moves[0].facts["lot"],
        "codes": [move.piece for move in done.moves],
    }


def mixed(done: Mixed) -> Values:
    """The bottles that were filled."""
    sets = done.act.moves[0].sets
    names = ("contents", "hazard", "keeps_days")
    return {
        "act": done.act.id,
        "codes": list(done.codes),
        "mixed_on": sets["mixed"],
        **{name: sets[name] for name in names},
    }


def scrapped(done: Act) -> Values:
    """What went in the bin."""
    return {
        "act": done.id,
        "codes": [move.piece for move in done.moves],
        "wasted_area_mm2": sum(move.wasted_mm2 for move in done.moves),
    }


def claims(found: Claims) -> Values:
    """The credits that are awaited."""
    shop = found.view.shop
    return {
        "day": found.view.today.isoformat(),
        "currency": shop.currency,
        "value_minor": found.value_minor,
        "claims": [
            {
                "claim": one.number,
                "code": one.standing.code,
                "material": one.standing.material.name,
                "since": shop.local(one.since).isoformat(),
                **amount(one.standing.code, one.amount, "sent"),
                "value_minor": one.value_minor,
                "why": one.why,
            }
            for one in found.claims
        ],
    }


def stocktakes(found: Stocktakes) -> Values:
    """Per place: what was seen when, what is missing or waits, and how far the books were off."""
    shop = found.view.shop
    return {
        "day": found.view.today.isoformat(),
        "currency": shop.currency,
        "places": [_place(one, shop) for one in found.places],
    }


def _place(one: PlaceTaken, shop: Shop) -> Values:
    seen_at = one.seen_at
    return {
        "place": one.place.name,
        "code": one.place.code,
        "pieces": one.pieces,
        "seen_at": None if seen_at is None else shop.local(seen_at).isoformat(),
        "seen_by": one.seen_by,
        "missing": None if seen_at is None else _codes(one.missing),
        "counts_waiting": _codes(one.waiting),
        "variance_area_mm2": None if seen_at is None else one.variance_mm2,
        "variance_minor": None if seen_at is None else one.variance_minor,
    }


def _codes(standings: Sequence[Standing]) -> list[str]:
    return [one.code for one in standings]
