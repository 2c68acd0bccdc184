"""An opening stock from a list: what was found standing there, its lots unknown and its dates about.

stock_line(says, …)   StockLine: a line as it would be received, or a refusal
numbered(lines)       the lines with their ids: the same content has the same id, in whatever file
write_stock(…)        new lines become pieces, so many in one act; lines that came in before do not
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from itertools import islice
from typing import Any

from stockroom.books.catalog import name_key
from stockroom.books.chain import digest
from stockroom.books.listed import FROM_LINE, LISTED, listed_lines
from stockroom.books.opening import Book
from stockroom.books.pen import Pen
from stockroom.books.values import ActDraft, Asked, Material, MoveDraft, Place, Shop
from stockroom.codes.own import Letter
from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import parse_partial_date
from stockroom.film.kinds import parse_ink
from stockroom.work.receive import OURS, RECEIVE, Receive, facts_of

FORMS = {"roll": Letter.ROLL, "offcut": Letter.OFFCUT, "box": Letter.BOX}
_LONGEST = {"material": 120, "lot": 60, "held": 200, "damaged": 200, "place": 120, "hazard": 200}
_ID_DIGITS = 24
MOST_OF_AN_ACT = 200
"""How many pieces of a list come in with one act: a card reads all that its acts did."""

_SIZES = {
    "length": "length_nm",
    "width": "width_nm",
    "core": "core_inside_nm",
    "wall": "core_wall_nm",
    "cost": "cost_minor",
}
_DAYS = ("mixed", "begun")
_CARRIED = (*_DAYS, "keeps_days", "contents", "hazard")
_SAME = ("lot", "made", "shipped", "received", "printed", "damaged")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelves:
    """What a list may name: the shop, its materials and places."""

    shop: Shop
    materials: Mapping[str, Material]
    places: Mapping[str, Place]

    @classmethod
    def of(cls, shop: Shop, materials: Iterable[Material], places: Iterable[Place]) -> "Shelves":
        """Materials by their names, places by their names and codes."""
        stands = {place.code.casefold(): place for place in places}
        stands |= {name_key(place.name): place for place in stands.values()}
        return cls(
            shop=shop,
            materials={name_key(one.name): one for one in materials},
            places=stands,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """A line as it would be received: what it asks for, its form, and what its pieces begin with."""

    line: int
    receive: Receive
    form: str
    carried: Mapping[str, object]
    """What it has of its past: held, mixed, opened, laminated."""
    begins: Mapping[str, object]
    id: str = ""

    @property
    def letter(self) -> Letter:
        """What its codes begin with."""
        return FORMS[self.form]


@dataclass(frozen=True, slots=True)
class StockListed:
    """What was written of a list: the codes by line, and the lines that came in before."""

    codes: Mapping[int, tuple[str, ...]]
    known: tuple[int, ...]
    acts: int


def nothing_left(says: Mapping[str, Any]) -> str | None:
    """Why the piece of a line is no more; such a line is passed over."""
    if "ended" in says:
        return f"it is no more ({says['ended']}): passed over"
    amounts = [says[name] for name in ("length", "count", "rolls") if name in says]
    return "nothing is left of it: passed over" if amounts and not all(amounts) else None


def stock_line(
    line: int, says: Mapping[str, Any], shelves: Shelves, *, asked: Asked, at: datetime
) -> StockLine:
    """A line as it would be received; what cannot be is refused."""
    _refuse_long(says)
    material = _material(says, shelves)
    place = _place(says, shelves)
    form = _form(says, material)
    request = Receive(
        request=asked.request,
        operator=asked.operator,
        at=asked.at,
        material=material.name,
        place=None if place is None else place.code,
        owner=str(says.get("owner", OURS)).lower(),
        ink=None if "ink" not in says else parse_ink(says["ink"]).value,
        **_facts(says, material),
    )
    begins = facts_of(request, material, place, shop=shelves.shop, at=at)
    carried = _carried(says)
    if "mixed" in says and "cost" not in says:
        begins["cost_minor"] = None  # its material's price is that of a full one
    if form == "offcut":
        begins |= {"form": "offcut", "core_inside_nm": None, "core_wall_nm": None}
    return StockLine(
        line=line, receive=request, form=form, carried=carried, begins=begins | carried
    )


def numbered(lines: Sequence[StockLine]) -> Iterator[StockLine]:
    """Each line with its id, made of what it says; lines alike are told by their number."""
    seen: Counter[str] = Counter()
    for one in lines:
        content = asdict(one.receive)
        for name in ("request", "operator", "at", "note"):
            del content[name]
        content |= {"form": one.form, **one.carried}
        same = digest(content)[:_ID_DIGITS]
        seen[same] += 1
        yield replace(one, id=f"{same}-{seen[same]}")


def write_stock(
    lines: Sequence[StockLine], *, asked: Asked, book: Book, now: datetime
) -> StockListed:
    """Give each piece of each new line a code and a first move; all lines or none."""
    codes: dict[int, tuple[str, ...]] = {}
    with book.transaction() as connection:
        lock = Pen(connection, asked, now)
        lock.lock_counters(FORMS.values())
        before = listed_lines(connection)
        new = [one for one in lines if one.id not in before]
        acts = list(_by_act(new))
        for number, part in enumerate(acts, start=1):
            codes |= _append(part, f"{LISTED}{asked.request}-{number}", lock, asked)
    known = tuple(one.line for one in lines if one.id in before)
    return StockListed(codes=codes, known=known, acts=len(acts))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lines(Asked):
    """The lines one act writes, by their ids."""

    ids: tuple[str, ...]


def _append(
    part: Sequence[StockLine], request: str, lock: Pen, asked: Asked
) -> dict[int, tuple[str, ...]]:
    """One act for some lines; the codes by line."""
    own = _Lines(
        request=request,
        operator=asked.operator,
        at=asked.at,
        note=asked.note,
        ids=tuple(one.id for one in part),
    )
    pen = Pen(lock.connection, own, lock.now)
    pen.find()
    new = _new_codes(part, pen)
    codes: dict[int, tuple[str, ...]] = {}
    moves: list[MoveDraft] = []
    for one in part:
        born = [
            MoveDraft(
                code=code,
                kind=RECEIVE,
                delta=one.receive.number or one.receive.length_nm or 0,
                sets=one.begins,
                facts={FROM_LINE: one.id, "line": one.line},
            )
            for code in islice(new[one.letter], one.receive.pieces)
        ]
        codes[one.line] = tuple(move.code for move in born)
        moves += born
    pen.append(ActDraft(kind=RECEIVE, at=pen.when(), moves=tuple(moves)))
    return codes


def _new_codes(part: Sequence[StockLine], pen: Pen) -> Mapping[Letter, Iterator[str]]:
    """The codes of all pieces of some lines, which are given out in their order."""
    wanted: Counter[Letter] = Counter()
    for one in part:
        wanted[one.letter] += one.receive.pieces
    return {letter: iter(pen.new_codes(letter, count)) for letter, count in wanted.items()}


def _by_act(lines: Iterable[StockLine]) -> Iterator[Sequence[StockLine]]:
    """So many lines together as one act may have pieces; a card would wait for more."""
    part: list[StockLine] = []
    pieces = 0
    for one in lines:
        if part and pieces + one.receive.pieces > MOST_OF_AN_ACT:
            yield part
            part, pieces = [], 0
        part.append(one)
        pieces += one.receive.pieces
    if part:
        yield part


def _refuse_long(says: Mapping[str, Any]) -> None:
    for name, longest in _LONGEST.items():
        if len(says.get(name, "")) > longest:
            shown = clean_text(says[name], 20)
            raise Refusal(
                Code.BAD_NAME,
                f"{name}: “{shown}…” is too long: write at most {longest} characters.",
            )


def _material(says: Mapping[str, Any], shelves: Shelves) -> Material:
    name = says.get("material")
    if name is None:
        raise Refusal(Code.BAD_NAME, "It names no material.")
    found = shelves.materials.get(name_key(name))
    if found is None:
        raise Refusal(
            Code.NO_MATERIAL, f"No material is called “{name}”: import the materials first."
        )
    return found


def _place(says: Mapping[str, Any], shelves: Shelves) -> Place | None:
    name = says.get("place")
    if name is None:
        return None
    found = shelves.places.get(name_key(name))
    if found is None:
        raise Refusal(
            Code.NO_PLACE, f"No place is called “{name}”: enter it first, with `place add`."
        )
    return found


def _form(says: Mapping[str, Any], material: Material) -> str:
    is_film = material.kind.comes_in_rolls
    form = str(says.get("form", "roll" if is_film else "box")).lower()
    if form not in FORMS or (form == "box") is is_film:
        fits = "a roll or an offcut" if is_film else "a box"
        raise Refusal(Code.WRONG_FORM, f"form: {material.name} is {fits}, not “{form}”.")
    return form


def _carried(says: Mapping[str, Any]) -> dict[str, object]:
    """What a piece has of its past, and is not to lose: without it an old bottle would be a new one."""
    for name in _DAYS:
        if name in says and not parse_partial_date(says[name]).is_exact:
            raise Refusal(Code.BAD_DATE, f"{name}: “{says[name]}” is no day: write it in full.")
    carried: dict[str, object] = {name: says[name] for name in _CARRIED if name in says}
    if "laminate_lot" in says:
        carried |= {"is_laminated": True, "laminate_lot": says["laminate_lot"]}
    if "held" in says and "damaged" not in says:
        carried["held"] = says["held"]
    return carried


def _facts(says: Mapping[str, Any], material: Material) -> dict[str, Any]:
    """Sizes and dates as they are said, and how many pieces; of film a number says how many rolls."""
    facts: dict[str, Any] = {name: says.get(name) for name in _SAME}
    facts |= {field: says.get(name) for name, field in _SIZES.items()}
    count, rolls = says.get("count"), says.get("rolls")
    if material.kind.comes_in_rolls:
        return facts | {"pieces": rolls or count or 1}
    return facts | {"pieces": rolls or 1, "number": count}
