"""Two bells that sound different, for the eye is on the knife: one for done, two for look here."""

from textual.dom import DOMNode

_SECOND_BELL_S = 0.25


def ring_done(node: DOMNode) -> None:
    """It is written."""
    node.app.bell()


def ring_look(node: DOMNode) -> None:
    """Nothing is written: it was refused, or an answer is wanted."""
    node.app.bell()
    # A terminal makes one bell of two that come together.
    node.set_timer(_SECOND_BELL_S, node.app.bell)
