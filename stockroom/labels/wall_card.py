"""The wall card: a page of codes, so that a hand in gloves needs no keyboard."""

from collections.abc import Mapping, Sequence
from typing import Final

from stockroom.codes.card import Operator, Order, Sign, Typed, code_of
from stockroom.labels.drawing import Drawing, fitting, width_mm
from stockroom.labels.paper import Paper
from stockroom.labels.symbol import MODULES, QUIET

_COLUMNS: Final = 6
_MARGIN_MM: Final = 12.0
_SYMBOL_MM: Final = 28.5
_QUIET_MM: Final = _SYMBOL_MM * QUIET / MODULES
_TOP_MM: Final = 20.0
_HEADING_MM: Final = 11.0
_LEAST_PT: Final = 11
_CAP_MM_PER_PT: Final = 0.26

_GROUPS: Final[tuple[tuple[str, int, tuple[tuple[Sign, ...], ...]], ...]] = (
    (
        "say",
        16,
        (
            (Order.OK, Order.UNDO, Order.FINISHED, Order.SPOILED),
            (Order.OUT, Order.IN, Order.BACK),
        ),
    ),
    (
        "type",
        20,
        (
            tuple(Typed(character) for character in "123456"),
            tuple(Typed(character) for character in "7890."),
        ),
    ),
    (
        "who",
        14,
        (
            tuple(Operator(key) for key in range(1, 7)),
            tuple(Operator(key) for key in range(7, 10)),
        ),
    ),
)
_ROWS: Final = sum(len(rows) for _, _, rows in _GROUPS)
_ADVICE: Final = ("Scan instead of typing.", "OK does what is shown.")


def wall_card(names: Mapping[int, str], shop: str, paper: Paper) -> bytes:
    """The card as PDF; somebody without a name is a number alone."""
    drawing = Drawing(f"Wall card, {shop}", paper)
    left = _MARGIN_MM + _QUIET_MM
    room = drawing.height_mm - _TOP_MM - _MARGIN_MM - len(_GROUPS) * _HEADING_MM
    y = _TOP_MM
    drawing.text(left, 15, fitting(shop, 14, 150, bold=True), 14, bold=True)
    for title, points, rows in _GROUPS:
        drawing.rule(left, y, drawing.width_mm - 2 * left)
        drawing.text(left, y + 4.5, title, 9)
        y += _HEADING_MM - _QUIET_MM
        for signs in rows:
            _row(drawing, signs, names, points, y)
            y += room / _ROWS
        y += _QUIET_MM
    _advice(drawing)
    drawing.end_page()
    return drawing.content()


def _row(
    drawing: Drawing, signs: Sequence[Sign], names: Mapping[int, str], points: int, y: float
) -> None:
    """QR codes side by side, each with its word below."""
    step = (drawing.width_mm - 2 * _MARGIN_MM) / _COLUMNS
    for column, sign in enumerate(signs):
        x = _MARGIN_MM + column * step
        drawing.symbol(code_of(sign), x, y, _SYMBOL_MM)
        word = _word(sign, names)
        fits = (size for size in range(points, _LEAST_PT, -1) if _width(word, size) <= step - 2)
        size = next(fits, _LEAST_PT)
        baseline = y + _SYMBOL_MM + _CAP_MM_PER_PT * points
        shown = fitting(word, size, step - 2, bold=True)
        drawing.text(x + _QUIET_MM, baseline, shown, size, bold=True)


def _width(word: str, size: float) -> float:
    return width_mm(word, size, bold=True)


def _word(sign: Sign, names: Mapping[int, str]) -> str:
    match sign:
        case Order():
            return sign.value
        case Typed(character=character):
            return "point" if character == "." else character
        case Operator(key=key):
            return f"{key}  {names.get(key, '')}".rstrip()


def _advice(drawing: Drawing) -> None:
    """What the card is for, where the first row has room."""
    x = _MARGIN_MM + 4 * (drawing.width_mm - 2 * _MARGIN_MM) / _COLUMNS + _QUIET_MM
    for number, line in enumerate(_ADVICE):
        drawing.text(x, _TOP_MM + _HEADING_MM + 3 + 5 * number, line, 10)
