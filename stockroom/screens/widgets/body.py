"""What is shown between the first line of a screen and its foot, and whether it has room."""

from textual.containers import Vertical
from textual.message import Message


class Body(Vertical):
    """All of a screen that is not its first line or its foot; what lies below takes room from it."""

    class Resized(Message):
        """It has more or less room."""

    class Grown(Message):
        """What it shows takes more or less room."""

    def on_mount(self) -> None:
        self.watch(self, "virtual_size", self._grew, init=False)

    def on_resize(self) -> None:
        self.post_message(self.Resized())

    def _grew(self) -> None:
        self.post_message(self.Grown())

    @property
    def overflows(self) -> bool:
        """Whether it shows more than it has room for."""
        return self.virtual_size.height > self.size.height
