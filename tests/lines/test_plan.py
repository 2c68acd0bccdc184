"""The words of a plan."""

from stockroom.lines.plan import cheapest
from stockroom.units import MM, System
from stockroom.work.look import material
from stockroom.work.widths import Width
from tests.builders import Station


def test_the_cheaper_of_two_widths_is_said_beside_the_dearer_one(station: Station) -> None:
    """One width alone, or two at one price, leave no choice."""
    known = [
        material(station.book, station.material(name), now=station.now)
        for name in ("grey 1524", "grey 1220")
    ]
    wide, narrow = Width(known[0], 2_040 * MM, 2_448), Width(known[1], 4_080 * MM, 4_080)

    assert cheapest([wide, narrow], System.METRIC) == (
        "new film: 2.04 m of grey 1524 costs 40 % less than 4.08 m of grey 1220"
    )
    assert cheapest([wide], System.METRIC) is None
    assert cheapest([wide, wide], System.METRIC) is None
