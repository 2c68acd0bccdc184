"""The job of the Bench: scanned, or chosen with one key while the cursor is here."""

from dataclasses import dataclass
from typing import ClassVar

from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Static

from stockroom.screens.keys import Where, bindings


class JobStep(Static, can_focus=True):
    """Says which key was pressed; the screen knows what it stands for."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.JOB)]

    @dataclass
    class NumberPressed(Message):
        """A job was chosen by its number."""

        number: int

    @dataclass
    class ReasonPressed(Message):
        """It is for no job but for this reason."""

        reason: str

    @dataclass
    class AwayPressed(Message):
        """It is for no job: the whole piece goes out, or comes in."""

        way: str

    class Kept(Message):
        """It stays as it is."""

    def action_job(self, number: int) -> None:
        """Choose the job beside a number."""
        self.post_message(self.NumberPressed(number))

    def action_reason(self, reason: str) -> None:
        """Choose a reason instead of a job."""
        self.post_message(self.ReasonPressed(reason))

    def action_away(self, way: str) -> None:
        """The whole piece goes out, or comes in."""
        self.post_message(self.AwayPressed(way))

    def action_keep(self) -> None:
        """Go on."""
        self.post_message(self.Kept())
