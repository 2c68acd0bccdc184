"""How a logger's file is to be read, before any of its readings is taken.

    understand(text, told, now_s)   Understood: layout, order of the days, clock, scale
    instants_of(understood)         what reads its instants
    Told                            what is known without looking: the shop's clock, what was typed

What a person typed goes over what the file shows; what neither tells is assumed, and says so.
"""

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo
from enum import Enum
from io import StringIO
from itertools import islice, pairwise

from stockroom.feeds.days import Decided, Order, order_of
from stockroom.feeds.headings import Scale, offset_of
from stockroom.feeds.instants import Epochs, Instants
from stockroom.feeds.layout import LOOKED_AT, Layout, layout_of
from stockroom.feeds.lines import Frame, When, cells_of
from stockroom.feeds.reading import Unread

_HALF_OF_A_DAY = re.compile(r"[ap]\.?\s?m\b", re.IGNORECASE)
_OWN_OFFSET = re.compile(r"(?:Z|UTC|GMT|[+-]\d{2}(?::?\d{2})?)\s*$")
_A_DAY = 8
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_AHEAD = timedelta(hours=14)  # no clock is further ahead of UTC


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is known without looking at a file: the clock of the shop, and what a person typed."""

    shop_clock: tzinfo
    clock: tzinfo | None = None
    order: Order | None = None
    scale: Scale | None = None


class Basis(Enum):
    """What something that was understood rests on."""

    TOLD = "told"
    LINES = "lines"
    HEADING = "heading"
    SHOP = "shop"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """How a file is read; `order` is None where it counts seconds since 1970."""

    layout: Layout
    order: Decided | None
    clock: tzinfo
    clock_basis: Basis
    scale: Scale
    scale_basis: Basis
    is_newest_first: bool


def understand(text: str, told: Told, now_s: int) -> Understood:
    """How a file is to be read."""
    layout = layout_of(list(islice(StringIO(text), LOOKED_AT)))
    clock, clock_basis = _clock(layout, told)
    scale, scale_basis = _scale(layout, told)
    order = _order(text, layout, told, now_s)
    return Understood(
        layout=layout,
        order=order,
        clock=clock,
        clock_basis=clock_basis,
        scale=scale,
        scale_basis=scale_basis,
        is_newest_first=_is_newest_first(layout.frame, order, clock),
    )


def instants_of(understood: Understood) -> Instants | Epochs:
    """What reads the instants of a file that was understood."""
    if understood.order is None:
        return Epochs()
    return Instants(
        understood.order.order, understood.clock, is_newest_first=understood.is_newest_first
    )


def _clock(layout: Layout, told: Told) -> tuple[tzinfo, Basis]:
    frame = layout.frame
    if frame.when is When.EPOCH:
        return UTC, Basis.LINES
    if all(_OWN_OFFSET.search(frame.moment(cells)[1]) for _, cells in frame.rows):
        return UTC, Basis.LINES
    if told.clock is not None:
        return told.clock, Basis.TOLD
    for column in (layout.day, layout.clock):
        if column is not None and (named := offset_of(column.heading)) is not None:
            return named, Basis.HEADING
    return told.shop_clock, Basis.SHOP


def _scale(layout: Layout, told: Told) -> tuple[Scale, Basis]:
    if told.scale is not None:
        return told.scale, Basis.TOLD
    if layout.scale is not None:
        return layout.scale, Basis.HEADING
    return Scale.FAHRENHEIT if layout.is_hot else Scale.CELSIUS, Basis.ASSUMED


def _order(text: str, layout: Layout, told: Told, now_s: int) -> Decided | None:
    frame = layout.frame
    if frame.when is When.EPOCH:
        return None
    latest = (_EPOCH + timedelta(seconds=now_s) + _AHEAD).date()
    has_halves = any(_HALF_OF_A_DAY.search(frame.moment(cells)[1]) for _, cells in frame.rows)
    usual = Order.MDY if has_halves else Order.DMY
    return order_of(_days(text, frame), latest, told=told.order, usual=usual)


def _days(text: str, frame: Frame) -> Iterator[str]:
    """The days of a file; of lines in a row that begin with the same one, the first."""
    begin = "\n"
    for line in islice(StringIO(text), frame.rows[0][0] - 1, None):
        if line.startswith(begin):
            continue
        cells = cells_of(line, frame.mark)
        if len(cells) == frame.cells:
            begin = line[: line.find(cells[frame.day]) + _A_DAY]
            with suppress(Unread):
                yield frame.moment(cells)[0].strip()


def _is_newest_first(frame: Frame, order: Decided | None, clock: tzinfo) -> bool:
    """Whether the lines go back in time, as most of those looked at do."""
    if order is None:
        instants: Instants | Epochs = Epochs()
    else:
        instants = Instants(order.order, clock, is_newest_first=False)
    found: list[int] = []
    for number, cells in frame.rows:
        with suppress(Unread):
            found.append(instants.at_s(*frame.moment(cells), None, number))
    steps = [after - before for before, after in pairwise(found)]
    return sum(step < 0 for step in steps) > sum(step > 0 for step in steps)
