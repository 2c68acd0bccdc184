"""Labels with defaults, so that a test names only what it is about."""

from typing import Any

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


def a_label(*, lot: str = "PF24-0317-B", **given: Any) -> Label:
    """A label of a roll that was made, received and printed, with a maker's shelf date."""
    usual = {"code": CODE, "title": "urethane clear 200", "detail": "1524 mm", "dates": DATES}
    return Label(facts=(("lot", lot),), **usual | given)


def a_bottle(
    *,
    title: str = "application fluid 1:40",
    warning: str = "slippery on floors; no flame",
) -> Label:
    """A label of a bottle that was mixed, with what to mind."""
    facts = (("mixed", "2026-11-25"), ("use by", "2026-12-02"))
    return Label(code="B000120K", title=title, facts=facts, warning=warning)


def a_place(title: str = "bay A1") -> Label:
    """A label of a place."""
    return Label(code="P000124X", title=title)


def a_job(title: str = "clinic partition", detail: str = "Harbour Street 4, second floor") -> Label:
    """A label of a job."""
    return Label(code="J000122S", title=title, detail=detail)
