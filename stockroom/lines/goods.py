"""A delivery while it is built, and when it has come in: as plain lines and as values.

table(delivery, …)      one line a line, with what is missing and what would stay unknown
awaited(orders)         the orders it may have come of
usual(typed, system)    what a missing width or length usually is
received(done, …)       the codes of all that came in, under their material
values(delivery)        the same for a script
"""

from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import Any

from stockroom.books.orders import Order
from stockroom.books.values import Act, Material, Move, Place, Shop
from stockroom.film.presets import Presets
from stockroom.film.presets import usual as usual_of
from stockroom.lines import words
from stockroom.lines.answers import mm
from stockroom.lines.text_done import amount, label_command
from stockroom.lines.text_table import Columns, table
from stockroom.units import System
from stockroom.units.shown import show_length, show_width
from stockroom.work.delivery import Delivery
from stockroom.work.goods_line import Line, Typed

_LINES = Columns(
    heads=("line", "what", "each", "lot", "place", "missing", "unknown"),
    right=frozenset({0, 2}),
    flex=1,
)


def shown(found: Delivery, shop: Shop, places: Iterable[Place], width: int) -> list[str]:
    """A delivery that is being built, and what its lines still lack."""
    named = {place.code: place.name for place in places}
    rows = [
        (
            str(number),
            _what(one),
            _each(one.line, shop.system),
            words.known(one.line.lot),
            words.known(named.get(one.line.place or "")),
            ", ".join(one.needed),
            ", ".join(one.unknown),
        )
        for number, one in enumerate(found.lines, start=1)
    ]
    lines = [f"{found.name}, {found.operator}, {words.moment(found.updated_at, shop)}"]
    lines += table(_LINES, rows, width) if rows else ["no line yet"]
    for number, one in enumerate(found.lines, start=1):
        lines += [f"line {number}: {said}" for said in usual(one, shop.system)]
    return lines


def awaited(found: Iterable[Order]) -> list[str]:
    """The orders that what is in a delivery may have come of."""
    return [
        f"Order {words.code(one.code)} of {one.supplier} is on its way: "
        f"`delivery order {one.code}` adds its lines."
        for one in found
    ]


def missed(found: Iterable[Order]) -> list[str]:
    """The orders that what has just come in may have come of."""
    return [
        f"Order {words.code(one.code)} of {one.supplier} is on its way: if this came of it, undo "
        f"and `order receive {one.code}`."
        for one in found
    ]


def usual(one: Typed, system: System) -> list[str]:
    """What a width or a length that is missing usually is, where anything is usual."""
    known = Presets() if one.material is None else usual_of(one.material.kind)
    sizes = {
        "width": [show_width(size, system) for size in known.widths_nm],
        "length": [show_length(size, system) for size in known.lengths_nm],
    }
    return [
        f"{name} is usually {_or(said)}"
        for name, said in sizes.items()
        if name in one.needed and said
    ]


def received(done: Act, materials: Iterable[Material], shop: Shop) -> list[str]:
    """What came in, line by line, and how it gets its labels."""
    named = {one.id: one.name for one in materials}
    lines = []
    for what, moves in groupby(done.moves, key=lambda move: _alike(move, named, shop)):
        lines += [what, *(f"  {words.code(move.piece)}" for move in moves)]
    codes = [move.piece for move in done.moves]
    return [
        f"received {words.counted(len(codes), 'piece')} in one act",
        *lines,
        label_command(codes),
    ]


def values(found: Delivery) -> dict[str, Any]:
    """A delivery that is being built."""
    return {
        "name": found.name,
        "operator": found.operator,
        "updated_at": found.updated_at.isoformat(),
        "is_ready": found.is_ready,
        "lines": [_line(number, one) for number, one in enumerate(found.lines, start=1)],
    }


def _line(number: int, one: Typed) -> dict[str, Any]:
    line = one.line
    known = Presets() if one.material is None else usual_of(one.material.kind)
    return {
        "line": number,
        "material": line.material,
        "pieces": line.pieces,
        "length_mm": mm(line.length_nm),
        "count": line.number,
        "width_mm": mm(line.width_nm),
        "core_inside_mm": mm(line.core_inside_nm),
        "core_wall_mm": mm(line.core_wall_nm),
        "lot": line.lot,
        "made_on": line.made,
        "shipped_on": line.shipped,
        "received_on": line.received,
        "printed_on": line.printed,
        "ink": line.ink,
        "place": line.place,
        "job": line.job,
        "cost_minor": line.cost_minor,
        "owner": line.owner,
        "damaged": line.damaged,
        "order": line.order,
        "order_line": line.order_line,
        "needed": list(one.needed),
        "unknown": list(one.unknown),
        "usual_width_mm": [mm(size) for size in known.widths_nm],
        "usual_length_mm": [mm(size) for size in known.lengths_nm],
    }


def _what(one: Typed) -> str:
    material = words.known(one.line.material)
    if one.material is not None and not one.material.kind.comes_in_rolls:
        return material if one.line.pieces == 1 else f"{one.line.pieces} boxes of {material}"
    return f"{words.counted(one.line.pieces, 'roll')} of {material}"


def _each(line: Line, system: System) -> str:
    if line.number is not None:
        return words.count(line.number)
    return words.UNKNOWN if line.length_nm is None else show_length(line.length_nm, system)


def _alike(move: Move, named: Mapping[int, str], shop: Shop) -> str:
    """What is said once of pieces that came in alike."""
    sets: Mapping[str, Any] = move.sets
    width = sets.get("width_nm")
    parts = [named[sets["material_id"]], amount(move.piece, move.balance, shop)]
    parts += [] if width is None else [show_width(width, shop.system)]
    return f"{', '.join(parts)}, lot {words.known(sets['lot'])}"


def _or(said: list[str]) -> str:
    *all_but_last, last = said
    return f"{', '.join(all_but_last)} or {last}" if all_but_last else last
