"""What open jobs still need of each material: panels no film is kept, printed or on its way for.

By area, trims and all, without the waste of a layout: which film covers a job is planned in
`work/plan_job.py`, and a search for every open job would take too long here.
"""

from collections.abc import Iterable, Mapping
from datetime import date

from stockroom.books.job_entries import panels_of_all
from stockroom.books.opening import Book
from stockroom.books.orders import Order
from stockroom.books.values import Job, Material
from stockroom.film.limits import House
from stockroom.work.charging import area_left_mm2, area_mm2
from stockroom.work.drawing import amount_of
from stockroom.work.judging import Judged
from stockroom.work.look import jobs
from stockroom.work.on_hand import ordered
from stockroom.work.panels import covering
from stockroom.work.reserved import reserved
from stockroom.work.wanted import lines

_Needs = dict[tuple[int, str], float]
_DONE = ("installed", "closed")


def job_needs(
    book: Book,
    known: Mapping[int, Material],
    house: House,
    pieces: Iterable[Judged],
    coming: Iterable[Order],
    today: date,
) -> Mapping[int, Mapping[str, float]]:
    """What is to be bought of each material, by its id, for each open job: metres of full width."""
    needs = _panels(book, known, house)
    _take_off(needs, _kept(pieces, today))
    _take_off(needs, _coming(coming, known))
    found: dict[int, dict[str, float]] = {}
    for (material_id, job), amount in needs.items():
        if amount:
            found.setdefault(material_id, {})[job] = amount
    return found


def _panels(book: Book, known: Mapping[int, Material], house: House) -> _Needs:
    with book.reading() as connection:
        with_panels = panels_of_all(connection)
    needs: _Needs = {}
    for job in jobs(book):
        if job.id in with_panels and not job.is_closed:
            for material_id, amount in _of_job(book, job, known, house):
                key = material_id, job.code
                needs[key] = needs.get(key, 0.0) + amount
    return needs


def _of_job(
    book: Book, job: Job, known: Mapping[int, Material], house: House
) -> Iterable[tuple[int, float]]:
    found = covering(book, job.code)
    if found.stage in _DONE:
        return
    for line in lines(found.panels, known, house, kind=job.kind, done=found.strips_done):
        area = line.number * area_mm2(line.across_nm, line.along_nm)
        yield line.material_id, amount_of(area, known[line.material_id])


def _kept(pieces: Iterable[Judged], today: date) -> Iterable[tuple[int, str, float]]:
    """What is kept for jobs, or was printed for one."""
    for one in pieces:
        state, material = one.standing.state, one.standing.material
        if one.standing.job is not None and state.width_nm is not None:
            yield material.id, one.standing.job.code, amount_of(area_left_mm2(state), material)
            continue
        for kept in reserved(state, today):
            yield (
                material.id,
                kept.job,
                amount_of(area_mm2(state.width_nm or 0, kept.along_nm), material),
            )


def _coming(
    found: Iterable[Order], known: Mapping[int, Material]
) -> Iterable[tuple[int, str, float]]:
    for order in found:
        for _, line in order.open_lines() if order.is_coming else ():
            if line.job is not None:
                material = known[line.material_id]
                yield material.id, line.job, ordered(line, None, material)


def _take_off(needs: _Needs, there: Iterable[tuple[int, str, float]]) -> None:
    for material_id, job, amount in there:
        if (key := (material_id, job)) in needs:
            needs[key] = max(0.0, needs[key] - amount)
