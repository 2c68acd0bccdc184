"""Vans, claims, stocktakes, blind counts, kits and bottles, as plain lines."""

from collections.abc import Iterable, Sequence

from stockroom.books.values import Act, Place, Shop, Standing
from stockroom.lines import words
from stockroom.lines.text_acts import act_words
from stockroom.lines.text_done import amount, label_command
from stockroom.lines.text_supplies import began
from stockroom.lines.text_table import Columns, table
from stockroom.units.money import show_money
from stockroom.units.shown import show_area
from stockroom.work.away import CameIn
from stockroom.work.blind import BlindCounted, Figure, waiting_of
from stockroom.work.bottle import Mixed
from stockroom.work.kit import missing_of, parts_of
from stockroom.work.sendback import Claims
from stockroom.work.stocktake import Found, Sighting, Taken
from stockroom.work.stocktakes import PlaceTaken, Stocktakes

_CLAIMS = Columns(
    heads=("claim", "since", "piece", "what", "value", "why"), right=frozenset({4}), flex=5
)
_PLACES = Columns(
    heads=("place", "pieces", "seen", "by", "missing", "waiting", "variance", "money"),
    right=frozenset({1, 4, 5, 6, 7}),
)
_HEADS = {
    Found.HERE: "here",
    Found.ELSEWHERE: "the books had it elsewhere",
    Found.OUT: "the books have it out: bring it in",
    Found.ENDED: "the books say it is no more: look at it",
    Found.MISSING: "missing",
}


def facts(standing: Standing, shop: Shop) -> list[tuple[str, str]]:
    """What other pieces have not: an owner, a kit's parts, what is in a bottle, what waits."""
    state = standing.state
    keeps = "" if state.keeps_days is None else f", keeps {state.keeps_days} d"
    rows = (
        ("belongs to", words.WHOSE.get(state.owner, "")),
        ("contents", state.contents),
        ("hazard", state.hazard),
        ("mixed", state.mixed and f"{state.mixed}{keeps}"),
        (began(standing.material.kind), state.begun and f"{state.begun}{keeps}"),
        ("parts", words.numbered(parts_of(state))),
        ("missing", words.numbered(missing_of(state))),
        ("counted", figures(standing.code, waiting_of(state), shop)),
        ("claim", state.claim),
    )
    return [(name, text) for name, text in rows if text]


def figures(code: str, waiting: Iterable[Figure], shop: Shop) -> str:
    """What each counter found who does not settle the books."""
    return ", ".join(f"{amount(code, one.found, shop)} by {one.by}" for one in waiting)


def came_in(done: CameIn, shop: Shop) -> list[str]:
    """What was used, and what is left under which code."""
    lead = f"{words.code(done.piece)}: {act_words(done.act, shop, (), piece=done.piece)}"
    if not done.rest:
        return [f"{lead}; {amount(done.piece, done.left, shop) if done.left else 'nothing'} left"]
    rest = words.code(done.rest[0])
    left = amount(done.piece, done.left, shop)
    return [lead, f"its rest, {left}, is {rest}: it needs a label"]


def blind(done: BlindCounted, shop: Shop) -> list[str]:
    """What a blind count did; a counter who is to be second does not hear the figures."""
    code = words.code(done.piece)
    if not done.waiting:
        left = amount(done.piece, done.left, shop)
        if done.left == done.before:
            return [f"{code}: the books are right, {left}"]
        before = amount(done.piece, done.before, shop)
        return [f"{code}: {left} left, the books said {before}"]
    found = amount(done.piece, done.found, shop)
    if done.differs:
        return [f"{code}: {found} written, nothing changed yet"]
    return [f"{code}: {found} written, nothing changed yet: a second counter, please"]


def differs(done: BlindCounted, shop: Shop) -> str:
    """That counters disagree, with each figure."""
    return (
        f"{words.code(done.piece)}: the counters disagree, "
        f"{figures(done.piece, done.waiting, shop)}; all are kept and the books stay: "
        "a third counter is needed."
    )


def seen(done: Taken, places: Sequence[Place]) -> list[str]:
    """What stands in a place, by what is to be done about it."""
    named = {one.id: one.name for one in places}
    here = done.of(Found.HERE)
    lines = [f"{named[done.place_id]}: {words.counted(len(here), 'piece')} as the books have it"]
    for found in (Found.ELSEWHERE, Found.OUT, Found.ENDED, Found.MISSING):
        if some := done.of(found):
            lines += [f"  {_HEADS[found]}", *(f"    {_sighting(one, named)}" for one in some)]
    return lines


def _sighting(one: Sighting, named: dict[int, str]) -> str:
    code = words.code(one.piece)
    if one.found is not Found.ELSEWHERE:
        return code
    return f"{code}  {words.UNKNOWN if one.before is None else named[one.before]}"


def lot(act: Act, standings: Iterable[Standing], shop: Shop) -> list[str]:
    """Every piece a recall holds or releases, and where it is."""
    several = words.counted(len(act.moves), "piece")
    lines = [f"{act.kind}: {several} of lot {act.moves[0].facts['lot']}"]
    for one in standings:
        film, left = words.film(one, shop.system), words.left(one, shop.system)
        lines.append(f"  {words.code(one.code)}  {left}  {film}, {words.where(one, shop)}")
    return lines


def mixed(done: Mixed, shop: Shop) -> list[str]:
    """The bottles, and how they get their labels."""
    lines = [f"{act_words(done.act, shop, ())}, {words.counted(len(done.codes), 'bottle')}"]
    lines += [f"  {words.code(code)}: it needs a label" for code in done.codes]
    return [*lines, label_command(done.codes)]


def scrapped(act: Act, shop: Shop) -> list[str]:
    """How many went in the bin, and how much film that was."""
    area = show_area(sum(move.wasted_mm2 for move in act.moves), shop.system)
    return [f"scrap bin: {words.counted(len(act.moves), 'offcut')}, {area}"]


def claims(found: Claims, width: int) -> list[str]:
    """The credits that are awaited."""
    shop = found.view.shop
    if not found.claims:
        return ["No claim is open; `stockroom send-back CODE --why … --claim …` makes one."]
    rows = [
        (
            one.number,
            words.day(shop.day_of(one.since)),
            words.code(one.standing.code),
            f"{one.standing.material.name}, {amount(one.standing.code, one.amount, shop)}",
            words.UNKNOWN
            if one.value_minor is None
            else show_money(one.value_minor, shop.currency),
            one.why,
        )
        for one in found.claims
    ]
    total = show_money(found.value_minor, shop.currency)
    return [*table(_CLAIMS, rows, width), "", f"awaited {total}"]


def stocktakes(found: Stocktakes, width: int) -> list[str]:
    """Per place: what was seen when, what is missing or waits, and how far the books were off."""
    if not found.places:
        return ["There is no place yet: `stockroom place add NAME`."]
    shop = found.view.shop
    lines = table(_PLACES, [_place(one, shop) for one in found.places], width)
    for one in found.places:
        lines += _listed(one, "missing", one.missing, shop)
        lines += _listed(one, "to be counted again", one.waiting, shop)
    return lines


def _place(one: PlaceTaken, shop: Shop) -> tuple[str, ...]:
    known = one.seen_at is not None
    return (
        one.place.name,
        str(one.pieces),
        words.known(one.seen_at and words.moment(one.seen_at, shop)),
        words.known(one.seen_by),
        str(len(one.missing)) if known else words.UNKNOWN,
        str(len(one.waiting)),
        _signed(one.variance_mm2, show_area(abs(one.variance_mm2), shop.system), known=known),
        _signed(
            one.variance_minor, show_money(abs(one.variance_minor), shop.currency), known=known
        ),
    )


def _signed(number: int, shown: str, *, known: bool) -> str:
    if not known:
        return words.UNKNOWN
    return f"{'-' if number < 0 else '+' if number else ''}{shown}"


def _listed(one: PlaceTaken, head: str, standings: Sequence[Standing], shop: Shop) -> list[str]:
    if not standings:
        return []
    pieces = (
        f"  {words.code(each.code)}  {words.left(each, shop.system)}  {words.film(each, shop.system)}"
        for each in standings
    )
    return ["", f"{one.place.name}, {head}", *pieces]
