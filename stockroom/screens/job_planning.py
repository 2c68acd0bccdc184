"""What is planned, kept and written for the job on a screen."""

from collections.abc import Callable
from functools import partial

from textual import on
from textual.message import Message

from stockroom.books.values import Job
from stockroom.lines import covers
from stockroom.lines.covers import PlannedFilm
from stockroom.screens import job_work as work
from stockroom.screens.form import Form
from stockroom.screens.forms.panels import PanelForms, panel_forms
from stockroom.screens.job_acting import JobActing


class JobPlanning(JobActing):
    """A job with its panels; how they are shown is the screen's own."""

    code: str

    def begin(self, code: str) -> None:
        """Begin with a job; nothing is known of it yet."""
        self.code = code
        self.found: work.JobRead | None = None
        self.plan: work.Planned | None = None
        self.is_planning = False

    def show_film(self) -> None:
        """Show the panels, and the film that is planned or kept for them."""
        raise NotImplementedError

    def panel_in_front(self) -> str | None:
        """The name of the panel the keys act on."""
        raise NotImplementedError

    def was_read(self, found: work.JobRead) -> None:
        """Take in what was read; a plan for other panels is a plan no more."""
        before, self.found = self.found, found
        if before is not None and before.covering.left() != found.covering.left():
            self.plan = None

    def job_in_front(self) -> Job | None:
        return self.found.use.job if self.found else None

    @property
    def films(self) -> tuple[PlannedFilm, ...]:
        """Of the plan that was just made, else what is reserved."""
        if self.plan is not None:
            return self.plan.films
        return self.found.films if self.found else ()

    def action_plan(self) -> None:
        """Plan the job in a thread; the screen stays live."""
        if self.is_planning or self.found is None:
            return
        self._clear()
        self.is_planning = True
        self.show_film()
        self.reading(partial(work.plan, self.station, self.code), group="plan")

    @on(work.Planned)
    def _was_planned(self, message: work.Planned) -> None:
        if message.plan.job.code == self.code:
            self.plan, self.is_planning = message, False
            self.show_film()

    @on(work.NotPlanned)
    def _was_not_planned(self, message: work.NotPlanned) -> None:
        if message.code == self.code:
            self.plan, self.is_planning = None, False
            self.band.refused(message.refusal.sentence)
            self.show_film()

    def action_reserve(self) -> None:
        """Keep the film of the plan on the screen."""
        if self.plan is not None:
            self._clear()
            self.writing(partial(work.keep, self.station, self.plan))

    def action_let_go(self) -> None:
        """Ask whether the film may go to others."""
        if one := self.job_in_front():
            self._ask(covers.let_go_question(one), partial(work.let_go, self.station, one.code))

    def action_install(self) -> None:
        """Ask whether the film is up."""
        if self.found is not None:
            said = covers.install_question(self.found.covering)
            self._ask(said, partial(work.put_up, self.station, self.code))

    def action_spoil(self) -> None:
        """Ask whether one of the panel under the cursor was spoiled."""
        if panel := self.panel_in_front():
            lose = partial(work.lose, self.station, self.code, panel)
            self._ask(covers.spoil_question(panel), lose)

    def action_drop_panel(self) -> None:
        """Ask whether the panel under the cursor is no longer wanted."""
        if panel := self.panel_in_front():
            drop = partial(work.drop, self.station, self.code, panel)
            self._ask(covers.drop_question(panel), drop)

    def _ask(self, sentence: str, write: Callable[[], Message]) -> None:
        self._clear()
        self.question.ask(sentence, lambda: self.writing(write))

    def _clear(self) -> None:
        self.question.action_withdraw()
        self.band.clear()

    @on(work.Done)
    def _was_done(self, message: work.Done) -> None:
        self.plan = None
        self.band.done(message.sentence)
        self.read_again()

    def action_add_panels(self) -> None:
        """Ask for a panel, and then for the next, until somebody leaves the form."""
        found = self.found
        if found is not None:
            self._clear()
            self._ask_for(
                panel_forms(self.station, found.covering, found.materials, found.shop.system)
            )

    def _ask_for(self, panels: PanelForms) -> None:
        self.app.push_screen(Form(panels.blank()), partial(self._was_added, panels))

    def _was_added(self, panels: PanelForms, sentence: str | None) -> None:
        if sentence:
            self.band.done(sentence)
            self._ask_for(panels)
