"""A screen from which an act can be undone, once somebody has said yes."""

from dataclasses import dataclass

from textual import getters, on
from textual.message import Message

from stockroom.books.values import Act, Place, Shop
from stockroom.lines import log as lines
from stockroom.screens.frame import Frame
from stockroom.screens.station import Station
from stockroom.screens.widgets.question import Question
from stockroom.work.undo import Undo, undo


@dataclass
class Undone(Message):
    """An act was reversed."""

    sentence: str


class Undoing(Frame):
    """Asks, undoes, and reads again; its body has a `Question`."""

    question = getters.query_one(Question)

    def __init__(self, station: Station) -> None:
        super().__init__()
        self.station = station

    def read_again(self) -> None:
        """Read what is shown, after something was written."""
        raise NotImplementedError

    def ask_to_undo(self, act: Act, shop: Shop, places: tuple[Place, ...]) -> None:
        """Ask whether this act is to be reversed, if it can be at all."""
        if refusal := lines.refused_undo(act):
            self.band.refused(refusal.sentence)
            return
        self.band.clear()
        self.question.ask(
            lines.undo_question(act, shop, places),
            lambda: self.writing(lambda: self._undo(act)),
        )

    def _undo(self, act: Act) -> Undone:
        station = self.station
        request = Undo(**station.asking(), piece=act.moves[0].piece, act=act.id)
        undo(request, book=station.book, now=station.now())
        return Undone(f"undone: act {act.id}")

    @on(Undone)
    def _was_undone(self, message: Undone) -> None:
        self.band.done(message.sentence)
        self.read_again()
