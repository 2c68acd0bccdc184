"""One list for every long table: only the lines in sight are ever asked for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.binding import BindingType
from textual.content import Content
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.visual import RenderOptions

from stockroom.screens.keys import Where, bindings
from stockroom.screens.widgets.columns import GAP, Column, fit

_HEADER = 1
_GUTTER = 2
_NEARBY = 200


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a list: a key that stays the same when the list is read again, and its cells."""

    key: str
    cells: tuple[Content | str, ...]


class LineList(ScrollView, can_focus=True, inherit_bindings=False):
    """A header and any number of rows, with a cursor; plain text in a cell is never markup."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings(Where.LIST)]
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "line-list--header",
        "line-list--row",
        "line-list--cursor",
        "line-list--empty",
    }
    DEFAULT_CSS = """
    LineList {
        height: 1fr;
        overflow-x: hidden;
        overflow-y: auto;
        scrollbar-gutter: stable;
        scrollbar-size-vertical: 1;
    }
    """

    rows: reactive[Sequence[Row]] = reactive((), init=False, always_update=True)
    empty: reactive[str] = reactive("")
    cursor: reactive[int] = reactive(0, init=False)

    @dataclass
    class RowHighlighted(Message):
        """The cursor came to a row."""

        key: str
        index: int

    @dataclass
    class RowChosen(Message):
        """A person asked for the row under the cursor."""

        key: str
        index: int

    def __init__(self, columns: Sequence[Column], *, empty: str, id: str | None = None) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self.columns = tuple(columns)
        self.set_reactive(LineList.empty, empty)
        self._key: str | None = None

    @property
    def key(self) -> str | None:
        """The key of the row under the cursor, or nothing in an empty list."""
        return self._key

    def on_mount(self) -> None:
        self._fill()

    def watch_rows(self) -> None:
        if self.is_mounted:
            self._fill()

    def watch_cursor(self) -> None:
        if self.is_mounted:
            self._follow()

    def validate_cursor(self, cursor: int) -> int:
        return max(0, min(cursor, len(self.rows) - 1))

    def _fill(self) -> None:
        """Take in other rows, with the cursor on the row it was on, if that is still near."""
        self.virtual_size = Size(0, len(self.rows) + _HEADER)
        self.set_reactive(LineList.cursor, self.validate_cursor(self._where_the_key_is()))
        self._follow()

    def _where_the_key_is(self) -> int:
        if self._key is None:
            return self.cursor
        return next((at for at in self._around() if self.rows[at].key == self._key), self.cursor)

    def _around(self) -> Iterator[int]:
        """Positions from the cursor outwards, but no further than is quick to read."""
        for away in range(_NEARBY):
            for at in {self.cursor + away, self.cursor - away}:
                if 0 <= at < len(self.rows):
                    yield at

    def _follow(self) -> None:
        """Bring the cursor into sight and say where it is."""
        top, bottom = self.scroll_offset.y, self.scroll_offset.y + self._page() - 1
        if self.cursor < top:
            self.scroll_to(y=self.cursor, animate=False)
        elif self.cursor > bottom:
            self.scroll_to(y=self.cursor - self._page() + 1, animate=False)
        self.refresh()
        key = self.rows[self.cursor].key if len(self.rows) else None
        if key is not None and key != self._key:
            self.post_message(self.RowHighlighted(key, self.cursor))
        self._key = key

    def _page(self) -> int:
        return max(1, self.scrollable_content_region.height - _HEADER)

    def on_resize(self) -> None:
        self._follow()

    def action_move(self, lines: int) -> None:
        """Move the cursor by so many rows."""
        self.cursor += lines

    def action_page(self, pages: int) -> None:
        """Move the cursor by so many screenfuls."""
        self.cursor += pages * self._page()

    def action_first(self) -> None:
        """Put the cursor on the first row."""
        self.cursor = 0

    def action_last(self) -> None:
        """Put the cursor on the last row."""
        self.cursor = len(self.rows) - 1

    def action_choose(self) -> None:
        """Ask for the row under the cursor."""
        if self._key is not None:
            self.post_message(self.RowChosen(self._key, self.cursor))

    def on_click(self, event: events.Click) -> None:
        """Put the cursor on the row clicked; a click on the cursor's own row chooses it."""
        at = self.scroll_offset.y + event.y - _HEADER
        if event.y < _HEADER or at >= len(self.rows):
            return
        if at == self.cursor:
            self.action_choose()
        self.cursor = at

    def render_line(self, y: int) -> Strip:
        at = self.scroll_offset.y + y - _HEADER
        if y < _HEADER:
            return self._drawn("", tuple(column.title for column in self.columns), "header")
        if not len(self.rows):
            return self._line_of(Content(self.empty), "empty", place=y - _HEADER - 1, pad=_GUTTER)
        if at >= len(self.rows):
            return self._line_of(Content(""), "row")
        if at == self.cursor:
            return self._drawn("▸", self.rows[at].cells, "cursor")
        return self._drawn("", self.rows[at].cells, "row")

    def _width(self) -> int:
        return self.scrollable_content_region.width

    def _drawn(self, gutter: str, cells: Sequence[Content | str], part: str) -> Strip:
        """A line of cells, each cut or filled to its column."""
        pieces = [Content(gutter.ljust(_GUTTER))]
        for index, width in fit(self.columns, self._width() - _GUTTER):
            cell = cells[index]
            content = cell if isinstance(cell, Content) else Content(cell)
            if self.columns[index].right:
                content = content.pad_left(max(0, width - content.cell_length))
            pieces += [content.truncate(width, ellipsis=True, pad=True), Content(" " * GAP)]
        line = Content("").join(pieces[:-1]).truncate(self._width())
        return self._line_of(line, part)

    def _line_of(self, content: Content, part: str, *, place: int = 0, pad: int = 0) -> Strip:
        """One line of those that the content takes, in the look of a part of the list."""
        width, style = self._width(), self.get_visual_style(f"line-list--{part}")
        options = RenderOptions(self.app.stylesheet.parse_style, {"line_pad": pad})
        lines = content.render_strips(width, None, style, options)
        line = lines[place] if 0 <= place < len(lines) else Strip([])
        return line.adjust_cell_length(width, style.rich_style)
