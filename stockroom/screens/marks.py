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
_SIGNS = "".join(_COLOURS)
# A sign and the words after it, as far as the next wide gap or the next sign.
_MARKED = re.compile(f"([{_SIGNS}]) \\S+(?: [^\\s{_SIGNS}]\\S*)*")


def marked(text: str) -> Content:
    """The text as it is, never markup, with each verdict sign and its words in the verdict's colour."""
    spans = [
        Span(found.start(), found.end(), _COLOURS[found[1]]) for found in _MARKED.finditer(text)
    ]
    return Content(text, spans)
