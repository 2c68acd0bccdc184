"""A planned cut at the bench: what it will be, and what it was.

said(cut, …)     planned: 7.96 m, 3 W1, 2 W2, keeps an offcut of its size
done(…)          R000 128S cut 8.56 m for J000 187V · label C000 190X and its size
"""

from typing import cast

from stockroom.books.values import Shop
from stockroom.lines import words
from stockroom.lines.text_acts import act_words
from stockroom.units import System
from stockroom.units.shown import show_length, show_size
from stockroom.work.cut_plan import CutAsPlanned
from stockroom.work.planned import PlannedCut


def said(cut: PlannedCut, system: System) -> str:
    """What was planned of the piece on the line."""
    panels = [f"{number} {name}" for name, number in cut.panels.items()]
    kept = [f"keeps {show_size(*size, system)}" for size in cut.offcuts]
    return f"planned: {', '.join([show_length(cut.length_nm, system), *panels, *kept])}"


def done(cut: CutAsPlanned, shop: Shop) -> str:
    """What a planned cut of one piece did, and what has to be labelled now."""
    move = cut.cuts[0]
    kept = [
        f"label {words.code(one.piece)} "
        f"{show_size(cast('int', one.sets['width_nm']), one.balance, shop.system)}"
        for one in cut.offcuts
    ]
    was = f"{words.code(move.piece)} {act_words(cut.act, shop, (), piece=move.piece)}"
    stays = f"{show_length(move.balance, shop.system)} stays"
    return " · ".join([was, *(kept or [stays])])
