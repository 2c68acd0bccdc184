"""What a shop has set up, as plain lines: its own values, materials, places, jobs."""

from collections.abc import Iterator, Sequence

from stockroom.books.catalog import ALWAYS, Entry
from stockroom.books.values import Job, Material, Place, Shop
from stockroom.film.figures import show_figure
from stockroom.film.limits import HOUSE_NAMES, Basis, Limit
from stockroom.lines import words
from stockroom.lines.text_table import Columns, pairs, table
from stockroom.plan.terms import show_term
from stockroom.units import UM
from stockroom.units.money import show_money
from stockroom.units.shown import show_thickness, show_width
from stockroom.work.sensors import ZonedPlace

_MATERIALS = Columns(heads=("material", "kind", "width", "as wound", "shelf"), right=frozenset({2}))
_PLACES = Columns(heads=("place", "code", "zone"))
_JOBS = Columns(heads=("job", "name", "site", "on", "state"), flex=1)
_LIMITS = Columns(heads=("limit", "value", "basis"), right=frozenset({1}), flex=2)


def shop(shared: Shop, entries: Sequence[Entry], width: int) -> list[str]:
    """What the shop shares, and every house limit with what it rests on."""
    newest = {entry.name: entry for entry in entries}
    house = shared.house
    limits = [
        (
            name,
            words.known(house.shown(name, shared.system)),
            _basis(name, shared, newest.get(name)),
        )
        for name in HOUSE_NAMES
    ]
    return [
        *pairs(_own(shared)),
        "",
        *table(_LIMITS, limits, width),
    ]


def setting(name: str, shared: Shop) -> str:
    """One value of the shop, as it is set."""
    return words.known(dict(_own(shared)).get(name) or shared.house.shown(name, shared.system))


def _own(shared: Shop) -> list[tuple[str, str]]:
    return [
        ("name", shared.name),
        ("units", shared.system.value),
        ("currency", shared.currency),
        ("time-zone", shared.zone),
        ("day-start", f"{shared.day_start_hour:02}:00"),
        ("labour", _labour(shared)),
    ]


def _labour(shared: Shop) -> str:
    if shared.labour_minor is None:
        return words.UNKNOWN
    return f"{show_money(shared.labour_minor, shared.currency)} an hour"


def _basis(name: str, shared: Shop, entry: Entry | None) -> str:
    basis = shared.house.basis(name)
    if basis is Basis.DEFAULT or entry is None:
        return "" if shared.house.shown(name) is None else basis.value
    return f"{basis.value}, {entry.operator}: {entry.why}"


def materials(known: Sequence[Material], shared: Shop, width: int) -> list[str]:
    """Every material, one a line."""
    if not known:
        return ["No material is entered yet: `stockroom material add NAME --kind KIND …`."]
    rows = [
        (
            one.name,
            one.kind.value,
            words.width(one.width_nm, shared.system) if one.kind.comes_in_rolls else "-",
            _thickness(one.thickness_nm, shared) if one.kind.comes_in_rolls else "-",
            _shelf(one, shared),
        )
        for one in known
    ]
    return table(_MATERIALS, rows, width)


def material(one: Material, shared: Shop) -> list[str]:
    """Everything entered for one material; what was not entered is unknown."""
    rows = [("kind", one.kind.value)]
    if one.kind.comes_in_rolls:
        rows += _film_facts(one, shared)
        rows.append(("finish", one.finish or words.UNKNOWN))
    rows.append(("shelf limit", f"{_shelf(one, shared)}, counted from {one.counted_from}"))
    if "wound" in one.limits:
        rows.append(("wound limit", _limit(one.limits["wound"])))
    if "opened" in one.limits:
        rows.append(("once opened", _limit(one.limits["opened"])))
    if one.kind.comes_in_rolls:
        rows += _figures(one, shared)
    cost = one.cost_minor
    rows.append(("price", words.UNKNOWN if cost is None else show_money(cost, shared.currency)))
    rows += [
        (said, show_term(name, one.terms[name], shared.system, shared.currency))
        for name, said in _TERMS.items()
        if name in one.terms
    ]
    if one.note:
        rows.append(("note", one.note))
    return [one.name, *pairs(rows)]


_TERMS = {
    "supplier": "supplier",
    "lead": "lead time",
    "spread": "it varies by",
    "pack": "sold in packs of",
    "least": "sold from",
    "expect": "expected a month",
    "breaks": "price of one",
    "series": "series",
}
_FIGURES = {
    "energy": "heat",
    "curl": "curl limit",
    "bond": "bond",
    "modulus": "modulus",
    "memory": "memory",
}


def _figures(one: Material, shared: Shop) -> Iterator[tuple[str, str]]:
    """What is known of a film beside its limits, and what is assumed of it in their place."""
    known = {"energy": shared.house.energy(), "curl": shared.house.curl(one.kind), **one.facts}
    for name, said in _FIGURES.items():
        if (figure := known.get(name)) is not None:
            yield said, f"{show_figure(name, figure.value, shared.system)} ({figure.basis})"


def _film_facts(one: Material, shared: Shop) -> list[tuple[str, str]]:
    system = shared.system
    layers = " + ".join(
        f"{_thickness(round(layer.thickness_um * UM), shared)} of {layer.density_kg_m3:g} kg/m³"
        for layer in one.layers
    )
    return [
        ("width", show_width(one.width_nm, system) if one.width_nm else words.UNKNOWN),
        ("as wound", _thickness(one.thickness_nm, shared)),
        ("as applied", _thickness(one.applied_nm, shared)),
        ("core", words.core(one.core_inside_nm, one.core_wall_nm, system)),
        ("layers", layers or words.UNKNOWN),
    ]


def _thickness(thickness_nm: int | None, shared: Shop) -> str:
    if thickness_nm is None:
        return words.UNKNOWN
    return show_thickness(thickness_nm, shared.system)


def _shelf(one: Material, shared: Shop) -> str:
    limit = one.limits.get("shelf") or shared.house.shelf(one.kind)
    return words.UNKNOWN if limit is None else _limit(limit)


def _limit(limit: Limit) -> str:
    return f"{limit.span} ({limit.basis})"


def places(known: Sequence[Place], width: int) -> list[str]:
    """Every place, one a line."""
    if not known:
        return ["No place is entered yet: `stockroom place add NAME`."]
    return table(_PLACES, [(one.name, words.code(one.code), one.zone) for one in known], width)


def zoned_place(one: ZonedPlace, shop: Shop) -> list[str]:
    """A place, the zones it lay in through time, and whether anything is known of its climate."""
    place = one.place
    course = [
        ("from the beginning" if since == ALWAYS else words.moment(since, shop), zone or "no zone")
        for since, zone in one.zones
    ]
    lines = [f"{words.code(place.code)}  {place.name}", *pairs(course)]
    if one.unmeasured:
        lines.append(f"No sensor ever spoke for {one.unmeasured}: see `climate sensors`.")
    return lines


def jobs(known: Sequence[Job], width: int) -> list[str]:
    """Every job, one a line."""
    if not known:
        return ["No job is open yet: `stockroom job add NAME`."]
    rows = [
        (words.code(one.code), one.name, one.site, words.known(one.on_day), _state(one))
        for one in known
    ]
    return table(_JOBS, rows, width)


def job(one: Job) -> list[str]:
    """One job as it was opened."""
    return [
        f"{words.code(one.code)}  {one.name}",
        *pairs(
            [
                ("site", words.known(one.site)),
                ("on", words.known(one.on_day)),
                ("kind", one.kind),
                ("state", _state(one)),
                *([("note", one.note)] if one.note else []),
            ]
        ),
    ]


def _state(one: Job) -> str:
    return "closed" if one.is_closed else "open"
