"""What is planned in the invented shop: what jobs cover, and the film that is kept for them."""

from collections.abc import Iterator

from stockroom.books.job_entries import JobPanel
from stockroom.demo.desk import Desk
from stockroom.demo.line import Line
from stockroom.units.typed import parse_size
from stockroom.work.look import material
from stockroom.work.panels import SetPanels, set_panels
from stockroom.work.plan_job import HowToPlan, plan_job
from stockroom.work.planned import planned_cuts
from stockroom.work.reserve import Reserve, Unreserve, reserve, unreserve


def panels_are_written(desk: Desk, line: Line) -> None:
    """What a job covers: `W1=900x2100*3; W2=600x1200`, of the film the line names."""
    request = SetPanels(
        **desk.asked(line), job=desk.codes[line["for"]], panels=tuple(_panels(desk, line))
    )
    set_panels(request, book=desk.book, now=line.at)


def film_is_kept(desk: Desk, line: Line) -> None:
    """The film of a plan is reserved for its job."""
    job = desk.codes[line["for"]]
    plan = plan_job(desk.book, job, now=line.at, how=HowToPlan(effort=0))
    request = Reserve(**desk.asked(line), job=job, cuts=planned_cuts(plan))
    reserve(request, book=desk.book, now=line.at)


def _panels(desk: Desk, line: Line) -> Iterator[JobPanel]:
    film = material(desk.book, line["piece"], now=line.at).id
    for name, written in line.more.items():
        size, _, number = written.partition("*")
        width_nm, height_nm = parse_size(size)
        yield JobPanel(
            name=name,
            width_nm=width_nm,
            height_nm=height_nm,
            material_id=film,
            number=int(number or 1),
            group="corridor" if name.startswith("C") else "",
        )


def film_is_let_go(desk: Desk, line: Line) -> None:
    """Film that was kept for a job is free again."""
    request = Unreserve(**desk.asked(line), job=desk.codes[line["for"]])
    unreserve(request, book=desk.book, now=line.at)
