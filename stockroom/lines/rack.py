"""The rack as a screen shows it.

shelf(rack)            every piece in the order in which its film is to be used, ready to be searched
shelf.chosen(wanted)   the places in it of the pieces that are asked for
cells(…)               R000 1231, white cast 1370, 11.2 m, ▲ TEST, 25 mo, B2, …
said(wanted, …)        12 of 40 pieces · ▲ TEST · B2
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stockroom.film.verdict import Verdict
from stockroom.lines import words
from stockroom.lines.today import more_of
from stockroom.work.judging import Judged, View
from stockroom.work.look import EVERYTHING, Rack, Wanted
from stockroom.work.older import age_from

NOTHING_HERE = (
    "Nothing is on the rack yet. Name a film with `stockroom material add`, then bring a roll in "
    "with `stockroom receive`."
)
NONE_LIKE_THAT = "No piece is like that: Esc shows every piece again."

_FROM_WORST = (Verdict.STOP, Verdict.TEST, Verdict.USE_FIRST, Verdict.USE)
CYCLE: Sequence[Verdict | None] = (
    None,
    Verdict.STOP,
    Verdict.TEST,
    Verdict.USE_FIRST,
    Verdict.WAIT,
    Verdict.USE,
)
"""The verdicts one key leads through, the worst first; None is every piece."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """Every piece on hand in order, and beside each what it is found by."""

    view: View
    pieces: tuple[Judged, ...]
    texts: tuple[str, ...]

    def chosen(self, wanted: Wanted) -> Sequence[int]:
        """Where the pieces that are asked for stand in it."""
        found: Sequence[int] = range(len(self.pieces))
        for word in wanted.find.casefold().split():
            found = [at for at in found if word in self.texts[at]]
        if wanted.material:
            found = [
                at for at in found if self.pieces[at].standing.material.name == wanted.material
            ]
        if wanted.place:
            found = [at for at in found if wanted.place in _place_texts(self.pieces[at])]
        if wanted.verdict is not None:
            found = [at for at in found if _has(self.pieces[at], wanted.verdict)]
        return found


def shelf(rack: Rack) -> Shelf:
    """The pieces by film, and of each film the one first that asks for most, then the oldest."""
    pieces = sorted(rack.pieces, key=_order)
    return Shelf(rack.view, tuple(pieces), tuple(map(_text, pieces)))


def _order(one: Judged) -> tuple[str, int, date, str]:
    standing = one.standing
    rank = _FROM_WORST.index(one.judgement.verdict)
    return standing.material.name.casefold(), rank, age_from(standing), one.code


def _text(one: Judged) -> str:
    standing, job = one.standing, one.standing.job
    parts = (
        standing.code,
        standing.material.name,
        standing.state.lot,
        *_place_texts(one),
        f"{job.code} {job.name}" if job else "",
    )
    return " ".join(filter(None, parts)).casefold()


def place_of(one: Judged) -> str:
    """The name of the place a piece stands at, by which it can be asked for."""
    return words.place(one.standing.place)


def _place_texts(one: Judged) -> tuple[str, ...]:
    place = one.standing.place
    return (words.UNKNOWN,) if place is None else (place.name, place.code)


def _has(one: Judged, verdict: Verdict) -> bool:
    if verdict is Verdict.WAIT:
        return one.judgement.wait_until is not None
    return one.judgement.verdict is verdict


def cells(one: Judged, view: View) -> tuple[str, ...]:
    """One piece of the rack."""
    standing, system = one.standing, view.shop.system
    return (
        words.code(one.code),
        standing.material.name,
        words.left(standing, system),
        _verdict(one),
        _age(one, view),
        words.stands(standing),
        more_of(standing, system),
        _wound(one, view),
        words.known(standing.state.lot),
        words.known(standing.state.received),
    )


def _wound(one: Judged, view: View) -> str:
    """How long it has been wound; goods in a box never are."""
    is_box = one.standing.state.form == "box"
    return "-" if is_box else words.age(one.judgement.wound_days, view.today)


def _verdict(one: Judged) -> str:
    judgement = one.judgement
    if judgement.wait_until is None:
        return words.marked(judgement.verdict)
    # Both words have to stand in one narrow column: what to do first is said as FIRST.
    short = words.marked(judgement.verdict).replace("USE FIRST", "FIRST")
    return f"{short} {words.marked(Verdict.WAIT)}"


def _age(one: Judged, view: View) -> str:
    """The age, with a sign where it is at least so much or assumed; the card says it in words."""
    judgement = one.judgement
    old = words.age(judgement.shelf_days, view.today)
    if judgement.shelf_is_at_least:
        return f"≥ {old}"
    return f"~ {old}" if words.is_age_assumed(one.standing) and old != words.UNKNOWN else old


def said(shelf: Shelf, wanted: Wanted, chosen: Sequence[int]) -> str:
    """How many pieces are shown, and what they were chosen by."""
    known = words.counted(len(shelf.pieces), "piece")
    if wanted == EVERYTHING:
        return known
    # A scanned place is asked for by its code; people know it by its name.
    place = place_of(shelf.pieces[chosen[0]]) if wanted.place and chosen else wanted.place
    by = (
        wanted.verdict and words.marked(wanted.verdict),
        wanted.material,
        place and f"at {place}",
        wanted.find and f"“{wanted.find}”",
    )
    return "  ·  ".join([f"{len(chosen)} of {known}", *filter(None, by)])
