"""What is typed at the bench, and the words of the line that stands there.

length(text)           3.2m  3200  =3.6 (what is left)  4x1.25 (four times)
size, sizes            300x1000; several are divided by +
piece, warnings        the piece on the line, and what speaks against taking it
job, reason            what the cut is for
writes(…)              cut 2.8 m for J000 049E · 3.6 m stays
just_now(…)            ✓ 09:12 R000 1231 cut 3.2 m for J000 046K

Along the roll, people say 2.8 and mean metres, 2800 and mean millimetres. So a number without a
unit is metres where it has a decimal mark and millimetres from 100 on; a bare 3 is refused, for it
could be either. In inches a bare number is inches.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from stockroom.books.values import Act, Job, Place, Shop
from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.verdict import Verdict
from stockroom.lines import words
from stockroom.lines.cautions import lifting, taking
from stockroom.lines.text_acts import act_words, subject
from stockroom.lines.today import day_of, named
from stockroom.units import KG, System
from stockroom.units.shown import show_length, show_mass, show_size, show_width
from stockroom.units.typed import parse_length, parse_size
from stockroom.work.away import OUT
from stockroom.work.cut import Cut, CutDone
from stockroom.work.flaw import flaws_ahead, flaws_of
from stockroom.work.judging import Judged
from stockroom.work.look import Card
from stockroom.work.take import Take, Taken

HOW = "2.8m   4x1.25m   =3.6m (what is left)"
REASONS = "no job    s spoiled    m sample    t training    l leader    o out    i in"

_BARE = re.compile(r"\d*[.,]?\d+", re.ASCII)
_TIMES = re.compile(
    r"([1-9]\d{0,2})\s*[x*\N{MULTIPLICATION SIGN}]\s*(.+)", re.ASCII | re.IGNORECASE
)
_LEAST_MM = 100


def length(text: str, system: System, left_nm: int = 0, *, zero: bool = False) -> int:
    """Nanometres in what was typed for a length along the roll of which so much is left."""
    plain = text.strip()
    if plain.startswith("="):
        return _down_to(plain[1:], system, left_nm)
    if times := _TIMES.fullmatch(plain):
        return int(times[1]) * length(times[2], system)
    return parse_length(_with_unit(plain, system), system, zero=zero)


def _down_to(text: str, system: System, left_nm: int) -> int:
    """The length that leaves so much."""
    stays_nm = length(text, system, zero=True)
    if stays_nm >= left_nm:
        raise Refusal(
            Code.BAD_LENGTH,
            f"The books say {show_length(left_nm, system)}: "
            f"{show_length(stays_nm, system)} cannot be what is left after a cut.",
        )
    return left_nm - stays_nm


def _with_unit(text: str, system: System) -> str:
    """A bare number with the unit it is meant in; anything else as it is."""
    if system is System.US or not _BARE.fullmatch(text) or not text.strip("0.,"):
        return text
    shown = clean_text(text, 40)
    if text.startswith((".", ",")):
        raise Refusal(Code.BAD_LENGTH, f"“{shown}” begins with its point: write 0{shown}m.")
    number = float(text.replace(",", "."))
    if ("." in text or "," in text) and number < _LEAST_MM:
        return f"{text}m"
    if text.isdigit() and number >= _LEAST_MM:
        return f"{text}mm"
    raise Refusal(
        Code.BAD_LENGTH, f"“{shown}” can be read in two ways; write {shown}m or {shown}mm."
    )


def size(text: str, system: System) -> tuple[int, int]:
    """A size, across and along the roll; a bare number of it is meant as for a length."""
    sides = re.split("[x*\N{MULTIPLICATION SIGN}]", text, flags=re.IGNORECASE)
    return parse_size("x".join(_with_unit(side.strip(), system) for side in sides), system)


def sizes(text: str, system: System) -> tuple[tuple[int, int], ...]:
    """The offcuts of a cut; nothing typed is none."""
    return tuple(size(one, system) for one in text.split("+") if one.strip())


def piece(card: Card) -> str:
    """The piece on the line: what it is, how much of it is left, where it stands."""
    standing, system = card.judged.standing, card.view.shop.system
    film, left = words.film(standing, system), words.left(standing, system)
    where = words.stands(standing) if standing.state.out_to else f"at {words.place(standing.place)}"
    return f"{words.code(standing.code)}   {film}   {left} left   {where}"


def verdict(card: Card) -> str:
    """The verdict of the piece on the line."""
    return words.verdict(card.judged.judgement, card.view.shop)


def warnings(card: Card) -> tuple[str, ...]:
    """Why the piece should not be taken without a thought."""
    judgement, standing = card.judged.judgement, card.judged.standing
    wanted = {judgement.verdict, Verdict.WAIT} - {Verdict.USE}
    away = () if standing.state.out_to is None else (_away(card),)
    return (*away, *(words.reason(one) for one in judgement.reasons if one.verdict in wanted))


def _away(card: Card) -> str:
    """Where a piece is that cannot be cut here."""
    return f"{words.where(card.judged.standing, card.view.shop)}: i takes it in again"


def refused_piece(card: Card) -> Refusal | None:
    """Why a piece cannot come on the line at all."""
    state, code = card.judged.standing.state, words.code(card.judged.code)
    if state.ended is not None:
        return Refusal(Code.ENDED, f"{code} is no more: {state.ended}; scan another.")
    if state.held is not None and state.out_to is None:
        return Refusal(Code.HELD, f"{code} is held ({state.held}): take another, or release it.")
    return None


def stopped(card: Card) -> Refusal:
    """A piece that is stopped by age is taken only with a reason."""
    return Refusal(
        Code.STOPPED,
        f"{words.code(card.judged.code)} is stopped by its age: say why it is taken all the same.",
    )


def reopen_question(job: Job) -> str:
    """A closed job takes no film, unless it is opened again."""
    return f"{words.code(job.code)} {job.name} is closed: open it again?"


def job(one: Job) -> str:
    """The job on the line."""
    return f"{words.code(one.code)}   {named(one)}   {day_of(one)}"


def choices(jobs: Iterable[Job], acts: Iterable[Act], most: int) -> tuple[Job, ...]:
    """The open jobs to choose from: those used last first, then those wanted soonest."""
    used: dict[str | None, int] = {}
    for act in acts:
        if act.moves:  # to open a job is not to use it
            used.setdefault(act.job, len(used))
    waiting = sorted(
        (one for one in jobs if not one.is_closed),
        key=lambda one: (used.get(one.code, len(used)), one.on_day or "9", one.code),
    )
    return tuple(waiting[:most])


def purpose(one: Job | None, reason: str | None) -> str:
    """For which job or reason."""
    return f"for {words.code(one.code)}" if one else f"for {reason or words.UNKNOWN}"


def flaws(card: Card, request: Cut | Take | None) -> tuple[str, ...]:
    """Where the film is not sound, and whether the cut that is asked for runs through it."""
    state, system = card.judged.standing.state, card.view.shop.system
    length_nm = request.length_nm if isinstance(request, Cut) else 0
    through = flaws_ahead(state, length_nm) if length_nm else ()
    return tuple(
        f"▲ {one.what} at {show_length(one.at_nm, system)}"
        + (": the cut runs through it" if one in through else "")
        for one in flaws_of(state)
    )


def writes(request: Cut | Take, card: Card, what_for: str) -> str:
    """What Enter will write, and what stays."""
    state, shop, system = card.judged.standing.state, card.view.shop, card.view.shop.system
    if isinstance(request, Take):
        stays = state.balance - request.number
        said = f"take {words.count(request.number)} {what_for}", f"{words.count(stays)} stay"
        return " · ".join([*said, *_late(request, shop)])
    parts = [f"cut {show_length(request.length_nm, system)} {what_for}"]
    if request.waste_nm:
        parts.append(f"{show_length(request.waste_nm, system)} of it waste")
    parts += [f"keep {show_size(*one, system)}" for one in request.offcuts]
    stays = state.balance - request.length_nm
    if stays < 0:
        parts.append(f"{show_length(-stays, system)} more than the books have")
    else:
        parts.append(f"{show_length(stays, system)} stays")
    return " · ".join([*parts, *_late(request, shop)])


def _late(request: Cut | Take, shop: Shop) -> list[str]:
    """When it was done, if it is written down later."""
    if request.at is None:
        return []
    return [f"done {shop.local(request.at):%a} {words.moment(request.at, shop)}"]


def older(one: Judged, shop: Shop) -> str:
    """Whether an older piece of the same film is to be taken first."""
    standing = one.standing
    left, place = words.left(standing, shop.system), words.place(standing.place)
    film = "offcut" if standing.state.form == "offcut" else "roll"
    return f"older sound {film} {words.code(one.code)} at {place}, {left}: take that?"


def short(refusal: Refusal) -> str:
    """Whether more is cut than the books say; they are counted right by it."""
    short_by = re.search(r"short by [^:;,]+", refusal.sentence)
    return (
        f"the books are {short_by[0] if short_by else 'short'}: cut it, and count the roll by it?"
    )


def bare_core(card: Card) -> str:
    """Whether a roll or a box is at its end."""
    standing = card.judged.standing
    code, left = words.code(standing.code), words.left(standing, card.view.shop.system)
    what = f"is {code} empty" if standing.state.form == "box" else f"is the core of {code} bare"
    return f"{what}? The books {'still say' if standing.state.balance else 'say'} {left}."


def cautions(card: Card) -> str:
    """What to mind with the piece on the line."""
    standing, system = card.judged.standing, card.view.shop.system
    width_nm = standing.state.width_nm
    if width_nm is None:
        return (taking(standing.material.kind) or "").removeprefix("Caution: ")
    if standing.state.form != "roll" or not lifting(card.mass_kg, width_nm):
        return "blade and edge"
    size = [show_width(width_nm, system)]
    if card.mass_kg is not None:
        size.append(f"{show_mass(round(card.mass_kg * KG), system)} of film")
    return f"blade and edge · two people lift it: {', '.join(size)}"


def choices_shown(jobs: Sequence[Job]) -> tuple[str, ...]:
    """The jobs beside the keys that choose them."""
    return tuple(
        f"{number}   {words.code(one.code)}   {day_of(one):<14}   {named(one)}"
        for number, one in enumerate(jobs, start=1)
    )


def waiting(code: str, what_for: str, typed: str, until: str) -> str:
    """A line that was begun and waits."""
    return " ".join(filter(None, (words.code(code), what_for, typed, f"until {until}")))


def finished(card: Card) -> str:
    """A roll or a box has come to its end."""
    why = "it is empty" if card.judged.standing.state.form == "box" else "its core is bare"
    return f"{words.code(card.judged.code)} is finished: {why}"


def act_said(act: Act, shop: Shop, places: Sequence[Place]) -> str:
    """One act, as it is pointed at when it may be undone."""
    return f"{shop.local(act.at):%H:%M} {subject(act)} {act_words(act, shop, places)}"


def went_last(acts: Sequence[Act]) -> str:
    """Where the piece went that was written last, for the next often goes there too."""
    sets: Mapping[str, Any] = acts[0].moves[0].sets if acts and acts[0].kind == OUT else {}
    return str(sets.get("out_to", ""))


def just_now(acts: Sequence[Act], shop: Shop, places: Sequence[Place]) -> list[str]:
    """What was written last, newest first."""
    return [f"✓ {act_said(act, shop, places)}" for act in acts]


def cut_done(done: CutDone, shop: Shop) -> str:
    """What a cut did, and what has to be labelled now."""
    said = act_words(done.act, shop, (), piece=done.piece)
    kept = [
        f"label {words.code(one.code)} {show_size(one.across_nm, one.along_nm, shop.system)}"
        for one in done.offcuts
    ]
    stays = f"{show_length(done.left_nm, shop.system)} stays"
    return " · ".join([f"{words.code(done.piece)} {said}", *(kept or [stays])])


def taken(done: Taken, shop: Shop) -> str:
    """What was taken out of a box."""
    said = act_words(done.act, shop, (), piece=done.piece)
    return f"{words.code(done.piece)} {said} · {words.count(done.left)} stay"
