"""What acts say of their job: the panels it covers, and what became of them."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass

from sqlalchemy import Connection, bindparam, insert, select

from stockroom.books.chain import canonical
from stockroom.books.tables import JobEntryRow, table_of

PANELS, SPOILED, INSTALLED = "panels", "spoiled", "installed"

_ENTRY = table_of(JobEntryRow)
_OF_JOB = (
    select(_ENTRY.c.value)
    .where(_ENTRY.c.job_id == bindparam("job"), _ENTRY.c.name == bindparam("called"))
    .order_by(_ENTRY.c.id)
)
_OF_ALL = select(_ENTRY.c.job_id, _ENTRY.c.value).where(_ENTRY.c.name == bindparam("called"))


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPanel:
    """So many rectangles alike that a job covers; the width lies across the film, as a rule.

    Lengths are in nm. `trims_nm` is what is cut off on the left, right, top and bottom; None: the
    house's. `turns` None: as the film allows. Panels of one `group` adjoin, and want one lot.
    """

    name: str
    width_nm: int
    height_nm: int
    material_id: int
    number: int = 1
    trims_nm: tuple[int, int, int, int] | None = None
    turns: bool | None = None
    group: str = ""
    seams: bool = False
    overlap_nm: int | None = None
    layers: int = 1


def add_entry(
    connection: Connection, name: str, value: object, *, act_id: int, job_id: int
) -> None:
    """Write what an act says of its job."""
    row = {"act_id": act_id, "job_id": job_id, "name": name, "value": canonical(value)}
    connection.execute(insert(_ENTRY).values(row))


def add_panels(
    connection: Connection, panels: Iterable[JobPanel], *, act_id: int, job_id: int
) -> None:
    """Write all the panels of a job; those before are its panels no more."""
    value = [asdict(one) for one in panels]
    add_entry(connection, PANELS, value, act_id=act_id, job_id=job_id)


def panels_of(connection: Connection, job_id: int) -> tuple[JobPanel, ...]:
    """The panels of a job, as they were written last."""
    found = connection.execute(_OF_JOB, {"job": job_id, "called": PANELS}).scalars().all()
    return _panels(found[-1]) if found else ()


def panels_of_all(connection: Connection) -> Mapping[int, tuple[JobPanel, ...]]:
    """The panels of every job that has any, by the job's id."""
    rows = connection.execute(_OF_ALL.order_by(_ENTRY.c.id), {"called": PANELS})
    newest = {row.job_id: row.value for row in rows}
    return {job_id: found for job_id, value in newest.items() if (found := _panels(value))}


def spoiled_of(connection: Connection, job_id: int) -> Mapping[str, int]:
    """How many panels of each name were cut and spoiled, or came back unused."""
    spoiled: dict[str, int] = {}
    for value in connection.execute(_OF_JOB, {"job": job_id, "called": SPOILED}).scalars():
        for name, number in json.loads(value).items():
            spoiled[name] = spoiled.get(name, 0) + number
    return spoiled


def installed_jobs(connection: Connection) -> frozenset[int]:
    """The ids of the jobs whose film is up."""
    rows = connection.execute(_OF_ALL, {"called": INSTALLED})
    return frozenset(row.job_id for row in rows)


def minutes_of(connection: Connection, job_id: int) -> int | None:
    """How long the work of an installed job took; None where nobody said."""
    found = connection.execute(_OF_JOB, {"job": job_id, "called": INSTALLED}).scalars().all()
    minutes: int | None = json.loads(found[-1]).get("minutes") if found else None
    return minutes


def _panels(value: str) -> tuple[JobPanel, ...]:
    return tuple(_panel(one) for one in json.loads(value))


def _panel(content: Mapping[str, object]) -> JobPanel:
    trims = content["trims_nm"]
    return JobPanel(**{**content, "trims_nm": None if trims is None else tuple(trims)})  # type: ignore[arg-type]
