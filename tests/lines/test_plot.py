"""A plot in characters."""

from stockroom.lines.plot import LABEL, Limit, Panel, Part, drawn, steps
from stockroom.work.zone_plot import Level, Levels

COLD = Limit(at=10, label="cold 10 °C", upwards=False)
HOT = Limit(at=30, label="hot 30 °C", upwards=True)
TOO_HOT = Limit(at=40, label="40 °C", upwards=True, beyond=Part.FAR, is_shown=False)
LIMITS = (COLD, HOT, TOO_HOT)
WIDTH = LABEL + 20


def levels(*celsius: float | None) -> Levels:
    return tuple(None if one is None else Level(one, one, one) for one in celsius)


def rows_of(known: Levels, height: int = 6) -> list[str]:
    panel = Panel(known, LIMITS, ("", ""))
    return ["".join(run.text for run in row) for row in drawn(panel, WIDTH, height)]


def curve_of(known: Levels) -> list[str]:
    """The rows without their labels."""
    return [row[LABEL:] for row in rows_of(known)]


def test_a_plot_is_as_wide_and_as_high_as_it_was_asked_for() -> None:
    """Two levels a cell, beside the names of its limits."""
    assert steps(WIDTH) == 40

    rows = rows_of(levels(*[20.0] * 40), height=7)
    assert [len(row) for row in rows] == [WIDTH] * 7


def test_limits_have_their_names_and_their_lines_though_the_curve_is_far_from_them() -> None:
    """But what is only too hot is left out until it is near."""
    rows = rows_of(levels(*[20.0] * 40))

    assert rows[0] == " hot 30 °C " + "┄" * 20
    assert rows[-1] == "cold 10 °C " + "┄" * 20
    assert not any("40 °C" in row for row in rows)
    assert any(row.startswith("     40 °C ") for row in rows_of(levels(*[41.0] * 40)))


def test_a_curve_has_no_hole_between_two_levels() -> None:
    """However far one is from the next."""
    rows = curve_of(levels(*[11.0] * 20, *[29.0] * 20))

    columns = ["".join(row[cell] for row in rows) for cell in (9, 10)]
    assert all(any(column[row] not in " ┄" for column in columns) for row in range(6))


def test_what_nobody_measured_is_said_and_never_drawn() -> None:
    """In words where there is room for them."""
    short = curve_of(levels(*[20.0] * 16, *[None] * 8, *[20.0] * 16))
    wide = curve_of(levels(*[20.0] * 4, *[None] * 36))

    assert short[3][8:12].strip() == "?"
    assert "? not measured" in wide[3]
    assert all(row[8:12].strip(" ┄?") == "" for row in short)


def test_what_is_beyond_a_limit_is_a_part_of_its_own() -> None:
    """Only as far as it is beyond, and past the next limit another one."""
    known = (*levels(*[20.0] * 20), *(Level(20.0, 30.0, 45.0),) * 20)
    found = drawn(Panel(known, LIMITS, ("20 °C", "45 °C")), WIDTH, 8)
    parts = [{run.part for run in row if run.text.strip()} for row in found]

    assert Part.FAR in parts[0]
    assert Part.BEYOND in parts[3]
    assert Part.FAR not in parts[3]
    assert parts[-2] <= {Part.CURVE, Part.LIMIT, Part.PLAIN}
    assert "".join(run.text for run in found[0]).startswith("     45 °C ")


def test_nothing_at_all_is_a_plot_of_the_limits() -> None:
    """A zone nobody measures."""
    rows = rows_of(levels(*[None] * 40))

    assert "? not measured" in "".join(rows)
    assert rows[0].startswith(" hot 30 °C ")
