"""A panel of a job, typed in one line; the film stays for the next one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stockroom.books.job_entries import JobPanel
from stockroom.books.values import Job, Material
from stockroom.errors import Code, Refusal
from stockroom.feeds.panels import PanelLine, read_panel
from stockroom.lines import words
from stockroom.lines.goods_in import candidates, material_like
from stockroom.lines.panels import PANELS_OF
from stockroom.screens.form import Blank, Field, mending
from stockroom.screens.job_work import add
from stockroom.screens.station import Station
from stockroom.units import System
from stockroom.units.shown import show_size
from stockroom.work.panels import Covering


@dataclass(slots=True)
class PanelForms:
    """The forms for the panels of one job, each with the film of the one before."""

    station: Station
    job: Job
    films: Sequence[Material]
    system: System
    film: str = ""

    def blank(self) -> Blank:
        """Which panel, how large, how many, and of which film?"""
        asking, kind = self.station.asking(), PANELS_OF.get(self.job.kind, "panel")

        def write(said: Mapping[str, str]) -> str:
            line, film = self._read(said)
            panel = JobPanel(
                name=line.name,
                width_nm=line.width_nm,
                height_nm=line.height_nm,
                number=line.number,
                material_id=film.id,
            )
            with mending("panel"):
                add(self.station, asking, self.job.code, panel)
            self.film = film.name
            return f"added: {self._foretold(said)}"

        return Blank(
            title=f"A {kind} of {words.code(self.job.code)}",
            fields=(
                Field(name="panel", hint="name, width x height, number: W1 900x2100 x3"),
                Field(name="film", hint="a few letters of its name", value=self.film),
            ),
            write=write,
            foretells=self._foretold,
            beside="The width lies across the film, the height along it; trims are the house's.",
        )

    def _foretold(self, said: Mapping[str, str]) -> str:
        if not said["panel"]:
            return ""
        line, film = self._read(said)
        size = show_size(line.width_nm, line.height_nm, self.system)
        number = words.counted(line.number, PANELS_OF.get(self.job.kind, "panel"))
        return f"{number} {line.name}, {size}, of {film.name}"

    def _read(self, said: Mapping[str, str]) -> tuple[PanelLine, Material]:
        with mending("panel"):
            line = read_panel(said["panel"], self.system)
        with mending("film"):
            if not said["film"]:
                raise Refusal(Code.NO_MATERIAL, f"Which film? {candidates('', self.films)}")
            return line, material_like(said["film"], self.films)


def panel_forms(
    station: Station, found: Covering, materials: Sequence[Material], system: System
) -> PanelForms:
    """The forms for a job, the first with the film of its last panel."""
    last = found.panels[-1].material_id if found.panels else None
    films = tuple(one for one in materials if one.kind.comes_in_rolls)
    before = next((one.name for one in films if one.id == last), "")
    return PanelForms(station, found.job, films, system, before)
