"""How a delivery is kept as it is typed: one line at a time, one call at a time."""

from collections.abc import Callable, Iterable
from functools import partial
from uuid import uuid4

from textual import getters, on
from textual.containers import Horizontal
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Rule, Static

from stockroom.books.orders import Order
from stockroom.books.values import Shop
from stockroom.errors import Code, Refusal
from stockroom.lines import goods_in as lines
from stockroom.lines.goods_in import Known
from stockroom.screens import goods_in_work as work
from stockroom.screens.form import Misfilled, mending
from stockroom.screens.frame import Frame
from stockroom.screens.marks import marked
from stockroom.screens.station import Station
from stockroom.screens.widgets.columns import Column
from stockroom.screens.widgets.goods_form import GoodsForm, name_of
from stockroom.screens.widgets.line_list import LineList, Row
from stockroom.screens.widgets.question import Question
from stockroom.screens.widgets.title import Title
from stockroom.work.delivery import Delivery
from stockroom.work.goods_line import Line, Typed, typed

_COLUMNS = (
    Column(title="", width=2, right=True),
    Column(title="what", width=10, grows=True),
    Column(title="each", width=8, right=True),
    Column(title="lacks", width=9),
)
_NEW = Row("new", ("", "a new line", "", ""))


class Keeping(Frame):
    """The delivery and the line in the form; where Enter and the keys lead is the screen's own."""

    title_line = getters.query_one(Title)
    list_of_lines = getters.query_one(LineList)
    form = getters.query_one(GoodsForm)
    question = getters.query_one(Question)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station
        self._known = Known(shop=Shop(), materials=(), places=(), shows_money=False)
        self._delivery: Delivery | None = None
        self._number: int | None = None
        self._request = uuid4().hex
        self._is_busy = self._is_due = self._is_behind = False
        self._turn = 0
        self._was_built_here = False
        self._taken: dict[str, str] = {}
        self._then: Callable[[], None] | None = None
        self._offered: tuple[Order, ...] = ()

    def body(self) -> Iterable[Widget]:
        yield Title("Goods in")
        yield Rule()
        with Horizontal(id="goods"):
            delivery = LineList(_COLUMNS, empty="Reading the book …")
            delivery.can_focus = False
            yield delivery
            yield GoodsForm()
        yield Question()
        yield Static(id="usual", markup=False)
        yield Static(id="enter", markup=False)

    def on_screen_resume(self) -> None:
        self.reading(partial(work.look, self.station, self._turn))

    def operator_changed(self) -> None:
        self._show()

    @on(work.GoodsRead)
    def _read(self, message: work.GoodsRead) -> None:
        self._known = message.known
        if self._is_busy:
            self._is_behind = True
        elif message.turn != self._turn:
            # What was read may be older than what was written since, and shown already.
            self.on_screen_resume()
        else:
            self._is_behind = False
            self._offered = message.offered
            self._take(message.delivery)

    def _take(self, delivery: Delivery | None) -> None:
        """Take the delivery as the book has it; what is typed stays with the line it was typed for."""
        was, before = self._current.line, len(self._lines)
        self._delivery = delivery
        now = [one.line for one in self._lines]
        if self._number is None or now[self._number - 1 : self._number] == [was]:
            self.form.fill(self._current, self._known, but={})
        elif was in now:
            self._number = now.index(was) + 1
            self.form.fill(self._current, self._known, but={})
        else:
            if self.form.typed():
                self.band.refused(work.changed(self._number).sentence)
            self._number = self._number if len(now) == before else None
            self.form.fill(self._current, self._known)
        self._show()

    @property
    def _lines(self) -> tuple[Typed, ...]:
        return self._delivery.lines if self._delivery else ()

    @property
    def _current(self) -> Typed:
        """The line in the form, as far as it is kept."""
        if self._number is None:
            return typed(Line(), {})
        return self._lines[self._number - 1]

    def _show(self) -> None:
        shop = self._known.shop
        rows = [
            Row(str(number), tuple(map(marked, lines.cells(number, one, self._known))))
            for number, one in enumerate(self._lines, start=1)
        ]
        self.list_of_lines.rows = [*rows, _NEW]
        self.list_of_lines.cursor = len(rows) if self._number is None else self._number - 1
        self.title_line.show("Goods in", lines.said(self._delivery, shop))
        is_new = self._number is None
        says = lines.enter_says(self._delivery, is_new=is_new)
        if is_new and self._offered:
            says = f"{says}\n{lines.offer_says(self._offered)}"
        self.query_one("#enter", Static).update(says)
        self._show_usual()

    def _show_usual(self) -> None:
        """Say what could stand in the field: films like what is typed, or the usual sizes."""
        name = self.form.in_front()
        said = ""
        if name == "material":
            said = lines.candidates(self.form.typed().get(name, ""), self._known.materials)
        elif name:
            said = lines.presets_said(name, self._current)
        self.query_one("#usual", Static).update(said)

    def _show_line(self, number: int | None) -> None:
        """Bring a line to the form, or a new one, and go to the first thing it needs."""
        self._number = number
        self.form.fill(self._current, self._known)
        self._show()
        self.form.go_to(next(iter(self._current.needed), "pieces"))

    # A line is kept as it is typed

    def _do(self, call: Callable[[], Message]) -> None:
        self._turned(is_busy=True)
        self.writing(partial(work.or_not, call))

    def _keep(self, then: Callable[[], None] | None = None) -> bool:
        """Keep what was typed, and go on once it is; a field that cannot be read is said to be so."""
        self._then = then or self._then
        if self._is_busy:
            self._is_due |= then is not None
            return True
        taken = self.form.typed()
        if not taken:
            self._go_on()
            return True
        try:
            line = self._with(taken)
        except Misfilled as refusal:
            self._then = None
            self.band.refused(refusal.sentence)
            self.form.go_to(refusal.field)
            return False
        self._taken = taken
        was = self._current.line if self._number else None
        self._do(partial(work.keep, self.station, line, self._number, was))
        return True

    def _turned(self, *, is_busy: bool) -> None:
        """A call was made or is answered: what a reading saw before that may hold no longer."""
        self._is_busy = is_busy
        self._turn += 1

    def _with(self, taken: dict[str, str]) -> Line:
        """The line with what was typed."""
        given = {
            lines.FIELDS[name]: getattr(self._current.line, lines.FIELDS[name])
            for name in lines.FIELDS
        }
        for name, text in taken.items():
            with mending(name):
                given |= lines.read(name, text, self._known)
        of_order = self._current.line if "material" not in taken else Line()
        line = Line(**given, order=of_order.order, order_line=of_order.order_line)
        if line.material is None:
            raise Misfilled("material", Refusal(Code.BAD_USAGE, "Say first of which material."))
        material = self._current.material
        if "material" in taken or material is None:
            material = next(one for one in self._known.materials if one.name == line.material)
        return lines.trimmed(line, material)

    def _go_on(self) -> None:
        """Do what was to come next; what was typed meanwhile is kept first, or leads nowhere yet."""
        is_due, self._is_due = self._is_due, False
        if self.form.typed() and is_due:
            self._keep()
            return
        then, self._then = self._then, None
        if then is not None and not self.form.typed():
            then()

    def _begin_anew(self, *, but_typed: bool = True) -> None:
        """Show a new line, unless somebody types in one that is still there; nothing else comes next."""
        self._then = None
        if but_typed and self.form.typed():
            self.form.fill(self._current, self._known, but={})
            self._show()
            self._go_on()
        else:
            self._is_due = False
            self._show_line(None)

    @on(work.LineKept)
    def _was_kept(self, message: work.LineKept) -> None:
        self._turned(is_busy=False)
        self._was_built_here = True
        self._delivery, self._number = message.delivery, message.number
        self._offered = message.offered
        self.form.fill(self._current, self._known, but=self._taken)
        self._taken = {}
        self._show()
        self._go_on()

    @on(work.NotKept)
    def _was_not_kept(self, message: work.NotKept) -> None:
        self._turned(is_busy=False)
        self._then, self._is_due, self._taken = None, False, {}
        self.band.refused(message.refusal.sentence)
        is_other = message.refusal.code is Code.LATER_ACT
        self._was_built_here &= not is_other
        if is_other or self._is_behind:
            self.on_screen_resume()

    @on(Input.Blurred)
    def _left(self, event: Input.Blurred) -> None:
        # A form that lies over the screen, or another window, takes the cursor and keeps nothing.
        if name_of(event.input) and self.app.screen is self and self.app.app_focus:
            self._keep()
