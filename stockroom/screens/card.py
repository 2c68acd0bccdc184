"""A piece's card: everything about one piece, and why its verdict is what it is."""

from asyncio import sleep
from collections.abc import Iterable
from functools import partial
from typing import ClassVar

from textual import getters, on
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.widget import Widget
from textual.widgets import Rule, Static

from stockroom.books.values import Shop
from stockroom.codes.card import Order, Sign
from stockroom.codes.own import Letter, grouped
from stockroom.codes.recognise import Own
from stockroom.errors import Refusal
from stockroom.lines import card as lines
from stockroom.lines import roll
from stockroom.screens import card_work as work
from stockroom.screens.card_work import CardRead, Done
from stockroom.screens.form import Form
from stockroom.screens.forms.keeping import put_blank
from stockroom.screens.forms.on_card import BlankFor, OnCard
from stockroom.screens.forms.table import FORMS
from stockroom.screens.frame import Frame, PassedOn
from stockroom.screens.keys import Where, bindings
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.body import Body
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.hanging import Hanging
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.roll import RollPicture
from stockroom.screens.widgets.title import Title
from stockroom.work.look import Card
from stockroom.work.past import Past
from stockroom.work.undo import last_standing

_COLUMNS = (
    Column(title="when", width=16),
    Column(title="what was done", width=28, grows=True),
    Column(title="left", width=12, right=True),
    Column(title="by", width=10, rank=1),
)


_ROLL_ROWS = 7
_TURNS = 2
_ROOM = ("-roomy", "-plain", "-brief", "-crowded")
"""How much of the card there is room for, from all of it to the least."""
_AWAY = frozenset({"out", "in"})
_OF_FILM = frozenset({"trial", "other-trial", "flaw", "rewind", "lie_flat"})


class CardScreen(Frame):
    """One piece: what is left, how old it is by each rule, and all that was done to it."""

    HELP = """\
## A piece's card

What is left, where it stands, and what each rule finds: the bar is the age, `│` the limit.
Below: everything that was done to the piece, newest first. Film has a strip of the air it was in,
and a roll is drawn with the wraps that curl too tightly: `r` shows them where there is no room.

Letter keys act on the piece. Scan another piece to see that one, a place to put this one there,
a job to cut this piece for it. Out, in, back and undo of the wall card do what their keys do.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.CARD)]

    title_line = getters.query_one(Title)
    question = getters.query_one(Question)
    acts = getters.query_one(LineList)

    def __init__(self, station: Station, code: str) -> None:
        super().__init__()
        self.station = station
        self.code = code
        self._found: CardRead | None = None
        self._room, self._is_fitting = 0, False
        self._fits = 0

    def body(self) -> Iterable[Widget]:
        yield Title(grouped(self.code))
        yield Rule()
        yield Body(
            Static(id="left", markup=False),
            Static(id="where", markup=False),
            Rule(),
            Vertical(Hanging(id="why"), Rule(), id="whys"),
            Vertical(
                Static(id="air", markup=False),
                Horizontal(RollPicture(markup=False), Hanging(id="beside"), id="roll"),
                Rule(),
                id="kept",
            ),
            Static(id="facts", markup=False),
            Static(id="caution", markup=False),
            Static(id="caution-in-short", markup=False),
            Vertical(Rule(), LineList(_COLUMNS, empty=""), id="acts"),
            id="card",
        )
        yield Question()

    def on_screen_resume(self) -> None:
        self._read()

    def _read(self) -> None:
        self.reading(partial(work.look, self.station, self.code))

    @property
    def _card(self) -> Card | None:
        return self._found.card if self._found else None

    @property
    def _has_more(self) -> bool:
        """Whether it is film, and how it was kept is not on the screen already."""
        state = self._card.judged.standing.state if self._card else None
        return state is not None and state.form != "box" and not self.has_class(_ROOM[0])

    @on(CardRead)
    def _show(self, message: CardRead) -> None:
        self._found, card = message, message.card
        self.title_line.show(lines.title(card), marked(lines.verdict(card)))
        amount, bar, where = lines.left(card)
        self.query_one("#left", Static).update(f"left    {amount:<20}  {bar}")
        self.query_one("#where", Static).update(where)
        self.query_one("#why", Hanging).show(
            [(f"{one.rule:<10}{one.bar:<18} ", one.text) for one in lines.why(card)]
        )
        self._show_past(message.past, card.view.shop)
        self.query_one("#facts", Static).update("\n".join(lines.facts(card)))
        self.query_one("#caution", Static).update(lines.caution(card))
        self.query_one("#caution-in-short", Static).update(lines.caution_in_short(card))
        self.acts.rows = [
            Row(str(act.id), lines.act_cells(act, card, message.places)) for act in card.acts
        ]
        self._fit()

    def _show_past(self, past: Past, shop: Shop) -> None:
        """The air it was in, and its wraps by what they remember."""
        air = self.query_one("#air", Static)
        air.update("\n".join(roll.strip(past, shop)))
        air.display = past.air is not None
        rows = roll.picture(past, _ROLL_ROWS)
        self.query_one(RollPicture).show(rows)
        beside = [*roll.beside(past, shop.system), *([roll.LEGEND] if rows else [])]
        self.query_one("#beside", Hanging).show([("", one) for one in beside])
        self.query_one("#kept").set_class(not past.is_film, "-nothing")

    # What has room

    @on(Body.Resized)
    def _fit_again(self) -> None:
        self._fit()

    def _fit(self, room: int = 0) -> None:
        """Show all there is or, where that is too much, less: no roll, a short caution, no dates."""
        self._room, self._is_fitting = room, True
        self._fits += 1
        self.update_classes({name: place == room for place, name in enumerate(_ROOM)})
        self.refresh_bindings()
        self.call_later(self._look_later, self._fits)

    async def _look_later(self, fits: int) -> None:
        """Have it laid out first: each widget says what it needs in its own turn."""
        for _ in range(_TURNS):
            await sleep(0)
        self.call_after_refresh(self._look, fits)

    def _look(self, fits: int) -> None:
        """Look whether it fits, unless it was begun anew meanwhile: that looks by itself."""
        if fits == self._fits:
            self._fit_on()

    def _fit_on(self) -> None:
        """Show less, where what is laid out now is too much."""
        self._is_fitting = self._room + 1 < len(_ROOM) and self.query_one(Body).overflows
        if self._is_fitting:
            self._fit(self._room + 1)

    @on(Body.Grown)
    def _fit_more(self) -> None:
        """Look again where something came late; while it is being fitted, that looks anyway."""
        if not self._is_fitting:
            self._fit_on()

    def action_look_at(self) -> None:
        """Show how it was kept in place of its rules and acts, or these again."""
        self.toggle_class("-kept")

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

    def signed(self, sign: Sign) -> None:
        """Do to this piece what the wall card says."""
        if sign is Order.UNDO:
            self.action_undo()
        elif isinstance(sign, Order) and sign.value in FORMS:
            self.action_form(sign.value)
        else:
            super().signed(sign)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer out or in, and what is done to film only where it is film."""
        if action == "look_at":
            return self._has_more
        if action not in ("form", "lie_flat") or self._card is None:
            return super().check_action(action, parameters)
        state = self._card.judged.standing.state
        name = parameters[0] if parameters else action
        if name in _AWAY:
            return (name == "in") == (state.out_to is not None)
        return state.form != "box" or name not in _OF_FILM

    # What is done to the piece

    def action_form(self, name: str) -> None:
        """Open one of the forms."""
        self._fill_in(FORMS[name])

    def _fill_in(self, blank_for: BlankFor) -> None:
        found = self._found
        if found is None:
            return
        self.band.clear()
        self.question.action_withdraw()
        lies_open = OnCard(
            station=self.station, card=found.card, places=found.places, jobs=found.jobs
        )
        try:
            form = Form(blank_for(lies_open))
        except Refusal as refusal:
            self.band.refused(refusal.sentence)
        else:
            self.app.push_screen(form, self._filled_in)

    def _filled_in(self, sentence: str | None) -> None:
        if sentence:
            self.post_message(Done(sentence))

    def action_cut(self) -> None:
        """Take the piece to the Bench."""
        self.post_message(PassedOn("bench", self.code))

    def action_lie_flat(self) -> None:
        """Ask whether the piece lies flat from now on."""
        if self._card is not None:
            self.band.clear()
            self.question.ask(
                lines.flat_question(self._card),
                lambda: self.writing(partial(work.lie_flat, self.station, self.code)),
            )

    def action_label(self) -> None:
        """Write its label to a file."""
        self.writing(partial(work.write_label, self.station, self.code))

    def action_undo(self) -> None:
        """Ask whether the last act is to be reversed."""
        found = self._found
        last = last_standing(found.card.acts) if found else None
        if found is None or last is None:
            self.band.refused(f"Nothing is left to undo on {grouped(self.code)}.")
            return
        self.band.clear()
        self.question.ask(
            lines.undo_question(last, found.card, found.places),
            lambda: self.writing(partial(work.undo_last, self.station, self.code, last)),
        )

    def action_leave(self) -> None:
        """Back to where one came from."""
        self.dismiss()
