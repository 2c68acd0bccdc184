"""The reports as plain lines: Today, the rack, one piece, the log."""

from collections.abc import Iterable, Sequence
from datetime import datetime

from stockroom.books.values import Act, Place, Shop, Standing
from stockroom.film.verdict import Reason, Verdict
from stockroom.lines import text_film, text_goods, words
from stockroom.lines import today as today_words
from stockroom.lines.rack import shelf
from stockroom.lines.roll import kept
from stockroom.lines.text_acts import act_words, subject
from stockroom.lines.text_table import Columns, pairs, table
from stockroom.units import KG
from stockroom.units.shown import show_length, show_mass, show_thickness
from stockroom.work.judging import Judged, View
from stockroom.work.look import Card, Rack
from stockroom.work.past import Past
from stockroom.work.today import DAYS_AHEAD, Today

_RACK = Columns(
    heads=("verdict", "code", "left", "shelf age", "place", ""), right=frozenset({2}), flex=5
)
_TODAY = Columns(heads=("", "", "", "", ""), right=frozenset({3}), flex=2)
_LOG = Columns(heads=("act", "at", "piece", "what", "by"), right=frozenset({0}), flex=3)


def today(seen: Today, width: int) -> list[str]:
    """What needs a hand: counts, the worst pieces with the reason, the jobs of the coming days."""
    lines = [today_words.title(seen.view), today_words.counts(seen), ""]
    lines += today_words.late_line(seen)
    lines += _with_reasons(seen.pieces, seen.view, width) or [today_words.empty(seen)]
    if seen.jobs:
        heading = f"Open jobs of the next {DAYS_AHEAD} days, and overdue ones"
        lines += ["", heading, *today_words.job_lines(seen)]
    return lines


def rack(found: Rack, width: int) -> list[str]:
    """Every piece that was asked for, one a line, under the name of its material."""
    if not found.pieces:
        return ["No piece is like that; `stockroom rack` shows all, `stockroom receive` adds."]
    pieces = shelf(found).pieces
    rows = [
        (
            _marked(one),
            words.code(one.code),
            words.left(one.standing, found.view.shop.system),
            words.shelf_age(one, found.view.today),
            words.stands(one.standing),
            _more(one, found.view.shop),
        )
        for one in pieces
    ]
    head, *body = table(_RACK, rows, width)
    lines, name = [head], None
    for one, line in zip(pieces, body, strict=True):
        if one.standing.material.name != name:
            name = one.standing.material.name
            lines += ["", name]
        lines.append(line)
    number = words.counted(len(rows), "piece")
    return [*lines, "", f"{number} on {words.day(found.view.today)}"]


def piece(card: Card, places: Iterable[Place], past: Past | None = None) -> list[str]:
    """Everything about one piece, and why; how it was kept, where that was looked up."""
    judged, shop = card.judged, card.view.shop
    standing = judged.standing
    known = tuple(places)
    history = [
        (
            words.moment(act.at, shop),
            f"{act_words(act, shop, known, piece=standing.code)}  ({act.operator})",
        )
        for act in card.acts
    ]
    return [
        f"{words.code(standing.code)}  {words.film(standing, shop.system)}",
        _verdict(judged, shop),
        "",
        *pairs(_facts(card)),
        "",
        "Why",
        *(words.reason(one) for one in judged.judgement.reasons),
        *([] if past is None else kept(past, shop)),
        "",
        "Acts",
        *pairs(history),
    ]


def log(acts: Sequence[Act], shop: Shop, places: Iterable[Place], width: int) -> list[str]:
    """Acts, newest first, one a line."""
    if not acts:
        return [
            "No act is like that; `stockroom log` shows all, `stockroom receive` brings film in."
        ]
    known = tuple(places)
    rows = [
        (
            str(act.id),
            words.moment(act.at, shop),
            subject(act),
            act_words(act, shop, known),
            act.operator,
        )
        for act in acts
    ]
    return table(_LOG, rows, width)


def _marked(one: Judged) -> str:
    marks = [words.marked(one.judgement.verdict)]
    if one.judgement.wait_until is not None:
        marks.append(words.marked(Verdict.WAIT))
    return " ".join(marks)


def _with_reasons(pieces: Sequence[Judged], view: View, width: int) -> list[str]:
    if not pieces:
        return []
    system = view.shop.system
    rows = [
        (
            _marked(one),
            words.code(one.code),
            words.film(one.standing, system),
            words.left(one.standing, system),
            words.place(one.standing.place),
        )
        for one in pieces
    ]
    _, *body = table(_TODAY, rows, width)
    lines: list[str] = []
    for one, line in zip(pieces, body, strict=True):
        lines.append(line)
        lines += [f"    {words.reason(reason)}" for reason in _pressing(one)]
    return lines


def _pressing(one: Judged) -> list[Reason]:
    """What stands behind a verdict that needs a hand."""
    wanted = {one.judgement.verdict, Verdict.WAIT} - {Verdict.USE}
    return [reason for reason in one.judgement.reasons if reason.verdict in wanted]


def _more(one: Judged, shop: Shop) -> str:
    """What else there is to say of a piece in one line."""
    more = words.particulars(one.standing, shop.system)
    if one.standing.state.out_since is None:
        return more
    since = shop.day_of(datetime.fromisoformat(one.standing.state.out_since))
    return ", ".join(filter(None, (more, f"since {words.day(since)}")))


def _verdict(judged: Judged, shop: Shop) -> str:
    ended = judged.standing.state.ended
    if ended is not None:
        return f"is no more: {ended}"
    return words.verdict(judged.judgement, shop)


def _facts(card: Card) -> list[tuple[str, str]]:
    judged, shop = card.judged, card.view.shop
    standing = judged.standing
    state = standing.state
    rows = [
        ("left", _left_of(standing, shop)),
        ("place", words.where(standing, shop).removeprefix("at ")),
        ("lot", words.known(state.lot)),
        ("dates", _dates(standing)),
        ("shelf age", words.shelf_age(judged, card.view.today)),
    ]
    if state.width_nm is None:
        return [*rows, *text_goods.facts(standing, shop)]
    rows.append(("wound", words.age(judged.judgement.wound_days, card.view.today)))
    rows.append(("as wound", _thickness(standing, shop)))
    if state.form == "roll" or state.core_inside_nm is not None:
        core = words.core(state.core_inside_nm, state.core_wall_nm, shop.system)
        rows.append(("core", core))
    mass = "?" if card.mass_kg is None else show_mass(round(card.mass_kg * KG), shop.system)
    rows.append(("film weighs", mass))
    if state.parent is not None:
        rows.append(("cut from", words.code(state.parent)))
    return [*rows, *text_film.facts(standing, shop), *text_goods.facts(standing, shop)]


def _left_of(standing: Standing, shop: Shop) -> str:
    state = standing.state
    if state.ended is not None:
        return "nothing"
    now = words.left(standing, shop.system)
    if state.form == "offcut" or state.balance == state.full:
        return now
    full = (
        words.count(state.full) if state.width_nm is None else show_length(state.full, shop.system)
    )
    return f"{now} of {full}"


def _dates(standing: Standing) -> str:
    state = standing.state
    named = (
        ("made", state.made),
        ("shipped", state.shipped),
        ("received", state.received),
        ("printed", state.printed),
    )
    kept = [f"{name} {day}" for name, day in named if day is not None]
    return ", ".join(kept if state.made else ["made ?", *kept])


def _thickness(standing: Standing, shop: Shop) -> str:
    thickness = standing.state.thickness_nm
    return words.UNKNOWN if thickness is None else show_thickness(thickness, shop.system)
