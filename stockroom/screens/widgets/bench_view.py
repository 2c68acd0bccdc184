"""How the line of the Bench looks: piece, job, length, what Enter will write, and what waits."""

from collections.abc import Sequence
from datetime import datetime

from textual import getters
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Input, Rule, Static

from stockroom.books.values import Shop
from stockroom.errors import Refusal, clean_text
from stockroom.lines import bench as lines
from stockroom.lines import planned_cut
from stockroom.screens.bench_line import TYPED, WAITS, BenchLine, Waiting
from stockroom.screens.bench_work import Surroundings
from stockroom.screens.marks import marked
from stockroom.screens.widgets.hanging import Hanging
from stockroom.screens.widgets.job_step import JobStep
from stockroom.work.cut import Cut
from stockroom.work.cut_plan import CutPlan
from stockroom.work.take import Take

_LEAD = 10
_LONGEST = 200
_MOST_ACTS = 4


class PieceStep(Static, can_focus=True):
    """Where the cursor is while a piece is awaited: no key but a scan means anything there."""


class BenchView(Vertical):
    """Shows a line and what is typed in it; decides nothing."""

    DEFAULT_CSS = """
    BenchView {
        height: 1fr;
        .step { height: auto; padding: 0 1; }
        .step--name { width: 10; }
        #piece { width: 1fr; }
        #verdict { width: auto; }
        #entry Input { width: 1fr; }
        #entry .step--name { width: auto; padding: 0 1; }
        #entry .step--name.-first { width: 10; padding: 0; }
        #despite-row { display: none; }
        &.-stopped #despite-row { display: block; }
        &.-goods .film { display: none; }
        #choices { height: 1fr; padding: 0 1; }
    }
    """

    job = getters.query_one(JobStep)

    def compose(self) -> ComposeResult:
        with Horizontal(id="piece-row", classes="step"):
            yield Static("piece", classes="step--name")
            yield PieceStep(id="piece", markup=False)
            yield Static(id="verdict", markup=False)
        yield Hanging(id="warnings")
        yield JobStep(id="job", classes="step", markup=False)
        with Horizontal(id="entry", classes="step"):
            yield Static("length", id="length-name", classes="step--name -first")
            yield Input(id="length")
            yield Static("waste", classes="step--name film")
            yield Input(placeholder="none", id="waste", classes="film")
            yield Static("offcut", classes="step--name film")
            yield Input(placeholder="none", id="offcut", classes="film")
            yield Static("when", classes="step--name")
            yield Input(placeholder="now", id="when")
        with Horizontal(id="despite-row", classes="step"):
            yield Static("why", classes="step--name")
            yield Input(placeholder="why a stopped piece is taken", id="despite")
        yield Rule()
        yield Hanging(id="writes")
        yield Hanging(id="caution")
        yield Rule()
        yield Static(id="choices", markup=False)
        yield Hanging(id="waits")
        yield Hanging(id="just-now")

    def typed(self) -> dict[str, str]:
        """What stands in the fields now."""
        return {name: clean_text(self._field(name).value, _LONGEST) for name in TYPED}

    def fill(self, line: BenchLine, now: datetime) -> None:
        """Put a line there, with what was typed in it."""
        for name in TYPED:
            field = self._field(name)
            if field.value != getattr(line, name):
                field.value = getattr(line, name)
                field.cursor_position = len(field.value)
        self.show(line, now)

    def show(self, line: BenchLine, now: datetime) -> None:
        """Say what stands on the line, without touching what is being typed."""
        card = line.card
        self.set_class(line.is_stopped, "-stopped")
        self.set_class(line.is_goods, "-goods")
        self._text("length-name").update("number" if line.is_goods else "length")
        said = lines.piece(card) if card else "scan it, or type its code after /"
        self._text("piece").update(said)
        self._text("verdict").update(marked(lines.verdict(card)) if card else "")
        request, said = _preview(line, now)
        warnings = (*lines.warnings(card), *lines.flaws(card, request)) if card else ()
        self._hang("warnings", warnings or [""], lead="")
        self.job.update(f"{'job':<{_LEAD}}{self._for(line)}")
        self._hang("writes", [said], lead=None if card else "")
        self._hang("caution", [lines.cautions(card) if card else ""], lead=None if card else "")

    def show_choices(self, found: Surroundings) -> None:
        """Show the jobs to choose from, and what was written last."""
        choices = lines.choices_shown(found.jobs)
        self._text("choices").update(marked("\n".join([*choices, "", lines.REASONS])))
        said = lines.just_now(found.acts[:_MOST_ACTS], found.shop, found.places)
        self._hang("just-now", said)

    def show_waiting(self, waiting: Waiting, shop: Shop) -> None:
        """Show the lines that were begun and wait."""
        said = [
            lines.waiting(
                one.code or "",
                lines.purpose(one.job, one.reason) if one.is_for_something else "",
                one.length,
                f"{shop.local(one.waits_since + WAITS):%H:%M}" if one.waits_since else "",
            )
            for one in waiting.lines
        ]
        self._hang("waits", ["   ".join(said)] if said else [])

    def go_to(self, field: str) -> None:
        """Bring the cursor to a step of the line."""
        self.screen.set_focus(self.query_one(f"#{field}"))

    def _for(self, line: BenchLine) -> str:
        if line.job is not None:
            return lines.job(line.job)
        return f"none: {line.reason}" if line.reason else "scan it, or press a number below"

    def _hang(self, name: str, said: Sequence[str], lead: str | None = None) -> None:
        """Put lines there of which the first begins with a name; none at all take no room."""
        leads = [name.replace("-", " ") if lead is None else lead, *[""] * len(said)]
        view = self.query_one(f"#{name}", Hanging)
        view.show([(f"{lead:<{_LEAD}}", one) for lead, one in zip(leads, said, strict=False)])
        view.display = bool(said)

    def _text(self, name: str) -> Static:
        return self.query_one(f"#{name}", Static)

    def _field(self, name: str) -> Input:
        return self.query_one(f"#{name}", Input)


def _preview(line: BenchLine, now: datetime) -> tuple[Cut | Take | None, str]:
    """What Enter would write, in words too, or what it still needs."""
    if line.card is None or not line.is_for_something:
        return None, ""
    if not (line.length or line.as_planned):
        return None, "a number" if line.is_goods else lines.HOW
    try:
        request = line.wanted({"request": line.request, "operator": ""}, now)
    except Refusal as refusal:
        return None, refusal.sentence
    if isinstance(request, CutPlan):
        said = planned_cut.said(request.cuts[0], line.card.view.shop.system)
        return None, f"{said}   Enter writes it"
    said = lines.writes(request, line.card, lines.purpose(line.job, line.reason))
    return request, f"{said}   Enter writes it"
