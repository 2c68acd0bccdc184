"""Goods in as a screen shows it, and what people type there.

fields_of(material)      the fields a line of this material has, in the order they are asked
asked_of(one)            those Enter leads through: the rest is there for who wants it
read(name, text, …)      what was typed in a field, as a line holds it
shown(one, …)            what stands in each field
given(one, …)            what a field has without being typed, and where that comes from
cells(number, one, …)    1, 2 rolls of white cast 1370, 25 m, ▲ length
offer_says(orders)       F6 adds what is to come of D000 0010, Northlight Films
presets(name, one)       a 36 in, b 48 in … for a width or a length
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from string import ascii_lowercase
from typing import Any

from stockroom.books.orders import Order
from stockroom.books.values import Material, Place, Shop
from stockroom.codes.own import place_or_name, read_job
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.film.kinds import parse_ink
from stockroom.film.presets import usual
from stockroom.lines import words
from stockroom.lines.bench import length
from stockroom.units import FOOT, INCH
from stockroom.units.money import parse_money, show_money
from stockroom.units.shown import show_length, show_width
from stockroom.units.typed import parse_count, parse_length
from stockroom.work.delivery import Delivery
from stockroom.work.goods_line import Line, Typed
from stockroom.work.receive import OURS, OWNERS

NO_MATERIAL = "no material is entered yet: `stockroom material add NAME` enters one"
_YARD = 3 * FOOT
_MOST_NAMED = 4
_PRINTS = ("printed", "ink", "job")
_ROLL = ("length", "width", "core", "wall")

FIELDS: Mapping[str, str] = {
    "material": "material",
    "pieces": "pieces",
    "length": "length_nm",
    "number": "number",
    "width": "width_nm",
    "lot": "lot",
    "made": "made",
    "place": "place",
    "shipped": "shipped",
    "received": "received",
    "price": "cost_minor",
    "core": "core_inside_nm",
    "wall": "core_wall_nm",
    "printed": "printed",
    "ink": "ink",
    "job": "job",
    "owner": "owner",
    "damaged": "damaged",
}
"""The fields in the order they are asked, and what each is called on a line."""
_USUAL: Mapping[str, Any] = {"pieces": 1, "owner": OURS}
"""What stands on a line though nothing is typed there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the words of a line are made of."""

    shop: Shop
    materials: Sequence[Material]
    places: Sequence[Place]
    shows_money: bool

    def may_show(self, names: Sequence[str]) -> tuple[str, ...]:
        """These fields, without the price where money is hidden."""
        return tuple(name for name in names if self.shows_money or name != "price")


def fields_of(material: Material | None) -> tuple[str, ...]:
    """The fields that mean something for a material; film is measured, goods are counted."""
    if material is None:
        return ("material",)
    out = {"number"} if material.kind.comes_in_rolls else {*_ROLL, *_PRINTS}
    if not material.kind.is_printed_on:
        out.update(_PRINTS)
    return tuple(name for name in FIELDS if name not in out)


def asked_of(one: Typed) -> tuple[str, ...]:
    """The fields Enter leads through: what is needed, and what would be sorely missed."""
    wanted = {"material", "pieces", "length", "number", "lot", "place", *one.needed}
    if one.material is not None:
        wanted.add(one.material.counted_from)
    return tuple(name for name in fields_of(one.material) if name in wanted - {"received"})


def trimmed(line: Line, material: Material) -> Line:
    """The line without what means nothing for its material."""
    stay = fields_of(material)
    gone: dict[str, Any] = dict.fromkeys(FIELDS[name] for name in FIELDS if name not in stay)
    return replace(line, **gone)


def read(name: str, text: str, known: Known) -> dict[str, object]:
    """What was typed in a field, as a line holds it; nothing typed is not known."""
    if not text:
        return {FIELDS[name]: _USUAL.get(FIELDS[name])}
    system = known.shop.system
    typed = partial(parse_length, system=system)
    readers: dict[str, Callable[[str], object]] = {
        "material": lambda said: material_like(said, known.materials).name,
        "pieces": parse_count,
        "number": parse_count,
        "length": lambda said: length(said, system),
        "width": typed,
        "core": typed,
        "wall": typed,
        "price": partial(parse_money, currency=known.shop.currency),
        "place": place_or_name,
        "ink": parse_ink,
        "job": read_job,
        "lot": str,
        "owner": _owner,
        "damaged": str,
    }
    return {FIELDS[name]: readers.get(name, _day)(text)}


def _owner(text: str) -> str:
    """Whose it is, by as much of the word as tells it from the others."""
    found = [one for one in OWNERS if one.startswith(text.casefold())]
    if len(found) != 1:
        raise Refusal(Code.BAD_NAME, f"“{text}” is no owner: use {', '.join(OWNERS)}.")
    return found[0]


def _day(text: str) -> str:
    return str(parse_partial_date(text))


def materials_like(text: str, materials: Sequence[Material]) -> tuple[Material, ...]:
    """The materials in whose name each of these words is found; the one of that very name alone."""
    sought = text.casefold().split()
    found = [one for one in materials if all(word in one.name.casefold() for word in sought)]
    same = [one for one in found if one.name.casefold() == " ".join(sought)]
    return tuple(same or found)


def material_like(text: str, materials: Sequence[Material]) -> Material:
    """The one material that is meant; none, or several, are refused."""
    found = materials_like(text, materials)
    if not found:
        raise Refusal(
            Code.NO_MATERIAL,
            f"No material is like “{text}”: name it with `stockroom material add` first.",
        )
    if len(found) > 1:
        raise Refusal(Code.NO_MATERIAL, f"Several are like “{text}”: {_some(found)}; type more.")
    return found[0]


def _some(found: Sequence[Material]) -> str:
    names = [one.name for one in found[:_MOST_NAMED]]
    return " · ".join([*names, *(["…"] if len(found) > _MOST_NAMED else [])])


def candidates(text: str, materials: Sequence[Material]) -> str:
    """The materials to choose from, as the name is typed."""
    return _some(materials_like(text, materials)) if materials else NO_MATERIAL


def shown(one: Typed, known: Known) -> dict[str, str]:
    """What stands in each field of a line, in the words it could have been typed with."""
    line, shop = one.line, known.shop
    named = {place.code: place.name for place in known.places}
    written: dict[str, Callable[[int], str]] = {
        "length": lambda size: show_length(size, shop.system),
        "width": lambda size: show_width(size, shop.system),
        "core": lambda size: show_width(size, shop.system),
        "wall": lambda size: show_width(size, shop.system),
        "price": lambda minor: show_money(minor, shop.currency),
    }
    found: dict[str, str] = {}
    for name, called in FIELDS.items():
        value = getattr(line, called)
        found[name] = "" if value is None else written.get(name, str)(value)
    found["place"] = named.get(line.place or "", line.place or "")
    return found | {name: "" for name, usual in _USUAL.items() if getattr(line, name) == usual}


def given(one: Typed, known: Known) -> dict[str, str]:
    """What a field has though nothing is typed there, and where it comes from."""
    shop, material = known.shop, one.material
    found = {
        "pieces": "1",
        "received": "today",
        "material": "a part of its name",
        "owner": f"{OURS}; client, supplier …",
        "damaged": "no; else what (held)",
    }
    if material is None:
        return found
    own = {
        "width": material.width_nm and show_width(material.width_nm, shop.system),
        "core": material.core_inside_nm and show_width(material.core_inside_nm, shop.system),
        "wall": material.core_wall_nm and show_width(material.core_wall_nm, shop.system),
        "price": material.cost_minor and show_money(material.cost_minor, shop.currency),
    }
    found |= {name: f"{text}, of the material" for name, text in own.items() if text}
    return dict.fromkeys(FIELDS, words.UNKNOWN) | dict.fromkeys(one.needed, "") | found


def presets(name: str, one: Typed) -> dict[str, int]:
    """The usual sizes for a field, each beside its letter."""
    if one.material is None or name not in ("width", "length"):
        return {}
    usually = usual(one.material.kind)
    sizes = usually.widths_nm if name == "width" else usually.lengths_nm
    return dict(zip(ascii_lowercase, sizes, strict=False))


def preset_words(size_nm: int) -> str:
    """A usual size as the trade says it, and exact, so that it can stand in a field."""
    for unit, name in ((_YARD, "yd"), (FOOT, "ft"), (INCH, "in")):
        # Widths are said in inches up to six feet, lengths in yards or feet.
        if size_nm % unit == 0 and (name == "in" or size_nm > 6 * FOOT):
            return f"{size_nm // unit} {name}"
    return show_width(size_nm)


def presets_said(name: str, one: Typed) -> str:
    """The usual sizes for a field, and the letter that fills each in."""
    return "   ".join(f"{key} {preset_words(size)}" for key, size in presets(name, one).items())


def cells(number: int, one: Typed, known: Known) -> tuple[str, ...]:
    """One line of the delivery."""
    line, unknown = one.line, known.may_show(one.unknown)
    each = words.UNKNOWN
    if line.number is not None:
        each = words.count(line.number)
    elif line.length_nm is not None:
        each = show_length(line.length_nm, known.shop.system)
    lacks = f"? {', '.join(unknown)}" if unknown else "✓"
    if one.needed:
        lacks = f"▲ {', '.join(one.needed)}"
    material = words.known(line.material)
    what = material if line.pieces == 1 else f"{line.pieces} × {material}"  # noqa: RUF001
    damage = "damaged" if line.damaged else ""
    what = ", ".join(filter(None, (what, words.WHOSE.get(line.owner), damage)))
    return str(number), what, each, lacks


def said(found: Delivery | None, shop: Shop) -> str:
    """How much the delivery is so far, and since when it waits."""
    if found is None or not found.lines:
        return "nothing yet"
    pieces = sum(one.line.pieces for one in found.lines)
    number = words.counted(len(found.lines), "line")
    kept = f"{found.operator}, {words.moment(found.updated_at, shop)}"
    return f"{number} · {words.counted(pieces, 'piece')} · {kept}"


def enter_says(found: Delivery | None, *, is_new: bool) -> str:
    """What the person's Enter does now."""
    if not is_new or found is None or not found.lines:
        return "Enter goes on to what is missing"
    pieces = words.counted(sum(one.line.pieces for one in found.lines), "piece")
    if not found.is_ready:
        return "Enter goes to the line that lacks something"
    return f"Enter receives {pieces} in one act and writes the labels, or type another line"


def offer_says(found: Sequence[Order]) -> str:
    """Which order is on its way and may have come."""
    first, *others = found
    more = f"; {len(others)} more on their way" if others else ""
    to_come = sum(line.pieces for _, line in first.open_lines())
    pieces = words.counted(to_come, "piece")
    return f"F6 adds {pieces} of order {words.code(first.code)}, {first.supplier}{more}"
