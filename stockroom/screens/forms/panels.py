"""Panels of a job, typed one a line or pasted as a list; the film stays for the next ones."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stockroom.books.job_entries import JobPanel
from stockroom.books.values import Job, Material
from stockroom.errors import Code, Refusal
from stockroom.feeds.panels import PanelLine, parse_trims, read_typed
from stockroom.lines import words
from stockroom.lines.goods_in import candidates, material_like
from stockroom.lines.panels import PANELS_OF, remarks
from stockroom.screens.form import LINE_END, Blank, Field, mending
from stockroom.screens.job_work import add
from stockroom.screens.station import Station
from stockroom.units import System
from stockroom.units.shown import show_size
from stockroom.units.typed import parse_length
from stockroom.work.panels import Covering

_MOST = 100_000
_NAMED = 4


@dataclass(slots=True)
class PanelForms:
    """The forms for the panels of one job, each with the film of the one before."""

    station: Station
    job: Job
    films: Sequence[Material]
    system: System
    film: str = ""

    def blank(self) -> Blank:
        """Which panels, how large, how many, and of which film?"""
        asking, kind = self.station.asking(), PANELS_OF.get(self.job.kind, "panel")

        def write(said: Mapping[str, str]) -> str:
            panels = self._read(said)
            with mending("panel"):
                add(self.station, asking, self.job.code, panels)
            self.film = self._named[panels[-1].material_id]
            return f"added: {self._foretold(said)}"

        return Blank(
            title=f"{kind.capitalize()}s of {words.code(self.job.code)}",
            fields=(
                Field(name="panel", hint="W1 900x2100 x3, or paste a list of them", most=_MOST),
                Field(name="film", hint="a few letters of its name", value=self.film),
                Field(name="group", hint="a word for those that adjoin, and want one lot"),
                Field(name="trim", hint="the house's; else 20mm, or left/right/top/bottom"),
                Field(name="seam", hint="yes, or an overlap, where film may be too narrow"),
            ),
            write=write,
            foretells=self._foretold,
            beside="The width lies across the film, the height along it. A pasted line is "
            "name, width, height, count, turn, group, material, trim, seam, overlap, layers.",
        )

    @property
    def _named(self) -> Mapping[int, str]:
        return {one.id: one.name for one in self.films}

    def _foretold(self, said: Mapping[str, str]) -> str:
        if not said["panel"]:
            return ""
        panels = self._read(said)
        kind = PANELS_OF.get(self.job.kind, "panel")
        number = words.counted(sum(one.number for one in panels), kind)
        films = ", ".join(dict.fromkeys(self._named[one.material_id] for one in panels))
        if len(panels) > 1:
            names = ", ".join(one.name for one in panels[:_NAMED])
            more = " …" if len(panels) > _NAMED else ""
            return f"{number} in {len(panels)} lines, {names}{more}, of {films}"
        one = panels[0]
        size = show_size(one.width_nm, one.height_nm, self.system)
        return ", ".join(filter(None, (f"{number} {one.name}", size, f"of {films}", remarks(one))))

    def _read(self, said: Mapping[str, str]) -> tuple[JobPanel, ...]:
        with mending("panel"):
            lines = read_typed(said["panel"].replace(LINE_END, "\n"), self.system)
        return tuple(self._panel(line, said) for line in lines)

    def _panel(self, line: PanelLine, said: Mapping[str, str]) -> JobPanel:
        """A panel as its line says; what that does not say is as the other fields say."""
        with mending("panel" if line.material else "film"):
            film = self._film(line.material or said["film"])
        with mending("trim"):
            trims_nm = line.trims_nm or parse_trims(said["trim"], self.system)
        with mending("seam"):
            seams, overlap_nm = self._seam(said["seam"])
        return JobPanel(
            name=line.name,
            width_nm=line.width_nm,
            height_nm=line.height_nm,
            number=line.number,
            material_id=film.id,
            trims_nm=trims_nm,
            turns=line.turns,
            group=line.group or said["group"],
            seams=line.seams or seams,
            overlap_nm=line.overlap_nm if line.overlap_nm is not None else overlap_nm,
            layers=line.layers,
        )

    def _film(self, called: str) -> Material:
        if not called:
            raise Refusal(Code.NO_MATERIAL, f"Which film? {candidates('', self.films)}")
        return material_like(called, self.films)

    def _seam(self, text: str) -> tuple[bool, int | None]:
        """Whether a panel may have seams, and how much the strips overlap; None: as the house says."""
        match text.casefold():
            case "" | "no":
                return False, None
            case "yes":
                return True, None
            case _:
                return True, parse_length(text, self.system, zero=True)


def panel_forms(
    station: Station, found: Covering, materials: Sequence[Material], system: System
) -> PanelForms:
    """The forms for a job, the first with the film of its last panel."""
    last = found.panels[-1].material_id if found.panels else None
    films = tuple(one for one in materials if one.kind.comes_in_rolls)
    before = next((one.name for one in films if one.id == last), "")
    return PanelForms(station, found.job, films, system, before)
