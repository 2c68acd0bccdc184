"""The order of the numbers of a day is decided from the file, or said to be assumed."""

from datetime import date

import pytest

from stockroom.feeds.days import Order, Shown, order_of, read_day

LATEST = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("2025-03-14", Order.YMD, (2025, 3, 14)),
        ("2025-03-14", Order.DMY, (2025, 3, 14)),
        ("2025/3/4", Order.MDY, (2025, 3, 4)),
        ("20250314", Order.YMD, (2025, 3, 14)),
        ("2025. 03. 14.", Order.YMD, (2025, 3, 14)),
        ("14.03.2025", Order.DMY, (2025, 3, 14)),
        ("14. 3. 2025", Order.DMY, (2025, 3, 14)),
        ("14/3/25", Order.DMY, (2025, 3, 14)),
        ("3/14/2025", Order.MDY, (2025, 3, 14)),
        ("25-03-14", Order.YMD, (2025, 3, 14)),
        ("29.02.2024", Order.DMY, (2024, 2, 29)),
    ],
)
def test_a_day_is_read(text: str, order: Order, day: tuple[int, int, int]) -> None:
    """Four digits in front are the year in any order."""
    assert read_day(text, order) == date(*day)


@pytest.mark.parametrize(
    "text", ["", "14", "29.02.2025", "31/04/2025", "14.13.2025", "today", "1.2.3.4"]
)
def test_what_is_no_day_is_not_read(text: str) -> None:
    """Neither words nor days the calendar does not have."""
    with pytest.raises(ValueError):  # noqa: PT011 - the sentence is the calendar's own
        read_day(text, Order.DMY)


@pytest.mark.parametrize(
    ("texts", "order", "shown", "example"),
    [
        (["2025-03-04"], Order.YMD, Shown.YEAR_FIRST, "2025-03-04"),
        (["01/02/2025", "13/02/2025"], Order.DMY, Shown.ONLY_SO, "13/02/2025"),
        (["01/02/2025", "01/13/2025"], Order.MDY, Shown.ONLY_SO, "01/13/2025"),
        (["25-03-14", "25-03-15"], Order.YMD, Shown.IN_A_ROW, "25-03-14"),
        (["03/04/2025", "04/04/2025"], Order.DMY, Shown.IN_A_ROW, "03/04/2025"),
        (["03/04/2025", "03/05/2025"], Order.MDY, Shown.IN_A_ROW, "03/04/2025"),
        (["31/12/2024", "45/45/2024"], Order.DMY, Shown.ONLY_SO, "31/12/2024"),
        (["10/12/2026"], Order.MDY, Shown.ONLY_SO, "10/12/2026"),
        (["05/05/2025"], Order.DMY, Shown.ONLY_SO, "05/05/2025"),
        (["03/04/2025"], Order.DMY, Shown.ASSUMED, "03/04/2025"),
        (["03/04/2025", "10/04/2025"], Order.DMY, Shown.ASSUMED, "03/04/2025"),
    ],
)
def test_the_order_is_decided_from_the_days(
    texts: list[str], order: Order, shown: Shown, example: str
) -> None:
    """By days that exist in one order only, lie in the past, or follow one another."""
    decided = order_of(texts, LATEST, told=None, usual=Order.DMY)

    assert (decided.order, decided.shown, decided.example) == (order, shown, example)


def test_what_is_usual_is_assumed_where_nothing_shows_the_order() -> None:
    """Beside halves of a day, the month comes first."""
    decided = order_of(["03/04/2025"], LATEST, told=None, usual=Order.MDY)

    assert (decided.order, decided.shown) == (Order.MDY, Shown.ASSUMED)


def test_an_order_that_was_told_goes_over_what_the_days_show() -> None:
    """The person has seen the logger."""
    decided = order_of(["13/02/2025"], LATEST, told=Order.MDY, usual=Order.DMY)

    assert (decided.order, decided.shown) == (Order.MDY, Shown.TOLD)
