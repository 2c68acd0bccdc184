"""What was printed, laminated and found wrong, as plain lines."""

from collections.abc import Iterable

from stockroom.books.values import Act, Shop, Standing
from stockroom.film.verdict import Verdict
from stockroom.lines import words
from stockroom.lines.text_acts import act_words
from stockroom.units.shown import show_area, show_length
from stockroom.work.flaw import Flaw, flaws_of
from stockroom.work.laminate import LaminateDone
from stockroom.work.making import Taken
from stockroom.work.printing import PrintDone


def printed(done: PrintDone, standing: Standing, shop: Shop) -> list[str]:
    """What was printed, the print's own code, and what it was taken from."""
    return [*_made(done.act, done.code, standing, shop), *_taken(done.taken, shop)]


def laminated(done: LaminateDone, standing: Standing, shop: Shop) -> list[str]:
    """What was laminated, its own code, and what was taken of both films."""
    return [
        *_made(done.act, done.code, standing, shop),
        *_taken(done.film, shop),
        *_taken(done.over, shop),
    ]


def warnings(flaws: Iterable[Flaw], shop: Shop) -> list[str]:
    """What a cut runs through."""
    return [f"Mind the flaw in this length: {_flaw(one, shop)}." for one in flaws]


def facts(standing: Standing, shop: Shop) -> list[tuple[str, str]]:
    """What a print, a laminate or a flawed piece has that other pieces have not."""
    state = standing.state
    rows = []
    if state.printed is not None:
        what = " ".join(filter(None, (state.artwork, state.tile))) or words.UNKNOWN
        rows.append(("artwork", f"{what}, {words.known(state.ink)} ink"))
    if state.is_laminated:
        rows.append(("laminate lot", words.known(state.laminate_lot)))
    if state.winding is not None:
        rows.append(("wound with", f"its face {state.winding}"))
    if flaws := flaws_of(state):
        rows.append(("flaws", ", ".join(_flaw(one, shop) for one in flaws)))
    return rows


def _made(act: Act, code: str, standing: Standing, shop: Shop) -> list[str]:
    what = act_words(act, shop, ())
    size, film = words.left(standing, shop.system), words.film(standing, shop.system)
    return [f"{what}: {words.code(code)}, {size}, {film}: it needs a label"]


def _taken(taken: Taken, shop: Shop) -> list[str]:
    code = words.code(taken.piece)
    left = show_length(taken.left_nm, shop.system) if taken.left_nm else "nothing"
    lines = [f"{code}: {left} left"]
    lines += [f"{code}: its rest is {words.code(one)}: it needs a label" for one in taken.rest]
    if taken.wasted_mm2:
        lines.append(f"{code}: waste {show_area(taken.wasted_mm2, shop.system)}")
    lines += [f"{code}: flaw, {_flaw(one, shop)}" for one in taken.flaws]
    if taken.warning:
        sign = Verdict.WAIT if taken.verdict is Verdict.USE else taken.verdict
        lines.append(f"{code}: {words.marked(sign)}: {taken.warning}")
    return lines


def _flaw(one: Flaw, shop: Shop) -> str:
    return f"{one.what} at {show_length(one.at_nm, shop.system)}"
