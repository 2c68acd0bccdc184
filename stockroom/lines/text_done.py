"""What was done just now, as plain lines."""

from collections.abc import Sequence

from stockroom.books.values import Act, Material, Place, Shop, Standing
from stockroom.codes.own import Letter, letter_of
from stockroom.lines import words
from stockroom.lines.text_acts import act_words
from stockroom.units.shown import show_area, show_length, show_size
from stockroom.work.back import CameBack
from stockroom.work.count import Counted
from stockroom.work.cut import CutDone
from stockroom.work.receive import Received


def received(done: Received, material: Material, shop: Shop) -> list[str]:
    """The codes of what came in, and how it gets its labels."""
    first = done.act.moves[0]
    each = amount(first.piece, first.balance, shop)
    number = len(done.codes)
    what = {Letter.ROLL: "roll", Letter.BOX: "box"}[letter_of(first.piece)]
    several = "boxes" if what == "box" else "rolls"
    lead = f"1 {what}" if number == 1 else f"{number} {several}"
    return [
        f"received {lead} of {material.name}, {each}{' each' if number > 1 else ''}",
        *(f"  {words.code(code)}" for code in done.codes),
        label_command(done.codes),
    ]


def label_command(codes: Sequence[str]) -> str:
    """How new pieces get their labels."""
    file = "label.png" if len(codes) == 1 else "labels.pdf"
    return f"labels: stockroom label {' '.join(codes)} -o {file}"


def cut(done: CutDone, standing: Standing, shop: Shop) -> list[str]:
    """What was cut, what is left, what was kept, and what the film itself needs."""
    lead = act_words(done.act, shop, (), piece=done.piece)
    left = "" if standing.state.form == "offcut" else f"; {_left(done.piece, done.left_nm, shop)}"
    lines = [f"{lead} from {words.code(done.piece)}, {standing.material.name}{left}"]
    for move in done.act.moves_of(done.piece):
        if move.kind == "count":
            said = show_length(move.balance - move.delta, shop.system)
            lines.append(f"counted {show_length(move.balance, shop.system)}, books said {said}")
    for one in done.offcuts:
        size = show_size(one.across_nm, one.along_nm, shop.system)
        lines.append(f"kept {words.code(one.code)}, {size}: it needs a label")
    if done.wasted_mm2:
        lines.append(f"waste {show_area(done.wasted_mm2, shop.system)}")
    if done.warning:
        lines.append(f"{words.marked(done.verdict)}: {done.warning}")
    return lines


def came_back(done: CameBack, shop: Shop, size: str) -> list[str]:
    """What came back, and where it is now."""
    if letter_of(done.piece) is Letter.OFFCUT and done.act.moves[0].piece != done.piece:
        of, to = words.code(done.act.moves[0].piece), words.code(done.piece)
        return [f"back: {size} of {of} is now {to}: it needs a label"]
    return act(done.act, done.piece, shop)


def counted(done: Counted, shop: Shop) -> list[str]:
    """What the count said of the books."""
    code = words.code(done.piece)
    left = amount(done.piece, done.left, shop)
    before = amount(done.piece, done.before, shop)
    if done.confirmed:
        return [f"{code}: the books are right, {left}{_band(done, shop)}"]
    return [f"{code}: {left} left, the books said {before}{_band(done, shop)}"]


def _band(done: Counted, shop: Shop) -> str:
    if done.low == done.high:
        return ""
    low, high = (show_length(one, shop.system) for one in (done.low, done.high))
    return f" (measured between {low} and {high})"


def act(done: Act, code: str, shop: Shop, places: Sequence[Place] = ()) -> list[str]:
    """One act on one piece, and what is left of it."""
    move = done.moves_of(code)[-1]
    what = act_words(done, shop, places, piece=code)
    return [f"{words.code(code)}: {what}; {_left(code, move.balance, shop)}"]


def _left(code: str, number: int, shop: Shop) -> str:
    return f"{amount(code, number, shop) if number else 'nothing'} left"


def amount(code: str, number: int, shop: Shop) -> str:
    """A length of film, or a number of goods."""
    if letter_of(code) is Letter.BOX:
        return words.count(number)
    return show_length(number, shop.system)
