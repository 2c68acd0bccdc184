"""What there is of a material to decide an order by: what is fit, on order, kept, and still needed.

Fit is what is ours, blank, of verdict USE or USE FIRST, and big enough for a typical draw. Amounts
are metres of full width, or numbers of goods.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from stockroom.books.orders import Order, OrderLine
from stockroom.books.use import Arrival
from stockroom.books.values import Material
from stockroom.film.kinds import Kind
from stockroom.film.verdict import Verdict
from stockroom.plan.demand import Demand
from stockroom.plan.rundown import Dated, run_down
from stockroom.work.charging import area_left_mm2, area_mm2
from stockroom.work.drawing import amount_of
from stockroom.work.judging import Judged
from stockroom.work.receive import OURS
from stockroom.work.reserved import reserved

_FIT = (Verdict.USE, Verdict.USE_FIRST)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """What there is of a material, in metres of full width or numbers of goods."""

    fit: float
    small: float
    """Fit, but in pieces smaller than a typical draw."""
    to_test: float
    reserved: float
    lost: float
    """Of what is fit: too old before it is used, at the mean demand."""
    lost_before: float
    """The part of it that is too old before an order comes."""
    lots: tuple[Dated, ...]
    """What is fit, piece by piece, with the days it keeps."""
    on_order: float = 0.0
    """On its way for stock; what is on its way for one job is no stock of others."""
    needed: float = 0.0
    """What open jobs are to cover, and no film is kept or on its way for."""

    @property
    def position(self) -> float:
        """What an order is decided by; below nothing where jobs need more than there is."""
        return max(0.0, self.fit - self.lost_before - self.reserved) + self.on_order - self.needed


def is_free(one: Judged) -> bool:
    """Whether a piece is stock: ours, blank, serving no job, and no tool that is in use."""
    state = one.standing.state
    is_made = state.printed is not None or state.is_laminated
    is_at_work = state.begun is not None and one.standing.material.kind is Kind.TOOL
    return state.owner == OURS and not (is_made or is_at_work) and state.job_id is None


def on_hand(pieces: Sequence[Judged], demand: Demand, lead_days: float, today: date) -> OnHand:
    """What is on the rack of a material, when an order takes so many days."""
    fit = [one for one in pieces if one.judgement.verdict in _FIT]
    large = [one for one in fit if _serves(one, demand)]
    lots = tuple(Dated(_left(one), _days_left(one, today)) for one in large)
    lost = run_down(lots, demand.per_day_m)
    return OnHand(
        fit=sum(map(_left, large)),
        small=sum(map(_left, fit)) - sum(map(_left, large)),
        to_test=sum(_left(one) for one in pieces if one.judgement.verdict is Verdict.TEST),
        reserved=sum(_reserved(one, today) for one in large),
        lost=sum(lost),
        lost_before=sum(
            one
            for one, lot in zip(lost, lots, strict=True)
            if lot.days_left is not None and lot.days_left <= lead_days
        ),
        lots=lots,
    )


def on_order(found: Iterable[Order], last: Arrival, material: Material) -> float:
    """What is on its way of a material for stock; a roll nobody measured is like the last one."""
    lines = (line for order in found if order.is_coming for _, line in order.open_lines())
    return sum(
        ordered(line, last, material)
        for line in lines
        if line.material_id == material.id and line.job is None
    )


def ordered(line: OrderLine, last: Arrival | None, material: Material) -> float:
    """What a line of an order brings."""
    full = last.full if last else 0
    if not material.kind.comes_in_rolls:
        return line.pieces * amount_of(line.number or full, material)
    width_nm = line.width_nm or (last and last.width_nm) or 0
    return line.pieces * amount_of(area_mm2(width_nm, line.length_nm or full), material)


def _serves(one: Judged, demand: Demand) -> bool:
    """Whether a piece is big enough for a typical draw; goods are taken from several boxes."""
    return one.standing.state.form == "box" or _left(one) >= demand.draw_mean_m


def _left(one: Judged) -> float:
    state = one.standing.state
    is_box = state.form == "box"
    return amount_of(state.balance if is_box else area_left_mm2(state), one.standing.material)


def _reserved(one: Judged, today: date) -> float:
    """How much of a piece is kept for jobs."""
    state = one.standing.state
    area = sum(area_mm2(state.width_nm or 0, kept.along_nm) for kept in reserved(state, today))
    return min(_left(one), amount_of(area, one.standing.material))


def _days_left(one: Judged, today: date) -> float | None:
    due = one.judgement.due
    return None if due is None else max(0, (due - today).days)
