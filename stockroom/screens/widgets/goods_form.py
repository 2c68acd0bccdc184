"""The form of one line of a delivery: what is missing stands out, what is known is quiet."""

from collections.abc import Mapping

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.widgets import Input, Static

from stockroom.errors import clean_text
from stockroom.lines import goods_in as lines
from stockroom.lines.goods_in import Known
from stockroom.work.goods_line import Typed

_LONGEST = 120
_ID = "goods-"


class GoodsForm(Vertical):
    """Shows a line and what is typed in it; decides nothing."""

    DEFAULT_CSS = """
    GoodsForm {
        width: 38;
        .goods-row { height: 1; }
        .goods--name { width: 10; }
        .goods-row Input { width: 1fr; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self._filled: Mapping[str, str] = {}

    def compose(self) -> ComposeResult:
        with VerticalScroll(can_focus=False):
            for name in lines.FIELDS:
                with Horizontal(id=f"row-{name}", classes="goods-row"):
                    yield Static(name, classes="goods--name", markup=False)
                    yield Input(id=f"{_ID}{name}")

    def fill(self, one: Typed, known: Known, *, but: Mapping[str, str] | None = None) -> None:
        """Show a line; a field in which somebody typed on since `but` was taken keeps that."""
        filled = lines.shown(one, known)
        for name, text in filled.items():
            field = self._field(name)
            was_taken = but is None or field.value in (but.get(name), self._filled.get(name))
            if was_taken and field.value != text:
                field.value = text
                field.cursor_position = len(text)
        self._filled = filled
        self._mark(one, known)

    def _mark(self, one: Typed, known: Known) -> None:
        """Let what is missing stand out, and leave out what means nothing for the material."""
        stay, given = known.may_show(lines.fields_of(one.material)), lines.given(one, known)
        for name in lines.FIELDS:
            row = self.query_one(f"#row-{name}")
            row.display = name in stay
            row.set_class(name in one.needed, "-needed")
            row.set_class(name in one.unknown, "-unknown")
            self._field(name).placeholder = given.get(name, "")

    def typed(self) -> dict[str, str]:
        """What stands in the fields now and is not kept yet."""
        now = {name: clean_text(self._field(name).value, _LONGEST) for name in lines.FIELDS}
        return {name: text for name, text in now.items() if text != self._filled.get(name, "")}

    def put(self, name: str, text: str) -> None:
        """Put a text in a field."""
        field = self._field(name)
        field.value = text
        field.cursor_position = len(text)

    def insert(self, text: str) -> None:
        """Type a text for somebody, where the cursor is."""
        focused = self.screen.focused
        if isinstance(focused, Input):
            focused.replace(text, *sorted(focused.selection))

    def go_to(self, name: str) -> None:
        """Bring the cursor to a field."""
        self.screen.set_focus(self._field(name))

    def in_front(self) -> str | None:
        """The field the cursor is in."""
        focused = self.screen.focused
        return name_of(focused) if isinstance(focused, Input) else None

    def _field(self, name: str) -> Input:
        return self.query_one(f"#{_ID}{name}", Input)


def name_of(field: Input) -> str | None:
    """Which field of the form an input is, if it is one."""
    return field.id.removeprefix(_ID) if field.id and field.id.startswith(_ID) else None
