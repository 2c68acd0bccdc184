"""The result of what was just asked, across the screen: the eye is on the knife, two metres away."""

from textual.widgets import Static

_SECOND_BELL_S = 0.25


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
        &.-done, &.-refused { display: block; }
    }
    """

    def __init__(self) -> None:
        super().__init__(markup=False)

    def done(self, sentence: str) -> None:
        """Show that it was done, with one bell."""
        self._show("-done", f"✓ DONE  {sentence}")
        self.app.bell()

    def refused(self, sentence: str) -> None:
        """Show that it was refused and nothing was written, with two bells."""
        self._show("-refused", f"! REFUSED  {sentence}")
        self.app.bell()
        # A terminal makes one bell of two that come together.
        self.set_timer(_SECOND_BELL_S, self.app.bell)

    def clear(self) -> None:
        """Show nothing: something else has begun."""
        self.remove_class("-done", "-refused")

    def _show(self, look: str, words: str) -> None:
        self.clear()
        self.update(words)
        self.add_class(look)
