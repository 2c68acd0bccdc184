"""Labels with defaults, so that a test names only what it is about."""

from stockroom.labels.picture import Label
from stockroom.labels.size import LabelSize

CODE = "R0001231"
USUAL = LabelSize(62, 29)
DATES = (
    ("made", "2025-03-01"),
    ("received", "2025-03-20"),
    ("printed", "2026-01-15"),
    ("shelf", "2027-03-01"),
)


def a_label(
    *,
    code: str = CODE,
    title: str = "urethane clear 200",
    width_text: str = "1524 mm",
    lot: str = "PF24-0317-B",
    dates: tuple[tuple[str, str], ...] = DATES,
    caution: str = "",
) -> Label:
    """A label of a roll that was made, received and printed, with a maker's shelf date."""
    return Label(
        code=code, title=title, width_text=width_text, lot=lot, dates=dates, caution=caution
    )
