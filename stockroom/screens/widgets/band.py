"""The result of what was just asked, across the screen: the eye is on the knife, two metres away."""

from textual.widgets import Static

from stockroom.screens.bells import ring_done, ring_look

STILL_AT_IT = "… still at it: another station may be writing to the book"


class Band(Static):
    """Done rings once, refused twice; each has its own sign, word and edges, whatever the colours."""

    DEFAULT_CSS = """
    Band {
        display: none;
        width: 1fr;
        height: auto;
        padding: 0 1;
        text-align: center;
        text-style: bold;
        &.-done, &.-refused, &.-waits { display: block; }
    }
    """

    def __init__(self) -> None:
        super().__init__(markup=False)

    def done(self, sentence: str) -> None:
        """Show that it was done, with one bell."""
        self._show("-done", f"✓ DONE  {sentence}")
        ring_done(self)

    def refused(self, sentence: str) -> None:
        """Show that it was refused and nothing was written, with two bells."""
        self._show("-refused", f"! REFUSED  {sentence}")
        ring_look(self)

    def waits(self) -> None:
        """Show that the book has not answered yet, without a bell."""
        self._show("-waits", STILL_AT_IT)

    def waits_no_more(self) -> None:
        """The book answered, whatever it said."""
        self.remove_class("-waits")

    def clear(self) -> None:
        """Show nothing: something else has begun."""
        self.remove_class("-done", "-refused", "-waits")

    def _show(self, look: str, words: str) -> None:
        self.clear()
        self.update(words)
        self.add_class(look)
