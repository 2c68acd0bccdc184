"""What was understood of a list, what its first lines became, what is wrong with others, what was written.

understood(looked)        a line for the file, one for each column, and the first lines as they would be written
findings(found)           lines 4, 7 and 9: no material is called …
imported(done)            …
…values(…)                the same for a script
"""

from collections.abc import Iterator, Sequence
from typing import Any

from stockroom.errors import clean_text
from stockroom.feeds.columns import Column, Reads
from stockroom.feeds.days import Decided, Order, Shown
from stockroom.feeds.listing import LineFinding
from stockroom.feeds.reading_cells import Local, read_a_day
from stockroom.lines import words
from stockroom.lines.answers import mm
from stockroom.lines.text_table import pairs
from stockroom.units import System
from stockroom.units.money import show_money
from stockroom.units.shown import show_length, show_size
from stockroom.work.import_list import Imported, Looked
from stockroom.work.list_materials import MaterialLine
from stockroom.work.list_places import NamesListed, PlaceLine
from stockroom.work.list_stock import StockLine, StockListed

_ORDERS = {Order.DMY: "day first", Order.MDY: "month first", Order.YMD: "year first"}
_BARE = {
    (Reads.LENGTH, System.METRIC): "mm",
    (Reads.LENGTH, System.US): "in",
    (Reads.THICKNESS, System.METRIC): "µm",
    (Reads.THICKNESS, System.US): "mil",
}
_SHOWN = 3
_MOST_SAID = 40
_MOST_NUMBERS = 6
_READ_AS = {
    "stock": "an opening stock",
    "materials": "a list of materials",
    "places": "a list of places",
}


def understood(looked: Looked) -> list[str]:
    """How a file was read, to be looked at before it is written."""
    headed = looked.listed.headed
    others = f"; other sheets: {', '.join(headed.sheet.others)}" if headed.sheet.others else ""
    rows = [
        ("file", f"{headed.sheet.written}, headings on line {headed.heading_line}{others}"),
        ("read as", _READ_AS[headed.of]),
        *((one.field.name, _column(one, looked)) for one in headed.columns),
    ]
    if headed.passed_over:
        rows.append(("passed over", ", ".join(f"“{one}”" for one in headed.passed_over)))
    rows.append(("lines", _lines(looked)))
    rows += [(f"line {one.line}", _stock(one, looked)) for one in looked.stock[:_SHOWN]]
    rows += [(f"line {one.line}", _material(one, looked)) for one in looked.materials[:_SHOWN]]
    rows += [(f"line {one.line}", _place(one)) for one in looked.places[:_SHOWN]]
    return pairs(rows)


def _column(column: Column, looked: Looked) -> str:
    said = f"“{column.heading}”"
    how = list(_how(column, looked))
    return f"{said}, {', '.join(how)}" if how else said


def _how(column: Column, looked: Looked) -> Iterator[str]:
    """In which unit, currency or order the cells of a column are read."""
    listed, shop = looked.listed, looked.shop
    reads = column.field.reads
    if reads is Reads.MONEY:
        yield shop.currency + " (the book's)" * (column.currency is None)
        if column.unit is not None:
            yield "in its smallest unit"
    elif column.unit is not None:
        yield f"in {column.unit}"
    elif column in listed.bare:
        yield f"in {_BARE[reads, shop.system]} (the book's, where no unit is written)"
    if reads is Reads.DAY:
        yield from _days(column, looked)


def _days(column: Column, looked: Looked) -> Iterator[str]:
    listed = looked.listed
    if listed.order is not None:
        yield _order(listed.order)
    if (serial := listed.serials.get(column.field.name)) is not None:
        local = Local(
            system=looked.shop.system,
            currency=looked.shop.currency,
            order=Order.DMY,
            counts_from_1904=listed.headed.sheet.counts_from_1904,
        )
        yield f"numbers count days: {serial} is {read_a_day(serial, local)}"


def _order(found: Decided) -> str:
    example = clean_text(found.example, 40)
    why = {
        Shown.TOLD: "as you say",
        Shown.YEAR_FIRST: "the year shows it",
        Shown.ONLY_SO: f"{example} shows it",
        Shown.IN_A_ROW: "the days follow one another so",
        Shown.ASSUMED: f"assumed: {example} can be read in two ways",
    }[found.shown]
    return f"{_ORDERS[found.order]} ({why})"


def _lines(looked: Looked) -> str:
    pieces = sum(one.receive.pieces for one in looked.stock)
    what = f", {words.counted(pieces, 'piece')}" if looked.stock else ""
    bad = f", {looked.bad} cannot" if looked.bad else ""
    known = f", {len(looked.known)} of them in the book before" if looked.known else ""
    return f"{looked.good} can be taken{what}{known}{bad}"


def _stock(one: StockLine, looked: Looked) -> str:
    asked, shop, cost = one.receive, looked.shop, one.begins["cost_minor"]
    parts = [
        f"{asked.material}: {_size(one, shop.system)}",
        f"lot {words.known(asked.lot)}",
        *(f"{name} {day}" for name in ("made", "printed") if (day := getattr(asked, name))),
        asked.owner if asked.owner != "ours" else "",
        "held" if one.begins["held"] else "",
        show_money(cost, shop.currency) if isinstance(cost, int) else "",
    ]
    return ", ".join(filter(None, parts))


def _size(one: StockLine, system: System) -> str:
    """How many of which size: 2 rolls of a width and length, or 3 boxes of 100."""
    asked, width = one.receive, one.begins.get("width_nm")
    if asked.number is not None:
        boxes = "1 box" if asked.pieces == 1 else f"{asked.pieces} boxes"
        return f"{boxes} of {asked.number}"
    pieces = words.counted(asked.pieces, one.form)
    if isinstance(width, int):
        return f"{pieces} {show_size(width, asked.length_nm or 0, system)}"
    return f"{pieces} of {show_length(asked.length_nm or 0, system)}"


def _material(one: MaterialLine, looked: Looked) -> str:
    add, shop = one.add, looked.shop
    parts = [
        f"{add.name}: {add.kind}",
        words.width(add.width_nm, shop.system) if add.width_nm else "",
        *(f"{rule} {span}" for rule, span in add.limits.items()),
        "" if add.cost_minor is None else show_money(add.cost_minor, shop.currency),
        add.terms.get("supplier", ""),
    ]
    return ", ".join(filter(None, parts))


def _place(one: PlaceLine) -> str:
    return f"{one.add.name}, zone {one.add.zone or words.UNKNOWN}"


def findings(found: Sequence[LineFinding]) -> list[str]:
    """What is wrong, each once with all its lines; of very many the first ones."""
    lines: dict[str, list[int]] = {}
    for one in found:
        lines.setdefault(one.text, []).append(one.line)
    said = [f"{_numbers(numbers)}: {text}." for text, numbers in lines.items()]
    more = len(said) - _MOST_SAID
    return [*said[:_MOST_SAID], f"… and {more} more: --json has them all."] if more > 0 else said


def _numbers(numbers: Sequence[int]) -> str:
    if len(numbers) == 1:
        return f"line {numbers[0]}"
    shown = ", ".join(map(str, numbers[:_MOST_NUMBERS]))
    more = len(numbers) - _MOST_NUMBERS
    return f"lines {shown} and {more} more" if more > 0 else f"lines {shown}"


def imported(done: Imported) -> list[str]:
    """What was written, and what was there before."""
    known = f"; {words.counted(len(done.known), 'line')} in the book before" if done.known else ""
    if isinstance(done, NamesListed):
        return [f"{words.counted(len(done.names), done.of)} entered{known}."]
    pieces = sum(len(those) for those in done.codes.values())
    acts = f" in {words.counted(done.acts, 'act')}" if pieces else ""
    return [f"{words.counted(pieces, 'piece')} received{acts}{known}."]


def looked_values(looked: Looked) -> dict[str, Any]:
    """How a file was read, for a script."""
    listed, order = looked.listed, looked.listed.order
    return {
        "written": listed.headed.sheet.written,
        "sheet": listed.headed.sheet.name or None,
        "list": listed.headed.of,
        "heading_line": listed.headed.heading_line,
        "columns": [
            {
                "column": one.place + 1,
                "heading": one.heading,
                "holds": one.field.name,
                "unit": one.unit,
                "unit_basis": "assumed" if one in listed.bare else "heading" if one.unit else None,
            }
            for one in listed.headed.columns
        ],
        "passed_over": list(listed.headed.passed_over),
        "date_order": None if order is None else order.order.value,
        "date_order_basis": None if order is None else order.shown.value,
        "good_lines": looked.good,
        "bad_lines": looked.bad,
        "known_lines": list(looked.known),
        "findings": [
            {"line": one.line, "text": one.text, "is_kept": one.is_kept} for one in looked.findings
        ],
        "lines": [_line_values(one) for one in looked.stock]
        + [
            {"line": one.line, "name": one.add.name, "zone": one.add.zone or None}
            for one in looked.places
        ]
        + [
            {"line": one.line, "name": one.add.name, "kind": one.add.kind}
            for one in looked.materials
        ],
    }


def _line_values(one: StockLine) -> dict[str, Any]:
    asked = one.receive
    return {
        "line": one.line,
        "material": asked.material,
        "form": one.form,
        "pieces": asked.pieces,
        "length_mm": mm(asked.length_nm),
        "count": asked.number,
        "lot": asked.lot,
        "made_on": asked.made,
        "received_on": asked.received,
        "place": asked.place,
        "cost_minor": asked.cost_minor,
    }


def codes_of(done: Imported) -> tuple[str, ...]:
    """The codes of all that was written, which need a label."""
    if isinstance(done, StockListed):
        return tuple(code for those in done.codes.values() for code in those)
    return ()


def imported_values(done: Imported) -> dict[str, Any]:
    """What was written, for a script."""
    if isinstance(done, StockListed):
        codes = [{"line": line, "codes": list(those)} for line, those in done.codes.items()]
        return {"written": codes, "acts": done.acts, "known_lines": list(done.known)}
    return {"written": list(done.names), "known_lines": list(done.known)}
