"""What a job covers and the film for it, as its screen shows them.

panel_cells(found, …)     W1, its size, white cast, 1 of 3, R000 003H
lit(panel, films)         the names by which a panel and its strips lie on film
pictures(films, …)        each film drawn to scale below its head, as many as have room
reserved_said, planned_said, planning_said
"""

import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from stockroom.books.values import Job, Material, Shop, Standing
from stockroom.lines import words
from stockroom.lines.laid import Film, Part, Row, Run, fitting, picture
from stockroom.lines.plan import instead
from stockroom.plan.cuts import cuts
from stockroom.units import MM, System
from stockroom.units.shown import show_area, show_length, show_size, show_width
from stockroom.work.panels import Covering
from stockroom.work.plan_job import JobPlan
from stockroom.work.planned import PlannedCut
from stockroom.work.wanted import panel_of

_FEWEST_ROWS = 5
_MOST_ROWS = 13
_LEAST_COLUMNS = 12
_MM2 = MM * MM


@dataclass(frozen=True, slots=True)
class PlannedFilm:
    """A planned cut, and the piece it is made of."""

    cut: PlannedCut
    standing: Standing

    @property
    def film(self) -> Film:
        """The film that is drawn, with what lies on it."""
        cut = self.cut
        return Film(cut.width_nm, cut.length_nm, cut.laid, cut.kept)


def panel_cells(
    found: Covering, materials: Iterable[Material], films: Sequence[PlannedFilm], shop: Shop
) -> Mapping[str, tuple[str, ...]]:
    """Each panel by its name: its size, its film, how many are cut of those wanted, and of which pieces."""
    named = {one.id: one.name for one in materials}
    cells: dict[str, tuple[str, ...]] = {}
    for one in found.panels:
        wanted = one.number * one.layers
        done = min(wanted, found.done.get(one.name, 0))
        names = lit(one.name, films)
        cells[one.name] = (
            one.name,
            show_size(one.width_nm, one.height_nm, shop.system),
            named[one.material_id],
            f"{done} of {wanted}",
            " ".join(words.code(each.cut.piece) for each in films if names & _laid(each)),
        )
    return cells


def lit(panel: str | None, films: Iterable[PlannedFilm]) -> frozenset[str]:
    """The names by which a panel, or the strips of it, lie on film."""
    found = {name for each in films for name in _laid(each)}
    return frozenset(name for name in found if panel in (name, panel_of(name)))


def first_with(names: frozenset[str], films: Sequence[PlannedFilm]) -> int:
    """The place of the first film on which one of the names lies; the first, where none does."""
    return next((at for at, each in enumerate(films) if names & _laid(each)), 0)


def _laid(one: PlannedFilm) -> frozenset[str]:
    return frozenset(name for name, *_ in one.cut.laid)


def pictures(
    films: Sequence[PlannedFilm],
    first: int,
    lit_names: frozenset[str],
    room: tuple[int, int],
    system: System,
) -> tuple[Row, ...]:
    """The films from one on, then those before it, each with its cuts where that has room; `room` is columns and rows."""
    columns, rows = room
    if columns < _LEAST_COLUMNS:
        return ()
    shown: list[Row] = []
    for place in (*range(first, len(films)), *range(first)):
        one = films[place]
        head = textwrap.wrap(_head(one, place + 1, len(films), system), columns)
        left = rows - len(shown) - len(head)
        if shown and left < _FEWEST_ROWS + 1:
            break
        gap = [_plain("")] if shown else []
        most = fitting(one.film, columns, min(_MOST_ROWS, left - len(gap)))
        drawn = picture(one.film, most, lit_names)
        shown += [*gap, *map(_plain, head), *drawn]
        knife = textwrap.wrap(_knife(one, system), columns)
        if len(knife) <= rows - len(shown):
            shown += map(_plain, knife)
    return tuple(shown[:rows])


def _plain(text: str) -> Row:
    return (Run(text, Part.PLAIN),)


def _head(one: PlannedFilm, place: int, of: int, system: System) -> str:
    kept = [f"keeps {show_size(*size, system)}" for size in one.cut.offcuts]
    which = f"{place} of {of}: " if of > 1 else ""
    where = f"{words.code(one.cut.piece)} at {words.place(one.standing.place)}"
    return " · ".join([f"{which}{where}, {show_length(one.cut.length_nm, system)}", *kept])


def _knife(one: PlannedFilm, system: System) -> str:
    """The cuts in the order of the knife; none where it needs a machine."""
    rectangles = [*(laid[1:] for laid in one.cut.laid), *one.cut.kept]
    spots = [(number, *where) for number, where in enumerate(rectangles)]
    found = cuts(spots, one.cut.width_nm, one.cut.length_nm)
    if found is None:
        return "a straight knife cannot part this: it needs a cutting machine"
    return "cuts  " + " · ".join(
        f"{each.number} {each.way} at {show_width(each.at, system)}" for each in found
    )


def reserved_said(films: Sequence[PlannedFilm], until: str, shop: Shop) -> str:
    """What is kept for the job, and until when."""
    of = ", ".join(
        f"{words.code(one.cut.piece)} {show_length(one.cut.length_nm, shop.system)}"
        for one in films
    )
    return f"reserved until {until}: {of}"


def planning_said(found: Covering) -> str:
    """That the plan is being made."""
    number = sum(one.number for one in found.left())
    return f"… planning {words.counted(number, 'panel')}: choosing film and laying it out"


def planned_said(plan: JobPlan, shop: Shop) -> tuple[str, ...]:
    """What a plan that nobody reserved yet comes to, what is short, and the next best choice."""
    if not plan.materials:
        return ("everything is cut",)
    return tuple(line for at in range(len(plan.materials)) for line in _of_material(plan, at, shop))


def _of_material(plan: JobPlan, at: int, shop: Shop) -> Iterator[str]:
    one, system = plan.materials[at], shop.system
    choice = one.choice
    laid = len(choice.items) - len(choice.left)
    of = f" of {one.material.name}" if len(plan.materials) > 1 else ""
    yield (
        f"planned, not reserved: {laid} of {words.counted(len(choice.items), 'panel')}{of}, "
        f"{show_area(choice.drawn // _MM2, system)} drawn, "
        f"{show_area(max(0, choice.waste) // _MM2, system)} waste"
    )
    if one.missing:
        short = ", ".join(f"{number} {name}" for name, number in one.missing.items())
        barred = ", ".join(f"{number} {why}" for why, number in sorted(one.barred.items()))
        yield f"▲ short: {short}" + (f"; not taken: {barred}" if barred else "")
    elif one.instead is not None:
        yield f"or else {instead(choice, one.instead, system)}"


def kept_done(job: Job, cuts_kept: Sequence[PlannedCut], until: str) -> str:
    """What was reserved."""
    pieces = " ".join(words.code(one.piece) for one in cuts_kept)
    return f"kept for {words.code(job.code)} until {until}: {pieces}"


def let_go_question(job: Job) -> str:
    """Whether the film may go to others."""
    return f"let the film go that is kept for {words.code(job.code)}?"


def install_question(found: Covering) -> str:
    """Whether the film of a job is up, and what of it is not even cut."""
    left = sum(one.number for one in found.left())
    short = f" {words.counted(left, 'panel')} of it not cut." if left else ""
    return f"is the film of {words.code(found.job.code)} up?{short}"


def spoil_question(panel: str) -> str:
    """Whether a panel was lost after it was cut."""
    return f"was one “{panel}” spoiled after it was cut? It is planned again."


def drop_question(panel: str) -> str:
    """Whether a panel is no longer wanted."""
    return f"take “{panel}” off the list?"
