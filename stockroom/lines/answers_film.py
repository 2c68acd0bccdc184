"""Prints and laminates as the dictionaries a script reads."""

from stockroom.lines.answers import Values, flaw, mm
from stockroom.work.laminate import LaminateDone
from stockroom.work.making import Taken
from stockroom.work.printing import PrintDone


def printed(done: PrintDone) -> Values:
    """The print's own code, and what was taken for it."""
    return {
        "code": done.code,
        "length_mm": mm(done.length_nm),
        "act": done.act.id,
        "job": done.act.job,
        "from": [_taken(done.taken)],
    }


def laminated(done: LaminateDone) -> Values:
    """The laminated piece's own code, and what was taken of both films: the one below first."""
    return {
        "code": done.code,
        "length_mm": mm(done.length_nm),
        "act": done.act.id,
        "job": done.act.job,
        "from": [_taken(done.film), _taken(done.over)],
    }


def _taken(taken: Taken) -> Values:
    return {
        "code": taken.piece,
        "left_mm": mm(taken.left_nm),
        "rest": list(taken.rest),
        "kept_area_mm2": taken.kept_mm2,
        "wasted_area_mm2": taken.wasted_mm2,
        "cost_minor": taken.cost_minor,
        "verdict": taken.verdict.value,
        "warning": taken.warning or None,
        "flaws": [flaw(one) for one in taken.flaws],
    }
