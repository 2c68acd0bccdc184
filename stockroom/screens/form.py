"""A small form over a screen: a few fields, one thing to write, one sentence when it is refused."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import ClassVar

from textual import events, getters, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from stockroom.codes.card import Order, Sign, Typed
from stockroom.codes.own import Letter, grouped
from stockroom.codes.recognise import Own
from stockroom.errors import Refusal, clean_text, echoed
from stockroom.screens.bells import ring_look
from stockroom.screens.hearing import Hearing
from stockroom.screens.keys import Where, bindings
from stockroom.screens.widgets.band import STILL_AT_IT

LINE_END = "\N{RETURN SYMBOL}"
"""What stands for the end of a line, and `CELL_END` of a cell, where lines are pasted into a field."""
CELL_END = "|"
_LONGEST = 200
_MANY = 4


class Misfilled(Refusal):
    """A refusal that knows which field is to be mended."""

    def __init__(self, field: str, refusal: Refusal) -> None:
        super().__init__(refusal.code, refusal.sentence)
        self.field = field


@contextmanager
def mending(field: str) -> Iterator[None]:
    """What is refused inside is to be mended in this field."""
    try:
        yield
    except Refusal as refusal:
        raise Misfilled(field, refusal) from refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One line of a form; `takes` is the kind of code that may be scanned into it."""

    name: str
    hint: str = ""
    value: str = ""
    takes: Letter | None = None
    names: Mapping[str, str] = field(default_factory=dict)
    """What people call the thing of a code, where that can be typed too."""
    most: int = _LONGEST
    """The most characters it takes; a field that takes lines has them on one, parted by `LINE_END`."""

    def said(self, code: str) -> str:
        """A code that was scanned, by its name if it has one."""
        return self.names.get(code, grouped(code))


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A form before it is filled: `write` turns what was typed into an act, and says what it did."""

    title: str
    fields: Sequence[Field]
    write: Callable[[Mapping[str, str]], str]
    steps: Sequence[str] = ()
    """What to do before it is filled in, one after the other."""
    foretells: Callable[[Mapping[str, str]], str] | None = None
    """What would be written of what was typed so far, or what is still missing; it asks no book."""
    beside: str = ""
    """What to know while it is filled in."""
    caution: str = ""


class Line(Input):
    """A field into which lines can be pasted, too: none of them is lost."""

    def on_paste(self, event: events.Paste) -> None:
        lines = [line.replace("\t", CELL_END) for line in event.text.splitlines() if line.strip()]
        if len(lines) > 1 or "\t" in event.text:
            self.insert_text_at_cursor(f" {LINE_END} ".join(lines))
            event.prevent_default()
            event.stop()


@dataclass
class Wrote(Message):
    """The form was written."""

    sentence: str


class Form(Hearing[str], ModalScreen[str]):
    """Enter writes, Esc leaves; what was refused keeps what was typed. Its result says what was done."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.FORM)]
    HELP = """\
## A form

Fill in one or more lines; Enter writes them, Esc closes the form and writes nothing.
Up and Down, or Tab, lead from line to line. A code that is scanned goes to the line that asks for one.
"""

    problem = getters.query_one("#problem", Static)
    box = getters.query_one("#form", Vertical)

    def __init__(self, blank: Blank) -> None:
        super().__init__()
        self.blank = blank
        self._refused_as: dict[str, str] | None = None

    def compose(self) -> ComposeResult:
        with Vertical(id="form", classes="-many" if len(self.blank.fields) > _MANY else None):
            yield Static(self.blank.title, markup=False, classes="strong")
            if self.blank.steps:
                yield Static("\n".join(self.blank.steps), markup=False, id="steps")
            for field in self.blank.fields:
                with Horizontal(classes="field"):
                    yield Static(field.name, markup=False, classes="field--name")
                    yield Line(field.value, placeholder=field.hint, id=_id(field.name))
            yield Static(id="foretold", markup=False)
            yield Static(id="problem", markup=False)
            for said in filter(None, (self.blank.beside, self.blank.caution)):
                yield Static(said, markup=False, classes="quiet")
            yield Static(self._keys_said(), markup=False, classes="quiet")

    def _keys_said(self) -> str:
        lines = "↑ ↓ another line   " if len(self.blank.fields) > 1 else ""
        return f"Enter writes it   {lines}Esc leaves"

    def action_leave(self) -> None:
        """Close the form and write nothing."""
        self.dismiss()

    def action_line(self, way: int) -> None:
        """Go to the line below or above; after the last comes the first."""
        if way > 0:
            self.focus_next(Input)
        else:
            self.focus_previous(Input)

    def on_mount(self) -> None:
        self._foretell()

    @on(Input.Changed)
    def _was_changed(self) -> None:
        """What was refused was refused of what stood there then; a scan leaves that as it was."""
        if self._typed() == self._refused_as:
            return
        self._refused_as = None
        self.problem.update("")
        self._foretell()

    def _foretell(self) -> None:
        """Say what would be written, if the form knows."""
        foretells, said = self.blank.foretells, ""
        if foretells is not None:
            try:
                said = foretells(self._typed())
            except Refusal as refusal:
                said = f"? {refusal.sentence}"
        foretold = self.query_one("#foretold", Static)
        foretold.update(said)
        foretold.display = foretells is not None

    @on(Input.Submitted)
    def _write(self) -> None:
        typed = self._typed()
        self.box.disabled = True
        self.writing(lambda: Wrote(self.blank.write(typed)))

    def _typed(self) -> dict[str, str]:
        return {
            field.name: clean_text(self._input(field.name).value, field.most)
            for field in self.blank.fields
        }

    @on(Wrote)
    def _done(self, message: Wrote) -> None:
        self.dismiss(message.sentence)

    def _input(self, name: str) -> Input:
        return self.query_one(f"#{_id(name)}", Input)

    def misread(self, refusal: Refusal) -> None:
        self._say(refusal.sentence)

    def refused(self, refusal: Refusal) -> None:
        first = self.blank.fields[0].name
        self.box.disabled = False
        self._say(refusal.sentence)
        self.set_focus(self._input(refusal.field if isinstance(refusal, Misfilled) else first))

    def _say(self, sentence: str) -> None:
        self._refused_as = self._typed()
        self.query_one("#foretold", Static).display = False
        self.problem.update(f"! {sentence}")
        ring_look(self)

    def waits(self) -> None:
        self.problem.update(STILL_AT_IT)

    def waits_no_more(self) -> None:
        """What comes takes its place: the form closes, or says why not."""

    def heard(self, own: Own) -> None:
        """Put a code where the form asks for one."""
        field = next((one for one in self.blank.fields if one.takes is own.letter), None)
        if field is None:
            self._say(f"{grouped(own.code)} is nothing this form asks for.")
            return
        self._input(field.name).value = field.said(own.code)
        self.problem.update("")

    def signed(self, sign: Sign) -> None:
        """Type a digit of the wall card, or write the form by its OK."""
        if isinstance(sign, Typed) and isinstance(self.focused, Input):
            self.focused.insert_text_at_cursor(sign.character)
        elif sign is Order.OK:
            self._write()
        else:
            self._say("Only digits and OK of the wall card mean something in a form.")

    def heard_words(self, text: str, *, by_hand: bool) -> None:  # noqa: ARG002 - both are words
        """Put what a fast hand or a scanner wrote into the field where it was written."""
        if isinstance(self.focused, Input):
            self.focused.insert_text_at_cursor(text)
        else:
            self._say(f"“{echoed(text)}” is no code of this book.")


def _id(name: str) -> str:
    return f"field-{name.replace(' ', '-')}"
