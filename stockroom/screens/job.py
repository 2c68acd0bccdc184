"""One job: its panels, the film for them drawn to scale, and every piece it used."""

from collections.abc import Iterable
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.containers import Container
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.codes.own import Letter
from stockroom.codes.recognise import Own
from stockroom.lines import covers
from stockroom.lines import jobs as lines
from stockroom.screens import job_work as work
from stockroom.screens.frame import PassedOn, PieceAsked
from stockroom.screens.job_planning import JobPlanning
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.film_picture import FilmPicture
from stockroom.screens.widgets.hanging import Hanging
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title

_COST = Column(title="cost", width=12, right=True)
_PIECES = (
    Column(title="piece", width=9),
    Column(title="film", width=18, grows=True),
    Column(title="used", width=9, right=True),
    Column(title="waste", width=9, right=True),
    Column(title="stays", width=18, rank=1),
)
_PANELS = (
    Column(title="panel", width=8, grows=True),
    Column(title="size", width=14, right=True),
    Column(title="film", width=12, grows=True),
    Column(title="cut", width=8, right=True),
    Column(title="on", width=19, rank=1),
)


class JobScreen(JobPlanning):
    """A job's panels and the film for them; or its pieces, area, waste and cost."""

    HELP = """\
## A job

Its panels, and the film that is planned or reserved for them, drawn to scale from its outer end: waste
is hatched, what stays is empty, the panel under the cursor has dots. `n` shows the next film.

`w` writes panels down, a line each: `W1 900x2100 x3`; or paste a list. `p` plans what is still to be cut, by the oldest
sound film first; `k` reserves it, `l` lets it go. At the Bench the piece and the job are scanned, and
Enter writes the planned cut. `s` says that a panel was spoiled, and is wanted again; `i` that the film
is up.

`u` shows every piece the job used: the area on the job, the waste, what stays; the cost where this
station shows money. Enter opens the piece. `c` takes the job to the Bench, and so does the scan of a
piece. `a` shows what was done for it, `x` closes it, `r` opens it again.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.A_JOB)]
    DEFAULT_CSS = """
    JobScreen {
        #film-state { height: auto; max-height: 4; padding: 0 1; }
        #covers { height: 1fr; }
        #films { height: 9; }
        #use { height: 1; padding: 0 1; color: $quiet; }
        &.-short #use { display: none; }
        &.-used #use { display: block; }
        &.-used #covers { display: none; }
        #pieces { display: none; }
        &.-used #pieces { display: block; }
        &.-wide {
            #covers { layout: horizontal; }
            #panels { width: 5fr; }
            #films { width: 6fr; height: 1fr; }
        }
    }
    """
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]

    title_line = getters.query_one(Title)
    facts = getters.query_one("#facts", Static)
    use_line = getters.query_one("#use", Static)
    state_line = getters.query_one("#film-state", Hanging)
    panels = getters.query_one("#panels", LineList)
    pieces = getters.query_one("#pieces", LineList)
    picture = getters.query_one(FilmPicture)

    def __init__(self, station: Station, code: str) -> None:
        super().__init__(station)
        self._is_at_used = False
        self._first = 0
        self.begin(code)

    def body(self) -> Iterable[Widget]:
        yield Title("Job")
        yield Rule()
        yield Static(id="facts", markup=False)
        yield Static(id="use", markup=False)
        yield Hanging(id="film-state")
        yield Rule()
        yield Container(
            LineList(_PANELS, empty="", id="panels"), FilmPicture(id="films"), id="covers"
        )
        columns = (*_PIECES, _COST) if self.station.shows_money else _PIECES
        yield LineList(
            columns, empty="Nothing was used for it yet: w writes its panels down.", id="pieces"
        )
        yield Question()

    def on_screen_resume(self) -> None:
        self.read_again()

    def read_again(self) -> None:
        """Read the job."""
        self.reading(partial(work.read_job, self.station, self.code))

    @on(work.JobRead)
    def _show(self, found: work.JobRead) -> None:
        self.was_read(found)
        use, shop, shows_money = found.use, found.shop, self.station.shows_money
        stage = found.covering.stage if found.covering.panels else lines.state(use.job)
        self.title_line.show(lines.title(use.job), stage)
        said = lines.summary(use, shop, shows_money=shows_money)
        self.facts.update(marked(lines.facts(use.job)))
        self.use_line.update(said)
        self.pieces.rows = [
            Row(
                one.standing.code,
                tuple(map(marked, lines.piece_cells(one, shop, shows_money=shows_money))),
            )
            for one in use.pieces
        ]
        self.show_film()

    # The panels, and the film for them

    def show_film(self) -> None:
        """Show the panels, and the film that is planned or kept for them."""
        found = self.found
        if found is None:
            return
        cells = covers.panel_cells(found.covering, found.materials, self.films, found.shop)
        self.panels.rows = [Row(name, tuple(map(marked, one))) for name, one in cells.items()]
        said = self._state(found)
        self.state_line.show([("", one) for one in said])
        self.state_line.display = bool(said)
        self._light()
        self._turn_to_list()

    def _state(self, found: work.JobRead) -> tuple[str, ...]:
        """What there is to say of the film for the job."""
        if self.is_planning:
            return (covers.planning_said(found.covering),)
        if self.plan is not None:
            return covers.planned_said(self.plan.plan, found.shop)
        if found.films:
            return (covers.reserved_said(found.films, found.until, found.shop),)
        return ()

    def _turn_to_list(self) -> None:
        """Show the panels, or the pieces where there are no panels or they are asked for."""
        is_at_used = self._is_at_used or not self.panels.rows
        self.set_class(is_at_used, "-used")
        if not self.question.is_asked:
            self.set_focus(self.pieces if is_at_used else self.panels)
        self.refresh_bindings()

    def panel_in_front(self) -> str | None:
        return self.panels.key

    @on(LineList.RowHighlighted)
    def _light(self) -> None:
        """Light the panel under the cursor on the first film it lies on."""
        self._first = covers.first_with(covers.lit(self.panels.key, self.films), self.films)
        self._draw()

    def _draw(self) -> None:
        if self.found is not None:
            lit = covers.lit(self.panels.key, self.films)
            self.picture.show(self.films, self._first, lit, self.found.shop.system)

    @on(LineList.RowChosen)
    def _open(self, message: LineList.RowChosen) -> None:
        if self.has_class("-used"):
            self.post_message(PieceAsked(message.key))
        elif self.films:
            self.post_message(PieceAsked(self.films[self._first].cut.piece))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer only what there is something for."""
        match action:
            case "next_film":
                return len(self.films) > 1
            case "used" | "drop_panel" | "spoil" | "install":
                return bool(self.found and self.found.covering.panels)
            case "let_go":
                return bool(self.found and self.found.films)
            case "reserve":
                return self.plan is not None
            case _:
                return super().check_action(action, parameters)

    def action_next_film(self) -> None:
        """Show the next film of the plan."""
        self._first = (self._first + 1) % max(1, len(self.films))
        self._draw()

    def action_used(self) -> None:
        """Show the pieces the job used, or its panels again."""
        self._is_at_used = not self._is_at_used
        self._turn_to_list()

    # Where it leads

    def heard(self, own: Own) -> None:
        """Show another job, or take a piece to the Bench for this one."""
        if own.letter is Letter.JOB:
            self.begin(own.code)
            self.read_again()
        elif own.letter is Letter.PLACE:
            super().heard(own)
        else:
            self.action_cut_for()
            self.post_message(PassedOn("bench", own.code))

    def action_acts(self) -> None:
        """Show what was done for the job."""
        self.post_message(PassedOn("log", self.code))

    def action_leave(self) -> None:
        """Back to the list."""
        self.dismiss()
