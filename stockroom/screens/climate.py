"""Climate: how warm and damp it was where film is kept, zone by zone."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.climate import SensorNow, ZoneNow
from stockroom.books.values import Place, Shop
from stockroom.errors import Refusal
from stockroom.lines import zone as lines
from stockroom.lines.climate import zone_cells
from stockroom.lines.plot import steps
from stockroom.screens.form import Form
from stockroom.screens.forms.air import OnZone, place_blank, reading_blank, sensor_blank
from stockroom.screens.frame import Frame
from stockroom.screens.keys import Where, bindings
from stockroom.screens.rereading import FRESH_FOR
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.plot import Plot
from stockroom.screens.widgets.title import Title
from stockroom.work.climate import zones
from stockroom.work.look import places
from stockroom.work.sensors import sensors
from stockroom.work.setup import settings
from stockroom.work.zone_plot import ZonePlot, plot_of

_COLUMNS = (
    Column(title="zone", width=12, grows=True),
    Column(title="now", width=8, right=True),
    Column(title="humidity", width=8, right=True),
    Column(title="read at", width=16),
    Column(title="sensor", width=16, grows=True),
    Column(title="unmeasured", width=26, rank=1),
)
_MARGINS = 2
_FORMS = {"reading": reading_blank, "sensor": sensor_blank, "place": place_blank}


@dataclass
class ZonesRead(Message):
    """Every zone was read, and the one that is shown."""

    zones: tuple[ZoneNow, ...]
    shop: Shop
    shown: ZonePlot | None
    sensors: tuple[SensorNow, ...]
    places: tuple[Place, ...]


class ClimateScreen(Frame):
    """One zone in a plot, and every zone as it is now."""

    HELP = """\
## Climate

How warm and damp it was where film is kept. The sentence on top says what follows from it; `┄` are
the limits of the house, and what lies beyond them has another colour. `?` is time nobody measured:
film counts there at the temperature the zone is assumed to have.

↑ and ↓ choose the zone; `d`, `w`, `m` and `y` how far one looks back. Where nobody brings in what a
logger wrote, `r` writes down what the zone's sensor says now. `s` says which sensor stands where and
what calibration adds to it, `p` which place lies in the zone; film ages by that from then on.
*Kinetic* is the one temperature that would have aged film as much.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.CLIMATE)]

    title_line = getters.query_one(Title)
    sentence = getters.query_one("#sentence", Static)
    plot = getters.query_one(Plot)
    facts = getters.query_one("#zone-facts", Static)
    zones = getters.query_one(LineList)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._span = lines.SPANS["week"]
        self._shown: str | None = None
        self._found: ZonesRead | None = None

    def body(self) -> Iterable[Widget]:
        yield Title("Climate")
        yield Rule()
        yield Static(id="sentence", markup=False)
        yield Plot()
        yield Static(id="zone-facts", markup=False)
        yield Rule()
        yield LineList(_COLUMNS, empty="Reading the book …")

    def on_mount(self) -> None:
        self.set_interval(FRESH_FOR.total_seconds(), self._read)

    def on_screen_resume(self) -> None:
        self._read()

    def on_resize(self) -> None:
        self._read()

    def action_look_back(self, span: str) -> None:
        """Look back as far as one of the spans."""
        self._span = lines.SPANS[span]
        self._read()

    def _read(self) -> None:
        width = self.size.width - _MARGINS
        self.reading(partial(_look, self.station, self.zones.key, self._span, steps(width)))

    @on(LineList.RowHighlighted)
    def _show_another(self, message: LineList.RowHighlighted) -> None:
        if message.key != self._shown:
            self._read()

    @on(ZonesRead)
    def _show(self, message: ZonesRead) -> None:
        found, shop = message.shown, message.shop
        self._found = message
        self._shown = found.now.zone if found else None
        self.zones.empty = lines.NO_ZONES
        self.zones.rows = [Row(one.zone, zone_cells(one, shop)) for one in message.zones]
        if found is None:
            return
        self.title_line.show("Climate", f"{found.now.zone}  ·  {self._span.said}")
        self.sentence.update(lines.sentence(found, self._span, shop))
        self.plot.show(lines.panels(found, shop), partial(lines.ticks, found, self._span, shop))
        self.facts.update("\n".join(lines.facts(found, shop)))

    # What is said of the zone

    def action_form(self, name: str) -> None:
        """Lay one of the forms of the zone that is shown over the screen."""
        self.band.clear()
        found = self._found
        if found is None:
            return
        names = [one.zone for one in found.zones]
        on = OnZone(
            station=self.station,
            zone=next((one for one in found.zones if one.zone == self.zones.key), None),
            zones=names,
            sensors=found.sensors,
            places=found.places,
            shop=found.shop,
        )
        try:
            blank = _FORMS[name](on)
        except Refusal as refusal:
            self.band.refused(refusal.sentence)
            return
        self.app.push_screen(Form(blank), self._was_written)

    def _was_written(self, sentence: str | None) -> None:
        if sentence:
            self.band.done(sentence)


def _look(station: Station, zone: str | None, span: lines.Span, count: int) -> ZonesRead:
    """Read every zone, those that are measured first, and one of them over a span."""
    book, now = station.book, station.now()
    known = tuple(sorted(zones(book, now=now), key=lambda one: one.sensor is None))
    names = [one.zone for one in known]
    shown = zone if zone in names else next(iter(names), None)
    found = None
    if shown is not None:
        found = plot_of(book, shown, now=now, span=span.length, steps=count)
    return ZonesRead(
        zones=known,
        shop=settings(book, now=now)[0],
        shown=found,
        sensors=sensors(book, now=now),
        places=places(book, now=now),
    )
