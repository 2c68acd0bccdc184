"""Films with panels on them, drawn to scale in the room there is."""

from collections.abc import Sequence
from types import MappingProxyType

from textual.content import Content
from textual.widgets import Static

from stockroom.lines.covers import PlannedFilm, pictures
from stockroom.lines.laid import Part
from stockroom.units import System

_COLOURS = MappingProxyType(
    {Part.PLAIN: "", Part.WASTE: "$quiet", Part.LIT: "bold $accent", Part.KEPT: "$quiet"}
)


class FilmPicture(Static):
    """Draws its films anew when they, the panel that is lit, or its size change."""

    DEFAULT_CSS = """
    FilmPicture { height: 1fr; padding: 0 1; }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id, markup=False)
        self._films: tuple[PlannedFilm, ...] = ()
        self._first = 0
        self._lit: frozenset[str] = frozenset()
        self._system = System.METRIC

    def show(
        self, films: Sequence[PlannedFilm], first: int, lit: frozenset[str], system: System
    ) -> None:
        """Put other films there; without one there is no picture."""
        self._films, self._first, self._lit, self._system = tuple(films), first, lit, system
        self.display = bool(films)
        self._fill()

    def on_resize(self) -> None:
        self._fill()

    def _fill(self) -> None:
        rows = pictures(self._films, self._first, self._lit, self.content_size, self._system)
        lines = [Content.assemble(*((run.text, _COLOURS[run.part]) for run in row)) for row in rows]
        self.update(Content("\n").join(lines))
