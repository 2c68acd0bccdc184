"""A piece's card: everything about one piece, and why its verdict is what it is."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Place
from stockroom.codes.own import Letter, grouped
from stockroom.codes.recognise import Own
from stockroom.lines import card as lines
from stockroom.screens.card_forms import (
    BlankFor,
    OnCard,
    back_blank,
    count_blank,
    hold_blank,
    put_blank,
    undo_last,
    write_label,
)
from stockroom.screens.form import Form
from stockroom.screens.frame import Frame, PassedOn
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.hanging import Hanging
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title
from stockroom.work.look import Card, piece, places
from stockroom.work.undo import last_standing

_COLUMNS = (
    Column(title="when", width=16),
    Column(title="what was done", width=28, grows=True),
    Column(title="left", width=12, right=True),
    Column(title="by", width=10, rank=1),
)


@dataclass
class CardRead(Message):
    """The piece was read."""

    card: Card
    places: tuple[Place, ...]


@dataclass
class Done(Message):
    """Something was done to the piece."""

    sentence: str


class CardScreen(Frame):
    """One piece: what is left, how old it is by each rule, and all that was done to it."""

    HELP = """\
## A piece's card

What is left, where it stands, and what each rule finds: the bar is the age, `│` the limit.
Below: everything that was done to the piece, newest first.

Letter keys act on the piece. Scan another piece to see that one, a place to put this one there,
a job to cut this piece for it.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.CARD)]

    title_line = getters.query_one(Title)
    question = getters.query_one(Question)
    acts = getters.query_one(LineList)

    def __init__(self, station: Station, code: str) -> None:
        super().__init__()
        self.station = station
        self.code = code
        self._card: Card | None = None
        self._places: tuple[Place, ...] = ()

    def body(self) -> Iterable[Widget]:
        yield Title(grouped(self.code))
        yield Rule()
        yield Static(id="left", markup=False)
        yield Static(id="where", markup=False)
        yield Rule()
        yield Hanging(id="why")
        yield Rule()
        yield Static(id="facts", markup=False)
        yield Static(id="caution", markup=False)
        yield Rule()
        yield LineList(_COLUMNS, empty="")
        yield Question()

    def on_screen_resume(self) -> None:
        self._read()

    def _read(self) -> None:
        self.reading(self._piece)

    def _piece(self) -> CardRead:
        book, now = self.station.book, self.station.now()
        return CardRead(piece(book, self.code, now=now), places(book, now=now))

    @on(CardRead)
    def _show(self, message: CardRead) -> None:
        card = self._card = message.card
        self._places = message.places
        self.title_line.show(lines.title(card), marked(lines.verdict(card)))
        amount, bar, where = lines.left(card)
        self.query_one("#left", Static).update(f"left    {amount:<20}  {bar}")
        self.query_one("#where", Static).update(where)
        self.query_one("#why", Hanging).show(
            [(f"{one.rule:<8}{one.bar:<18} ", one.text) for one in lines.why(card)]
        )
        self.query_one("#facts", Static).update("\n".join(lines.facts(card)))
        caution = self.query_one("#caution", Static)
        caution.update(lines.caution(card))
        caution.display = bool(lines.caution(card))
        self.acts.rows = [
            Row(str(act.id), lines.act_cells(act, card, self._places)) for act in card.acts
        ]

    @on(Done)
    def _was_done(self, message: Done) -> None:
        self.band.done(message.sentence)
        self._read()

    def heard(self, own: Own) -> None:
        """Show another piece, ask whether to put this one there, or cut it for a job."""
        if own.letter is Letter.PLACE:
            self._fill_in(partial(put_blank, given=own.code))
        elif own.letter is Letter.JOB:
            self.action_cut()
            self.post_message(PassedOn("bench", own.code))
        else:
            self.code = own.code
            self._read()

    def _fill_in(self, blank_for: BlankFor) -> None:
        if self._card is None:
            return
        self.band.clear()
        lies_open = OnCard(station=self.station, card=self._card, places=self._places)
        self.app.push_screen(Form(blank_for(lies_open)), self._filled_in)

    def _filled_in(self, sentence: str | None) -> None:
        if sentence:
            self.post_message(Done(sentence))

    def _do(self, write: Callable[[], str]) -> None:
        self.writing(lambda: Done(write()))

    def action_cut(self) -> None:
        """Take the piece to the Bench."""
        self.post_message(PassedOn("bench", self.code))

    def action_back(self) -> None:
        """Ask what comes back of it."""
        self._fill_in(back_blank)

    def action_count(self) -> None:
        """Ask what was measured."""
        self._fill_in(count_blank)

    def action_put(self) -> None:
        """Ask where it stands."""
        self._fill_in(put_blank)

    def action_hold(self) -> None:
        """Ask why it is held or released."""
        self._fill_in(hold_blank)

    def action_label(self) -> None:
        """Write its label to a file."""
        self._do(lambda: write_label(self.station, self.code))

    def action_undo(self) -> None:
        """Ask whether the last act is to be reversed."""
        card = self._card
        last = last_standing(card.acts) if card else None
        if card is None or last is None:
            self.band.refused(f"Nothing is left to undo on {grouped(self.code)}.")
            return
        self.band.clear()
        sentence = lines.undo_question(last, card, self._places)
        self.question.ask(
            sentence, lambda: self._do(lambda: undo_last(self.station, self.code, last))
        )

    def action_leave(self) -> None:
        """Back to where one came from."""
        self.dismiss()
