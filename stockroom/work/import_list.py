"""A list of stock, materials or places from a spreadsheet: looked into first, then written.

    look_into(request)       Looked: what the file says, line by line, and what is wrong; writes nothing
    refuse_unready(…)        what keeps all of it out
    keep(request, looked)    Imported: what was written of it

One bad line keeps all of them out, unless only the good ones are asked for. What came in before is not
written again, whatever file it is in.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from stockroom.books.catalog import materials, name_key, places
from stockroom.books.listed import listed_lines
from stockroom.books.opening import Book
from stockroom.books.values import Asked, Material, Place, Shop
from stockroom.errors import Code, Refusal, clean_text
from stockroom.feeds.days import Order, Shown
from stockroom.feeds.heading import Told
from stockroom.feeds.listing import Asked as AskedOfFile
from stockroom.feeds.listing import LineFinding, Listed, read_list
from stockroom.units import System
from stockroom.work.list_materials import (
    MaterialLine,
    material_line,
    said_otherwise,
    write_materials,
)
from stockroom.work.list_places import NamesListed, PlaceLine, place_line, write_places
from stockroom.work.list_stock import (
    Shelves,
    StockLine,
    StockListed,
    nothing_left,
    numbered,
    stock_line,
    write_stock,
)

STOCK, PLACES = "stock", "places"


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportList(Asked):
    """A file, and what a person says of it: which list it is, its sheet, its columns and days."""

    raw: bytes = field(repr=False)
    of: str | None = None
    sheet: str | None = None
    columns: Mapping[str, str] = field(default_factory=dict[str, str])
    order: Order | None = None
    good_lines_only: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a file says: the lines that can be written, those that are there already, and what is wrong."""

    listed: Listed
    shop: Shop
    stock: Sequence[StockLine] = ()
    materials: Sequence[MaterialLine] = ()
    places: Sequence[PlaceLine] = ()
    known: Sequence[int] = ()
    findings: Sequence[LineFinding] = ()

    @property
    def good(self) -> int:
        """How many lines can be written, or are there already."""
        return len(self.stock) + len(self.materials) + len(self.places)

    @property
    def bad(self) -> int:
        """How many lines cannot."""
        return len({one.line for one in self.findings if not one.is_kept})


Imported = StockListed | NamesListed


def look_into(request: ImportList, *, book: Book | None, shop: Shop, now: datetime) -> Looked:
    """What a file says, and what the book says to it; where no book is yet, it knows nothing."""
    listed = read_list(
        AskedOfFile(
            raw=request.raw,
            told=Told(of=request.of, columns=request.columns),
            system=shop.system,
            currency=shop.currency,
            today=shop.day_of(now),
            sheet=request.sheet,
            order=request.order,
        )
    )
    _refuse_other_money(listed, shop)
    there: Mapping[int, Material] = {}
    shelves, before = Shelves.of(shop, (), ()), frozenset[str]()
    if book is not None:
        with book.reading() as connection:
            there = materials(connection, now)
            shelves = Shelves.of(shop, there.values(), places(connection, now).values())
            before = listed_lines(connection)
    if listed.headed.of == STOCK:
        return _stock(request, listed, shelves, before, now)
    if listed.headed.of == PLACES:
        return _places(request, listed, shelves)
    return _materials(request, listed, shop, there)


def refuse_unready(request: ImportList, looked: Looked) -> None:
    """Refuse a file with bad lines, unless only the good ones are asked for, and what is only assumed."""
    _refuse_assumed(looked)
    if looked.bad and not request.good_lines_only:
        lines = looked.bad + looked.good
        raise Refusal(
            Code.BAD_FILE,
            f"{looked.bad} of {lines} lines cannot be taken, so nothing was written: mend them, or "
            "take the others with --good-lines-only.",
        )
    if not looked.good:
        raise Refusal(Code.BAD_FILE, "The file has no line that can be taken.")


def keep(request: ImportList, looked: Looked, *, book: Book, now: datetime) -> Imported:
    """Write what can be and is not there yet."""
    refuse_unready(request, looked)
    if looked.listed.headed.of == STOCK:
        return write_stock(looked.stock, asked=request, book=book, now=now)
    if looked.listed.headed.of == PLACES:
        return write_places(looked.places, asked=request, book=book, now=now)
    return write_materials(looked.materials, asked=request, book=book, now=now)


def _stock(
    request: ImportList, listed: Listed, shelves: Shelves, before: frozenset[str], now: datetime
) -> Looked:
    good: list[StockLine] = []
    findings = list(listed.findings)
    at = request.at or now
    for line, says in listed.lines:
        if (why := nothing_left(says)) is not None:
            findings.append(LineFinding(line, why, is_kept=True))
            continue
        try:
            good.append(stock_line(line, says, shelves, asked=request, at=at))
        except Refusal as refusal:
            findings.append(LineFinding(line, refusal.sentence.rstrip(".")))
    stock = list(numbered(good))
    return Looked(
        listed=listed,
        shop=shelves.shop,
        stock=stock,
        known=[one.line for one in stock if one.id in before],
        findings=sorted(findings),
    )


def _materials(
    request: ImportList, listed: Listed, shop: Shop, there: Mapping[int, Material]
) -> Looked:
    by_name = {name_key(one.name): one for one in there.values()}
    seen: dict[str, int] = {}
    good: list[MaterialLine] = []
    known: list[int] = []
    findings = list(listed.findings)
    for line, says in listed.lines:
        try:
            one = material_line(line, says, shop, asked=request)
            key = name_key(one.add.name)
            _refuse_twice(one.add.name, line, seen.setdefault(key, line))
            if key in by_name:
                _refuse_otherwise(one, by_name[key], shop)
                known.append(line)
            good.append(one)
        except Refusal as refusal:
            findings.append(LineFinding(line, refusal.sentence.rstrip(".")))
    return Looked(listed=listed, shop=shop, materials=good, known=known, findings=sorted(findings))


def _places(request: ImportList, listed: Listed, shelves: Shelves) -> Looked:
    seen: dict[str, int] = {}
    good: list[PlaceLine] = []
    known: list[int] = []
    findings = list(listed.findings)
    for line, says in listed.lines:
        try:
            one = place_line(line, says, asked=request)
            key = name_key(one.add.name)
            _refuse_twice(one.add.name, line, seen.setdefault(key, line))
            there = shelves.places.get(key)
            if there is not None:
                _refuse_other_zone(one, there)
                known.append(line)
            good.append(one)
        except Refusal as refusal:
            findings.append(LineFinding(line, refusal.sentence.rstrip(".")))
    return Looked(
        listed=listed, shop=shelves.shop, places=good, known=known, findings=sorted(findings)
    )


def _refuse_twice(name: str, line: int, first: int) -> None:
    if first != line:
        raise Refusal(Code.ALREADY_THERE, f"“{name}” is on line {first} already.")


def _refuse_other_zone(one: PlaceLine, there: Place) -> None:
    if one.add.zone and one.add.zone.casefold() != there.zone.casefold():
        raise Refusal(
            Code.ALREADY_THERE,
            f"“{there.name}” is there, in the zone {there.zone or '?'}: leave it out, or name another.",
        )


def _refuse_otherwise(one: MaterialLine, there: Material, shop: Shop) -> None:
    if wrong := said_otherwise(one, there, shop):
        raise Refusal(
            Code.ALREADY_THERE,
            f"“{there.name}” is there with another {', '.join(wrong)}: see `material change`.",
        )


def _refuse_other_money(listed: Listed, shop: Shop) -> None:
    """Refuse prices of another currency than the book's."""
    for column in listed.headed.columns:
        if column.currency not in (None, shop.currency):
            raise Refusal(
                Code.BAD_MONEY,
                f"“{column.heading}” is in {column.currency}, and the book in {shop.currency}: "
                "convert it, or leave the column out.",
            )


def _refuse_assumed(looked: Looked) -> None:
    """Refuse to write what was only assumed, for a piece's dates and sizes are not taken back."""
    listed, order = looked.listed, looked.listed.order
    if order is not None and order.shown is Shown.ASSUMED:
        raise Refusal(
            Code.BAD_DATE,
            f"“{clean_text(order.example, 40)}” can be read in two ways: say --date-order dmy or "
            "mdy, or look first with --dry.",
        )
    for column in listed.bare:
        name = column.field.name
        if name in listed.assumed:
            unit = "ft" if looked.shop.system is System.US else "m"
            raise Refusal(
                Code.BAD_NUMBER,
                f"The numbers of “{column.heading}” are too small for the book's unit, and none is "
                f'written: say --column "{column.heading}={name}_{unit}", or whatever they are in.',
            )
