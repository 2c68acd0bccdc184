"""Lines that begin with a lead each; what does not fit goes on below, behind the lead."""

import textwrap
from collections.abc import Sequence

from textual.widgets import Static

from stockroom.screens.marks import marked

_NARROWEST = 20


class Hanging(Static):
    """Pairs of a lead and a text; leads are of one width, and nothing is markup."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id, markup=False)
        self._pairs: tuple[tuple[str, str], ...] = ()

    def show(self, pairs: Sequence[tuple[str, str]]) -> None:
        """Put other lines there."""
        self._pairs = tuple(pairs)
        self._fill()

    def on_resize(self) -> None:
        self._fill()

    def _fill(self) -> None:
        width = self.content_size.width or self.app.size.width
        lines: list[str] = []
        for lead, text in self._pairs:
            room = max(_NARROWEST, width - len(lead))
            first, *rest = textwrap.wrap(text, room) or [""]
            lines += [f"{lead}{first}", *(" " * len(lead) + line for line in rest)]
        self.update(marked("\n".join(lines)))
