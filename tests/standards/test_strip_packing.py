"""Layouts against public strip-packing instances with known optima; the papers stand in each row.

The names of the papers are from memory; the numbers are those of the packingsolver data (MIT).
"""

import csv
from pathlib import Path
from random import Random  # noqa: TID251 - seeded

import pytest

from stockroom.plan.layout import Knife, lay_out
from stockroom.plan.panels import Panel
from tests.plan.checking import comes_apart, overlaps

TEXT = Path(__file__).with_name("strip_packing.csv").read_text(encoding="utf-8")
ROWS = list(csv.DictReader(TEXT.splitlines()))
EFFORT = 3_000


def _panels(items: str) -> list[Panel]:
    """`7x12*2`: two of 7 across and 12 along."""
    found: list[Panel] = []
    for number, item in enumerate(items.split()):
        size, _, many = item.partition("*")
        across, along = size.split("x")
        found.append(
            Panel(name=f"p{number}", across=int(across), along=int(along), number=int(many or 1))
        )
    return found


@pytest.mark.parametrize("row", ROWS, ids=[row["name"] for row in ROWS])
@pytest.mark.parametrize("knife", Knife)
def test_a_layout_is_near_the_known_optimum(row: dict[str, str], knife: Knife) -> None:
    """Never below it, which would be a mistake, and no further above than the row allows."""
    width, optimum = int(row["width"]), int(row["optimum"])
    chance = Random(1)  # noqa: S311
    found = lay_out(_panels(row["items"]), width, chance=chance, knife=knife, effort=EFFORT)
    most = int(row["most_knife" if knife is Knife.STRAIGHT else "most_free"])
    laid = [(one.name, one.x, one.y, one.across, one.along) for one in found.placements]

    assert optimum <= found.length <= most
    assert found.bound <= optimum
    assert overlaps(laid) == []
    assert comes_apart(laid) or knife is Knife.FREE
