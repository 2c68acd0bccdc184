"""What somebody did, in a few words.

act_words(act, shop, places)              cut 3.2 m for J000 046K
act_words(act, shop, places, piece=code)  the same, as it was for one piece
subject(act)                              the piece an act is about
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from stockroom.books.values import Act, Move, Place, Shop
from stockroom.codes.own import Letter, letter_of
from stockroom.lines import words
from stockroom.lines.curl_trial import curls_within
from stockroom.lines.text_beside import of_no_piece, undone
from stockroom.lines.text_supplies import in_use, opened
from stockroom.units.money import show_money
from stockroom.units.shown import show_length, show_size, show_temperature, show_width

_MEASURES = {"outside": "diameter", "round": "tape"}
_BESIDE = ("keep", "variance", "not-seen")  # what happens beside the act itself


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """What the words of one move are made of."""

    act: Act
    move: Move
    shop: Shop
    places: Mapping[int, str]

    @property
    def facts(self) -> Mapping[str, Any]:
        return self.move.facts

    def amount(self, number: int) -> str:
        """So much of this piece."""
        if letter_of(self.move.piece) is Letter.BOX:
            return words.count(number)
        return show_length(number, self.shop.system)

    @property
    def size(self) -> str:
        """The size the piece was born with."""
        sets: Mapping[str, Any] = self.move.sets
        return show_size(sets["width_nm"], self.move.balance, self.shop.system)

    @property
    def purpose(self) -> str:
        """For which job or reason."""
        if self.act.job is not None:
            return f"for {words.code(self.act.job)}"
        reason = self.facts.get("reason")
        return f"for {reason}" if reason else ""


def act_words(act: Act, shop: Shop, places: Iterable[Place], *, piece: str | None = None) -> str:
    """What an act did, or what it did to one piece."""
    move = _told(act.moves if piece is None else act.moves_of(piece), act)
    if move is None:
        return of_no_piece(act)
    named = {place.id: place.name for place in places}
    said = _WORDS.get(move.kind, _plainly)(_Said(act=act, move=move, shop=shop, places=named))
    return f"{said.strip()} (undone)" if act.is_reversed else said.strip()


def subject(act: Act) -> str:
    """The code of the piece an act is about, and how many others it touched."""
    move = _told(act.moves, act)
    if move is None:
        return "-"
    others = len({one.piece for one in act.moves}) - 1
    return words.code(move.piece) + (f" +{others}" if others else "")


def _told(moves: tuple[Move, ...], act: Act) -> Move | None:
    main = [move for move in moves if move.kind not in _BESIDE]
    return next((move for move in main if move.kind == act.kind), None) or next(
        iter(main or moves), None
    )


def _plainly(said: _Said) -> str:
    return said.act.kind


def _receive(said: _Said) -> str:
    rest = len(said.act.moves)
    each = said.amount(said.move.delta)
    return f"receive {each}" if rest == 1 else f"receive {each}, one of {rest}"


def _cut(said: _Said) -> str:
    length = show_length(said.facts["length_nm"], said.shop.system)
    return f"cut {length} {said.purpose}"


def _take(said: _Said) -> str:
    return f"take {said.amount(-said.move.delta)} {said.purpose}"


def _back(said: _Said) -> str:
    return f"back {said.amount(said.move.delta)} {said.purpose.replace('for', 'from', 1)}"


def _severed(said: _Said) -> str:
    return f"back, severed {said.purpose.replace('for', 'from', 1)}"


def _keep(said: _Said) -> str:
    sets: Mapping[str, Any] = said.move.sets
    return f"kept, {said.size}, of {words.code(sets['parent'])}"


def _count(said: _Said) -> str:
    now, before = said.move.balance, said.move.balance - said.move.delta
    by = _MEASURES.get(said.facts["by"], said.facts["by"])
    if not said.move.delta:
        return f"count by {by}: the books are right, {said.amount(now)}"
    return f"count by {by}: {said.amount(now)}, books {said.amount(before)}"


def _finished(said: _Said) -> str:
    return f"finished, books {said.amount(-said.move.delta)}"


def _put(said: _Said) -> str:
    place = said.move.sets["place_id"]
    return f"put in {said.places.get(place, words.UNKNOWN) if isinstance(place, int) else '?'}"


def _hold(said: _Said) -> str:
    return f"hold: {said.move.sets['held']}"


def _with_why(said: _Said) -> str:
    return f"{said.act.kind}: {said.facts['why']}"


def _charge(said: _Said) -> str:
    length = show_length(said.facts["length_nm"], said.shop.system)
    return f"charge {length} {said.purpose}"


def _print(said: _Said) -> str:
    leader = said.facts["leader_nm"]
    beside = f", leader {said.amount(leader)}" if leader else ""
    return f"print {said.amount(said.facts['length_nm'])}{beside} {said.purpose}"


def _printed(said: _Said) -> str:
    warm = said.facts["wound_warm_c"]
    wound = "" if warm is None else f", wound at {show_temperature(warm, said.shop.system)}"
    return f"printed, {said.size}, of {words.code(said.act.moves[0].piece)}{wound}"


def _laminate(said: _Said) -> str:
    film, over = (move.piece for move in said.act.moves[:2])
    length = said.amount(said.facts["length_nm"])
    if said.move.piece == over:
        return f"laid over {words.code(film)}, {length} {said.purpose}"
    return f"laminate {length} under {words.code(over)} {said.purpose}"


def _laminated(said: _Said) -> str:
    film, over = (words.code(move.piece) for move in said.act.moves[:2])
    return f"laminated, {said.size}, of {film} and {over}"


def _rewind(said: _Said) -> str:
    sets: Mapping[str, Any] = said.move.sets
    core, face = sets.get("core_inside_nm"), sets["winding"]
    parts = (
        "rewind",
        core and f"on a core of {show_width(core, said.shop.system)} inside",
        "in a tube" if sets["in_tube"] else "",
        face and f"face {face}",
    )
    return ", ".join(part for part in parts if part)


def _layflat(said: _Said) -> str:
    days = said.move.sets["wound_days_before"]
    return f"lay flat, {days} d wound before"


def _trial(said: _Said) -> str:
    result = "passed" if said.facts["passed"] else "failed: held"
    beside = f", {curls_within(said.facts, said.shop)}" if "circle_nm" in said.facts else ""
    return f"{said.facts['trial']} trial {result}{beside}"


def _flaw(said: _Said) -> str:
    return f"flaw at {said.amount(said.facts['at_nm'])}: {said.facts['what']}"


def _out(said: _Said) -> str:
    sets = said.move.sets
    return f"out to {sets['out_to']}, {sets['out_by']}"


def _in(said: _Said) -> str:
    used: int = said.facts["used"]
    what = f"{said.amount(used)} used {said.purpose}" if used else "nothing used"
    return f"in from {said.facts['from']}, {what}"


def _send_back(said: _Said) -> str:
    return f"sent back, claim {said.move.sets['claim']}: {said.facts['why']}"


def _credit(said: _Said) -> str:
    money = show_money(said.facts["credit_minor"], said.shop.currency)
    return f"claim {said.facts['claim']} settled, {money} credited"


def _seen(said: _Said) -> str:
    place = said.places.get(said.facts["at"], words.UNKNOWN)
    before = said.places.get(said.facts["before"], words.UNKNOWN)
    match said.facts["found"]:
        case "missing":
            return f"not seen at {place}"
        case "elsewhere":
            return f"seen at {place}, books {before}"
        case _:
            return f"seen at {place}"


def _blind(said: _Said) -> str:
    return f"count, books unseen: {said.amount(said.facts['found'])}, waits for another counter"


def _kit(said: _Said) -> str:
    return f"parts: {words.numbered(said.facts['parts'])}"


def _part_out(said: _Said) -> str:
    return f"take {words.numbered({said.facts['part']: said.facts['number']})} out of the kit"


def _part_back(said: _Said) -> str:
    return f"{words.numbered({said.facts['part']: said.facts['number']})} back in the kit"


def _mix(said: _Said) -> str:
    sets = said.move.sets
    if "contents" not in sets:
        return "mixed from"
    return f"mix {sets['contents']}, keeps {sets['keeps_days']} d"


_WORDS: Mapping[str, Callable[[_Said], str]] = {
    "receive": _receive,
    "cut": _cut,
    "take": _take,
    "back": _back,
    "severed": _severed,
    "keep": _keep,
    "count": _count,
    "finished": _finished,
    "put": _put,
    "reserve": lambda said: f"kept {said.purpose}",
    "unreserve": lambda said: f"no longer kept {said.purpose}",
    "hold": _hold,
    "release": _with_why,
    "discard": _with_why,
    "failed": _with_why,
    "opened": lambda said: opened(said.move.sets),
    "in-use": lambda said: in_use(said.move.sets),
    "charge": _charge,
    "print": _print,
    "printed": _printed,
    "laminate": _laminate,
    "laminated": _laminated,
    "rewind": _rewind,
    "layflat": _layflat,
    "trial": _trial,
    "flaw": _flaw,
    "out": _out,
    "in": _in,
    "send-back": _send_back,
    "credit": _credit,
    "seen": _seen,
    "not-seen": _seen,
    "blind-count": _blind,
    "kit": _kit,
    "part-out": _part_out,
    "part-back": _part_back,
    "mix": _mix,
    "scrap": lambda _: "in the scrap bin",
    "undo": lambda said: undone(said.act.reverses, said.facts),
}
