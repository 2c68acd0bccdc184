"""Values as the dictionaries a script reads: keys carry their unit, what is unknown is null.

Millimetres are whole numbers where they are exact. A rule that cannot know has the verdict "?".
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from typing import Any

from stockroom.books.catalog import ALWAYS
from stockroom.books.values import Act, Job, Material, Move, Place, Shop, Standing
from stockroom.codes.own import Letter, letter_of
from stockroom.film.limits import Limit
from stockroom.film.verdict import Reason
from stockroom.lines import words
from stockroom.lines.answers_floor import floor_values
from stockroom.units import MM, UM
from stockroom.work.count import Counted
from stockroom.work.cut import CutDone
from stockroom.work.flaw import Flaw, flaws_of
from stockroom.work.judging import Judged
from stockroom.work.receive import OURS
from stockroom.work.sensors import ZonedPlace

Values = dict[str, Any]


def mm(length_nm: int | None) -> int | float | None:
    """A length in millimetres, whole where it is."""
    return None if length_nm is None else _scaled(length_nm, MM)


def um(length_nm: int | None) -> int | float | None:
    """A thickness in micrometres, whole where it is."""
    return None if length_nm is None else _scaled(length_nm, UM)


def amount(code: str, number: int, name: str = "left") -> Values:
    """A balance or a change of it: goods of a box are counted, film is measured."""
    if letter_of(code) is Letter.BOX:
        return {f"{name}_count": number}
    return {f"{name}_mm": mm(number)}


def piece(judged: Judged, shop: Shop, mass_kg: float | None) -> Values:
    """One piece with its verdict, as in each row of the rack."""
    standing, judgement = judged.standing, judged.judgement
    state = standing.state
    wait = judgement.wait_until
    return {
        "code": standing.code,
        "form": state.form,
        "material": standing.material.name,
        "kind": standing.material.kind.value,
        "lot": state.lot,
        "place": standing.place.name if standing.place else None,
        "job": standing.job.code if standing.job else None,
        "parent": state.parent,
        "width_mm": mm(state.width_nm),
        **amount(standing.code, state.balance),
        "made_on": state.made,
        "shipped_on": state.shipped,
        "received_on": state.received,
        "printed_on": state.printed,
        "artwork": state.artwork,
        "tile": state.tile,
        "laminate_lot": state.laminate_lot,
        "flaws": [flaw(one) for one in flaws_of(state)],
        "shelf_days": judgement.shelf_days,
        "shelf_days_basis": "assumed" if words.is_age_assumed(standing) else "dated",
        "wound_days": judgement.wound_days,
        "wound_days_basis": _wound_basis(judged),
        "verdict": judgement.verdict.value,
        "wait_until": None if wait is None else shop.local(wait).isoformat(),
        "reasons": [reason(one) for one in judgement.reasons],
        "thickness_um": um(state.thickness_nm),
        "thickness_basis": "summed" if state.is_laminated else "material",
        "mass_kg": None if mass_kg is None else round(mass_kg, 6),
        "held": state.held,
        "ended": state.ended,
        **floor_values(state, shop),
    }


def flaw(one: Flaw) -> Values:
    """A flaw, by its distance from the outer end."""
    return {"at_mm": mm(one.at_nm), "what": one.what}


def _wound_basis(judged: Judged) -> str | None:
    """Whether somebody wrote when it was wound, or it is assumed to be as old as the film."""
    state = judged.standing.state
    if judged.judgement.wound_days is None:
        return None
    is_known = state.wound_since is not None or not state.is_wound
    return "dated" if is_known else "assumed"


def reason(found: Reason) -> Values:
    """What one rule found."""
    return {
        "rule": found.rule,
        "verdict": words.UNKNOWN if found.verdict is None else found.verdict.value,
        "measured": found.measured,
        "limit": found.limit,
        "unit": found.unit or None,
        "basis": found.basis or None,
        "text": found.text,
    }


def act(done: Act, shop: Shop) -> Values:
    """One act with its moves, as it was written."""
    return {
        "act": done.id,
        "request": done.request,
        "kind": done.kind,
        "at": shop.local(done.at).isoformat(),
        "recorded_at": shop.local(done.recorded_at).isoformat(),
        "operator": done.operator,
        "job": done.job,
        "note": done.note or None,
        "reverses": done.reverses,
        "is_reversed": done.is_reversed,
        "moves": [_move(one) for one in done.moves],
    }


def _move(one: Move) -> Values:
    return {
        "code": one.piece,
        "kind": one.kind,
        **amount(one.piece, one.delta, "change"),
        **amount(one.piece, one.balance),
        "used_area_mm2": one.used_mm2,
        "wasted_area_mm2": one.wasted_mm2,
        "kept_area_mm2": one.kept_mm2,
        "cost_minor": one.cost_minor,
    }


def material(one: Material) -> Values:
    """A material as it was entered, with the maker's limits in force."""
    return {
        "name": one.name,
        "kind": one.kind.value,
        "width_mm": mm(one.width_nm),
        "thickness_um": um(one.thickness_nm),
        "applied_um": um(one.applied_nm),
        "core_inside_mm": mm(one.core_inside_nm),
        "core_wall_mm": mm(one.core_wall_nm),
        "layers": [asdict(layer) for layer in one.layers],
        "counted_from": one.counted_from,
        "finish": one.finish,
        "cost_minor": one.cost_minor,
        "note": one.note or None,
        "limits": {rule: limit_values(limit) for rule, limit in one.limits.items()},
        "figures": {
            f"{name}_{_UNITS[name]}": {"value": figure.value, "basis": figure.basis.value}
            for name, figure in one.facts.items()
        },
        "terms": dict(one.terms),
    }


_UNITS = {
    "energy": "kj_mol",
    "curl": "mm",
    "bond": "j_m2",
    "modulus": "gpa",
    "memory": "times",
}


def limit_values(limit: Limit) -> Values:
    """How long, and what that rests on."""
    return {"span": str(limit.span), "basis": limit.basis.value}


def place(one: Place) -> Values:
    """A place and its zone."""
    return {"code": one.code, "name": one.name, "zone": one.zone or None}


def zoned_place(one: ZonedPlace) -> Values:
    """A place, and the zones it lay in through time; the first one from the beginning."""
    zones = [
        {"since": None if since == ALWAYS else since.isoformat(), "zone": zone or None}
        for since, zone in one.zones
    ]
    return place(one.place) | {"zones": zones, "unmeasured": one.unmeasured or None}


def job(one: Job) -> Values:
    """A job."""
    return {
        "code": one.code,
        "name": one.name,
        "site": one.site or None,
        "on_day": one.on_day,
        "kind": one.kind,
        "glass": one.glass,
        "note": one.note or None,
        "is_closed": one.is_closed,
    }


def received(done: Act, materials: Iterable[Material], places: Iterable[Place]) -> Values:
    """What came in, from the act alone: asked again, the answer is the same."""
    named = {one.id: one.name for one in materials}
    standing = {one.id: one.name for one in places}
    return {
        "act": done.id,
        "pieces": [_born(move, done.job, named, standing) for move in done.moves],
    }


def _born(
    move: Move, job: str | None, named: Mapping[int, str], standing: Mapping[int, str]
) -> Values:
    sets: Mapping[str, Any] = move.sets
    return {
        "code": move.piece,
        "form": sets["form"],
        "material": named[sets["material_id"]],
        "lot": sets["lot"],
        "owner": sets.get("owner", OURS),
        "held": sets.get("held"),
        "place": standing.get(sets["place_id"]),
        "job": None if sets["job_id"] is None else job,
        "width_mm": mm(sets.get("width_nm")),
        **amount(move.piece, move.balance),
        "made_on": sets.get("made"),
        "shipped_on": sets.get("shipped"),
        "received_on": sets["received"],
        "printed_on": sets.get("printed"),
        "cost_minor": sets["cost_minor"],
    }


def cut(done: CutDone, standing: Standing) -> Values:
    """What a cut did; the money of a piece without a price is unknown."""
    return {
        "code": done.piece,
        "left_mm": mm(done.left_nm),
        "act": done.act.id,
        "offcuts": [
            {"code": one.code, "across_mm": mm(one.across_nm), "along_mm": mm(one.along_nm)}
            for one in done.offcuts
        ],
        "charged_area_mm2": done.charged_mm2,
        "wasted_area_mm2": done.wasted_mm2,
        "cost_minor": _priced(done.cost_minor, standing),
        "job": done.act.job,
        "verdict": done.verdict.value,
        "warning": done.warning or None,
        "flaws": [flaw(one) for one in done.flaws],
    }


def changed(done: Act, standing: Standing, left: int, cost_minor: int) -> Values:
    """What an act left in a piece, and the money it moved."""
    return {
        "code": standing.code,
        "act": done.id,
        **amount(standing.code, left),
        "job": done.job,
        "cost_minor": _priced(cost_minor, standing),
    }


def counted(done: Counted) -> Values:
    """What a count said of the books."""
    return {
        "code": done.piece,
        "act": done.act.id,
        **amount(done.piece, done.left),
        **amount(done.piece, done.before, "before"),
        **amount(done.piece, done.low, "low"),
        **amount(done.piece, done.high, "high"),
        "confirmed": done.confirmed,
    }


def _priced(cost_minor: int, standing: Standing) -> int | None:
    return None if standing.state.cost_minor is None else cost_minor


def _scaled(number: int, unit: int) -> int | float:
    whole, rest = divmod(number, unit)
    return whole if not rest else number / unit
