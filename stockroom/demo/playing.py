"""One line of the story, done through the script that a person's work goes through."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from stockroom.demo import goods, keeping, ordering, planning, taking
from stockroom.demo.desk import Desk
from stockroom.demo.line import Line

_ACTS: Mapping[str, Callable[[Desk, Line], None]] = MappingProxyType(
    {
        "open": goods.opens,
        "close": goods.closes,
        "reopen": goods.reopens,
        "receive": goods.comes_in,
        "receive all": goods.delivery_comes_in,
        "send back": goods.goes_back,
        "credit": goods.is_credited,
        "kit": goods.becomes_kit,
        "part out": goods.part_goes_out,
        "part back": goods.part_comes_back,
        "mix": goods.is_mixed,
        "opened": goods.is_opened,
        "tool": goods.is_put_in_use,
        "fail": goods.fails,
        "limit": goods.gets_a_limit,
        "cut": taking.is_cut,
        "take": taking.is_taken,
        "back": taking.comes_back,
        "out": taking.goes_out,
        "in": taking.comes_in_again,
        "print": taking.is_printed,
        "laminate": taking.is_laminated,
        "count": keeping.is_counted,
        "count blind": keeping.is_counted_blind,
        "finished": keeping.is_finished,
        "charge": keeping.is_charged,
        "seen": keeping.place_is_seen,
        "put": keeping.is_put,
        "hold": keeping.is_held,
        "release": keeping.is_released,
        "discard": keeping.is_discarded,
        "scrap": keeping.is_scrapped,
        "trial": keeping.is_tried,
        "curl": keeping.lies_free,
        "flaw": keeping.has_a_flaw,
        "rewind": keeping.is_rewound,
        "lay flat": keeping.lies_flat,
        "panels": planning.panels_are_written,
        "reserve": planning.film_is_kept,
        "unreserve": planning.film_is_let_go,
        "order": ordering.is_ordered,
        "arrive": ordering.order_comes_in,
        "undo": keeping.is_undone,
    }
)


def play(desk: Desk, line: Line) -> None:
    """Do what the line says at its moment, and remember the codes that came of it."""
    _ACTS[line.act](desk, line)
