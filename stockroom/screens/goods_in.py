"""Goods in: a delivery is built line by line, kept as it is typed, and received in one act."""

from functools import partial
from typing import ClassVar
from uuid import uuid4

from textual import events, on
from textual.binding import BindingType
from textual.widgets import Input

from stockroom.codes.card import Order, Sign
from stockroom.codes.card import Typed as Digit
from stockroom.codes.own import Letter, grouped
from stockroom.codes.recognise import Own
from stockroom.lines import goods_in as lines
from stockroom.screens import goods_in_work as work
from stockroom.screens.goods_keeping import Keeping
from stockroom.screens.keys import Where, bindings
from stockroom.screens.widgets.goods_form import name_of
from stockroom.work.delivery import Delivery

_NOT_ASKED = 24
"""So many pieces are received at the last Enter; of more, one is asked: a length may be in their place."""


class GoodsInScreen(Keeping):
    """The delivery on the left, the form of its current line on the right."""

    HELP = """\
## Goods in

A delivery, or a roll found standing there, line by line. Type a part of the material's name, then
only what stands out is needed: Enter leads from one to the next and on to a new line. There Enter
receives every line in one act and writes all labels to one file.

A date may be known in part (`2025-03`, `2025`); what nobody knows stays `?`. A letter fills in a
usual width or length. Up and Down lead to the other lines. Every line is kept as it is typed and is
there again after a power cut; what somebody else left, or more than 24 pieces, is asked about first.

What is a client's, the supplier's or a sample is no stock of ours; what came in damaged is held.
Scan a place for where it goes, a job for a bought-in print, an order for what is to come of it (F6
takes the order that is named below); any other code goes where the cursor is.
"""
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.GOODS)]
    AUTO_FOCUS = "#goods-material"

    # Enter leads on

    @on(Input.Submitted)
    def _enter(self, event: Input.Submitted) -> None:
        if name := name_of(event.input):
            self._enter_in(name)

    def _enter_in(self, name: str) -> None:
        self.band.clear()
        is_empty = self._number is None and not self.form.typed() and not self._is_busy
        if is_empty and self._lines:
            self.action_receive()
        else:
            self._keep(partial(self._lead_on, name))

    def _lead_on(self, name: str) -> None:
        """Go to the next field that is asked and empty, to what is still needed, or to a new line."""
        one = self._current
        stands = lines.shown(one, self._known)
        order = list(lines.FIELDS)
        later = [
            asked
            for asked in lines.asked_of(one)
            if order.index(asked) > order.index(name) and not stands[asked]
        ]
        if going := [*later, *one.needed]:
            self.form.go_to(going[0])
        else:
            self._show_line(None)

    @on(Input.Changed)
    def _is_typing(self, event: Input.Changed) -> None:
        name = name_of(event.input)
        if name is None:
            return
        usual = lines.presets(name, self._current)
        if event.value in usual:
            self.form.put(name, lines.preset_words(usual[event.value]))
        self._show_usual()

    @on(events.DescendantFocus)
    def _came_to_a_field(self) -> None:
        self._show_usual()

    # Scans

    def heard(self, own: Own) -> None:
        """A place says where it goes, a job what it is for; a piece shows its card."""
        name = {Letter.PLACE: "place", Letter.JOB: "job"}.get(own.letter)
        if name is None:
            super().heard(own)
        elif name in lines.fields_of(self._current.material):
            self.form.put(name, grouped(own.code))
            self._keep()
        else:
            self.band.refused(f"{grouped(own.code)} means nothing for this line yet.")

    def signed(self, sign: Sign) -> None:
        """Digits go where the cursor is; OK is the person's Enter."""
        name = self.form.in_front()
        if isinstance(sign, Digit) and isinstance(self.focused, Input):
            self.form.insert(sign.character)
        elif sign is Order.OK and name:
            self._enter_in(name)
        else:
            super().signed(sign)

    def heard_words(self, text: str, *, by_hand: bool) -> None:
        """What is no code of ours goes where the cursor is: a lot, as the box has it."""
        if isinstance(self.focused, Input) and not by_hand:
            self.form.insert(text)
        else:
            super().heard_words(text, by_hand=by_hand)

    # Other keys

    def action_line(self, way: int) -> None:
        """Go to another line; the one after the last is a new one."""
        at = len(self._lines) + 1 if self._number is None else self._number
        to = max(1, at + way)
        self._keep(partial(self._show_line, to if to <= len(self._lines) else None))

    def action_new_line(self) -> None:
        """Leave the line as it was kept last."""
        self.band.clear()
        if not self._is_busy:
            self._show_line(None)

    def action_drop_line(self) -> None:
        """Take the line out of the delivery."""
        if self._number is not None and not self._is_busy:
            self._do(partial(work.drop, self.station, self._number, self._current.line))

    def action_take_order(self) -> None:
        """Add what is to come of the order that is offered first."""
        self.band.clear()
        if self._offered:
            self._take_order(self._offered[0].code)
        else:
            self.band.refused(
                "No order of these goods, or of who sells them, is on its way that is not in here already."
            )

    def heard_order(self, own: Own) -> None:
        """Add what is to come of it."""
        self._take_order(own.code)

    def _take_order(self, code: str) -> None:
        self._keep(partial(self._do, partial(work.take_order, self.station, code)))

    @on(work.LinesChanged)
    def _were_changed(self, message: work.LinesChanged) -> None:
        self._turned(is_busy=False)
        self._was_built_here |= message.are_more
        self._delivery, self._offered = message.delivery, message.offered
        self._begin_anew(but_typed=message.are_more)

    def action_receive(self) -> None:
        """Receive every line, once what is typed is kept."""
        self._keep(self._receive)

    def _receive(self) -> None:
        lacking = next((n for n, one in enumerate(self._lines, start=1) if one.needed), None)
        if lacking is not None:
            self._show_line(lacking)
            needs = " and ".join(self._current.needed)
            self.band.refused(f"Line {lacking} lacks its {needs}: fill it in, or drop the line.")
        elif not self._lines:
            self.band.refused("There is no line yet: type a part of a material's name.")
        else:
            self._receive_or_ask(self._delivery)

    def _receive_or_ask(self, delivery: Delivery | None) -> None:
        """Receive what was typed here; what somebody left may not be all, and many may be a slip."""
        seen = [one.line for one in self._lines]
        receive = partial(self._do, partial(work.receive, self.station, self._request, seen))
        pieces = sum(one.line.pieces for one in self._lines)
        if self._was_built_here and pieces <= _NOT_ASKED:
            receive()
        else:
            self.question.ask(f"receive {lines.said(delivery, self._known.shop)}?", receive)

    @on(work.AllReceived)
    def _was_received(self, message: work.AllReceived) -> None:
        self._turned(is_busy=False)
        self._was_built_here = False
        self._delivery, self._request = None, uuid4().hex
        self._offered = message.offered
        is_new, self._number = self._number is None, None
        self._begin_anew(but_typed=is_new)
        self.band.done(message.sentence)
