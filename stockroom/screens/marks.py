"""The colours of the verdict signs, by theme variable; the words always stand beside them."""

import re

from textual.content import Content, Span

_COLOURS = {
    "●": "$verdict-use",
    "◐": "$verdict-first",
    "▲": "$verdict-test",
    "✕": "$verdict-stop",
    "◷": "$verdict-wait",
}
# A sign and the words after it, as far as the next wide gap.
_MARKED = re.compile(f"([{''.join(_COLOURS)}]) \\S+(?: \\S+)*")


def marked(text: str) -> Content:
    """The text as it is, never markup, with each verdict sign and its words in the verdict's colour."""
    spans = [
        Span(found.start(), found.end(), _COLOURS[found[1]]) for found in _MARKED.finditer(text)
    ]
    return Content(text, spans)
