"""A piece's card as a screen shows it.

title(card)            R000 1231  white cast 1370 · lot L-2291
left(card)             11.2 m of 25 m  and how full a bar of it is
why(card)              each rule: its name, a bar up to the limit, its sentence
facts(card)            dates, thickness, core, mass
act_cells(…)           2026-11-18 09:12, cut 3.2 m for J000 046K, 8 m, Ida M.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from stockroom.books.values import Act, Place
from stockroom.film.verdict import Reason
from stockroom.lines import words
from stockroom.lines.cautions import LIFTING_IN_SHORT, lifting
from stockroom.lines.text_acts import act_words
from stockroom.lines.text_film import facts as film_facts
from stockroom.lines.text_goods import facts as goods_facts
from stockroom.units import KG
from stockroom.units.shown import show_length, show_mass, show_thickness, show_width
from stockroom.work.look import Card

_FULL, _EMPTY, _LIMIT = "█", "·", "│"
_LEFT_CELLS = 24
_AGE_CELLS = 12
_PAST_CELLS = 4


@dataclass(frozen=True, slots=True)
class Why:
    """What one rule found: its sign and name, a bar of the age up to its limit, its sentence."""

    rule: str
    bar: str
    text: str


def title(card: Card) -> str:
    """What the piece is."""
    standing = card.judged.standing
    film = words.film(standing, card.view.shop.system)
    return f"{words.code(standing.code)}  {film} · lot {words.known(standing.state.lot)}"


def verdict(card: Card) -> str:
    """What is to be done with it, or why it is no more."""
    ended = card.judged.standing.state.ended
    return f"no more: {ended}" if ended else words.verdict(card.judged.judgement, card.view.shop)


def left(card: Card) -> tuple[str, str, str]:
    """What is left of how much, a bar of it, and where it stands."""
    standing = card.judged.standing
    state, system = standing.state, card.view.shop.system
    now = words.left(standing, system)
    if state.balance != state.full and state.form != "offcut":
        whole = (
            words.count(state.full) if state.width_nm is None else show_length(state.full, system)
        )
        now = f"{now} of {whole}"
    where = words.where(standing, card.view.shop)
    return now, _filled(state.balance, state.full), where


def _filled(part: int, whole: int) -> str:
    cells = min(_LEFT_CELLS, -(-part * _LEFT_CELLS // whole)) if whole else 0
    return _FULL * cells + _EMPTY * (_LEFT_CELLS - cells)


def why(card: Card) -> tuple[Why, ...]:
    """What each rule found, in the order of the rules."""
    return tuple(_why(reason) for reason in card.judged.judgement.reasons)


def _why(reason: Reason) -> Why:
    sign, _, text = words.reason(reason).partition(" ")
    return Why(f"{sign} {reason.rule}", _reached(reason), text)


def _reached(reason: Reason) -> str:
    """How far an age has come to its limit, and past it; a curl has, the smaller its circle."""
    measured, limit = reason.measured, reason.limit
    if reason.unit == "mm":
        measured, limit = limit, measured
    if measured is None or not limit:
        return ""
    cells = min(_AGE_CELLS + _PAST_CELLS, measured * _AGE_CELLS // limit)
    if measured > limit:
        return _FULL * _AGE_CELLS + _LIMIT + _FULL * max(1, cells - _AGE_CELLS)
    return _FULL * cells + _EMPTY * (_AGE_CELLS - cells) + _LIMIT


def facts(card: Card) -> tuple[str, ...]:
    """The dates as far as they are known, what the piece is made like, and what only it has."""
    state, system = card.judged.standing.state, card.view.shop.system
    dates = [
        f"{name} {words.known(day)}"
        for name, day in (("made", state.made), ("received", state.received))
    ]
    dates += [
        f"{name} {day}"
        for name, day in (("shipped", state.shipped), ("printed", state.printed))
        if day
    ]
    made_like = [f"age {words.shelf_age(card.judged, card.view.today)}"]
    if state.width_nm is not None:
        thick = state.thickness_nm
        made_like.append(f"as wound {words.known(thick and show_thickness(thick, system))}")
    if state.form == "roll" or state.core_inside_nm is not None:
        core = state.core_inside_nm
        made_like.append(f"core {words.known(core and show_width(core, system))} inside")
    if card.mass_kg is not None:
        made_like.append(f"{show_mass(round(card.mass_kg * KG), system)} of film")
    if state.parent:
        made_like.append(f"cut from {words.code(state.parent)}")
    one, shop = card.judged.standing, card.view.shop
    own = [f"{name} {text}" for name, text in (*film_facts(one, shop), *goods_facts(one, shop))]
    return tuple(" · ".join(parts) for parts in (dates, made_like, own) if parts)


def caution(card: Card) -> str:
    """What to mind when the piece is lifted."""
    return lifting(card.mass_kg, card.judged.standing.state.width_nm) or ""


def caution_in_short(card: Card) -> str:
    """The same in one line, where there is no room for more."""
    return LIFTING_IN_SHORT if caution(card) else ""


def act_cells(act: Act, card: Card, places: Iterable[Place]) -> tuple[str, ...]:
    """One act as it was for this piece."""
    code, shop = card.judged.code, card.view.shop
    move = act.moves_of(code)[-1]
    state = card.judged.standing.state
    after = (
        words.count(move.balance)
        if state.width_nm is None
        else show_length(move.balance, shop.system)
    )
    return (
        words.moment(act.at, shop),
        act_words(act, shop, places, piece=code),
        after,
        act.operator,
    )


def flat_question(card: Card) -> str:
    """Whether the piece lies flat from now on."""
    return f"does {words.code(card.judged.code)} lie flat from now on? Its days wound stop."


def undo_question(act: Act, card: Card, places: Iterable[Place]) -> str:
    """Whether the last act on the piece is to be reversed."""
    when, what, _, by = act_cells(act, card, places)
    return f"undo what {by} did {when}: {what}?"
